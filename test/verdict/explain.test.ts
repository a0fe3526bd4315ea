/** Explanations: what must hold of every one, and the one-pass weights beside the plain ones. */
import { describe, expect, it } from 'vitest';
import { openNamed } from '../../src/cases/draw-stream.ts';
import { type DrawnBike, drawBike } from '../../src/cases/drawn-bike.ts';
import type { Instance } from '../../src/fault/build.ts';
import type { RepairId } from '../../src/fault/catalogue.ts';
import { FAULTS } from '../../src/fault/faults.ts';
import type { Value } from '../../src/reading/key.ts';
import type { Evidence } from '../../src/verdict/answer.ts';
import { openAssessor } from '../../src/verdict/assess.ts';
import { prepare, rowsOf } from '../../src/verdict/evidence.ts';
import { flipsOf } from '../../src/verdict/explain-flip.ts';
import { weighAlong } from '../../src/verdict/explain-path.ts';
import {
  doubtSentences,
  effectSentence,
  effectWords,
  flipSentences,
  suspectHead,
  timesWords,
} from '../../src/verdict/explain-words.ts';
import type { Explanation, Suspect } from '../../src/verdict/explanation.ts';
import { catalogueWeights, openField } from '../../src/verdict/field.ts';
import { openRepairLines } from '../../src/verdict/repairs.ts';
import type { Told } from '../../src/verdict/told.ts';
import { type Row, weigh } from '../../src/verdict/weigh.ts';
import { instance, REFERENCE } from '../fault/three-machines.ts';
import { EVERY_TOOL, evidenceOf, stillKeys } from './answer-checks.ts';

const assessor = openAssessor(REFERENCE);
const RUN = 'lights=low rpm=3000';
const bikeWith = (seed: number, ...faults: Instance[]): DrawnBike =>
  drawBike(seed, { spec: REFERENCE, faults, wider: 0.7, meter: 0.7 });

const core = evidenceOf(bikeWith(12, instance('stator-core-terminal', 0.6, 0)), [
  'crank_volts probe=clamp',
  'ohms_case pin=a temp=cold',
  'pin_case_ac loaded=True pin=c rpm=3000 temp=cold',
  'stator_ac pair=ab rpm=3000 temp=cold',
  `batt_volts ${RUN}`,
]);
const drain = evidenceOf(bikeWith(14, instance('drain', 0.8)), [
  'rest_volts charged=True',
  'load_test_volts charged=True',
  'keyoff_mA',
  `batt_volts ${RUN}`,
]);
const pair = evidenceOf(bikeWith(11, instance('plug-pin', 0.7, 1), instance('battery-sulphated', 0.6)), [
  'rest_volts charged=True',
  'load_test_volts charged=True',
  'keyoff_mA',
  'plug_drop_ac lights=low pin=b rpm=3000',
  `phase_amps lights=low pin=b rpm=3000`,
  'visual what=plug_burnt',
]);
const STORIES: readonly (readonly [string, Evidence])[] = [
  ['winding touching the core', core],
  ['drain', drain],
  ['burnt pin and sulphated battery', pair],
];

const suspect = (explanation: Explanation, repair: RepairId): Suspect =>
  explanation.suspects.find((one) => one.repair === repair)!;

describe('an explanation', () => {
  it('of no readings is empty', () => {
    const explanation = assessor.explain({ symptoms: [], readings: {}, again: [], tools: EVERY_TOOL });
    expect(explanation.suspects).toEqual([]);
    expect(explanation.alike).toEqual([]);
  });

  it('names the reading that speaks for the suspect, as speaking for it', () => {
    const stator = suspect(assessor.explain(core), 'replace-stator');
    const toCase = stator.supports.find(({ key }) => key === 'ohms_case pin=a temp=cold');
    expect(stator.probability).toBeGreaterThan(0.8);
    expect(toCase?.bits).toBeGreaterThan(1);
    const amps = suspect(assessor.explain(drain), 'find-drain');
    expect(amps.supports[0]!.key).toBe('keyoff_mA');
    expect(amps.supports[0]!.bits).toBeGreaterThan(2);
    // … and a reading that shows no drain speaks against one.
    const none = assessor.explain({
      ...drain,
      symptoms: ['flat_after_standing'],
      readings: { ...drain.readings, keyoff_mA: 1 },
    });
    const cleared = suspect(none, 'find-drain');
    expect(cleared.opposes.map(({ key }) => key)).toContain('keyoff_mA');
  });

  for (const [name, evidence] of STORIES) {
    it(`adds up to the whole change: ${name}`, () => {
      for (const one of assessor.explain(evidence).suspects) {
        // Before and after differ by the readings' effects; what is left are threes that no reading brought up.
        const effects = [...one.supports, ...one.opposes].reduce((all, { bits }) => all + bits, 0);
        expect(Math.abs(one.remainder), one.repair).toBeLessThan(0.7);
        const before = Math.log2(one.before / (1 - one.before));
        const now = before + effects + one.remainder + one.evened;
        const share = one.probability / (1 - assessor.assess(evidence).noneOfThese);
        const settled = Math.max(1e-4, Math.min(1 - 1e-4, share));
        expect(2 ** now / (1 + 2 ** now)).toBeCloseTo(settled, 4);
      }
    });

    it(`does not depend on the order of the readings: ${name}`, () => {
      const readings = Object.fromEntries(Object.entries(evidence.readings).toReversed());
      expect(assessor.explain({ ...evidence, readings })).toEqual(assessor.explain(evidence));
    });

    it(`says the same probabilities as the answer: ${name}`, () => {
      const answer = assessor.assess(evidence);
      const explanation = assessor.explain(evidence);
      for (const { repair, probability, advised } of explanation.suspects) {
        const line = answer.repairs.find((one) => one.repair === repair)!;
        expect(probability).toBeCloseTo(line.probability, 9);
        expect(advised).toBe(line.worthDoing || line.whileOpen);
      }
      const { likeliest, rival, others, noneOfThese } = explanation.doubt;
      expect(likeliest.probability + (rival?.probability ?? 0) + others + noneOfThese).toBeCloseTo(1, 6);
    });
  }

  it('hears the owner: a bike flat after standing is a likelier drain before any reading', () => {
    const plain = suspect(assessor.explain({ ...drain, symptoms: [] }), 'find-drain');
    const told = suspect(assessor.explain({ ...drain, symptoms: ['flat_after_standing'] }), 'find-drain');
    expect(told.before).toBeGreaterThan(1.5 * plain.before);
  });

  it('shares what two readings say between them, and says that neither is needed', () => {
    const bike = bikeWith(14, instance('battery-sulphated', 0.6));
    const both = ['load_test_volts charged=True', 'crank_volts charged=True probe=post'];
    const found = suspect(assessor.explain(evidenceOf(bike, [...both, 'keyoff_mA'], [])), 'replace-battery');
    const effects = both.map((key) => found.supports.find((effect) => effect.key === key)!);
    for (const { bits, lastBits } of effects) {
      expect(bits).toBeGreaterThan(1);
      expect(lastBits).toBeLessThan(bits);
    }
  });
});

describe('what would turn the advice', () => {
  const lines = openRepairLines();
  const list = (odds: number): Told[] => {
    const share = odds / (1 + odds);
    const told = (faults: Told['faults'], p: number): Told => ({
      faults,
      repairs: faults.map((fault) => FAULTS[fault].repair),
      share: p,
      probability: p,
    });
    return [told(['regulator-dead'], share), told(['output-joint'], 1 - share)];
  };

  it('halves when the prior odds double', () => {
    const at = [0.1, 0.2, 0.4, 3, 6].map(
      (odds) => flipsOf('replace-regulator', list(odds), 0, lines).flipsAt!,
    );
    for (const [one, other] of [
      [0, 1],
      [1, 2],
      [3, 4],
    ] as const)
      expect(at[other]! / at[one]!).toBeCloseTo(0.5, 1);
    // All of them name the same odds at which the advice turns.
    expect(at[0]! * 0.1).toBeCloseTo(at[3]! * 3, 1);
  });

  it('halves, nearly, when the job says twice the catalogue’s chance', () => {
    const evidence = { ...drain, readings: { [`batt_volts ${RUN}`]: 12.4, rest_volts: 12.5 }, symptoms: [] };
    const plain = suspect(assessor.explain(evidence), 'remake-output-joint').flipsAt!;
    const weights = { 'output-joint': 2 * FAULTS['output-joint'].prior };
    const doubled = suspect(openAssessor(REFERENCE, { weights }).explain(evidence), 'remake-output-joint');
    expect(doubled.flipsAt! / plain).toBeGreaterThan(0.4);
    expect(doubled.flipsAt! / plain).toBeLessThan(0.65);
  });

  it('is nothing where no factor up to twenty turns it', () => {
    expect(flipsOf('replace-regulator', list(1e6), 0, lines).flipsAt).toBeNull();
    expect(flipsOf('replace-regulator', list(1e-6), 0, lines).flipsAt).toBeNull();
  });
});

describe('weights along an order', () => {
  const field = openField(REFERENCE, catalogueWeights(), 1);
  // One reading ten times out: mistakes are weighed too.
  const readings: Record<string, Value> = { ...pair.readings, 'load_test_volts charged=True': 1.02 };
  const taken = prepare({ ...pair, readings }, 3);

  it('are those of weighing each selection anew', () => {
    const best = new Float64Array(taken.length + 1).fill(Number.NEGATIVE_INFINITY);
    let compared = 0;
    for (const member of field.members.slice(0, 60)) {
      const rows: Row[] = [];
      const at: number[] = [];
      rowsOf(member, 0, taken, false, rows, at);
      const all = taken.map((_, n) => (at.includes(n) ? rows[at.indexOf(n)]! : null));
      const order = [3, 0, 5, 1, 4, 2];
      const out = new Float64Array(order.length + 1);
      const without = new Float64Array(order.length);
      best.fill(Number.NEGATIVE_INFINITY);
      weighAlong({ rows: all, terms: new Float64Array(order.length) }, order, out, 0, best, without);
      const plain = (places: readonly number[]) => weigh(places.flatMap((n) => (all[n] ? [all[n]] : []))).log;
      for (let step = 0; step <= order.length; step++)
        expect(out[step]!, `${member.name} ${step}`).toBeCloseTo(plain(order.slice(0, step)), 5);
      for (const left of order)
        expect(without[left]!, `${member.name} without ${left}`).toBeCloseTo(
          plain(order.filter((n) => n !== left)),
          5,
        );
      compared++;
    }
    expect(compared).toBeGreaterThan(40);
  });
});

describe('the words', () => {
  it('give a factor to one figure and stop at a thousand', () => {
    expect([1.3, 2.2, 3.4, 9.6, 47, 930, 999, 1e6].map(timesWords)).toEqual([
      'one and a half times',
      'twice',
      'three times',
      'ten times',
      '50 times',
      '900 times',
      'a thousand times',
      'over a thousand times',
    ]);
    expect([Math.log2(5), -Math.log2(5), 1, -1, 0.1, -0.1, 40].map(effectWords)).toEqual([
      'five times likelier',
      'five times less likely',
      'twice as likely',
      'half as likely',
      'hardly likelier',
      'hardly less likely',
      'over a thousand times likelier',
    ]);
  });

  it('make sentences without bits of every explanation', () => {
    for (const [, evidence] of STORIES) {
      const explanation = assessor.explain(evidence);
      const sentences = [...doubtSentences(explanation)];
      for (const one of explanation.suspects) {
        sentences.push(suspectHead(one), ...flipSentences(one));
        for (const effect of [...one.supports, ...one.opposes])
          sentences.push(effectSentence(effect, evidence.readings[effect.key] ?? null, one.repair));
      }
      expect(sentences.length).toBeGreaterThan(10);
      for (const sentence of sentences) expect(sentence).not.toMatch(/NaN|undefined|Infinity|\bbits?\b/);
    }
  });
});

it('fifty random bikes give numbers', { timeout: 240_000 }, () => {
  const wrong: string[] = [];
  for (let seed = 1; seed <= 50; seed++) {
    const bike = drawBike(seed);
    const stream = openNamed(seed, 'explain');
    const keys = stillKeys(bike);
    const readings: Record<string, Value> = {};
    for (let n = 0; n < 1 + (seed % 5); n++) {
      const key = keys[Math.floor(stream() * keys.length)]!;
      const value = bike.read(key);
      // One in eight is grossly wrong.
      readings[key] = typeof value === 'number' && stream() < 0.125 ? -30 * (value + 1) : value;
    }
    const evidence = { symptoms: bike.symptoms, readings, again: [], tools: EVERY_TOOL };
    const { suspects, doubt } = openAssessor(bike.spec).explain(evidence);
    const figures = [doubt.likeliest.probability, doubt.others, doubt.noneOfThese];
    for (const one of suspects) {
      figures.push(
        one.probability,
        one.before,
        one.remainder,
        one.evened,
        one.flipsAt ?? 1,
        one.companyFlipsAt ?? 1,
      );
      for (const { bits, lastBits } of [...one.supports, ...one.opposes]) figures.push(bits, lastBits);
      if (!(one.before > 0 && one.before < 1 && one.probability >= 0 && one.probability <= 1))
        wrong.push(`bike ${seed}: ${one.repair} from ${one.before} to ${one.probability}`);
    }
    if (figures.some((figure) => !Number.isFinite(figure)))
      wrong.push(`bike ${seed}: ${JSON.stringify(suspects)}`);
  }
  expect(wrong).toEqual([]);
});
