/**
 * Wrong readings among right ones: each mistake planted on a bike of our own physics is named with the value meant;
 * right readings are left alone; what nothing cross-checks says so; a wrong machine file is told from a wrong hand.
 */
import { describe, expect, it } from 'vitest';
import { type DrawnBike, drawBike } from '../../src/cases/drawn-bike.ts';
import type { Instance } from '../../src/fault/build.ts';
import type { Value } from '../../src/reading/key.ts';
import type { Answer, Evidence } from '../../src/verdict/answer.ts';
import { openAssessor } from '../../src/verdict/assess.ts';
import { instance, REFERENCE } from '../fault/three-machines.ts';
import { evidenceOf, wrongWith } from './answer-checks.ts';

const assessor = openAssessor(REFERENCE);
const bikeWith = (seed: number, ...faults: Instance[]): DrawnBike =>
  drawBike(seed, { spec: REFERENCE, faults, wider: 0.7, meter: 0.7 });

const RUN = 'lights=low rpm=3000';
const IDLE = 'lights=low rpm=idle';
const BATTERY = ['rest_volts', 'crank_volts probe=clamp', 'crank_volts probe=post', 'load_test_volts'];
const CHARGING = [
  `batt_volts ${RUN}`,
  `reg_volts ${RUN}`,
  `drop_pos ${RUN}`,
  `drop_neg ${RUN}`,
  `alt_amps ${RUN}`,
  `batt_amps ${RUN}`,
  `ripple ${RUN}`,
];
const SLOW = [`batt_volts ${IDLE}`, `alt_amps ${IDLE}`, `batt_amps ${IDLE}`];
const STATOR = [
  ...['ab', 'bc', 'ca'].flatMap((pair) => [
    `stator_ac pair=${pair} rpm=3000 temp=cold`,
    `ohms_pair pair=${pair} through_plug=False`,
  ]),
];
const ALL = [...BATTERY, ...CHARGING, ...SLOW, ...STATOR];

function spoiled(bike: DrawnBike, keys: readonly string[], key: string, value: Value): [Answer, Evidence] {
  const right = evidenceOf(bike, keys, []);
  const evidence = { ...right, readings: { ...right.readings, [key]: value } };
  return [assessor.assess(evidence), evidence];
}

describe('each mistake is named, with the value meant', () => {
  const sound = bikeWith(3);
  const is = (key: string) => sound.read(key) as number;
  const cases: [string, string, (v: number) => number, string, number][] = [
    ['ten times out', `alt_amps ${RUN}`, (v) => 10 * v, 'ten times out', 0.02],
    ['a tenth', 'stator_ac pair=ab rpm=3000 temp=cold', (v) => v / 10, 'ten times out', 0.02],
    ['AC for DC', `reg_volts ${RUN}`, (v) => 2.2 * v, 'AC and DC mixed up', 0.03],
    ['poor contact', 'crank_volts probe=post', (v) => 0.7 * v, 'poor contact at a probe', 0.05],
    [
      'poor contact on ohms',
      'ohms_pair pair=bc through_plug=False',
      (v) => v + 3,
      'poor contact at a probe',
      0.3,
    ],
    ['leads reversed', 'rest_volts', (v) => -v, 'leads reversed', 0.02],
    ['millivolts for volts', `batt_volts ${RUN}`, (v) => 1000 * v, 'milli and whole units mixed up', 0.02],
    ['nothing shown', 'stator_ac pair=bc rpm=3000 temp=cold', () => 0, 'the meter showed nothing', 0.1],
  ];
  for (const [title, key, make, words, near] of cases) {
    it(title, () => {
      const [answer, evidence] = spoiled(sound, ALL, key, make(is(key)));
      expect(wrongWith(answer, evidence)).toEqual([]);
      expect(answer.doubtful.map((doubt) => doubt.key)).toEqual([key]);
      expect(answer.doubtful[0]!.mistake).toContain(words);
      expect(Math.abs(answer.doubtful[0]!.meant! / is(key) - 1)).toBeLessThan(near);
      expect(answer.next?.key).toBe(key);
      expect(answer.misfit).toBe(false);
      expect(answer.repairs.filter((line) => line.worthDoing)).toEqual([]);
    });
  }

  it('another pair', () => {
    // Turns shorted in phase a: bc reads full, ab and ca less.
    const bike = bikeWith(5, instance('stator-shorted-turns', 0.9));
    const key = 'stator_ac pair=ab rpm=3000 temp=cold';
    const keys = [...ALL, ...['ab', 'bc', 'ca'].map((pair) => `stator_ac pair=${pair} rpm=5000 temp=cold`)];
    const [answer] = spoiled(bike, keys, key, bike.read(key.replace('ab', 'bc')));
    expect(answer.doubtful.map((doubt) => doubt.key)).toEqual([key]);
    expect(answer.doubtful[0]!.mistake).toBe('another pair was measured: b–c');
    expect(Math.abs(answer.doubtful[0]!.meant! / (bike.read(key) as number) - 1)).toBeLessThan(0.05);
    expect(answer.sets[0]!.faults).toEqual(['stator-shorted-turns']);
  });

  it('idle for 3000', () => {
    const bike = bikeWith(6);
    const key = `batt_amps ${RUN}`;
    const [answer] = spoiled(bike, ALL, key, bike.read(`batt_amps ${IDLE}`));
    expect(answer.doubtful.map((doubt) => doubt.key)).toEqual([key]);
    expect(answer.doubtful[0]!.mistake).toMatch(/taken at idle/);
    expect(Math.abs(answer.doubtful[0]!.meant! / (bike.read(key) as number) - 1)).toBeLessThan(0.15);
  });

  it('at the battery for at the regulator', () => {
    const bike = bikeWith(7, instance('output-joint', 0.8));
    const key = `reg_volts ${RUN}`;
    const [answer] = spoiled(bike, [...ALL, `drop_dcplug ${RUN}`], key, bike.read(`batt_volts ${RUN}`));
    expect(answer.doubtful.map((doubt) => doubt.key)).toEqual([key]);
    expect(answer.doubtful[0]!.mistake).toBe('taken at the battery, not at the regulator');
    expect(Math.abs(answer.doubtful[0]!.meant! / (bike.read(key) as number) - 1)).toBeLessThan(0.05);
  });

  it('leads swapped on the diode range: a number where OL is due, and OL where a number is', () => {
    const bike = bikeWith(8);
    const keys = ['a', 'b', 'c'].flatMap((pin) => [
      `diode black=pos red=${pin}`,
      `diode black=${pin} red=pos`,
    ]);
    for (const key of [keys[0]!, keys[3]!]) {
      const swapped = key.includes('black=pos')
        ? key.replace(/black=pos red=(.)/, 'black=$1 red=pos')
        : key.replace(/black=(.) red=pos/, 'black=pos red=$1');
      const [answer, evidence] = spoiled(bike, [...ALL, ...keys], key, bike.read(swapped));
      expect(wrongWith(answer, evidence)).toEqual([]);
      expect(answer.doubtful.map((doubt) => doubt.key)).toEqual([key]);
      expect(answer.doubtful[0]!.mistake).toBe('the leads were swapped');
      const meant = bike.read(key);
      if (meant === null) expect(answer.doubtful[0]!.meant).toBeNull();
      else expect(answer.doubtful[0]!.meant).toBeCloseTo(meant as number, 1);
      expect(answer.repairs.filter((line) => line.worthDoing)).toEqual([]);
    }
  });
});

describe('right readings', () => {
  it('are not doubted, in at least nineteen bikes of twenty, once asked again', { timeout: 240_000 }, () => {
    const faults = [
      [],
      [instance('output-joint', 0.5)],
      [instance('regulator-dead')],
      [instance('drain', 0.6)],
    ];
    let doubted = 0;
    let bikes = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const bike = drawBike(seed, { spec: REFERENCE, faults: faults[seed % 4]!, wider: 1 });
      let evidence = evidenceOf(
        bike,
        ALL.filter((_, n) => (n + seed) % 3 !== 0),
        [],
      );
      let answer = assessor.assess(evidence);
      // A reading that is asked for again shows the same again: as in the practice cases.
      for (let n = 0; n < 3 && answer.next && answer.next.key in evidence.readings; n++) {
        evidence = { ...evidence, again: [...evidence.again, answer.next.key] };
        answer = assessor.assess(evidence);
      }
      bikes++;
      if (answer.doubtful.length > 0) doubted++;
      expect(answer.misfit).toBe(false);
    }
    expect(bikes).toBe(40);
    expect(doubted).toBeLessThanOrEqual(2);
  });

  it('are doubted alike in whatever order they were taken', () => {
    const bike = bikeWith(3);
    const [one, evidence] = spoiled(bike, ALL, `reg_volts ${RUN}`, 31.2);
    const backwards = Object.fromEntries(Object.entries(evidence.readings).reverse());
    const other = openAssessor(REFERENCE).assess({ ...evidence, readings: backwards });
    expect(other.doubtful).toEqual(one.doubtful);
    expect(other.unchecked).toEqual(one.unchecked);
    expect(other.misfit).toBe(one.misfit);
  });
});

describe('what nothing cross-checks', () => {
  it('is labelled until something does, or it is taken again', () => {
    const bike = bikeWith(3, instance('breaker-joint', 0.5));
    const key = `drop_breaker ${RUN}`;
    const evidence = evidenceOf(bike, ['rest_volts', `batt_volts ${RUN}`, key], []);
    const answer = assessor.assess(evidence);
    // A tenth of it, or seven tenths, would be believed as readily.
    expect(answer.unchecked).toContain(key);
    expect(answer.unchecked).not.toContain('rest_volts');
    expect(assessor.assess({ ...evidence, again: [key] }).unchecked).not.toContain(key);
    // The breaker is part of the way from the regulator to the battery.
    const more = evidenceOf(bike, [...Object.keys(evidence.readings), ...CHARGING], []);
    expect(assessor.assess(more).unchecked).not.toContain(key);
  });

  it('is no reading that two others hold', () => {
    const bike = bikeWith(3);
    const answer = assessor.assess(evidenceOf(bike, ALL, []));
    for (const key of [
      `reg_volts ${RUN}`,
      `batt_volts ${RUN}`,
      `alt_amps ${RUN}`,
      'stator_ac pair=ab rpm=3000 temp=cold',
    ])
      expect(answer.unchecked).not.toContain(key);
  });
});

describe('a machine file that does not fit', () => {
  it('is told from a wrong hand: a book that gives half the stator’s volts, which no fault doubles', () => {
    const { alternator } = REFERENCE;
    const other = {
      ...REFERENCE,
      alternator: {
        ...alternator,
        openVolts: { ...alternator.openVolts, volts: 0.5 * alternator.openVolts.volts },
      },
    };
    const bike = bikeWith(3);
    const keys = [...BATTERY.slice(0, 2), ...CHARGING.slice(0, 3), ...STATOR];
    expect(assessor.assess(evidenceOf(bike, keys, [])).misfit).toBe(false);
    const answer = openAssessor(other).assess(evidenceOf(bike, keys, []));
    expect(answer.misfit).toBe(true);
  });
});
