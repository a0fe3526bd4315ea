/** What must not matter to a verdict: order, history, names of the phases, a reading taken twice. */
import { describe, expect, it, vi } from 'vitest';
import { type DrawnBike, drawBike } from '../../src/cases/drawn-bike.ts';
import type { Instance } from '../../src/fault/build.ts';
import { FAULTS } from '../../src/fault/faults.ts';
import { KINDS } from '../../src/reading/catalogue.ts';
import { readKey, type Value, writeKey } from '../../src/reading/key.ts';
import type { Answer, Evidence } from '../../src/verdict/answer.ts';
import { openAssessor } from '../../src/verdict/assess.ts';
import { instance, REFERENCE } from '../fault/three-machines.ts';
import { evidenceOf } from './answer-checks.ts';

// The first answers of two assessors make every table: seconds of work, minutes on a machine that does much else.
vi.setConfig({ testTimeout: 300_000 });

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
        // One that is doubted does not fit: taken again it may well turn the verdict.
        if (plain.doubtful.some((doubt) => doubt.key === key)) continue;
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

describe('a reading taken again, with the same value', () => {
  // Believed the more: what it spoke for it speaks for no less. Equal up to sets at the edge of what is weighed.
  for (const [name, evidence] of STORIES) {
    it(`lowers no set that it speaks for: ${name}`, () => {
      const plain = assessor.assess(evidence);
      const shareIn = (answer: Answer, faults: readonly string[]) =>
        answer.sets.find((set) => set.faults.join('+') === faults.join('+'))?.probability ?? 0;
      let judged = 0;
      for (const key of Object.keys(evidence.readings)) {
        const { [key]: _left, ...others } = evidence.readings;
        const without = assessor.assess({ ...evidence, readings: others });
        const again = assessor.assess({ ...evidence, again: [key] });
        for (const { faults, probability } of plain.sets.slice(0, 12)) {
          // Only where the reading itself moved the set up by more than a few in a hundred.
          if (probability < shareIn(without, faults) + 0.03) continue;
          judged++;
          expect(shareIn(again, faults), `${faults.join('+')} by ${key}`).toBeGreaterThan(probability - 0.01);
        }
      }
      expect(judged).toBeGreaterThan(2);
    });
  }
});

describe('how a reading is written', () => {
  it('does not matter: left-out words are the usual ones, their order is free', () => {
    const bike = bikeWith(15, instance('output-joint', 0.8));
    const keys = [
      'batt_volts lights=low rpm=3000',
      'drop_pos lights=low rpm=3000',
      'stator_ac pair=ab rpm=3000 temp=cold',
    ];
    const plain = evidenceOf(bike, keys);
    const other: Evidence = {
      ...plain,
      readings: {
        'drop_pos rpm=3000 wiggle=False acc=True temp=cold charged=False lights=low':
          plain.readings[keys[1]!]!,
        'stator_ac temp=cold pair=ab': plain.readings[keys[2]!]!,
        batt_volts: plain.readings[keys[0]!]!,
      },
    };
    expect(apart(assessor.assess(other), assessor.assess(plain))).toBeLessThan(1e-9);
  });
});

describe('a symptom nobody knows', () => {
  it('changes nothing', () => {
    const [, evidence] = STORIES[2]!;
    const plain = assessor.assess(evidence);
    expect(
      apart(assessor.assess({ ...evidence, symptoms: [...evidence.symptoms, 'sings'] }), plain),
    ).toBeLessThan(1e-9);
  });
});

describe('a fault that is held to be likelier', () => {
  it('is never less probable for it', () => {
    const [, evidence] = STORIES[1]!;
    const suspicionOf = (answer: Answer, fault: string) =>
      answer.sets.reduce(
        (sum, set) => sum + (set.faults.some((id) => id === fault) ? set.probability : 0),
        0,
      );
    const plain = assessor.assess(evidence);
    for (const fault of ['stator-core-midway', 'stator-core-terminal', 'regulator-dead'] as const) {
      const before = suspicionOf(plain, fault);
      const after = suspicionOf(
        openAssessor(REFERENCE, { weights: { [fault]: 3 * FAULTS[fault].prior } }).assess(evidence),
        fault,
      );
      expect(after, fault).toBeGreaterThan(before - 1e-3);
    }
  });
});

describe('a tool that is not owned', () => {
  const needs = (key: string) => KINDS[readKey(key)!.kind]!.tool;
  const OWNED = ['clamp', 'loadTester', 'hydrometer', 'supply'] as const;
  const TOOL: Readonly<Record<(typeof OWNED)[number], string>> = {
    clamp: 'clamp-meter',
    loadTester: 'load-tester',
    hydrometer: 'hydrometer',
    supply: 'supply',
  };

  it('is never asked for, not even for a reading that is doubted', () => {
    for (const [name, evidence] of STORIES) {
      for (let owned = 0; owned < 16; owned++) {
        const tools = Object.fromEntries(
          OWNED.map((tool, n) => [tool, ((owned >> n) & 1) === 1]),
        ) as Evidence['tools'];
        const spoiled = Object.fromEntries(
          Object.entries(evidence.readings).map(([key, value], n) => [
            key,
            n === owned % 5 && typeof value === 'number' ? 10 * value : value,
          ]),
        );
        const answer = assessor.assess({ ...evidence, readings: spoiled, tools });
        const asked = [
          ...(answer.next ? [answer.next.key] : []),
          ...answer.alternatives.map(({ key }) => key),
        ];
        for (const tool of OWNED)
          if (!tools[tool])
            expect(
              asked.filter((key) => needs(key) === TOOL[tool]),
              `${name}, no ${tool}`,
            ).toEqual([]);
      }
    }
  });

  it('is asked for where it is owned and tells most', () => {
    const evidence = evidenceOf(bikeWith(11, instance('plug-pin', 0.7, 1)), ['rest_volts charged=True']);
    const all = assessor.assess(evidence);
    const asked = [...(all.next ? [all.next.key] : []), ...all.alternatives.map(({ key }) => key)];
    expect(asked.some((key) => Object.values(TOOL).includes(needs(key)))).toBe(true);
  });
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
