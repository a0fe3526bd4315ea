/** What ticks say was done: usual lengths, what runs by itself after them, and what the work does not know. */
import { describe, expect, it } from 'vitest';
import { didFrom } from '../../src/way/did-from.ts';
import { doneSteps } from '../../src/way/done-steps.ts';
import { planJob } from '../../src/way/plan.ts';
import type { Work } from '../../src/way/work.ts';
import { plainSchedule } from './plain-schedule.ts';

const exactly = (minutes: number) => ({ low: minutes, likely: minutes, high: minutes });
const step = (id: string, kind: 'seal' | 'cure' | 'torque', minutes: number, hands = 1) =>
  ({ id, does: id, kind, minutes: exactly(minutes), hands, tools: [], uses: [], lags: [] }) as const;

/** A cover whose bead skins by itself before the screws, and cures by itself after them. */
const WORK: Work = {
  actions: [
    {
      id: 'cover',
      does: 'Take the cover off',
      needs: [],
      gives: ['cover off'],
      minutes: exactly(10),
      hands: 1,
      tools: [],
      back: [
        step('bead', 'seal', 6),
        step('skin', 'cure', 15, 0),
        step('screws', 'torque', 8),
        step('cure', 'cure', 240, 0),
      ],
    },
  ],
  targets: [{ id: 'stator', name: 'stator', needs: ['cover off'], work: [], repairs: [] }],
  tools: [],
  supplies: [],
  closing: [],
  levels: [
    { name: 'bike whole', facts: [] },
    { name: 'open', facts: ['cover off'] },
  ],
};

const done = (id: string, at: number) => ({ id, begun: null, done: at });

describe('what ticks say was done', () => {
  it('gives a step its usual time up to its tick, and starts the cure that follows by itself', () => {
    const { did, strays } = didFrom(WORK, [done('cover', 12), done('bead', 40)]);
    expect(did).toEqual([
      { id: 'cover', start: 2, end: 12 },
      { id: 'bead', start: 34, end: 40 },
      { id: 'skin', start: 40, end: 55 },
    ]);
    expect(strays).toEqual([]);
  });

  it('takes a tick on what runs by itself before any reckoning', () => {
    const { did } = didFrom(WORK, [done('bead', 40), { id: 'skin', begun: 44, done: null }]);
    expect(did.find(({ id }) => id === 'skin')).toEqual({ id: 'skin', start: 44, end: 59 });
    const finished = didFrom(WORK, [done('bead', 40), { id: 'skin', begun: 44, done: 50 }]);
    expect(finished.did.find(({ id }) => id === 'skin')).toEqual({ id: 'skin', start: 44, end: 50 });
  });

  it('names ticks of steps that this work does not have, and leaves them out', () => {
    const { did, strays } = didFrom(WORK, [done('fairing', 5), done('cover', 12)]);
    expect(strays).toEqual(['fairing']);
    expect(did.map(({ id }) => id)).toEqual(['cover']);
  });

  it('plans from there: the running cure is waited for, not done again', () => {
    const { did } = didFrom(WORK, [done('cover', 12), done('bead', 40)]);
    const answer = planJob(
      { work: WORK, targets: ['stator'], people: 1, now: { at: 45, did, facts: [] } },
      plainSchedule,
    );
    if (!answer.ok) throw new Error(answer.says);
    const start = new Map(answer.least.steps.map((one) => [one.id, one.start]));
    expect(start.has('bead')).toBe(false);
    expect(start.get('screws')).toBe(55);
    expect(answer.least.ride.at).toBe(55 + 8 + 240);
  });

  it('shows what is done as steps of the same phases and depths', () => {
    const steps = doneSteps(WORK, didFrom(WORK, [done('cover', 12), done('bead', 40)]).did);
    expect(steps.map(({ id, phase, depth, unattended }) => [id, phase, depth, unattended])).toEqual([
      ['cover', 'in', 1, false],
      ['bead', 'out', 1, false],
      ['skin', 'out', 1, true],
    ]);
  });
});
