/** The short form of `npm run soak`: no request brings the server down or makes it answer 500, and the jobs stay what they were. */
import { describe, expect, it } from 'vitest';
import { demoJob } from '../../src/job/demo.ts';
import { partitions } from '../soak/partitions.ts';
import { fuzz } from './fuzz.ts';
import { openGarage } from './garage.ts';

describe('odd requests', () => {
  it('are each answered with less than 500, change no job, and leave the server standing', {
    timeout: 60_000,
  }, async () => {
    const garage = await openGarage();
    await garage.store.append(demoJob());
    const before = await garage.store.since('demo-ferry-run', 0);
    const { sent, statuses, bad } = await fuzz(garage, 600, 20_261_127);
    expect(bad).toEqual([]);
    expect([...statuses.values()].reduce((a, b) => a + b, 0)).toBeGreaterThan(0.8 * sent);
    // Not all of one kind: the noise gets past the first door too.
    expect(statuses.size).toBeGreaterThan(4);
    expect(garage.faults).toEqual([]);
    const after = await garage.store.since('demo-ferry-run', 0);
    expect(after.slice(0, before.length)).toEqual(before);
    expect((await garage.ask('/api/health')).status).toBe(200);
    await garage.close();
  });
});

describe('three devices apart', () => {
  it('come to one state with nothing lost (8, 13–16)', () => {
    const { runs, events, apart, lost } = partitions(60, 1);
    expect(events).toBeGreaterThan(10 * runs);
    expect([apart, lost]).toEqual([0, 0]);
  });
});
