/** Drawn cases and the report from the command line, with an answerer that always says the same. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { binClaims, calibrationError, scoreFigures } from '../../src/cases/reliability.ts';
import type { ScoreRow } from '../../src/cases/score.ts';
import { play } from '../../src/cli/play.ts';

const folder = mkdtempSync(join(tmpdir(), 'report-'));
afterAll(() => rmSync(folder, { recursive: true }));

const ALWAYS = {
  sets: [
    { faults: [], p: 0.7 },
    { faults: ['parasitic'], p: 0.3 },
  ],
  repairs: [{ repair: 'parasitic_draw', p: 0.3, do: false }],
  next: null,
};
const SCRIPT = `require('readline').createInterface({input: process.stdin}).on('line', () => console.log('${JSON.stringify(ALWAYS)}'))`;
const COMMAND = ['--', process.execPath, '-e', SCRIPT];

async function run(args: readonly string[]) {
  const lines: string[] = [];
  const warnings: string[] = [];
  const code = await play(
    [...args, ...COMMAND],
    (line) => lines.push(line),
    (line) => warnings.push(line),
  );
  return { code, lines, warnings };
}

describe('bins of claims', () => {
  const claims = [
    [0.05, false],
    [0.15, true],
    [0.1, false],
    [0.999, true],
    [1, true],
  ] as const;

  it('are worked out by hand', () => {
    const bins = binClaims(claims);
    expect(bins).toHaveLength(10);
    expect(bins[0]).toMatchObject({ from: 0, to: 0.1, count: 1, predicted: 0.05, observed: 0 });
    expect(bins[1]).toMatchObject({ count: 2, predicted: 0.125, observed: 0.5 });
    expect(bins[9]!.count).toBe(2);
    // (1·0.05 + 2·0.375 + 2·0.0005) / 5
    expect(calibrationError(bins)).toBeCloseTo(0.1602, 10);
  });

  it('and the figures of a run', () => {
    const row = (n: number, exact: boolean, spoiled: boolean): ScoreRow => ({
      id: '',
      n,
      exact,
      need: [],
      do: exact ? [] : ['battery'],
      masked: [],
      minutes: 10 * n,
      asked: n,
      inside: true,
      size: n + 1,
      pt: 0.5,
      claims,
      slip: spoiled,
      blamed: spoiled,
      false_doubt: false,
    });
    const figures = new Map(scoreFigures([row(0, false, false), row(1, true, true), row(2, true, false)]));
    expect(figures.get('repairs_exact')).toBeCloseTo(2 / 3, 12);
    expect(figures.get('sound_bike_part_bought')).toBe(1);
    expect(figures.get('minutes')).toBeCloseTo(10, 12);
    expect(figures.get('median_size_95_set')).toBe(2);
    expect(figures.get('repairs_exact_3_faults')).toBeNaN();
    expect(figures.get('claims_99')).toBe(6);
    expect(figures.get('claims_99_wrong')).toBe(0);
    expect(figures.get('spoiled_blamed')).toBe(1);
  });
});

describe('play', () => {
  it('plays drawn cases, the same for a seed', async () => {
    const first = await run(['--drawn', '2', '--seed', '3', '--log', join(folder, 'a')]);
    await run(['--drawn', '2', '--seed', '3', '--log', join(folder, 'b')]);
    await run(['--drawn', '2', '--seed', '4', '--log', join(folder, 'c')]);
    expect(first.code).toBe(0);
    expect(first.lines.some((line) => line.startsWith('all 2:'))).toBe(true);
    const [a, b, c] = ['a', 'b', 'c'].map((name) => readFileSync(join(folder, name), 'utf8'));
    expect(a).toBe(b);
    expect(a!.replaceAll('drawn-3', 'drawn-4')).not.toBe(c);
  });

  it('takes one half of the drawn cases', async () => {
    await run(['--drawn', '3', '--half', 'odd', '--log', join(folder, 'odd')]);
    const ids = readFileSync(join(folder, 'odd'), 'utf8').trimEnd().split('\n');
    expect(ids.map((line) => JSON.parse(line).id)).toEqual(['drawn-1-1']);
  });

  it('writes a diagram and tables for both halves and for drawn cases', async () => {
    const to = join(folder, 'out', 'report');
    const { code, lines, warnings } = await run(['--report', to, '--drawn', '2']);
    expect(code).toBe(0);
    expect(warnings).toHaveLength(3);
    expect(readdirSync(to).sort()).toEqual([
      'reliability-drawn.svg',
      'reliability-even.svg',
      'reliability-odd.svg',
      'reliability.csv',
      'report.txt',
      'scores.csv',
    ]);
    const read = (name: string) => readFileSync(join(to, name), 'utf8');
    expect(read('report.txt')).toBe(`${lines.join('\n')}\n`);
    const bins = read('reliability.csv').trimEnd().split('\n');
    expect(bins[0]).toBe('part,from,to,claims,said,came_true,low_90,high_90');
    // One claim a case, all of 0.3.
    expect(bins[1]).toMatch(/^even,0\.3,0\.4,30,0\.3,/);
    expect(bins[3]).toMatch(/^drawn,0\.3,0\.4,2,0\.3,/);
    expect(read('scores.csv')).toMatch(/^even,cases,30$/m);
    const picture = read('reliability-even.svg');
    expect(picture).toMatch(/^<svg /);
    expect(picture).toContain('said 30 %');
    expect(picture).not.toContain('var(--');
  });

  it('says in one sentence what does not go together', async () => {
    writeFileSync(join(folder, 'file'), '');
    const tries: [string[], RegExp][] = [
      [['--drawn', '0'], /--drawn takes a whole number/],
      [['--seed', 'x'], /--seed takes a whole number/],
      [['cases.jsonl', '--drawn', '3'], /no file/],
      [['--report', '--half', 'odd'], /leave --half out/],
      [['--report', join(folder, 'file', 'in')], /cannot be written to/],
      [['--drawn', '1', '--half', 'odd'], /no case in the drawn odd part/],
    ];
    for (const [args, sentence] of tries) {
      const { code, lines, warnings } = await run(args);
      expect(code).toBe(2);
      expect(lines).toEqual([]);
      expect(warnings).toHaveLength(1);
      expect(warnings[0]).toMatch(sentence);
    }
  });
});
