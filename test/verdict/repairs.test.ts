import { describe, expect, it } from 'vitest';
import type { RepairId } from '../../src/fault/catalogue.ts';
import { REPAIR_IDS, REPAIRS } from '../../src/fault/repairs.ts';
import { COMEBACK, MISSED, WRONGLY_ACCUSED } from '../../src/verdict/repair-choice.ts';
import { costTogether, type Need, openChoiceOf, openRepairLines } from '../../src/verdict/repairs.ts';
import { stream } from './random-model.ts';

const lines = openRepairLines();
const lineOf = (list: readonly Need[], repair: RepairId, none = 0) =>
  lines(list, none).find((line) => line.repair === repair)!;
const doing = (list: readonly Need[]) =>
  lines(list, 0)
    .filter((line) => line.worthDoing)
    .map((line) => line.repair)
    .sort();
const beside = (list: readonly Need[]) =>
  lines(list, 0)
    .filter((line) => line.whileOpen)
    .map((line) => line.repair)
    .sort();

/** Parts, minutes and covers of a list in minutes, added up by hand: 60 minutes are worth 40. */
function work(repairs: readonly RepairId[]): number {
  const { parts, minutes } = costTogether(repairs);
  return minutes + parts * 1.5;
}

/** Expected cost of doing `done`, bike by bike. */
function expected(list: readonly Need[], done: readonly RepairId[], wrong = WRONGLY_ACCUSED): number {
  return list.reduce((sum, { repairs, share }) => {
    const missed = repairs.filter((repair) => !done.includes(repair));
    const needless = done.filter((repair) => !repairs.includes(repair));
    const later = missed.length > 0 ? work(missed) + MISSED * missed.length + COMEBACK : 0;
    return sum + share * (work(done) + wrong * needless.length + later);
  }, 0);
}

/** Random posteriors over lists of up to three repairs, a few of them heavy. */
function randomNeeds(random: () => number, most: number): Need[] {
  const list = Array.from({ length: 1 + Math.floor(most * random()) }, () => ({
    repairs: [
      ...new Set(
        Array.from(
          { length: Math.floor(4 * random()) },
          () => REPAIR_IDS[Math.floor(REPAIR_IDS.length * random())]!,
        ),
      ),
    ],
    share: random() ** 3,
  }));
  const sum = list.reduce((s, need) => s + need.share, 0);
  return list.map(({ repairs, share }) => ({ repairs, share: share / sum }));
}

describe('what to repair', () => {
  it('does what is certain and leaves what cannot be', () => {
    expect(doing([{ repairs: ['replace-rotor'], share: 1 }])).toEqual(['replace-rotor']);
    expect(doing([{ repairs: [], share: 1 }])).toEqual([]);
    const three: RepairId[] = ['replace-battery', 'replace-stator', 'replace-regulator'];
    for (const line of lines([{ repairs: three, share: 1 }], 0).slice(0, 3)) {
      expect(line.worthDoing).toBe(true);
      expect(line.probability).toBe(1);
    }
    const impossible = lineOf([{ repairs: ['replace-stator'], share: 1 }], 'replace-rotor');
    expect(impossible).toMatchObject({ probability: 0, worthDoing: false, whileOpen: false });
    // Doing it would waste its part and minutes (case open anyway): 60 min and 240 at 40 an hour.
    expect(impossible.saves).toBeCloseTo(60 + 360, 9);
  });

  it('calls a part dead from a third for a joint to two thirds for a rotor', () => {
    const turns = REPAIR_IDS.map((repair) => {
      const list = [
        { repairs: [repair], share: 0.2 },
        { repairs: [], share: 0.8 },
      ];
      return [repair, lineOf(list, repair).turnsAt] as const;
    });
    for (const [repair, at] of turns) {
      expect(at, repair).toBeGreaterThan(0.33);
      expect(at, repair).toBeLessThan(0.66);
      const near = (share: number) =>
        doing([
          { repairs: [repair], share },
          { repairs: [], share: 1 - share },
        ]);
      expect(near(at + 1e-3), repair).toEqual([repair]);
      expect(near(at - 1e-3), repair).toEqual([]);
    }
    const at = new Map(turns);
    expect(at.get('remake-positive-post')).toBeLessThan(at.get('replace-battery')!);
    expect(at.get('replace-battery')).toBeLessThan(at.get('replace-stator')!);
  });

  it('turns at cost / (cost + benefit), the threshold of Pauker and Kassirer (NEJM 293, 1975; from memory)', () => {
    // Battery: 10 min, the seat 10 min, 90 in parts = 135 min, 200 if it was sound; missing it is 300, a comeback 100.
    const cost = 10 + 10 + 135 + 200;
    const line = lineOf(
      [
        { repairs: ['replace-battery'], share: 0.6 },
        { repairs: [], share: 0.4 },
      ],
      'replace-battery',
    );
    expect(line.turnsAt).toBeCloseTo(cost / (cost + 400), 12);
    expect(line.saves).toBeCloseTo(0.6 * 400 - 0.4 * cost, 9);
  });

  it('answers two rivals with the cheaper one, with neither or with both, as costs have it', () => {
    const rivals = (a: RepairId, b: RepairId, each: number): Need[] => [
      { repairs: [a], share: each },
      { repairs: [b], share: each },
      { repairs: [], share: 1 - 2 * each },
    ];
    // Same chance, other costs: the plug is done, the stator is not, at 45 in 100 each.
    expect(doing(rivals('replace-stator-plug', 'replace-stator', 0.45))).toEqual(['replace-stator-plug']);
    expect(doing(rivals('replace-rotor', 'replace-regulator', 0.45))).toEqual([]);
    expect(doing(rivals('remake-ground', 'remake-breaker', 0.45))).toEqual([
      'remake-breaker',
      'remake-ground',
    ]);
    expect(doing(rivals('remake-ground', 'remake-breaker', 0.3))).toEqual([]);
  });

  it('judges what goes together as one: the same chance counts less where the other half is left out', () => {
    const alone: Need[] = [
      { repairs: ['remake-ground'], share: 0.4 },
      { repairs: [], share: 0.6 },
    ];
    const together: Need[] = [
      { repairs: ['remake-ground', 'replace-rotor'], share: 0.4 },
      { repairs: [], share: 0.6 },
    ];
    expect(doing(alone)).toEqual(['remake-ground']);
    // The rotor is not worth it at 40 in 100; with it left out the bike comes back whether the ground is remade or not.
    expect(doing(together)).toEqual([]);
  });

  it('calls dead what is all but certain, however open the rest is', () => {
    // The battery is dead at 80 in 100, and one of two dear parts besides, nobody knows which.
    const list: Need[] = [
      { repairs: ['replace-battery', 'replace-stator'], share: 0.4 },
      { repairs: ['replace-battery', 'replace-rotor'], share: 0.4 },
      { repairs: ['replace-stator'], share: 0.1 },
      { repairs: ['replace-rotor'], share: 0.1 },
    ];
    expect(doing(list)).toEqual(['replace-battery']);
    // The bike comes back in any case: only the missed battery counts, not the tow.
    const cost = 10 + 10 + 135 + 200;
    expect(lineOf(list, 'replace-battery').turnsAt).toBeCloseTo(cost / (cost + 300), 12);
  });

  it('opens a cover once', () => {
    expect(costTogether(['replace-stator', 'replace-rotor'])).toEqual({
      parts: 400,
      minutes: 120 + 15 + 45 + 60,
    });
    const list = (stator: number): Need[] => [
      { repairs: ['replace-stator', 'replace-rotor'], share: 0.55 * stator },
      { repairs: ['replace-stator'], share: 0.45 * stator },
      { repairs: ['replace-rotor'], share: 0.55 * (1 - stator) },
      { repairs: [], share: 0.45 * (1 - stator) },
    ];
    // 55 in 100 for the rotor whatever the stator is: alone too little to be called dead or opened for.
    expect(lineOf(list(0), 'replace-rotor')).toMatchObject({ worthDoing: false, whileOpen: false });
    const shut = lineOf(list(0), 'replace-rotor');
    const open = lineOf(list(1), 'replace-rotor');
    expect(open.worthDoing || open.whileOpen).toBe(true);
    expect(open.turnsAt).toBeLessThan(shut.turnsAt - 0.1);
  });

  it('does cheap work on the chance while the cover is off, and only then', () => {
    const plug = (stator: number): Need[] => [
      { repairs: ['replace-stator', 'replace-stator-plug'], share: 0.2 * stator },
      { repairs: ['replace-stator'], share: 0.8 * stator },
      { repairs: ['replace-stator-plug'], share: 0.2 * (1 - stator) },
      { repairs: [], share: 0.8 * (1 - stator) },
    ];
    expect(doing(plug(1))).toEqual(['replace-stator']);
    expect(beside(plug(1))).toEqual(['replace-stator-plug']);
    expect(doing(plug(0))).toEqual([]);
    expect(beside(plug(0))).toEqual([]);
    // 30 min and 15 in parts against the 15 min of the cover and a comeback.
    expect(lineOf(plug(1), 'replace-stator-plug').turnsAt).toBeCloseTo(52.5 / (52.5 + 15 + 400), 12);
  });

  it('is the choice of least expected cost on random posteriors, by trying every set; saves and turnsAt likewise', () => {
    const random = stream(41);
    let done = 0;
    let also = 0;
    for (let trial = 0; trial < 120; trial++) {
      const list = randomNeeds(random, 6);
      const got = lines(list, 0.25);
      const dead = got.filter((line) => line.worthDoing).map((line) => line.repair);
      const extra = got.filter((line) => line.whileOpen).map((line) => line.repair);
      const all = [...dead, ...extra];
      done += dead.length;
      also += extra.length;
      const possible = REPAIR_IDS.filter((id) => list.some((need) => need.repairs.includes(id)));
      let best = Infinity;
      for (let set = 0; set < 1 << possible.length && possible.length < 9; set++)
        best = Math.min(
          best,
          expected(
            list,
            possible.filter((_, r) => (set >> r) & 1),
          ),
        );
      if (possible.length < 9) expect(expected(list, dead)).toBeCloseTo(best, 6);
      for (const line of got) {
        expect(line.worthDoing && line.whileOpen).toBe(false);
        const near =
          !line.worthDoing &&
          REPAIRS[line.repair].covers.some((c) => dead.some((id) => REPAIRS[id].covers.includes(c)));
        if (line.whileOpen) expect(near).toBe(true);
        const rest = (near ? all : dead).filter((id) => id !== line.repair);
        const wrong = near ? 0 : WRONGLY_ACCUSED;
        const cost = (needs: readonly Need[], doIt: boolean) =>
          expected(needs, doIt ? [...rest, line.repair] : rest, wrong);
        const gain = cost(list, false) - cost(list, true);
        expect(line.saves).toBeCloseTo(0.75 * Math.abs(gain), 6);
        const share = line.probability / 0.75;
        const at = line.turnsAt / 0.75;
        if (line.worthDoing || line.whileOpen) expect(share).toBeGreaterThanOrEqual(at - 1e-9);
        else expect(share).toBeLessThanOrEqual(at + 1e-9);
        if (share > 1e-6 && share < 1 - 1e-6 && at > 0.011) {
          // The bikes that need it and those that do not, each kept in proportion, with its share moved to `at`.
          const moved = list.map((need) => ({
            repairs: need.repairs,
            share: need.share * (need.repairs.includes(line.repair) ? at / share : (1 - at) / (1 - share)),
          }));
          if (at < 1) expect(cost(moved, false) - cost(moved, true)).toBeCloseTo(0, 6);
        }
      }
    }
    expect(done).toBeGreaterThan(30);
    expect(also).toBeGreaterThan(5);
  });

  it('never drops a repair because it has become likelier', () => {
    const random = stream(43);
    let kept = 0;
    for (let trial = 0; trial < 400; trial++) {
      const list = randomNeeds(random, 10);
      for (const repair of doing(list))
        for (const factor of [1.2, 2, 6]) {
          const raised = list.map((need) => ({
            repairs: need.repairs,
            share: need.share * (need.repairs.includes(repair) ? factor : 1),
          }));
          const sum = raised.reduce((s, need) => s + need.share, 0);
          expect(doing(raised.map((need) => ({ ...need, share: need.share / sum })))).toContain(repair);
          kept++;
        }
    }
    expect(kept).toBeGreaterThan(500);
  });

  it('holds fast under doubt that no set explains the readings; past an even chance of that it advises nothing', () => {
    const list: Need[] = [
      { repairs: ['replace-regulator'], share: 0.7 },
      { repairs: ['replace-battery'], share: 0.3 },
    ];
    const sure = lines(list, 0);
    for (const none of [0.4, 0.6])
      lines(list, none).forEach((line, n) => {
        expect(line.worthDoing).toBe(none < 0.5 && sure[n]!.worthDoing);
        expect(line.probability).toBeCloseTo((1 - none) * sure[n]!.probability, 12);
        expect(line.turnsAt).toBeCloseTo((1 - none) * sure[n]!.turnsAt, 12);
      });
    expect(sure.some((line) => line.worthDoing)).toBe(true);
  });

  it('takes costs that the owner says better, and refuses a cost that is none', () => {
    const list: Need[] = [
      { repairs: ['replace-battery'], share: 0.55 },
      { repairs: [], share: 0.45 },
    ];
    expect(doing(list)).toEqual(['replace-battery']);
    const dear = openRepairLines({ 'replace-battery': { parts: 400 } })(list, 0);
    expect(dear.filter((line) => line.worthDoing)).toEqual([]);
    expect(costTogether(['replace-battery'], { 'replace-battery': { parts: 400 } })).toEqual({
      parts: 400,
      minutes: 20,
    });
    expect(() => openRepairLines({ 'replace-rotor': { minutes: -1 } })).toThrow(/replace-rotor: minutes.*-1/);
    expect(() => openRepairLines({ 'find-drain': { parts: Number.NaN } })).toThrow(RangeError);
  });

  it('prices what acting now would lose, for many posteriors over the same lists', () => {
    const lists: RepairId[][] = [['replace-battery'], ['replace-regulator'], []];
    const { loss, least, informed } = openChoiceOf(lists);
    expect(loss(Float64Array.of(1, 0, 0))).toBe(0);
    expect(loss(Float64Array.of(0, 0, 1))).toBe(0);
    const weights = Float64Array.of(0.25, 0.25, 0.5);
    // Neither is worth doing: one bike in two comes back.
    expect(loss(weights)).toBeCloseTo(0.5 * 400, 9);
    expect(least(weights) - informed(weights)).toBeCloseTo(200, 9);
    // Weights need not add up to one: branches of a reading carry their own share.
    expect(loss(weights.map((w) => w / 8))).toBeCloseTo(25, 9);
  });
});
