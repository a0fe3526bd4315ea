import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { ARDMOOR, build, file, OSKERLUND, PEMBURROW, ROOT, run, runProcess, runUnread } from './run.ts';

beforeAll(build, 120_000);

/** Splits an example line as a shell would: quotes, and `<`/`>` with a file. */
function shellWords(example: string): { args: string[]; from: string | null } {
  const words = [...example.matchAll(/"([^"]*)"|(\S+)/g)].map((match) => match[1] ?? match[2]!);
  const out = words.indexOf('>');
  if (out >= 0) words.splice(out, 2);
  const from = words.indexOf('<');
  const source = from >= 0 ? words.splice(from, 2)[1]! : null;
  return { args: words, from: source };
}

/** The first practice case with two of its readings: all of them, of all sixty, would take minutes. */
function firstQuestion(name: string): string {
  const [line] = readFileSync(join(ROOT, name), 'utf8').split('\n');
  const question = JSON.parse(line!) as { readings: Record<string, unknown> };
  const readings = Object.fromEntries(Object.entries(question.readings).slice(0, 2));
  return `${JSON.stringify({ ...question, readings })}\n`;
}

const COMMANDS = [
  'verdict',
  'why',
  'sound',
  'point',
  'sweep',
  'netlist',
  'ride',
  'sum',
  'begin',
  'estimate',
  'sharpen',
  'check',
  'words',
  'schema',
  'merge',
  'share',
  'lines',
];

describe('help', () => {
  it('lists every command with an example', async () => {
    const { code, out, err } = await runProcess(['--help']);
    expect([code, err]).toEqual([0, '']);
    for (const name of COMMANDS)
      expect(out).toMatch(new RegExp(`\\n {2}${name} +chargewright ${name} `.replace(' `', '`')));
    expect((await run([])).out).toBe(out);
    expect((await run(['help', 'point'])).out).toBe((await run(['point', '--help'])).out);
  });

  it.each(COMMANDS)('of %s shows its options and an example that runs', async (name) => {
    const { code, out } = await run([name, '--help']);
    expect(code).toBe(0);
    const example = /Example:\n {2}chargewright (.*)\n {2}shows \S/.exec(out)?.[1];
    expect(example).toMatch(new RegExp(`^${name}\\b`));
    const { args, from } = shellWords(example!);
    const ran = await run(args, from === null ? '' : firstQuestion(from));
    expect([ran.code, ran.err]).toEqual([0, '']);
    expect(ran.out.length).toBeGreaterThan(20);
  });
});

describe('point and sweep', () => {
  it('agree, in every form', async () => {
    const state = ['--lights', 'high', '--temp', 'hot'];
    const [point, table, csv, json] = await Promise.all([
      run(['point', ARDMOOR, '--rpm', '2000', '--json', ...state]),
      run(['sweep', ARDMOOR, '--from', '1000', '--to', '3000', '--step', '1000', ...state]),
      run(['sweep', ARDMOOR, '--from', '1000', '--to', '3000', '--step', '1000', '--csv', ...state]),
      run(['sweep', ARDMOOR, '--from', '1000', '--to', '3000', '--step', '1000', '--json', ...state]),
    ]);
    const single = JSON.parse(point.out) as Record<string, number | string>;
    const rows = json.out
      .trim()
      .split('\n')
      .map((text) => JSON.parse(text) as Record<string, number>);
    expect(rows.map((row) => row.rpm)).toEqual([1000, 2000, 3000]);
    const { machine, circumstances, ...figures } = single;
    expect(machine).toBe('Ardmoor 650 Pathway, 1991 (invented)');
    expect(circumstances).toBe('high beam, hot, sound');
    expect(rows[1]).toEqual(figures);
    const lines = csv.out.split('\r\n');
    expect(lines).toHaveLength(5);
    expect(lines[0]).toMatch(/^rpm,battery V,regulator V,alternator A,into battery A,phase a A rms/);
    const volts = Number(figures.batteryVolts).toFixed(2);
    expect(lines[2]!.split(',').slice(0, 2)).toEqual(['2000', volts]);
    expect(table.out).toMatch(new RegExp(`\\n2000 +${volts.replace('.', '\\.')} `));
  });

  it('show what a fault does: burnt pin, runaway, open ground', async () => {
    const at = async (rpm: string, ...more: string[]) =>
      JSON.parse((await run(['point', ARDMOOR, '--rpm', rpm, '--json', ...more])).out) as Record<
        string,
        number
      >;
    const [sound, pin, runaway, off] = await Promise.all([
      at('900'),
      at('900', '--fault', 'plug-pin:0.5:b'),
      at('5000', '--fault', 'regulator-runaway'),
      at('900', '--lights', 'off', '--accessories', 'off'),
    ]);
    expect(pin.batteryVolts).toBeLessThan(sound.batteryVolts! - 0.02);
    expect(pin.pinBVolts).toBeGreaterThan(1);
    expect(pin.pinAVolts).toBeLessThan(0.1);
    expect(runaway.batteryVolts).toBeGreaterThan(15.1);
    expect(off.batteryAmps).toBeGreaterThan(sound.batteryAmps! + 2);
  });

  it('give a single-phase machine one winding and two pins', async () => {
    const { out } = await run(['sweep', OSKERLUND, '--from', '3000', '--to', '3000', '--csv']);
    expect(out.split('\r\n')[0]).toBe(
      'rpm,battery V,regulator V,alternator A,into battery A,winding A rms,ripple mV,drop + V,drop − V,breaker V,joint V,pin a V rms,pin b V rms',
    );
  });

  it('draw a sweep that is well-formed, titled and inside its sheet', async () => {
    for (const machine of [ARDMOOR, OSKERLUND, PEMBURROW]) {
      const { out, code } = await run(['sweep', machine, '--svg', '--step', '500']);
      expect(code).toBe(0);
      expect(out).toMatch(/^<svg [^>]*width="760" height="800"/);
      expect(out).toMatch(/<title>\w+ \d+ \w+, \d{4} \(invented\)<\/title>/);
      const open: string[] = [];
      for (const [, end, tag, empty] of out.matchAll(/<(\/?)([a-z]+)[^<>]*?(\/?)>/g)) {
        if (end) expect(open.pop()).toBe(tag);
        else if (!empty) open.push(tag!);
      }
      expect(open).toEqual([]);
      expect(out).not.toMatch(/NaN|Infinity|undefined|var\(--/);
      // Four curves and the book's band by name, and nothing drawn off its own sheet of 760 × 400.
      for (const name of ['battery', 'regulator', 'alternator', 'into battery', 'book, at 5000 rpm'])
        expect(out).toContain(`>${name}<`);
      const places = [...out.matchAll(/<polyline[^>]* points="([^"]*)"|<path[^>]* d="M([\d. ,L-]*)"/g)].map(
        (match) =>
          (match[1] ?? match[2] ?? '')
            .split(/[L ,]+/)
            .filter(Boolean)
            .map(Number),
      );
      expect(places.length).toBeGreaterThan(3);
      for (const place of places.flatMap((one) =>
        one.map((value, n) => [value, n % 2 === 0 ? 760 : 400] as const),
      )) {
        expect(place[0]).toBeGreaterThanOrEqual(-1);
        expect(place[0]).toBeLessThanOrEqual(place[1] + 1);
      }
    }
  });
});

describe('verdict', () => {
  const pin = [
    '# a burnt pin: fine at speed, poor at idle',
    'rest_volts : 12.4 V',
    'batt_volts lights=low rpm=idle : 12.30 V',
    'batt_volts lights=low rpm=3000 : 14.20 V',
    'plug_drop_ac pin=a rpm=3000 : 8.2 V',
    'plug_drop_ac pin=b rpm=3000 : 0.10 V',
    'symptom : runs_flat_riding',
  ].join('\n');

  it('says what is dead and what to do, for people', async () => {
    const { code, out, err } = await runProcess(['verdict', ARDMOOR, file('pin.txt', pin)]);
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^Ardmoor 650 Pathway, 1991 \(invented\)\n/);
    expect(out).toMatch(/plug_drop_ac pin=a rpm=3000: 8\.2 V {2}\[[^\]]+ V\]/);
    expect(out).toMatch(/\n\s+(\d\d|> 99) % {2}(one|several) burnt pins? in the stator plug\n/);
    expect(out).toMatch(/\n\s+(\d\d|> 99) % {2}do {5}Replace the stator plug/);
    expect(out).toMatch(/\nNext reading: /);
  });

  it('says the same as JSON, whichever way the readings come', async () => {
    const json = JSON.stringify({
      rest_volts: 12.4,
      'batt_volts lights=low rpm=idle': '12.30 V',
      'batt_volts lights=low rpm=3000': '14200 mV',
      'plug_drop_ac pin=a rpm=3000': 8.2,
      'plug_drop_ac pin=b rpm=3000': '100 mV',
    });
    const [object, stdin] = await Promise.all([
      run(['verdict', ARDMOOR, file('pin.json', json), '--symptom', 'runs_flat_riding', '--json']),
      runProcess(['verdict', ARDMOOR, '-', '--json'], pin),
    ]);
    const answer = JSON.parse(object.out) as {
      evidence: { readings: Record<string, number>; symptoms: string[] };
      sets: { faults: string[]; probability: number }[];
      repairs: { repair: string; worthDoing: boolean }[];
    };
    expect(answer.evidence.readings['plug_drop_ac pin=b rpm=3000']).toBe(0.1);
    expect(answer.evidence.symptoms).toEqual(['runs_flat_riding']);
    expect(answer.sets[0]!.faults[0]).toMatch(/^plug-pins?$/);
    expect(answer.repairs.filter((one) => one.worthDoing).map((one) => one.repair)).toContain(
      'replace-stator-plug',
    );
    expect(stdin.out).toBe(object.out);
  });

  it('computes the band of a sound bike for each machine', async () => {
    const low = async (machine: string, key: string) =>
      JSON.parse((await run(['sound', machine, key, '--json'])).out) as {
        band: { low: number; high: number };
      };
    const [ardmoor, oskerlund] = await Promise.all([
      low(ARDMOOR, 'stator_ac rpm=3000'),
      low(OSKERLUND, 'stator_ac rpm=3000'),
    ]);
    // The books: 17.0 V ± 10 % at 1000 rpm, and 54–66 V at 3000 rpm.
    expect(ardmoor.band.low).toBeGreaterThan(40);
    expect(ardmoor.band.low).toBeLessThan(51);
    expect(ardmoor.band.high).toBeGreaterThan(51);
    expect(oskerlund.band.low).toBeLessThan(60);
    expect(oskerlund.band.high).toBeGreaterThan(60);
    expect(oskerlund.band.high - ardmoor.band.high).toBeGreaterThan(3);
  });
});

describe('the rest', () => {
  it('checks several machines, and says where the sources differ', async () => {
    const { code, out } = await run(['check', ARDMOOR, OSKERLUND, PEMBURROW]);
    expect(code).toBe(0);
    expect(out.match(/: in order\.\n/g)).toHaveLength(3);
    expect(out).toMatch(
      /regulator\.type: .*says shunt, .*says series; the latter counts, because that regulator is fitted/,
    );
    const json = (await run(['check', ARDMOOR, '--json'])).out;
    expect(JSON.parse(json)).toMatchObject({ file: ARDMOOR, about: { maker: 'Ardmoor', invented: true } });
  });

  it('counts the figures of a new part', async () => {
    const at = async (...more: string[]) =>
      JSON.parse((await run(['point', ARDMOOR, '--json', ...more])).out) as { batteryVolts: number };
    const deck = (await run(['netlist', ARDMOOR, '--new', 'alternator'])).out;
    expect(deck).not.toBe((await run(['netlist', ARDMOOR])).out);
    expect((await at('--new', 'regulator')).batteryVolts).toBeGreaterThan(13.5);
  });

  it('writes a netlist that starts with its title and ends', async () => {
    const { out } = await run(['netlist', OSKERLUND, '--rpm', '1500', '--fault', 'diode-open']);
    expect(out).toMatch(
      /^\* Oskerlund 420 Fellgate, 1984 \(invented\): 1500 rpm, low beam, cold, a rectifier device open, a\n/,
    );
    expect(out.trimEnd()).toMatch(/\.end$/i);
  });

  it('publishes the schema', async () => {
    expect((await run(['schema'])).out).toBe(readFileSync(join(ROOT, 'schema/machine.schema.json'), 'utf8'));
  });

  it('answers lines in order, a bad one with its error, and goes on', async () => {
    const [one] = readFileSync(join(ROOT, 'test/cases/open.jsonl'), 'utf8').split('\n');
    const { id, nameplate, complaint } = JSON.parse(one!) as Record<string, unknown>;
    const good = JSON.stringify({ id, nameplate, complaint, readings: {} });
    const { code, out, err } = await runProcess(
      ['lines'],
      `${good}\nnot json\n${good.replace(String(id), 'second')}\n`,
    );
    expect([code, err]).toEqual([0, '']);
    const answers = out
      .trim()
      .split('\n')
      .map((text) => JSON.parse(text) as Record<string, unknown>);
    expect(answers).toHaveLength(3);
    expect([answers[0]!.id, answers[2]!.id]).toEqual([id, 'second']);
    expect(answers[0]!.sets).toBeInstanceOf(Array);
    expect(answers[1]!.error).toMatch(/not JSON/);
  });

  it.each([['schema'], ['words', 'readings'], ['sweep', ARDMOOR, '--csv'], ['lines']])(
    'stops quietly when nobody reads what %s prints',
    async (...args) => {
      const { code, err } = await runUnread(args, args[0] === 'lines' ? 'no\n'.repeat(2000) : '');
      expect(err).toBe('');
      expect(code).toBe(0);
    },
  );
});
