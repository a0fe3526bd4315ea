import type { Member } from '../fault/catalogue.ts';

export type Tool = 'multimeter' | 'clamp-meter' | 'load-tester' | 'hydrometer' | 'eyes' | 'supply';
/** Set-up paid once for all readings that need it. */
export type SetUp = 'unplug-stator' | 'engine-hot' | 'battery-charged';
/** Where a probe tip goes on the loop drawing. */
export type ProbePoint =
  | 'pin-a'
  | 'pin-b'
  | 'pin-c'
  | 'regulator-positive'
  | 'regulator-negative'
  | 'output-joint-in'
  | 'output-joint-out'
  | 'breaker-in'
  | 'breaker-out'
  | 'clamp-positive'
  | 'post-positive'
  | 'post-negative'
  | 'clamp-negative'
  | 'frame'
  | 'sense-end'
  | 'around-output-wire'
  | 'around-battery-cable'
  | 'around-phase-a'
  | 'around-phase-b'
  | 'around-phase-c';

/** One kind of reading in the catalogue. */
export interface Kind {
  readonly id: string;
  /** What it is, in the mechanic's words. */
  readonly title: string;
  readonly unit: 'V' | 'A' | 'mA' | 'Ω' | 'mV' | 'min' | 'SG' | 'seen';
  readonly minutes: number;
  readonly tool: Tool;
  readonly engine: 'off' | 'running' | 'cranking';
  /** Members whose health it speaks of most directly. */
  readonly about: readonly Member[];
  /** State words it takes, with the values each may have; the first is the default. */
  readonly states: Readonly<Record<string, readonly string[]>>;
}
