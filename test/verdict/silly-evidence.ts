/** Bikes at the edge of what a book may say, and evidence at the edge of what a person may type. */
import { openNamed } from '../../src/cases/draw-stream.ts';
import { type DrawnBike, drawBike } from '../../src/cases/drawn-bike.ts';
import type { ChargingSpec } from '../../src/circuit/spec.ts';
import type { Value } from '../../src/reading/key.ts';
import type { Evidence } from '../../src/verdict/answer.ts';
import { type Assessor, openAssessor } from '../../src/verdict/assess.ts';
import { offered, stillKeys, wrongWith } from './answer-checks.ts';

const PLAIN: ChargingSpec = {
  name: 'Plain',
  alternator: {
    phases: 3,
    poles: 14,
    openVolts: { rpm: 1000, volts: 17.0, tolerance: 0.1 },
    ratedAmps: { rpm: 5000, amps: 32, tolerance: 0.1 },
    pairOhms: [0.2, 0.4],
  },
  regulator: { kind: 'shunt', chargeVolts: [13.9, 14.8], senses: 'output' },
  battery: { chemistry: 'agm', ampHours: 19, crankAmps: 270 },
  loads: { ignition: 5, low: 4.6, high: 5, tail: 0.7, accessories: 0.5 },
  loadsFedFrom: 'battery',
  fuseAmps: 30,
  restDrainAmps: 0.003,
  tachometer: true,
};

/** Books that a machine file or a nameplate may hold, each at an edge. All invented. */
export const EDGES: readonly ChargingSpec[] = [
  PLAIN,
  {
    ...PLAIN,
    name: 'Moped: one winding, small everything',
    alternator: {
      phases: 1,
      poles: null,
      openVolts: { rpm: 3000, volts: 12, tolerance: 0.3 },
      ratedAmps: { rpm: 5000, amps: 2, tolerance: 0.3 },
      pairOhms: [0.6, 2.5],
    },
    battery: { chemistry: 'flooded', ampHours: 2.5, crankAmps: 25 },
    loads: { ignition: 0.5, low: 1, high: 1.2, tail: 0.2, accessories: 0 },
    regulator: { kind: 'series', chargeVolts: [13, 16], senses: 'output' },
    restDrainAmps: 0,
    tachometer: false,
    fuseAmps: 5,
  },
  {
    ...PLAIN,
    name: 'Tourer: heavy everything',
    alternator: {
      phases: 3,
      poles: 36,
      openVolts: { rpm: 5000, volts: 130, tolerance: 0.02 },
      ratedAmps: { rpm: 5000, amps: 65, tolerance: 0 },
      pairOhms: [0.05, 0.06],
    },
    battery: { chemistry: 'flooded', ampHours: 34, crankAmps: 600 },
    loads: { ignition: 8, low: 10, high: 10, tail: 2, accessories: 20 },
    regulator: { kind: 'shunt', chargeVolts: [14.2, 14.2], senses: 'wire' },
    loadsFedFrom: 'regulator',
    restDrainAmps: 0.04,
    fuseAmps: 80,
  },
  {
    ...PLAIN,
    name: 'Load above what it can make, no tolerance at all',
    alternator: {
      ...PLAIN.alternator,
      ratedAmps: { rpm: 5000, amps: 8, tolerance: 0 },
      pairOhms: [0.8, 0.8],
    },
    loads: { ignition: 6, low: 9, high: 12, tail: 1, accessories: 10 },
    regulator: { kind: 'series', chargeVolts: [13.5, 15.5], senses: 'wire' },
  },
];

/** What people type when they misread a question. */
export const SILLY: readonly Value[] = [1e9, -1e9, -5, 0, 1e-12, null, true, false, 12.6];

/** Keys at the edge: unknown kinds, odd states, not a key at all. */
const ODD_KEYS = ['batt_volts rpm=14999', 'no_such_reading', 'sg cell=9', '', 'diode red=a black=a'];

/** Evidence `n` of a bike: sizes from nothing to everything that needs no running engine, some of it silly. */
export function sillyEvidence(bike: DrawnBike, n: number, running: boolean): Evidence {
  const stream = openNamed(bike.seed, `silly ${n}`);
  const still = stillKeys(bike);
  const run = offered(bike).filter((key) => /^\S+ lights=low( pin=.)? rpm=3000$/.test(key));
  const size = [0, 1, 3, 8, 20, 60][n % 6]!;
  const share = [0, 0.1, 0.5, 1][Math.floor(4 * stream())]!;
  const readings: Record<string, Value> = {};
  for (let k = 0; k < size; k++) {
    const pool = running && stream() < 0.4 ? run : still;
    const key = pool[Math.floor(stream() * pool.length)]!;
    readings[key] = stream() < share ? SILLY[Math.floor(stream() * SILLY.length)]! : bike.read(key);
  }
  if (stream() < 0.2) readings[ODD_KEYS[Math.floor(stream() * ODD_KEYS.length)]!] = 3;
  return {
    symptoms: stream() < 0.3 ? ['no such symptom', ''] : bike.symptoms,
    readings,
    again: [
      ...Object.keys(readings).filter(() => stream() < 0.2),
      ...(stream() < 0.2 ? ['never taken'] : []),
    ],
    tools: {
      clamp: stream() < 0.5,
      loadTester: stream() < 0.5,
      hydrometer: stream() < 0.5,
      supply: stream() < 0.5,
    },
  };
}

/** What is wrong with the answers to `count` drawn bikes of one circuit, each with the evidence that shows it. */
export function trySpec(
  spec: ChargingSpec,
  count: number,
  first: number,
  running: boolean,
  assessor: Assessor = openAssessor(spec),
): string[] {
  const wrong: string[] = [];
  for (let seed = first; seed < first + count; seed++) {
    const evidence = sillyEvidence(drawBike(seed, { spec }), seed, running);
    let said: string[];
    try {
      const answer = assessor.assess(evidence);
      said = [...wrongWith(answer, evidence), ...notNumbers(answer)];
    } catch (error) {
      said = [`threw ${error instanceof Error ? `${error.message} ${error.stack}` : error}`];
    }
    if (said.length > 0)
      wrong.push(
        `${spec.name}, bike ${seed}: ${said.slice(0, 3).join('; ')}; evidence ${JSON.stringify(evidence)}`,
      );
  }
  return wrong;
}

/** Places in an answer that hold NaN or an infinite number. */
export function notNumbers(value: unknown, path = 'answer'): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} is ${value}`];
  if (typeof value === 'string')
    return /\bNaN\b|Infinity|undefined/.test(value) ? [`${path} says “${value}”`] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, inner]) => notNumbers(inner, `${path}.${name}`));
}
