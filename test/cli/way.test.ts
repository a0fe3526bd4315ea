/** `way` and `schedule` at the command line. */
import { describe, expect, it } from 'vitest';
import { run } from './run.ts';

const ARDMOOR = 'machines/ardmoor-650-pathway.json';

describe('way', () => {
  it('tells the plan with its proof, the clock and the caution', async () => {
    const { code, out } = await run(['way', ARDMOOR, '--to', 'stator', '--people', '2']);
    expect(code).toBe(0);
    expect(out).toMatch(/Least work: .*the least there is/);
    expect(out).toMatch(/one time in two, at .* nine\s+times in ten/);
    expect(out).toContain('Going in:');
    expect(out).toContain('Coming back out:');
    expect(out).toMatch(/own book, local rules/);
  });

  it('plans anew when something is seized, and says what has changed', async () => {
    const { out } = await run(['way', ARDMOOR, '--to', 'stator', '--seized', 'adjuster-slack']);
    expect(out).toMatch(/will not come\. New:\s+"Take the tensioner out with its shoe"/);
    expect(out).toMatch(/The\s+ride\s+is .* later/);
  });

  it('says what else to replace while it is open, by age', async () => {
    const show = ['way', ARDMOOR, '--to', 'stator', '--show', 'open', '--km'];
    const old = (await run([...show, '48000'])).out;
    expect(old).toContain('■ Replace the primary chain');
    expect(old.replaceAll(/\s+/g, ' ')).toContain('the money is of no country');
    expect((await run([...show, '1000'])).out).toContain('□ Leave the primary chain');
    expect((await run([...show, '-5'])).err).toContain('--km');
  });

  it('lists what to have on the bench, says when to start for a ride, draws the dip and writes JSON', async () => {
    const base = ['way', 'machines/pemburrow-900-carillon.json', '--to', 'stator'];
    const { out } = await run([...base, '--show', 'list', '--ride-by', '09:00', '--day', '2']);
    expect(out).toContain('crank cover gasket (new each time)');
    expect(out.replaceAll(/\s+/g, ' ')).toMatch(
      /With one person start by \d\d:\d\d on day \d to ride at 09:00 on day 3: 9\d in 100 runs keep it, \d still comes? late/,
    );
    expect((await run([...base, '--svg'])).out).toMatch(/^<svg[\s\S]*P90[\s\S]*<\/svg>\n$/);
    const asked = [...base, '--ride-by', '09:00', '--day', '2', '--json'];
    const found = JSON.parse((await run(asked)).out) as {
      least: { work: { proved: boolean } };
      clock: { p50: number; p90: number };
      rideBy: {
        people: number;
        deadline: number;
        latest: { chance: number; start: number; kept: number }[];
      }[];
    };
    expect(found.rideBy.map(({ people, deadline }) => [people, deadline])).toEqual([
      [1, 39 * 60],
      [2, 39 * 60],
    ]);
    for (const { latest, deadline } of found.rideBy)
      for (const { chance, start, kept } of latest) {
        expect(kept).toBeGreaterThanOrEqual(chance);
        expect(start).toBeLessThan(deadline);
      }
    expect(found.least.work.proved).toBe(true);
    expect(found.clock.p90).toBeGreaterThanOrEqual(found.clock.p50);
  });

  it.each([
    [['way', ARDMOOR], 'Name what you want to get to'],
    [['way', ARDMOOR, '--to', 'statr'], 'the nearest is "stator"'],
    [['way', ARDMOOR, '--to', 'stator', '--people', '3'], 'people'],
    [['way', ARDMOOR, '--to', 'stator', '--start', 'six'], 'such as 18:00'],
    [['way', ARDMOOR, '--to', 'stator', '--nights', '22'], 'such as 22:00-07:00'],
    [['way', ARDMOOR, '--to', 'stator', '--ride-by', 'nine'], '--ride-by wants a time such as 18:00'],
    [['way', ARDMOOR, '--to', 'stator', '--ride-by', '09:00', '--day', '20'], '--day'],
    [['way', ARDMOOR, '--to', 'stator', '--leave', 'stator off'], 'needs'],
    [['way', ARDMOOR, '--to', 'stator', '--seized', 'adjuster-slak'], 'adjuster-slack'],
  ])('refuses %j', async (args, words) => {
    const { code, out, err } = await run(args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(words);
    expect(err).not.toMatch(/NaN|undefined|Infinity/);
  });
});

describe('schedule', () => {
  it('prints the least time alone, and "infeasible"', async () => {
    expect((await run(['schedule', 'test/fixtures/schedule/seven.sch'])).out).toBe('27\n');
    expect((await run(['schedule', 'test/fixtures/schedule/p12-1.sch'])).out).toBe('infeasible\n');
    const found = JSON.parse((await run(['schedule', 'test/fixtures/schedule/seven.sch', '--json'])).out) as {
      makespan: number;
      starts: number[];
    };
    expect(found.makespan).toBe(27);
    expect(found.starts).toHaveLength(9);
  });

  it('refuses a file of another kind with its line', async () => {
    const { code, err } = await run(['schedule', ARDMOOR]);
    expect(code).toBe(2);
    expect(err).toMatch(/Line 1: the number of activities/);
  });
});
