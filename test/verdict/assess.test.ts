/** The assessor on clear stories: a few readings of a bike with one known fault, a sound bike, a slip, a thin toolbox. */
import { describe, expect, it } from 'vitest';
import { type DrawnBike, drawBike } from '../../src/cases/drawn-bike.ts';
import type { ChargingSpec } from '../../src/circuit/spec.ts';
import type { Instance } from '../../src/fault/build.ts';
import type { RepairId } from '../../src/fault/catalogue.ts';
import { FAULTS } from '../../src/fault/faults.ts';
import { REPAIR_IDS } from '../../src/fault/repairs.ts';
import { KINDS } from '../../src/reading/catalogue.ts';
import { readKey } from '../../src/reading/key.ts';
import type { Evidence } from '../../src/verdict/answer.ts';
import { openAssessor } from '../../src/verdict/assess.ts';
import { instance, REFERENCE } from '../fault/three-machines.ts';
import { EVERY_TOOL, evidenceOf, wrongWith } from './answer-checks.ts';

/** Every fault is possible here: sense wire, three phases; flooded, so that acid can be weighed. */
const SPEC: ChargingSpec = {
  ...REFERENCE,
  regulator: { ...REFERENCE.regulator, senses: 'wire' },
  battery: { ...REFERENCE.battery, chemistry: 'flooded' },
};
const assessor = openAssessor(SPEC);

/** A bike as the verdict believes bikes to be, with a good meter. */
const bikeWith = (seed: number, ...faults: Instance[]): DrawnBike =>
  drawBike(seed, { spec: SPEC, faults, wider: 0.7, meter: 0.7 });

const RUN = 'lights=low rpm=3000';
const BATTERY = [
  'rest_volts charged=True',
  'load_test_volts charged=True',
  'crank_volts charged=True probe=clamp',
];
const DROPS = [
  `batt_volts ${RUN}`,
  `drop_pos ${RUN}`,
  `drop_neg ${RUN}`,
  `drop_dcplug ${RUN}`,
  `drop_breaker ${RUN}`,
];
const STATOR = ['ab', 'bc', 'ca'].map((pair) => `stator_ac pair=${pair} rpm=3000 temp=cold`);

/** One story a repair: what is broken, and the readings a mechanic would show. */
const STORIES: Readonly<Record<RepairId, readonly [Instance, readonly string[]]>> = {
  'charge-battery': [
    instance('battery-flat', 1),
    ['rest_volts', ...BATTERY, 'keyoff_mA', 'capacity_minutes', ...DROPS.slice(0, 3)],
  ],
  'replace-battery': [
    instance('battery-sulphated', 0.7),
    [...BATTERY, 'keyoff_mA', ...DROPS.slice(0, 3), 'capacity_minutes'],
  ],
  'remake-positive-post': [
    instance('positive-post-joint', 0.4),
    [...BATTERY, 'drop_term_pos state=crank', 'drop_term_neg state=crank', ...DROPS.slice(0, 3), 'keyoff_mA'],
  ],
  'remake-negative-post': [
    instance('negative-post-joint', 0.4),
    [...BATTERY, 'drop_term_pos state=crank', 'drop_term_neg state=crank', ...DROPS.slice(0, 3), 'keyoff_mA'],
  ],
  'remake-output-joint': [instance('output-joint', 0.6), [...BATTERY, ...DROPS, 'keyoff_mA']],
  'remake-ground': [instance('ground-joint', 0.6), [...BATTERY, ...DROPS, 'keyoff_mA']],
  'remake-breaker': [instance('breaker-joint', 0.6), [...BATTERY, ...DROPS, 'keyoff_mA']],
  'replace-stator-plug': [
    instance('plug-pin', 0.6, 1),
    [
      ...BATTERY.slice(1),
      ...['a', 'b', 'c'].map((pin) => `plug_drop_ac ${RUN.replace(' ', ` pin=${pin} `)}`),
      ...['ab', 'ca'].map((pair) => `mv_pair pair=${pair} through_plug=True`),
      ...DROPS.slice(0, 3),
    ],
  ],
  'replace-stator': [
    instance('stator-core-terminal', 0.6, 2),
    [
      ...BATTERY.slice(1),
      ...STATOR,
      'ohms_case pin=a temp=cold',
      'pin_case_ac loaded=True pin=a rpm=3000 temp=cold',
      ...DROPS.slice(0, 3),
    ],
  ],
  'replace-rotor': [
    instance('rotor-weak', 0.6),
    [...BATTERY.slice(1), ...STATOR, ...DROPS.slice(0, 3), 'keyoff_mA'],
  ],
  'replace-regulator': [
    instance('regulator-dead'),
    [...BATTERY.slice(1), ...STATOR, ...DROPS.slice(0, 3), `alt_amps ${RUN}`],
  ],
  'remake-sense-wire': [
    instance('sense-drop', 0.6),
    [...BATTERY, `drop_sense ${RUN}`, ...DROPS.slice(0, 3), 'keyoff_mA'],
  ],
  'find-drain': [instance('drain', 0.6), [...BATTERY, 'keyoff_mA', ...DROPS.slice(0, 3)]],
  'reduce-load': [
    instance('overload', 0.6),
    [
      ...BATTERY,
      'capacity_minutes',
      'keyon_volts lights=low',
      ...DROPS.slice(0, 3),
      `alt_amps ${RUN}`,
      `batt_amps ${RUN}`,
    ],
  ],
  'replace-output-wire': [
    instance('thin-wire', 0.8),
    [...BATTERY.slice(1), ...DROPS, 'visual what=wire_thin', 'keyoff_mA'],
  ],
};

describe('a clear story ends with the right verdict', () => {
  for (const repair of REPAIR_IDS.filter((id) => id !== 'charge-battery')) {
    const [fault, keys] = STORIES[repair];
    it(`${FAULTS[fault.id].title}: ${repair}`, () => {
      expect(FAULTS[fault.id].repair).toBe(repair);
      expect(keys.length).toBeGreaterThanOrEqual(6);
      expect(keys.length).toBeLessThanOrEqual(10);
      const evidence = evidenceOf(bikeWith(1, fault), keys, []);
      const answer = assessor.assess(evidence);
      expect(wrongWith(answer, evidence)).toEqual([]);
      expect(answer.sets[0]!.faults).toEqual([fault.id]);
      expect(answer.repairs.filter((line) => line.worthDoing).map((line) => line.repair)).toEqual([repair]);
      expect(answer.doubtful).toEqual([]);
    });
  }

  it('a flat battery and nothing else: no part is bought, since a sound bike that stood long reads the same', () => {
    const [fault, keys] = STORIES['charge-battery'];
    const answer = assessor.assess(evidenceOf(bikeWith(1, fault), keys, []));
    const flat = answer.repairs.find((line) => line.repair === 'charge-battery')!.probability;
    const ranks = answer.repairs.map((line) => line.repair);
    expect(ranks.slice(0, 4)).toContain('charge-battery');
    expect(flat).toBeGreaterThan(0.05);
    expect(answer.repairs.filter((line) => line.worthDoing && line.repair !== 'charge-battery')).toEqual([]);
  });

  it('two faults that do not hide each other are both named', () => {
    const bike = bikeWith(2, instance('drain', 0.7), instance('output-joint', 0.7));
    const answer = assessor.assess(evidenceOf(bike, [...BATTERY, 'keyoff_mA', ...DROPS], []));
    expect(answer.sets[0]!.faults.toSorted()).toEqual(['drain', 'output-joint']);
  });
});

describe('a sound bike', () => {
  it('is not accused', () => {
    for (const seed of [1, 2, 3]) {
      const evidence = evidenceOf(bikeWith(seed), [...BATTERY, 'keyoff_mA', ...DROPS, STATOR[0]!], []);
      const answer = assessor.assess(evidence);
      expect(wrongWith(answer, evidence)).toEqual([]);
      expect(answer.sets[0]!.faults).toEqual([]);
      expect(answer.repairs.filter((line) => line.worthDoing)).toEqual([]);
      expect(answer.doubtful).toEqual([]);
    }
  });

  it('reads inside its bands nineteen times in twenty', () => {
    const keys = [
      ...BATTERY,
      'keyoff_mA',
      ...DROPS,
      ...STATOR,
      'rest_volts',
      'capacity_minutes',
      'mv_pair pair=ab',
    ];
    let inside = 0;
    let all = 0;
    for (const key of keys) {
      const { band, openShare } = assessor.sound(key);
      expect(openShare).toBe(0);
      for (let seed = 1; seed <= 40; seed++) {
        const value = drawBike(seed, { spec: SPEC, faults: [], wider: 1 }).read(key) as number;
        all++;
        if (value >= band!.low && value <= band!.high) inside++;
      }
    }
    expect(inside / all).toBeGreaterThan(0.9);
    expect(inside / all).toBeLessThan(0.995);
    expect(assessor.sound('ohms_case pin=a temp=cold')).toEqual({ band: null, openShare: 1 });
    expect(() => assessor.sound('ohm_case')).toThrow(/no kind of reading/);
  });
});

describe('a slip', () => {
  const keys = [...BATTERY, 'keyoff_mA', ...DROPS, `reg_volts ${RUN}`];
  const bike = bikeWith(3);
  const right = evidenceOf(bike, keys, []);
  const spoiled = (key: string, value: number): Evidence => ({
    ...right,
    readings: { ...right.readings, [key]: value },
  });

  for (const key of [`batt_volts ${RUN}`, 'rest_volts charged=True', `reg_volts ${RUN}`]) {
    it(`ten times out in ${key} is blamed, with the value meant, and asked for again`, () => {
      const meant = right.readings[key] as number;
      const evidence = spoiled(key, 10 * meant);
      const answer = assessor.assess(evidence);
      expect(wrongWith(answer, evidence)).toEqual([]);
      expect(answer.doubtful[0]).toMatchObject({ key, mistake: 'ten times out' });
      expect(answer.doubtful[0]!.probability).toBeGreaterThan(0.9);
      expect(Math.abs(answer.doubtful[0]!.meant! / meant - 1)).toBeLessThan(0.02);
      expect(answer.next?.key).toBe(key);
      expect(answer.next!.why).toMatch(/take it again/);
      // Nobody is accused for it meanwhile.
      expect(answer.sets[0]!.faults).toEqual([]);
      // Taken again and right: no doubt is left, and nothing asks for it a third time.
      const after = assessor.assess({ ...right, again: [key] });
      expect(after.doubtful).toEqual([]);
      expect(after.next?.key).not.toBe(key);
    });
  }

  it('reversed leads are named', () => {
    const key = `batt_volts ${RUN}`;
    const answer = assessor.assess(spoiled(key, -(right.readings[key] as number)));
    expect(answer.doubtful[0]).toMatchObject({ key, mistake: 'leads reversed' });
  });

  it('the same wrong value twice is asked for no third time', () => {
    const key = `batt_volts ${RUN}`;
    const evidence = { ...spoiled(key, 142), again: [key] };
    const answer = assessor.assess(evidence);
    expect(wrongWith(answer, evidence)).toEqual([]);
    expect(answer.next?.key).not.toBe(key);
  });

  // Known defect: a second gross slip is capped at 600 nats in `weigh`. Turn into `it` when cured.
  it('two gross slips at once leave the verdict standing and are both doubted', () => {
    const evidence: Evidence = {
      ...right,
      readings: { ...right.readings, 'rest_volts charged=True': 127.5, keyoff_mA: 9000 },
    };
    const answer = assessor.assess(evidence);
    expect(wrongWith(answer, evidence)).toEqual([]);
    expect(answer.doubtful.map((doubt) => doubt.key).toSorted()).toEqual([
      'keyoff_mA',
      'rest_volts charged=True',
    ]);
    expect(answer.noneOfThese).toBeLessThan(0.5);
  });

  it('nonsense everywhere is said to be explained by nothing, without a number that is none', () => {
    const evidence: Evidence = {
      symptoms: [],
      readings: { rest_volts: -5000, keyoff_mA: -9e5, [`batt_volts ${RUN}`]: 5e4 },
      again: ['rest_volts', 'keyoff_mA', `batt_volts ${RUN}`],
      tools: EVERY_TOOL,
    };
    const answer = assessor.assess(evidence);
    expect(wrongWith(answer, evidence)).toEqual([]);
    expect(answer.noneOfThese).toBeGreaterThan(0.9);
  });
});

describe('the toolbox', () => {
  const BARE = { clamp: false, loadTester: false, hydrometer: false, supply: false };
  const NEEDS = ['clamp-meter', 'load-tester', 'hydrometer', 'supply'];

  it('is respected in the next reading and its alternatives', () => {
    const bike = bikeWith(4, instance('battery-shorted-cell'));
    const tools = new Set<string>();
    for (const many of [0, 1, 3, 6]) {
      const evidence = {
        ...evidenceOf(bike, [...DROPS.slice(0, 1), ...BATTERY, ...DROPS.slice(1)].slice(0, many), []),
      };
      const used = (given: Evidence['tools']) => {
        const answer = assessor.assess({ ...evidence, tools: given });
        return [answer.next, ...answer.alternatives].flatMap((one) =>
          one ? [KINDS[readKey(one.key)!.kind]!.tool] : [],
        );
      };
      expect(used(BARE).filter((tool) => NEEDS.includes(tool))).toEqual([]);
      for (const tool of used(EVERY_TOOL)) tools.add(tool);
    }
    // With every tool at hand some of them are wanted: the test sees what it forbids.
    expect(NEEDS.some((tool) => tools.has(tool))).toBe(true);
  });
});

describe('the prior', () => {
  it('moves the verdict where nothing has been read', () => {
    const evidence = evidenceOf(bikeWith(1), [], []);
    const share = (weights: Parameters<typeof openAssessor>[1]) =>
      openAssessor(SPEC, weights)
        .assess(evidence)
        .repairs.find((line) => line.repair === 'find-drain')!.probability;
    const plain = share({});
    expect(share({ weights: { drain: 3 * FAULTS.drain.prior } })).toBeGreaterThan(1.8 * plain);
    expect(share({ weights: { drain: 0.1 * FAULTS.drain.prior } })).toBeLessThan(0.3 * plain);
  });
});
