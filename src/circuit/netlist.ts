/**
 * The charging circuit written out as a SPICE netlist, so that anybody can run the same circuit in a simulator
 * they trust. It is complete in itself: no include files, no models from elsewhere.
 *
 * Modelling, and why:
 * - A diode is a source of `diodeVolts` in series with a near-ideal junction (emission coefficient 0.04, so its own
 *   knee is some 20 mV, taken off the source) and `diodeOhm`: a straight line with a knee soft enough for Newton.
 *   A silicon junction with fitted slope was rejected: it moves the current near the threshold speed by 15 %.
 * - 5 kΩ over every device and 2 nF in every junction: inductors need somewhere to go when a device opens,
 *   otherwise the simulator stops with "timestep too small".
 * - An SCR is that diode behind a switch held closed by its gate or by more than 5 mA of its own current.
 *   The sensed volts pass the regulator's own filter and hysteresis; the gates pass a further 1 µs, so that every phase that carries current when the sensed volts pass the set
 *   point is latched, although the first to fire already pulls those volts down.
 * - The slow part of the battery is its resistance with `slowFarad` over it where that is given. Where it is not, no ripple
 *   falls on it: a source of I̅·R, where I̅ is the battery current through two averaging stages of
 *   four electrical periods each, and R is `chargeOhm` or `dischargeOhm` by the sign of I̅. One capacitor over the
 *   slow resistance, large enough to pass no ripple, would need a hundred times as long to settle.
 */
import type { Bike, Device, RunState } from './bike.ts';
import { loadSiemens } from './bike.ts';

export interface NetlistOptions {
  /** Electrical periods that are measured. Default 36: a whole number of the regulator's usual limit cycles. */
  readonly cycles?: number;
  /** Electrical periods left to settle first. Default 44, more where the battery's slow part needs it. */
  readonly settle?: number;
  /**
   * Filtered sensed volts at the start, V. Default: the battery's rest volts. A shunt regulator can settle into
   * more than one limit cycle; another start may lead to another.
   */
  readonly senseStart?: number;
  readonly title?: string;
}

/** Stands for a joint of no resistance: SPICE replaces 0 Ω by 1 mΩ. Ω. */
const NO_OHM = 1e-6;
/** Volts the near-ideal junction itself takes at 5 A, V: 0.04 · kT/q · ln(5 A / 1 nA). */
const KNEE_VOLTS = 0.04 * 0.025865 * Math.log(5 / 1e-9);
/** Time steps per electrical period at least. */
const STEPS = 180;

/** Electrical frequency, Hz. */
export function electricalHertz(bike: Bike, state: RunState): number {
  return (bike.polePairs * state.rpm) / 60;
}

/** Differences of two nodes that make up an operating point: vector `v(<name>)`, plus node, minus node. Volts. */
const DIFFERENCES = [
  ['battery_volts', 'bp', 'bn'],
  ['regulator_volts', 'p', 'n'],
  ['drop_positive', 'p', 'bp'],
  ['drop_negative', 'bn', 'n'],
  ['drop_breaker', 'f', 'c'],
  ['drop_output_joint', 'p', 'j'],
] as const;

/**
 * Writes the circuit of this bike, in this state, as a SPICE netlist. Throws RangeError when `rpm` is not above 0:
 * a standing engine has no electrical period.
 */
export function writeNetlist(bike: Bike, state: RunState, options: NetlistOptions = {}): string {
  if (!(state.rpm > 0)) throw new RangeError(`rpm must be above 0, got ${state.rpm}`);
  const period = 1 / electricalHertz(bike, state);
  const { cycles = 36, title = 'Charging circuit' } = options;
  const slowCycles = bike.slowFarad === undefined ? 0 : (4 * bike.chargeOhm * bike.slowFarad) / period;
  const settle = options.settle ?? Math.min(150, Math.max(44, Math.ceil(slowCycles)));
  const senseStart = options.senseStart ?? Math.min(bike.restVolts, bike.setVolts);
  const pins = bike.phases === 3 ? 3 : 2;
  const lines = [
    `* ${title.replace(/[\r\n]+/g, ' ')}`,
    `* ${bike.phases === 3 ? 'three-phase star' : 'single-phase'}, ${state.rpm} rpm, lights ${state.lights}`,
    ...windings(bike, state),
    ...rectifier(bike, pins),
    ...regulator(bike, senseStart),
    ...supply(bike, state, 4 * period),
    ...measures(pins, settle * period, (settle + cycles) * period),
    `.save ${savedVectors(pins).join(' ')}`,
    '.options reltol=1e-3 abstol=1e-6 vntol=1e-4 gmin=1e-10 method=gear itl4=60',
    `.tran ${n(period / STEPS)} ${n((settle + cycles) * period)} ${n(Math.max(0, settle - 1) * period)} ${n(period / STEPS)} uic`,
    '.end',
  ];
  return `${lines.join('\n')}\n`;
}

/**
 * Vectors the netlist saves, in SPICE's writing: `v(battery_volts)` and the other differences, `i(vout)` and `i(vbat)` (A from
 * the regulator and into the battery), and of every pin `i(vm0)` (A) and `v(pin_0)` (V over the pin).
 */
function savedVectors(pins: number): string[] {
  const phases = Array.from({ length: pins }, (_, k) => [`i(vm${k})`, `v(pin_${k})`]).flat();
  return [...DIFFERENCES.map(([name]) => `v(${name})`), 'i(vout)', 'i(vbat)', ...phases];
}

/** A figure SPICE reads back exactly enough. */
function n(value: number): string {
  return Number(value.toPrecision(9)).toExponential();
}

function resistor(name: string, from: string, to: string, ohm: number): string {
  return `R${name} ${from} ${to} ${n(Math.max(ohm, NO_OHM))}`;
}

/** EMF, inductance and resistance of every winding, the core short, the pins of the plug. */
function windings(bike: Bike, state: RunState): string[] {
  const hertz = electricalHertz(bike, state);
  const warm = (234.5 + state.windingCelsius) / (234.5 + 25);
  const lines: string[] = [];
  const count = bike.phases === 3 ? 3 : 1;
  for (let k = 0; k < count; k++) {
    const from = bike.phases === 3 ? 'star' : 't1';
    const short = bike.coreShort?.phase === k ? bike.coreShort : null;
    const parts = short ? [short.fraction, 1 - short.fraction] : [1];
    let at = from;
    parts.forEach((part, i) => {
      const end = i === parts.length - 1 ? `t${k}` : `tap${k}`;
      // A part with hardly any turns is left out: its inductance would only cost time steps.
      if (part > 1e-6) {
        const emf = part * bike.emfPerRpm[k]! * state.rpm * state.magnet;
        lines.push(
          `VE${k}${i} e${k}${i} ${at} SIN(0 ${n(emf)} ${n(hertz)} 0 0 ${n(-120 * k)})`,
          `L${k}${i} e${k}${i} l${k}${i} ${n(part * bike.henry[k]!)} IC=0`,
          resistor(`w${k}${i}`, `l${k}${i}`, end, part * bike.ohm[k]! * warm),
        );
      } else lines.push(resistor(`w${k}${i}`, at, end, 0));
      at = end;
    });
    if (short) lines.push(resistor(`core${k}`, `tap${k}`, '0', short.ohm));
  }
  const pins = bike.phases === 3 ? 3 : 2;
  for (let k = 0; k < pins; k++) {
    lines.push(`VM${k} t${k} m${k} 0`, resistor(`pin${k}`, `m${k}`, `ac${k}`, bike.pinOhm[k]!));
  }
  // Keeps a floating winding at a definite potential.
  lines.push(resistor('float', bike.phases === 3 ? 'star' : 't1', '0', 1e6));
  return lines;
}

/** One device. A shorted one keeps its slope as resistance, as in the project's own solver. */
function device(
  bike: Bike,
  name: string,
  from: string,
  to: string,
  condition: Device,
  gate: string | null,
): string[] {
  if (condition === 'open') return [resistor(`sn${name}`, from, to, 5e3)];
  if (condition === 'shorted') return [resistor(name, from, to, bike.diodeOhm)];
  return gate ? [`X${name} ${from} ${to} ${gate} scr`] : [`X${name} ${from} ${to} rect`];
}

/** The bridge, with SCRs above in a series regulator and SCRs to negative in a shunt regulator. */
function rectifier(bike: Bike, pins: number): string[] {
  const lines: string[] = [];
  const threshold = n(bike.diodeVolts - KNEE_VOLTS);
  for (let k = 0; k < pins; k++) {
    lines.push(
      ...device(bike, `u${k}`, `ac${k}`, 'p', bike.upper[k]!, bike.regulator === 'series' ? 'gate' : null),
    );
    lines.push(...device(bike, `d${k}`, 'n', `ac${k}`, bike.lower[k]!, null));
    if (bike.regulator === 'shunt') lines.push(`Xs${k} ac${k} n gate scr`);
  }
  lines.push(
    `.model junction D(IS=1e-9 N=0.04 RS=${n(bike.diodeOhm)} CJO=2n)`,
    '.subckt rect a k',
    `Vt a x ${threshold}`,
    'D1 x k junction',
    'Rsn a k 5e3',
    '.ends',
    '.subckt scr a k g',
    `Vt a x ${threshold}`,
    'D1 x y junction',
    // Closed above 0.8, open under 0.2: by the gate (0 to 1) or by 5 mA of its own current.
    'Bh hr 0 V=v(g)+min(1,max(0,i(Vt)*160))',
    'Rh hr h 100',
    'Ch h 0 1n IC=0',
    'S1 y k h 0 latch',
    'Rsn a k 5e3',
    '.ends',
    '.model latch SW(VT=0.5 VH=0.3 RON=1e-4 ROFF=1e6)',
  );
  return lines;
}

/** The gate: 1 while SCRs may fire. */
function regulator(bike: Bike, senseStart: number): string[] {
  const stuck = bike.regulator === 'shunt' ? 1 : 0;
  if (bike.gate === 'dead') return [`Vgate gate 0 ${stuck}`];
  if (!Number.isFinite(bike.setVolts)) return [`Vgate gate 0 ${1 - stuck}`];
  const sensed = bike.senses === 'wire' ? `v(c)-v(n)-${n(bike.senseLossVolts)}` : 'v(p)-v(n)';
  return [
    `Bsense sraw 0 V=${sensed}`,
    'Rsense sraw sense 1e3',
    `Csense sense 0 ${n(Math.max(bike.senseSeconds, 1e-6) / 1e3)} IC=${n(senseStart)}`,
    `Bover oraw 0 V=0.5+0.5*tanh((v(sense)-${n(bike.setVolts)}+${n(bike.senseHysteresis)}*v(over))/0.001)`,
    'Rover oraw over 1e3',
    'Cover over 0 1n IC=0',
    `Bgate gate 0 V=${bike.regulator === 'shunt' ? 'v(over)' : '1-v(over)'}`,
  ];
}

/** DC side: wires and joints, loads, battery. The frame and the engine's core are node 0. */
function supply(bike: Bike, state: RunState, average: number): string[] {
  const loads = loadSiemens(bike, state);
  const feed = bike.loadsFedFrom === 'battery' ? 'c' : 'f';
  return [
    'Vout p o 0',
    resistor('joint', 'o', 'j', bike.outputJointOhm),
    resistor('wire', 'j', 'f', bike.outputWireOhm),
    resistor('breaker', 'f', 'c', bike.breakerOhm),
    resistor('ground', 'n', '0', bike.groundOhm),
    ...(loads > 0 ? [resistor('load', feed, '0', 1 / loads)] : []),
    resistor('pospost', 'c', 'bp', bike.positivePostOhm),
    resistor('negpost', 'bn', '0', bike.negativePostOhm),
    'Vbat bp b1 0',
    resistor('bat', 'b1', 'b2', bike.batteryOhm),
    ...slowPart(bike, average),
  ];
}

/** Rest volts and slow part of the battery, between nodes b2 and bn. */
function slowPart(bike: Bike, average: number): string[] {
  const span = Math.max(0, bike.gasVolts - bike.restVolts);
  if (bike.slowFarad !== undefined) {
    // Amps by the volts over the slow part: discharging, charging, gassing.
    const up = Number.isFinite(span)
      ? `min(max(v(b2,b3),0),${n(span)})/${n(bike.chargeOhm)}+max(v(b2,b3)-${n(span)},0)/${n(bike.gasOhm)}`
      : `max(v(b2,b3),0)/${n(bike.chargeOhm)}`;
    return [
      `Vrest b3 bn ${n(bike.restVolts)}`,
      `Bslow b2 b3 I=min(v(b2,b3),0)/${n(bike.dischargeOhm)}+${up}`,
      `Cslow b2 b3 ${n(bike.slowFarad)} IC=0`,
    ];
  }
  const gasAmps = span / bike.chargeOhm;
  const up = Number.isFinite(gasAmps)
    ? `min(max(v(avg),0),${n(gasAmps)})*${n(bike.chargeOhm)}+max(v(avg)-${n(gasAmps)},0)*${n(bike.gasOhm)}`
    : `max(v(avg),0)*${n(bike.chargeOhm)}`;
  return [
    `Brest b2 bn V=${n(bike.restVolts)}+min(v(avg),0)*${n(bike.dischargeOhm)}+${up}`,
    'Bavg q1 0 V=i(Vbat)',
    'Ravg1 q1 q2 1',
    `Cavg1 q2 0 ${n(average)} IC=0`,
    'Eavg q3 0 q2 0 1',
    'Ravg2 q3 avg 1',
    `Cavg2 avg 0 ${n(average)} IC=0`,
  ];
}

/** Differences as nodes of their own, and the figures of an operating point as `.meas` lines over the last cycles. */
function measures(pins: number, from: number, to: number): string[] {
  const span = `from=${n(from)} to=${n(to)}`;
  const lines: string[] = [];
  for (const [name, plus, minus] of DIFFERENCES) {
    lines.push(`E${name} ${name} 0 ${plus} ${minus} 1`, `.meas tran mean_${name} AVG v(${name}) ${span}`);
  }
  lines.push(
    `.meas tran mean_alternator_amps AVG i(vout) ${span}`,
    `.meas tran mean_battery_amps AVG i(vbat) ${span}`,
  );
  for (let k = 0; k < pins; k++) {
    lines.push(
      `Epin_${k} pin_${k} 0 t${k} ac${k} 1`,
      `.meas tran rms_phase_${'abc'[k]} RMS i(vm${k}) ${span}`,
      `.meas tran rms_pin_${'abc'[k]} RMS v(pin_${k}) ${span}`,
    );
  }
  return lines;
}
