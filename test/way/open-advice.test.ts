/** What else to replace on a plan's way in: which parts it lays open, what reaching each again takes, and the words. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readMachine } from '../../src/machine/read-machine.ts';
import { usualKm, wearOf } from '../../src/machine/wear.ts';
import { workOf } from '../../src/machine/work.ts';
import { adviseOpen, type WearItem } from '../../src/way/open-advice.ts';
import { planJob } from '../../src/way/plan.ts';
import { whileOpen } from '../../src/way/while-open.ts';
import { plainSchedule } from './plain-schedule.ts';
import { SMALL } from './small-work.ts';

const read = readMachine(readFileSync('machines/ardmoor-650-pathway.json', 'utf8'), 'ardmoor');
if (!read.ok) throw new Error('the machine file must read');
const { machine } = read;
const WORK = workOf(machine, 2026)!;
const answer = planJob({ work: WORK, targets: ['stator'], people: 1 });
if (!answer.ok) throw new Error(answer.says);
const PLAN = answer.least;
const QUESTION = { km: 48_000, ahead: 20_000, hour: 40 };

describe('what else to replace', () => {
  it('speaks of what the way lays open, and of nothing else', () => {
    const advice = adviseOpen(PLAN, WORK, wearOf(machine), QUESTION)!;
    const ids = advice.lines.map(({ part }) => part.id);
    expect(ids).toContain('primary-chain');
    // The plan leaves the spring plate and the battery where they are.
    expect(ids).not.toContain('clutch-plates');
    expect(ids).not.toContain('battery');
    expect(advice.leftOut).toEqual([]);
  });

  it('reckons the way to each part by itself: the deeper one costs more to reach again', () => {
    const lines = adviseOpen(PLAN, WORK, wearOf(machine), QUESTION)!.lines;
    const access = (id: string) => lines.find(({ part }) => part.id === id)!.part.access!;
    expect(access('engine-sprocket')).toBeGreaterThan(access('primary-chain'));
    expect(access('primary-chain')).toBeGreaterThan(0);
  });

  it('never costs more than replacing nothing, and less the older the parts are', () => {
    let before = 0;
    for (const km of [0, 10_000, 30_000, 60_000, 120_000]) {
      const { cost, nothing } = adviseOpen(PLAN, WORK, wearOf(machine), { ...QUESTION, km })!;
      expect(cost).toBeLessThanOrEqual(nothing + 1e-9);
      expect(nothing - cost).toBeGreaterThanOrEqual(before - 1e-9);
      before = nothing - cost;
    }
  });

  it('says what it would save, why, and what would turn it', () => {
    const [line] = adviseOpen(PLAN, WORK, wearOf(machine), QUESTION)!.lines.filter(
      ({ part }) => part.id === 'primary-chain',
    );
    expect(line!.says).toMatch(
      /^Replace the primary chain: replacing it now saves about \d+\. Left in, \d+ in 100 fail within 20 thousand km, new \d+ in 100\. It pays from about \d+ thousand km on\.$/,
    );
  });

  it('is null where nothing that wears lies open, and says which were too many', () => {
    expect(adviseOpen(PLAN, WORK, [], QUESTION)).toBeNull();
    const item = (n: number): WearItem => ({
      id: `p${n}`,
      name: `part ${n}`,
      needs: ['primary-cover off'],
      shape: 3,
      lifeKm: 60_000,
      price: 10,
      spoils: 10,
      minutes: 5,
    });
    const many = Array.from({ length: 16 }, (_, n) => item(n));
    expect(adviseOpen(PLAN, WORK, many, QUESTION)!.leftOut).toEqual(['part 14', 'part 15']);
  });

  it('takes no more than forty thousand km for granted', () => {
    expect(usualKm(machine, machine.about.year + 3)).toBe(18_000);
    expect(usualKm(machine, machine.about.year + 40)).toBe(40_000);
    expect(usualKm(machine, machine.about.year - 1)).toBe(0);
  });
});

describe('parts at different depths', () => {
  const part = (id: string, access: number) => ({
    id,
    name: id,
    shape: 3,
    life: 60_000,
    age: 30_000,
    cost: 40,
    failure: 100,
    access,
  });

  it('at equal depths are the parts of one common way in', () => {
    const [a, b] = [part('a', 240), part('b', 240)];
    const bare = [a, b].map(({ access: _access, ...rest }) => rest);
    const own = whileOpen([a, b], 0, 20_000);
    const common = whileOpen(bare, 240, 20_000);
    expect(own.cost).toBeCloseTo(common.cost, 9);
    expect(own.lines.map(({ saves }) => saves)).toEqual(
      common.lines.map(({ saves }) => expect.closeTo(saves, 9)),
    );
  });

  it('are charged the dearest way in to any that fails: counted over all four outcomes', () => {
    const [deep, shallow] = [part('deep', 400), part('shallow', 60)];
    const { lines, nothing } = whileOpen([shallow, deep], 0, 20_000);
    const p = lines.find(({ part: { id } }) => id === 'deep')!.left;
    const q = lines.find(({ part: { id } }) => id === 'shallow')!.left;
    const expected = (p + q) * 140 + p * 400 + (1 - p) * q * 60;
    expect(nothing).toBeCloseTo(expected, 9);
  });
});

describe('a small work', () => {
  it('is planned and asked for what nobody said wears', () => {
    const made = planJob({ work: SMALL, targets: [SMALL.targets[0]!.id], people: 1 }, plainSchedule);
    if (!made.ok) throw new Error(made.says);
    expect(adviseOpen(made.least, SMALL, [], QUESTION)).toBeNull();
  });
});
