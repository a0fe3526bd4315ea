/** What must not matter to a verdict: order, history, names of the phases, a reading taken twice. */
import { describe, expect, it } from 'vitest';
import { type DrawnBike, drawBike } from '../../src/cases/drawn-bike.ts';
import type { Instance } from '../../src/fault/build.ts';
import { readKey, type Value, writeKey } from '../../src/reading/key.ts';
import type { Answer, Evidence } from '../../src/verdict/answer.ts';
import { openAssessor } from '../../src/verdict/assess.ts';
import { instance, REFERENCE } from '../fault/three-machines.ts';
import { evidenceOf } from './answer-checks.ts';

const assessor = openAssessor(REFERENCE);
const RUN = 'lights=low rpm=3000';
const bikeWith = (seed: number, ...faults: Instance[]): DrawnBike =>
  drawBike(seed, { spec: REFERENCE, faults, wider: 0.8 });

/** Readings without physics of the running engine, and two with. */
const STORIES: readonly (readonly [string, Evidence])[] = [
  [
    'burnt pin and worn battery',
    evidenceOf(bikeWith(11, instance('plug-pin', 0.7, 1), instance('battery-worn', 0.6)), [
      'rest_volts charged=True',
      'capacity_minutes',
      'keyoff_mA',
      'mv_pair pair=ab through_plug=True',
      'mv_pair pair=ca through_plug=True',
      'stator_ac pair=bc rpm=3000 temp=cold',
      `phase_amps lights=low pin=b rpm=3000`,
      'visual what=plug_burnt',
    ]),
  ],
  [
    'winding touching the core',
    evidenceOf(bikeWith(12, instance('stator-core-midway', 0.6, 0, 0, 0.3)), [
      'crank_volts probe=clamp',
      'ohms_case pin=a temp=cold',
      'ohms_case pin=b temp=cold',
      'pin_case_ac loaded=True pin=c rpm=3000 temp=cold',
      'stator_ac pair=ab rpm=3000 temp=cold',
      `batt_volts ${RUN}`,
      'diode black=pos red=a',
    ]),
  ],
  [
    'open device',
    evidenceOf(bikeWith(13, instance('diode-open', 0.5, 2, 0)), [
      'rest_volts',
      'load_test_volts',
      'diode black=a red=neg',
      'diode black=c red=neg',
      `batt_volts ${RUN}`,
      `phase_amps lights=low pin=c rpm=3000`,
    ]),
  ],
];

/** Everything of an answer but the words that name a reading or a phase. */
const figures = (answer: Answer) => ({
  sets: answer.sets,
  repairs: answer.repairs,
  suspicion: answer.suspicion,
  none: answer.noneOfThese,
});

/** The greatest difference between two answers' probabilities, set by set and repair by repair. */
function apart(a: Answer, b: Answer): number {
  const of = (answer: Answer) =>
    new Map<string, number>([
      ...answer.sets.map((set): [string, number] => [
        `set ${set.faults.toSorted().join('+')}`,
        set.probability,
      ]),
      ...answer.repairs.map((line): [string, number] => [`repair ${line.repair}`, line.probability]),
      ['none', answer.noneOfThese],
    ]);
  const [one, two] = [of(a), of(b)];
  return Math.max(
    ...[...new Set([...one.keys(), ...two.keys()])].map((name) =>
      Math.abs((one.get(name) ?? 0) - (two.get(name) ?? 0)),
    ),
  );
}

const reordered = (evidence: Evidence, turn: number): Evidence => {
  const entries = Object.entries(evidence.readings);
  return {
    ...evidence,
    readings: Object.fromEntries([...entries.slice(turn), ...entries.slice(0, turn)].toReversed()),
  };
};

describe('the same evidence', () => {
  it('gives the same answer from a fresh assessor', () => {
    const evidence = STORIES[1]![1];
    const fresh = openAssessor(REFERENCE).assess(evidence);
    expect(fresh).toEqual(assessor.assess(evidence));
    expect(assessor.assess(evidence)).toEqual(fresh);
  });

  for (const [name, evidence] of STORIES) {
    it(`in another order gives exactly the same answer: ${name}`, () => {
      const plain = assessor.assess(evidence);
      for (const turn of [1, 3, 5]) expect(assessor.assess(reordered(evidence, turn))).toEqual(plain);
      expect(assessor.assess({ ...evidence, symptoms: evidence.symptoms.toReversed() })).toEqual(plain);
    });

    it(`gives the same answer whatever was asked before: ${name}`, () => {
      const plain = assessor.assess(evidence);
      const keys = Object.keys(evidence.readings);
      const growing: Record<string, Value> = {};
      for (const key of keys) {
        growing[key] = evidence.readings[key]!;
        assessor.assess({ ...evidence, readings: { ...growing } });
      }
      // Equal hypotheses may be added up in another order: the last digits are free.
      expect(apart(assessor.assess(evidence), plain)).toBeLessThan(1e-9);
      assessor.assess({ ...evidence, readings: {} });
      expect(apart(assessor.assess(evidence), plain)).toBeLessThan(1e-9);
      expect(assessor.assess(evidence).next?.key).toBe(plain.next?.key);
    });
  }
});

describe('the names of the phases', () => {
  const NEXT: Readonly<Record<string, string>> = { a: 'b', b: 'c', c: 'a' };
  const turned = (text: string): string => {
    const key = readKey(text)!;
    const state: Record<string, string> = { ...key.state };
    for (const name of ['pin', 'red', 'black'])
      if (state[name]) state[name] = NEXT[state[name]] ?? state[name];
    if (state.pair) state.pair = NEXT[state.pair[0]!]! + NEXT[state.pair[1]!]!;
    return writeKey({ kind: key.kind, state });
  };
  /** The greatest change when a, b, c are called b, c, a, and c, a, b. */
  const change = (evidence: Evidence): number => {
    const plain = assessor.assess(evidence);
    let now = evidence;
    let most = 0;
    for (let turn = 0; turn < 2; turn++) {
      now = {
        ...now,
        readings: Object.fromEntries(
          Object.entries(now.readings).map(([key, value]) => [turned(key), value]),
        ),
      };
      most = Math.max(most, apart(assessor.assess(now), plain));
    }
    return most;
  };

  // What is left is at the edge of which sets are computed and weighed jointly, where equals are cut by their order.
  it('do not matter: a → b → c → a', () => {
    for (const [, evidence] of STORIES) expect(change(evidence)).toBeLessThan(1e-3);
  });
});

describe('a reading that fits, taken again and the same', () => {
  for (const [name, evidence] of STORIES) {
    it(`does not lower the probability of the likeliest set: ${name}`, () => {
      const plain = assessor.assess(evidence);
      const top = plain.sets[0]!;
      const seen: number[] = [];
      for (const key of Object.keys(evidence.readings)) {
        const again = assessor.assess({ ...evidence, again: [key] });
        const same = again.sets.find((set) => set.faults.join('+') === top.faults.join('+'))!;
        seen.push(same.probability - top.probability);
      }
      expect(Math.min(...seen)).toBeGreaterThan(-0.01);
      // It counts: a reading that cannot be a slip any more is not quite the same evidence.
      expect(Math.max(...seen.map(Math.abs))).toBeGreaterThan(0);
    });
  }
});

describe('a reading that everything expects', () => {
  it('hardly moves the verdict', () => {
    const bike = bikeWith(14, instance('drain', 0.8));
    const keys = [
      'rest_volts charged=True',
      'load_test_volts charged=True',
      'keyoff_mA',
      `batt_volts ${RUN}`,
    ];
    const before = assessor.assess(evidenceOf(bike, keys));
    const after = assessor.assess(
      evidenceOf(bike, [...keys, 'diode black=a red=pos', 'diode black=neg red=b']),
    );
    expect(before.sets[0]!.faults).toEqual(['drain']);
    expect(after.sets[0]!.faults).toEqual(['drain']);
    expect(Math.abs(after.sets[0]!.probability - before.sets[0]!.probability)).toBeLessThan(0.15);
    expect(figures(after).none).toBeLessThan(0.05);
  });
});
