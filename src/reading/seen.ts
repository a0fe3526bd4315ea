/** Things seen or smelt: how often each is noticed when a fault is there, and on a sound bike. */
import type { FaultId } from '../fault/catalogue.ts';

interface Sight {
  /** Chance on a bike without any of `with`. */
  readonly without: number;
  readonly with: Partial<Readonly<Record<FaultId, number>>>;
}

/** A scorched plug is seen nine times in ten, one sound plug in twenty looks scorched; the rest are guesses. */
const SIGHTS: Readonly<Record<string, Sight>> = {
  plug_burnt: { without: 0.06, with: { 'plug-pin': 0.88, 'plug-pins': 0.9 } },
  plug_oily: { without: 0.2, with: {} },
  insulation_dark: {
    without: 0.25,
    with: {
      'stator-core-terminal': 0.5,
      'stator-core-midway': 0.5,
      'stator-shorted-turns': 0.6,
      'stator-hot-short': 0.5,
      'stator-open': 0.4,
    },
  },
  magnets_cracked: { without: 0.06, with: { 'rotor-weak': 0.5 } },
  battery_swollen: {
    without: 0.04,
    with: {
      'battery-sulphated': 0.15,
      'battery-shorted-cell': 0.3,
      'regulator-runaway': 0.3,
      'sense-drop': 0.2,
    },
  },
  bulbs_blown: { without: 0.06, with: { 'regulator-runaway': 0.6, 'sense-drop': 0.5 } },
  terminal_corroded: { without: 0.22, with: { 'positive-post-joint': 0.75, 'negative-post-joint': 0.75 } },
  headlight_dims_idle: {
    without: 0.3,
    with: {
      'plug-pin': 0.6,
      'plug-pins': 0.7,
      'stator-shorted-turns': 0.5,
      'stator-core-midway': 0.7,
      'stator-core-terminal': 0.7,
      'stator-open': 0.7,
      'regulator-dead': 0.8,
      'diode-shorted': 0.8,
      'diode-open': 0.6,
      'output-joint': 0.6,
      'rotor-weak': 0.7,
      overload: 0.8,
    },
  },
  fuse_blown: { without: 0.02, with: {} },
  wire_thin: { without: 0.05, with: { 'thin-wire': 0.7 } },
  smell_burnt: {
    without: 0.06,
    with: {
      'plug-pin': 0.45,
      'plug-pins': 0.5,
      'stator-shorted-turns': 0.5,
      'stator-core-midway': 0.25,
      'stator-core-terminal': 0.3,
      'regulator-dead': 0.25,
    },
  },
  smell_sulphur: {
    without: 0.04,
    with: { 'regulator-runaway': 0.6, 'sense-drop': 0.5, 'battery-shorted-cell': 0.4 },
  },
  connector_warm: {
    without: 0.15,
    with: { 'output-joint': 0.65, 'plug-pin': 0.45, 'plug-pins': 0.55, 'breaker-joint': 0.3 },
  },
};

/** Chance that a thing is seen on a bike with these faults, 0–1. `fuseBlown` decides the fuse. */
export function chanceSeen(what: string, faults: readonly FaultId[], fuseBlown: boolean): number {
  const sight = SIGHTS[what];
  if (!sight) return 0.5;
  if (what === 'fuse_blown' && fuseBlown) return 0.95;
  let missed = 1 - sight.without;
  for (const fault of faults) missed *= 1 - (sight.with[fault] ?? 0);
  return 1 - missed;
}
