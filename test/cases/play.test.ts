/** The project's player and report against the scorer that defines them (play.py), on the same scripted answers. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { playCase } from '../../src/cases/play.ts';
import { readCases } from '../../src/cases/read-cases.ts';
import { play, readOptions } from '../../src/cli/play.ts';

const at = (name: string) => fileURLToPath(new URL(name, import.meta.url));
const [OPEN, SCORER, FAKE] = [at('open.jsonl'), at('play.py'), at('fake-answerer.mjs')];
const folder = mkdtempSync(join(tmpdir(), 'play-'));
afterAll(() => rmSync(folder, { recursive: true }));

const python = spawnSync('python3', ['--version']).status === 0;
/** Without python3 the comparison is named as not run; where everything has to run it fails instead. */
const notRun = !python && process.env.CI !== 'true';
const comparing = it.skipIf(notRun);

async function ours(args: readonly string[]): Promise<{ code: number; lines: string[]; warnings: string[] }> {
  const lines: string[] = [];
  const warnings: string[] = [];
  const code = await play(
    args,
    (line) => lines.push(line),
    (line) => warnings.push(line),
  );
  return { code, lines, warnings };
}

/** Milliseconds are the machine's, not the scorer's. */
const timeless = (lines: readonly string[]) =>
  lines.map((line) => line.replace(/\d+/g, (n) => (line.startsWith('answer ms') ? '·' : n)));

describe(`player and report against play.py${notRun ? ' (NOT RUN: python3 is missing)' : ''}`, () => {
  const settings = [[], ['--half', 'even'], ['--half', 'odd', '--max', '9'], ['--no-slips'], ['--jobs', '2']];
  for (const setting of settings) {
    comparing(`prints the same report with ${setting.join(' ') || 'nothing set'}`, async () => {
      const [theirLog, ourLog] = [join(folder, 'theirs'), join(folder, 'ours')];
      const command = ['--', process.execPath, FAKE, OPEN];
      const theirs = setting.filter((word) => !['--jobs', '2'].includes(word));
      const output = execFileSync('python3', [SCORER, OPEN, ...theirs, '--log', theirLog, ...command], {
        encoding: 'utf8',
      });
      const { code, lines, warnings } = await ours([OPEN, ...setting, '--log', ourLog, ...command]);
      expect(warnings).toEqual([]);
      expect(code).toBe(0);
      expect(timeless(lines)).toEqual(timeless(output.trimEnd().split('\n')));
      const rows = (file: string) =>
        readFileSync(file, 'utf8')
          .trimEnd()
          .split('\n')
          .map((line) => JSON.parse(line));
      expect(rows(ourLog)).toEqual(rows(theirLog));
    });
  }

  comparing(
    'the comparison sees every branch: slips, blame, masked faults, wrong sets, sound bikes',
    async () => {
      const log = join(folder, 'seen');
      await ours([OPEN, '--log', log, '--', process.execPath, FAKE, OPEN]);
      const rows = readFileSync(log, 'utf8')
        .trimEnd()
        .split('\n')
        .map((line) => JSON.parse(line));
      for (const seen of [
        rows.filter((row) => row.slip).length > 10,
        rows.some((row) => row.blamed),
        rows.some((row) => row.false_doubt),
        rows.some((row) => row.masked.length > 0),
        rows.some((row) => row.exact) && rows.some((row) => !row.exact),
        rows.some((row) => row.inside) && rows.some((row) => !row.inside),
        rows.some((row) => row.n === 0 && row.do.length > 0),
        rows.some((row) => Object.keys(row.readings).length < row.asked),
      ])
        expect(seen).toBe(true);
    },
  );
});

describe('playing', () => {
  it('says in one sentence what is wrong with the arguments, the file or the command', async () => {
    const cases: [string[], RegExp][] = [
      [['no-such-file.jsonl'], /no-such-file\.jsonl cannot be read/],
      [['--half', 'left'], /--half takes even or odd, got left/],
      [['--max', '0'], /--max takes a whole number/],
      [['--swift'], /--swift is no option/],
      [['a', 'b'], /b is a second file/],
      [['--'], /must be followed by a command/],
      [[OPEN, '--log', join(folder, 'no', 'such')], /cannot be written/],
      [[OPEN, '--', 'no-such-command-anywhere'], /cannot be started/],
      [[OPEN, '--', process.execPath, '-e', ''], /ended early/],
      [[OPEN, '--', process.execPath, '-e', 'console.log(7); setTimeout(() => {}, 300)'], /answered "7"/],
    ];
    for (const [args, sentence] of cases) {
      const { code, lines, warnings } = await ours(args);
      expect(code).toBe(2);
      expect(lines).toEqual([]);
      expect(warnings).toHaveLength(1);
      expect(warnings[0]).toMatch(sentence);
    }
  });

  it('plays on past answers that are errors, names them and says so in its exit code', async () => {
    const script =
      "require('readline').createInterface({input: process.stdin}).on('line', () => console.log('{\"error\":\"no such bike\"}'))";
    const { code, lines, warnings } = await ours([OPEN, '--', process.execPath, '-e', script]);
    expect(code).toBe(1);
    expect(warnings).toHaveLength(60);
    expect(warnings[0]).toBe('open-0000: no such bike');
    expect(lines.at(-1)).toBe('score 10.0');
  });

  it('names the line of a file of cases that is wrong', async () => {
    const good = readFileSync(OPEN, 'utf8').split('\n')[0]!;
    const bad = join(folder, 'bad.jsonl');
    const tries: [string, RegExp][] = [
      [`${good}\n{"id":`, /line 2 is not JSON/],
      [`${good}\n\n${good.replace('"masked"', '"musked"')}`, /line 3: truth\.masked is missing/],
      [good.replace('"faults":["', '"faults":["x_'), /line 1: truth\.faults has the unknown name "x_/],
      [
        good.replace('"rest_volts":[10.43,2]', '"rest_volts":10.43'),
        /line 1: readings\["rest_volts"\] must be \[value, minutes\]/,
      ],
      ['', /no cases/],
    ];
    for (const [text, sentence] of tries) {
      writeFileSync(bad, text);
      const { code, warnings } = await ours([bad]);
      expect(code).toBe(2);
      expect(warnings[0]).toMatch(sentence);
    }
  });

  it('plays the open cases in a process of its own unless told otherwise', () => {
    const options = readOptions([]);
    expect(options.file).toBe(OPEN);
    expect(options.command[1]).toMatch(/dist\/cli\/lines-main\.js$/);
    expect(readOptions(['--inside', '--jobs', '2'])).toMatchObject({
      inside: true,
      jobs: 2,
      most: 80,
      slips: true,
    });
  });

  it('counts minutes and set-up as worked out by hand', async () => {
    const practice = readCases(readFileSync(OPEN, 'utf8'))[0]!;
    const wanted = [
      'rest_volts',
      'ohms_pair pair=ab',
      'ohms_pair pair=ab',
      'stator_ac pair=ab temp=hot',
      'capacity_minutes',
    ];
    const { player } = await playCase(practice, () =>
      JSON.stringify({ next: wanted.length > 0 ? { key: wanted.shift() } : null }),
    );
    // 2; 2 + 6 to unplug; 2; 3 + 15 to heat; 25 + 20 to charge.
    expect(player.minutes).toBe(2 + 8 + 2 + 18 + 45);
    expect(player.asked).toBe(5);
    expect(player.tried).toEqual(['ohms_pair pair=ab']);
  });
});
