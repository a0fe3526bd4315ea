/** `ride` at the command line. */
import { describe, expect, it } from 'vitest';
import { ARDMOOR, file, run } from './run.ts';

const CRAWL = ['ride', ARDMOOR, '--legs', 'crawl 1000 rpm 1 h', '--load', 'jacket 90 W'];

describe('ride', () => {
  it('says whether it stays charged, from which speed on, and what would help', async () => {
    const { code, out, err } = await run(CRAWL);
    expect([code, err]).toEqual([0, '']);
    expect(out).toContain('It does not stay charged.');
    expect(out).toMatch(/the alternator gives them from about \d+ rpm \(\d+–\d+ rpm\)/);
    expect(out).toMatch(/What helps, the most first:\n {2}\S/);
    expect(out).toContain('! An estimate');
  });

  it('takes legs from a file and from standard input, and gives one JSON object', async () => {
    const legs = '# to the ferry\ntown 1800 rpm 20 min\nqueue engine off 30 min parking lights\n';
    const named = await run(['ride', ARDMOOR, '--legs', file('legs.txt', legs), '--days', '3', '--json']);
    const piped = await run(['ride', ARDMOOR, '--legs', '-', '--days', '3', '--json'], legs);
    expect(piped.out).toBe(named.out);
    const found = JSON.parse(named.out) as {
      life: { legs: unknown[]; days: number };
      verdict: string;
      months: { likely: { days: unknown[]; books: Record<string, number> } };
    };
    expect(found.life.legs).toHaveLength(2);
    expect(found.months.likely.days).toHaveLength(3);
    const b = found.months.likely.books;
    const gained = b.stored! + b.mains! - b.drawn! - b.started! - b.drained! - b.leaked!;
    expect(b.first! + gained).toBeCloseTo(b.last!, 6);
  });

  it('draws the month', async () => {
    expect((await run(['ride', ARDMOOR, '--air', '-5 °C', '--every', '3', '--svg'])).out).toMatch(
      /^<svg[\s\S]*worn to new battery[\s\S]*<\/svg>\n$/,
    );
  });

  it('leaves the additions of the machine file out when told', async () => {
    const { out } = await run(['ride', ARDMOOR, '--accessories', 'off', '--days', '1']);
    expect(out).not.toContain('what is wired on now');
  });

  it.each([
    [['--legs', 'town 1800 rpm'], 'Leg 1, "town 1800 rpm": it does not say how long'],
    [['--legs', 'nowhere.txt'], 'nowhere.txt does not exist'],
    [['--load', 'jacket'], 'it does not say what it draws'],
    [['--load', 'x 5 W', '--load', 'x 6 W'], 'Two loads are called "x"'],
    [['--load', 'x 5 W in space'], 'there is no leg "space": the legs are town, parked.'],
    [['--air', '5 V'], '--air:'],
    [['--air', '200 °C'], 'The temperature must lie between -30 and 50 °C, not 200.'],
    [['--days', '0'], '--days may be a number from 1 to 366 days, not "0".'],
    [['--days', '2.5'], 'The number of days must be a whole number, not 2.5.'],
    [['--legs', 'a 900 rpm 13 h; b 900 rpm 12 h'], 'a day has 1440'],
    [['--svg', '--json'], 'cannot go together'],
  ])('refuses %j', async (args, words) => {
    const { code, out, err } = await run(['ride', ARDMOOR, ...args]);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(words);
  });
});
