/** `begin` and `sharpen` at the command line. */
import { describe, expect, it } from 'vitest';
import { ARDMOOR, file, run } from './run.ts';

describe('begin', () => {
  it('alone lists every question with its reason, as text and as JSON', async () => {
    const { code, out } = await run(['begin']);
    expect(code).toBe(0);
    const asked = JSON.parse((await run(['begin', '--json'])).out) as {
      option: string;
      why: string;
      otherwise: Record<string, string>;
    }[];
    expect(asked.length).toBe(12);
    const flat = out.replace(/\s+/g, ' ');
    for (const { option, why, otherwise } of asked) {
      expect(flat).toContain(`${option}: `);
      expect(flat).toContain(why);
      expect(Object.keys(otherwise)).toEqual(['primary', 'crank-cover', 'single']);
    }
  });

  it('writes a file that is in order, goes through the verdict, and says what to find out', async () => {
    const args = [
      'begin',
      '--template',
      'primary',
      '--phases',
      '3',
      '--rated',
      '34 A',
      '--page',
      'rated=8-3',
    ];
    const { code, out, err } = await run([
      ...args,
      '--ac-volts=51 V at 3000 rpm',
      '--from',
      'ac-volts=measured',
    ]);
    expect([code, err]).toEqual([0, '']);
    expect(out).toContain(
      '"ratedAmps": { "is": "34 A ± 10 %", "at": "5000 rpm", "from": "book", "page": "8-3" }',
    );
    expect(out).toContain('"is": "51 V AC ± 8 %", "at": "3000 rpm", "from": "measured"');
    const name = file('my-bike.json', out);
    expect((await run(['check', name])).out).toContain('in order');
    expect((await run(['sound', name, 'stator_ac rpm=3000 pair=ab'])).code).toBe(0);
    const found = await run(['sharpen', name]);
    expect(found.code).toBe(0);
    expect(found.out).not.toContain('charging.alternator.openVolts');
    expect(found.out).toContain('charging.battery.crankAmps');
    const { figures } = JSON.parse((await run(['sharpen', name, '--json'])).out) as {
      figures: { path: string; gain: { told: number } }[];
    };
    expect(figures[0]!.gain.told).toBeGreaterThan(0.1);
  });

  it('as JSON says how the file is marked and what was left open', async () => {
    const { out } = await run(['begin', '--template', 'single', '--headlamp', '35 W', '--json']);
    const { text, mark, open } = JSON.parse(out) as {
      text: string;
      mark: string;
      open: { question: string }[];
    };
    expect(mark).toBe('clean');
    expect(JSON.parse(text)).toMatchObject({
      version: 2,
      charging: { loads: { low: { is: '35 W', from: 'labels' } } },
    });
    const left = open.map(({ question }) => question);
    expect(left).toContain('rated');
    expect(left).not.toContain('headlamp');
  });

  it.each([
    [['begin', '--rated', '34 A'], '--template: The template is not said. Choose one'],
    [['begin', '--template', 'boxer'], 'is no template'],
    [['begin', '--template', 'single', '--rated', '34 V'], '--rated: '],
    [['begin', '--template', 'single', '--from', 'rated=book'], 'goes with --rated, which is not given'],
    [['begin', '--template', 'single', '--from', 'maker=book', '--maker', 'X'], 'names no figure'],
    [['begin', '--template', 'single', '--rated', '9 A', '--from', 'rated=uncle'], '"uncle" cannot say it'],
    [['begin', 'primary'], 'one word too many'],
    [['sharpen'], 'wants MACHINE'],
    [['sharpen', 'nowhere.json'], 'does not exist'],
  ])('refuses %j', async (args, words) => {
    const { code, out, err } = await run(args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(words);
  });
});

describe('sharpen', () => {
  it('says so where every figure is known', async () => {
    expect((await run(['sharpen', ARDMOOR])).out).toContain('no figure of the charging circuit is so wide');
  });
});

describe('estimate', () => {
  it('lists, shows what one wants to know, and answers as text and as JSON', async () => {
    expect((await run(['estimate'])).out).toMatch(/^ac-volts {2}/);
    expect((await run(['estimate', 'ohms'])).out).toContain('Example:');
    const args = ['estimate', 'ac-volts', 'volts=51 V', 'speed=3000 rpm', 'engine=cold'];
    expect((await run(args)).out).toMatch(/: 16\.\d–18\.\d V AC\n.*\n {4}engine speed by ear: −/);
    const { goes, text } = JSON.parse((await run([...args, '--json'])).out) as { goes: string; text: string };
    expect(goes).toBe('$.charging.alternator.openVolts');
    expect(text).toMatch(/ V AC$/);
  });

  it.each([
    [['estimate', 'torque'], 'is no estimate'],
    [['estimate', 'ohms', 'drop'], 'is no field with its text'],
    [['estimate', 'ohms', 'drop=0.2 V'], 'amps is not given'],
    [['estimate', 'ohms', 'drop=0.2 V', 'drop=0.3 V'], 'given twice'],
  ])('refuses %j', async (args, words) => {
    const { code, out, err } = await run(args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(words);
  });
});
