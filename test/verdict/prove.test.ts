/** The proof of a repair: what repairs leave in doubt, which readings would show it, and how often "proven" is right. */
import { describe, expect, it } from 'vitest';
import { openNamed } from '../../src/cases/draw-stream.ts';
import { drawBike } from '../../src/cases/drawn-bike.ts';
import type { FaultId } from '../../src/fault/catalogue.ts';
import { afterRepair, logPriorLeft, NOT_TAKEN, PROVEN } from '../../src/verdict/after-repair.ts';
import type { Evidence } from '../../src/verdict/answer.ts';
import { ALWAYS } from '../../src/verdict/proof-plan.ts';
import { openProver, type Proof, type Prover } from '../../src/verdict/prove.ts';
import { instance, REFERENCE } from '../fault/three-machines.ts';

const BUILD = { phases: 3, senses: 'output' } as const;
const SETS = [
  { faults: ['plug-pins', 'stator-core-midway'] as FaultId[], probability: 0.9 },
  { faults: ['battery-worn', 'plug-pins', 'stator-core-midway'] as FaultId[], probability: 0.06 },
];
const MADE = ['replace-stator', 'replace-stator-plug'] as const;
const AFTER = afterRepair(SETS, 0.01, MADE, BUILD);
const TOOLS = { clamp: true, loadTester: false, hydrometer: false, supply: false } as const;
const IDLE = 'batt_volts charged=True lights=low rpm=idle';
const POSITIVE = 'drop_pos charged=True lights=low rpm=3000';
const FAST = 'batt_volts charged=True lights=low rpm=3000';

const evidence = (readings: Evidence['readings']): Evidence => ({
  symptoms: [],
  readings,
  again: [],
  tools: TOOLS,
});

/** Reads what the plan asks for until it asks for nothing more. */
function follow(prover: Prover, read: (key: string) => Evidence['readings'][string]): Proof {
  let readings: Evidence['readings'] = {};
  let proof = prover.prove(evidence(readings));
  for (let n = 0; n < 15; n++) {
    const next = proof.plan[0]?.key ?? proof.next?.key;
    if (next === undefined || next in readings) break;
    readings = { ...readings, [next]: read(next) };
    proof = prover.prove(evidence(readings));
  }
  return proof;
}

describe('what repairs leave in doubt', () => {
  it('a repaired fault is left only where the repair did not take, all of one repair together', () => {
    const stator = [
      'stator-open',
      'stator-core-terminal',
      'stator-core-midway',
      'stator-shorted-turns',
      'stator-hot-short',
    ];
    const sum = stator.reduce((s, id) => s + (AFTER.left[id as FaultId] ?? 0), 0);
    expect(sum).toBeCloseTo(NOT_TAKEN, 12);
  });

  it('a fault nobody repaired keeps the belief of the verdict, a flat battery none at all', () => {
    expect(AFTER.left['battery-worn']).toBeCloseTo(0.06 / 0.96, 12);
    expect(AFTER.left['battery-flat']).toBeUndefined();
    expect(AFTER.left['sense-drop']).toBeUndefined();
  });

  it('no repair at all leaves the whole belief', () => {
    const { left } = afterRepair(SETS, 0.01, [], BUILD);
    expect(left['plug-pins']).toBeCloseTo(0.9, 12);
  });

  it('the chances of all sets add up to one: faults count one by one', () => {
    const log = logPriorLeft({ left: { drain: 0.2, 'thin-wire': 0.5, 'rotor-weak': 0.03 }, noneOfThese: 0 });
    const atom = (fault: FaultId) => ({ fault, share: 1 }) as Parameters<typeof log>[0]['atoms'][number];
    const all = ['drain', 'thin-wire', 'rotor-weak'] as FaultId[];
    let sum = 0;
    for (let bits = 0; bits < 8; bits++)
      sum += Math.exp(log({ atoms: all.filter((_, n) => bits & (1 << n)).map(atom) }));
    expect(sum).toBeCloseTo(1, 12);
    expect(log({ atoms: [atom('overload')] })).toBe(Number.NEGATIVE_INFINITY);
  });
});

describe('the proof', () => {
  const prover = openProver(REFERENCE, AFTER);

  it('asks first for what everybody reads, and names what each reading would show', () => {
    const { plan, faultLeft, faultLeftBefore } = prover.prove(evidence({}));
    expect(plan.slice(0, ALWAYS.length).map(({ key }) => key)).toEqual([...ALWAYS]);
    expect(plan[0]!.shows).toContain('plug-pin');
    expect(plan.find(({ key }) => key === 'keyoff_mA')!.shows).toContain('drain');
    expect(faultLeftBefore).toBeGreaterThan(0.06);
    expect(faultLeft).toBeCloseTo(faultLeftBefore, 1);
    for (const { band } of plan) if (band) expect(band.low).toBeLessThan(band.high);
  });

  it('a reading no sound bike shows is told, with the fault it speaks for and the reading that tells which', () => {
    const proof = prover.prove(evidence({ [IDLE]: 12.5, [FAST]: 12.75, keyoff_mA: 1.1 }));
    expect(proof.faultLeft).toBeGreaterThan(0.9);
    expect(proof.held.find(({ key }) => key === FAST)!.inside).toBe(false);
    expect(proof.plan).toEqual([]);
    expect(proof.next).not.toBeNull();
  });

  it('a reading against all expectation is asked for again before it is believed, and then it is', () => {
    const readings = { [IDLE]: 14.1, [FAST]: 14.25, keyoff_mA: 90 };
    const once = prover.prove(evidence(readings));
    expect(once.doubtful.map(({ key }) => key)).toEqual(['keyoff_mA']);
    expect(once.left.find(({ fault }) => fault === 'drain')!.probability).toBeGreaterThan(0.02);
    // Where the verdict had left a drain open, the second time settles it.
    const open = [
      ...SETS,
      { faults: ['drain', 'plug-pins', 'stator-core-midway'] as FaultId[], probability: 0.03 },
    ];
    const doubted = openProver(REFERENCE, afterRepair(open, 0.01, MADE, BUILD));
    const twice = doubted.prove({ ...evidence(readings), again: ['keyoff_mA'] });
    expect(twice.left[0]!.fault).toBe('drain');
    expect(twice.left[0]!.probability).toBeGreaterThan(0.75);
  });

  it('the order of the readings does not matter', () => {
    const one = openProver(REFERENCE, AFTER);
    one.prove(evidence({ [IDLE]: 14.1 }));
    const a = one.prove(evidence({ [IDLE]: 14.1, keyoff_mA: 1, [FAST]: 14.2 }));
    const b = openProver(REFERENCE, AFTER).prove(evidence({ [FAST]: 14.2, [IDLE]: 14.1, keyoff_mA: 1 }));
    expect(a.faultLeft).toBeCloseTo(b.faultLeft, 9);
  });

  it('what is no chance is refused in a sentence', () => {
    expect(() => openProver(REFERENCE, { left: { drain: 1.2 }, noneOfThese: 0 })).toThrow(
      /drain must be above 0/,
    );
  });

  it('a joint that was measured moves and narrows what the whole lead should lose', () => {
    const before = prover.band(POSITIVE, evidence({}))!;
    const joint = 'drop_dcplug charged=True lights=low rpm=3000';
    const after = prover.band(POSITIVE, evidence({ [joint]: 0.11 }))!;
    expect(after.high - after.low).toBeLessThan(before.high - before.low);
    expect(after.low).toBeGreaterThan(before.low + 0.02);
  });
});

/**
 * Bikes of our own physics, wear and hands wider than believed, each with a fault left by the chances that the prover
 * starts from, made a few times likelier so that some are. No outside source: it is our own generator.
 */
describe('how often "proven" is right', () => {
  it('of bikes called proven hardly any has a fault left, and a serious fault left is not called proven', () => {
    const left = Object.fromEntries(
      Object.entries(AFTER.left).map(([id, chance]) => [id, Math.min(0.3, 8 * chance!)]),
    );
    const prover = openProver(REFERENCE, { ...AFTER, left });
    let proven = 0;
    let wrong = 0;
    let expected = 0;
    let faulty = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const stream = openNamed(seed, 'left');
      const faults = (Object.entries(left) as [FaultId, number][])
        .filter(([, chance]) => stream() < chance)
        .slice(0, 3)
        .map(([id]) => instance(id, 0.3 + 0.7 * stream()));
      const bike = drawBike(seed, { spec: REFERENCE, faults });
      const { faultLeft } = follow(prover, bike.read);
      if (faults.length) faulty++;
      if (faultLeft > PROVEN) continue;
      proven++;
      expected += faultLeft;
      if (faults.length) wrong++;
    }
    console.info(
      `proven ${proven} of 40 (${faulty} with a fault), wrongly ${wrong}, expected ${expected.toFixed(2)}`,
    );
    expect(proven).toBeGreaterThan(5);
    expect(wrong).toBeLessThanOrEqual(2 + Math.ceil(expected));
  }, 120_000);
});
