/**
 * What gives way first: the screw breaks, its own thread strips, or the tapped thread strips. Shear areas by
 * FED-STD-H28 (the same formulas as ASME B1.1, appendix B), partly from memory.
 */
import type { Strength } from './grade.ts';
import type { Material } from './material.ts';
import { type Interval, requirePositive, requirePositiveInterval } from './require.ts';
import { stressArea, type Thread } from './thread.ts';
import { threadLimits } from './thread-limits.ts';

/** The four limits of size that shear areas need, m. */
export interface ShearLimits {
  /** Dsmin: smallest major diameter of the external thread, m. */
  readonly majorMinExternal: number;
  /** Esmin: smallest pitch diameter of the external thread, m. */
  readonly pitchMinExternal: number;
  /** Knmax: largest minor diameter of the internal thread, m. */
  readonly minorMaxInternal: number;
  /** Enmax: largest pitch diameter of the internal thread, m. */
  readonly pitchMaxInternal: number;
}

/** tan 30°, the flank angle. */
const FLANK = 1 / Math.sqrt(3);

/**
 * Shear area of the external thread ASs, m²: π·(Le/P)·Knmax·[P/2 + 0.57735(Esmin − Knmax)]. Lengths in metres;
 * limits are those of the thread's usual fit unless given. Throws RangeError for an engagement not above 0.
 */
export function externalShearArea(
  thread: Thread,
  engaged: number,
  limits: ShearLimits = threadLimits(thread),
): number {
  requirePositive('engaged', engaged);
  const { pitchMinExternal: es, minorMaxInternal: kn } = limits;
  return ((Math.PI * engaged) / thread.pitch) * kn * (thread.pitch / 2 + FLANK * (es - kn));
}

/** Shear area of the internal thread ASn, m²: π·(Le/P)·Dsmin·[P/2 + 0.57735(Dsmin − Enmax)]. As above. */
export function internalShearArea(
  thread: Thread,
  engaged: number,
  limits: ShearLimits = threadLimits(thread),
): number {
  requirePositive('engaged', engaged);
  const { majorMinExternal: ds, pitchMaxInternal: en } = limits;
  return ((Math.PI * engaged) / thread.pitch) * ds * (thread.pitch / 2 + FLANK * (ds - en));
}

export type WeakSide = 'screw' | 'external' | 'internal';

export interface Failure {
  /** Load at which the screw breaks in tension, N. */
  readonly screw: number;
  /** Load at which the screw's own thread strips, N. */
  readonly external: number;
  /** Load at which the tapped thread strips, N: over the sources for the material's shear strength. */
  readonly internal: Interval;
  /** What gives way first at the usual shear strength. */
  readonly weaker: WeakSide;
  /** Load at which that is, N. */
  readonly load: Interval;
}

/** Loads at which a joint fails, pulled straight. Throws RangeError for an engagement not above 0. */
export function failure(
  thread: Thread,
  strength: Strength,
  material: Material,
  engaged: number,
  limits: ShearLimits = threadLimits(thread),
): Failure {
  const screw = stressArea(thread) * strength.tensile;
  const external = externalShearArea(thread, engaged, limits) * strength.shear;
  const area = internalShearArea(thread, engaged, limits);
  const internal = { low: area * material.shear.low, high: area * material.shear.high };
  const usual = area * material.shearUsual;
  const weaker: WeakSide =
    usual <= Math.min(screw, external) ? 'internal' : external < screw ? 'external' : 'screw';
  const load = {
    low: Math.min(screw, external, internal.low),
    high: Math.min(screw, external, internal.high),
  };
  return { screw, external, internal, weaker, load };
}

export interface FailureTorque {
  /** Torque at which the joint gives way, N·m: weakest material and least friction to strongest and most. */
  readonly torque: Interval;
  /** The same at one nut factor and the usual shear strength, N·m. */
  readonly usual: number;
  readonly weaker: WeakSide;
}

/**
 * Torque at which the joint gives way over a range of nut factors: T = K·d·F. While the wrench turns, twist breaks a
 * screw some 10–20 % earlier than tension alone; that is left out, as the figures of the sources leave it out.
 */
export function failureTorque(
  thread: Thread,
  strength: Strength,
  material: Material,
  engaged: number,
  k: Interval,
  usualK = 0.2,
): FailureTorque {
  requirePositiveInterval('k', k);
  requirePositive('usualK', usualK);
  const { load, weaker, screw, external } = failure(thread, strength, material, engaged);
  const tapped = internalShearArea(thread, engaged) * material.shearUsual;
  return {
    torque: { low: load.low * k.low * thread.diameter, high: load.high * k.high * thread.diameter },
    usual: Math.min(screw, external, tapped) * usualK * thread.diameter,
    weaker,
  };
}

/** J of FED-STD-H28, dimensionless: strength of the external over that of the internal thread; above 1 the tapped part is the weaker. */
export function strengthRatio(
  thread: Thread,
  externalTensile: number,
  internalTensile: number,
  limits: ShearLimits = threadLimits(thread),
): number {
  requirePositive('externalTensile', externalTensile);
  requirePositive('internalTensile', internalTensile);
  const external = externalShearArea(thread, thread.diameter, limits) * externalTensile;
  return external / (internalShearArea(thread, thread.diameter, limits) * internalTensile);
}

/**
 * Engagement at which screw and thread are equally strong, Le, m, by FED-STD-H28: 2·As/(π·Knmax·[½ + 0.57735(Esmin −
 * Knmax)/P]), times J where that is above 1. It takes shear as half of tensile strength on both sides, so it is
 * cautious. Tensile strengths in Pa.
 */
export function equalStrengthLength(
  thread: Thread,
  externalTensile: number,
  internalTensile: number,
  limits: ShearLimits = threadLimits(thread),
): number {
  const { pitchMinExternal: es, minorMaxInternal: kn } = limits;
  const matched = (2 * stressArea(thread)) / (Math.PI * kn * (0.5 + (FLANK * (es - kn)) / thread.pitch));
  return matched * Math.max(1, strengthRatio(thread, externalTensile, internalTensile, limits));
}

/**
 * Engagement from which the screw breaks before any thread strips, m: from the hopeful to the cautious shear strength
 * of the material.
 */
export function lengthToBreakScrew(thread: Thread, strength: Strength, material: Material): Interval {
  const load = stressArea(thread) * strength.tensile;
  const d = thread.diameter;
  const external = (load * d) / (externalShearArea(thread, d) * strength.shear);
  const tapped = (shear: number) => (load * d) / (internalShearArea(thread, d) * shear);
  return {
    low: Math.max(external, tapped(material.shear.high)),
    high: Math.max(external, tapped(material.shear.low)),
  };
}
