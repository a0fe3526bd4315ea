/** The joint weight against textbook formulas and brute force: a Gaussian, its mistakes, and one reading left out. */
import { expect, it } from 'vitest';
import { logNormalDensity } from '../../src/numbers/normal.ts';
import { drawNormal, openStream } from '../../src/numbers/random.ts';
import { elsewhereOf, MISTAKES, type Mistake, mistakesFor, spoilt } from '../../src/reading/mistakes.ts';
import { roundingScatter, toLastDigit } from '../../src/reading/rounding.ts';
import type { Instead } from '../../src/verdict/guess.ts';
import { type Fit, levelSlopes } from '../../src/verdict/line.ts';
import { leaveOneOut, predict, type Row, weigh } from '../../src/verdict/weigh.ts';

function lineOf(middle: number, slopes: readonly number[]): Fit {
  const slope = levelSlopes();
  slopes.forEach((s, k) => {
    slope[k] = s;
  });
  return { middle, slope, places: Uint8Array.from(slopes.keys()), residual: 0, open: 0 };
}
function row(value: number, line: Fit, scatter: number, mistakes: readonly Mistake[] = []): Row {
  return { value, fit: line, scatter, mistakes, slip: 0.03, anything: 0.01, mark: line.middle };
}

/** Rows with two shared unknowns. */
function sample(seed: number, count: number): Row[] {
  const stream = openStream(seed);
  const z = [drawNormal(stream), drawNormal(stream)];
  return Array.from({ length: count }, () => {
    const slopes = [drawNormal(stream), drawNormal(stream)];
    const middle = 10 + drawNormal(stream);
    const scatter = 0.01 + 0.02 * stream();
    const value = middle + slopes[0]! * z[0]! + slopes[1]! * z[1]! + Math.sqrt(scatter) * drawNormal(stream);
    return row(value, lineOf(middle, slopes), scatter, mistakesFor('alt_amps', value));
  });
}

/** Mean and variance of row j from all others, by conditioning row after row on the two unknowns (Kalman's update). */
function conditioned(rows: readonly Row[], j: number): [number, number] {
  let m = [0, 0];
  let p = [
    [1, 0],
    [0, 1],
  ];
  rows.forEach((r, i) => {
    if (i === j) return;
    const h = [r.fit.slope[0]!, r.fit.slope[1]!];
    const ph = [p[0]![0]! * h[0]! + p[0]![1]! * h[1]!, p[1]![0]! * h[0]! + p[1]![1]! * h[1]!];
    const s = h[0]! * ph[0]! + h[1]! * ph[1]! + r.scatter;
    const away = r.value - r.fit.middle - h[0]! * m[0]! - h[1]! * m[1]!;
    m = [m[0]! + (ph[0]! * away) / s, m[1]! + (ph[1]! * away) / s];
    p = [0, 1].map((a) => [0, 1].map((b) => p[a]![b]! - (ph[a]! * ph[b]!) / s));
  });
  const r = rows[j]!;
  const h = [r.fit.slope[0]!, r.fit.slope[1]!];
  const mean = r.fit.middle + h[0]! * m[0]! + h[1]! * m[1]!;
  const variance =
    h[0]! * (p[0]![0]! * h[0]! + p[0]![1]! * h[1]!) +
    h[1]! * (p[1]![0]! * h[0]! + p[1]![1]! * h[1]!) +
    r.scatter;
  return [mean, variance];
}

it('readings that fit weigh as their joint Gaussian, chained reading by reading', () => {
  const rows = sample(4, 6);
  let log = 0;
  for (let n = 0; n < rows.length; n++) {
    const [mean, variance] = conditioned(rows.slice(0, n + 1), n);
    log += Math.log(0.97) + logNormalDensity(rows[n]!.value - mean, variance);
  }
  const weighed = weigh(rows);
  // Mistakes may add a little.
  expect(weighed.log).toBeGreaterThanOrEqual(log - 1e-9);
  expect(weighed.log - log).toBeLessThan(0.2);
  expect(weighed.mended).toBe(0);
});

it('what each reading should show is what all the others say', () => {
  const rows = sample(5, 8);
  const out = new Float64Array(2 * rows.length);
  leaveOneOut(weigh(rows).given, out);
  rows.forEach((_, j) => {
    const [mean, variance] = conditioned(rows, j);
    expect(out[2 * j]).toBeCloseTo(mean, 8);
    expect(out[2 * j + 1]).toBeCloseTo(variance, 8);
  });
});

it('a mistake has the odds of its definition, and the others say what was meant', () => {
  const rows = sample(6, 8);
  const meant = rows[2]!.value;
  rows[2] = { ...rows[2]!, value: 10 * meant, mistakes: [MISTAKES.tenTimes] };
  const weighed = weigh(rows);
  const [slip] = weighed.slips.filter((s) => s.row === 2).sort((a, b) => b.share - a.share);
  expect(slip!.mistake.id).toBe('ten-times');
  expect(slip!.meant).toBeCloseTo(meant, 9);
  expect(slip!.share).toBeGreaterThan(0.9);
  expect(weighed).toMatchObject({ mended: 1, unnamed: 0 });
  // Without the mistake the same readings weigh (1 − s)/s/share times what they weigh with it, per tenth of a unit.
  const right = weigh(rows.map((r, n) => (n === 2 ? { ...r, value: meant } : r))).log;
  const odds = Math.log(0.97) - Math.log(0.03 * MISTAKES.tenTimes.share) - Math.log(0.1);
  // The other readings' own small doubts are in both weights, not quite alike.
  expect(Math.abs(right - weighed.log - odds)).toBeLessThan(0.15);
});

it('a reading taken elsewhere is weighed by what the others expect there', () => {
  const rows = sample(7, 8);
  // Elsewhere the bike shows ten units more, and hangs on the same unknowns.
  const mistake: Mistake = { ...MISTAKES.anything, id: 'wrong-place', title: 'elsewhere', share: 0.05 };
  const there = lineOf(rows[3]!.fit.middle + 10, [rows[3]!.fit.slope[0]!, rows[3]!.fit.slope[1]!]);
  const [expected, variance] = conditioned(rows, 3);
  rows[3] = { ...rows[3]!, value: expected + 10 };
  const other: Instead = { mistake, fit: there, scatter: rows[3]!.scatter };
  const asked: number[] = [];
  const weighed = weigh(rows, (n) => {
    asked.push(n);
    return n === 3 ? [other] : [];
  });
  expect(asked).toContain(3);
  const [slip] = weighed.slips.filter((s) => s.row === 3).sort((a, b) => b.share - a.share);
  expect(slip!.mistake.title).toBe('elsewhere');
  expect(slip!.meant).toBeCloseTo(expected, 6);
  const [stray] = weighed.slips.filter((s) => s.row === 3 && s.mistake.id === 'anything');
  const odds = (0.05 * Math.exp(logNormalDensity(0, variance))) / (MISTAKES.anything.share * 0.01);
  if (stray) expect(slip!.share / stray.share / odds).toBeCloseTo(1, 2);
  expect(odds).toBeGreaterThan(20);
  // Readings that fit are not asked about.
  weigh(sample(7, 8), () => {
    throw new Error('asked');
  });
});

it('the order of readings changes neither weight nor blame', () => {
  const rows = sample(8, 9);
  rows[1] = { ...rows[1]!, value: -rows[1]!.value };
  const one = weigh(rows);
  const other = weigh([...rows].reverse());
  expect(other.log).toBeCloseTo(one.log, 8);
  const blame = (w: typeof one, of: (n: number) => number) =>
    w.slips.map((s) => `${of(s.row)} ${s.mistake.id} ${s.share.toFixed(6)}`).sort();
  expect(blame(other, (n) => 8 - n)).toEqual(blame(one, (n) => n));
});

it('a further reading is foretold as it is left out', () => {
  const rows = sample(9, 7);
  const out = new Float64Array(2);
  predict(weigh(rows.slice(0, 6)).given, rows[6]!.fit, out);
  const [mean, variance] = conditioned(rows, 6);
  expect(out[0]).toBeCloseTo(mean, 8);
  expect(out[1]! + rows[6]!.scatter).toBeCloseTo(variance, 8);
});

it('mistakes undo what they make', () => {
  for (const mistake of Object.values(MISTAKES)) {
    const noted = mistake.make(14.2);
    if (noted === null || mistake.id === 'nothing') continue;
    expect(mistake.undo(noted)).toBeCloseTo(14.2, 9);
    const step = 1e-4;
    const slope = Math.abs((mistake.undo(noted + step)! - mistake.undo(noted)!) / step);
    expect(mistake.stretch(noted)).toBeCloseTo(slope, 6);
  }
  for (const kind of ['batt_volts', 'stator_ac', 'ohms_pair', 'keyoff_mA', 'capacity_minutes'])
    expect(spoilt(kind, 12).every(({ value, share }) => Number.isFinite(value) && share > 0)).toBe(true);
});

it('elsewhere is another pair, another pin, other points, and only engine states that readings were taken in', () => {
  const titles = (text: string, states: readonly string[] = []) => {
    const [kind, ...words] = text.split(' ');
    const state = Object.fromEntries(words.map((w) => w.split('=') as [string, string]));
    return elsewhereOf({ kind: kind!, state }, 3, new Set(states)).map((e) => e.mistake.title);
  };
  expect(titles('stator_ac pair=ab rpm=3000')).toEqual(
    expect.arrayContaining([
      'another pair was measured: b–c',
      'another pair was measured: c–a',
      'taken at idle, it seems',
    ]),
  );
  expect(titles('batt_volts')).toEqual(['taken at the regulator, not at the battery']);
  expect(titles('batt_volts', ['idle|low|cold|False|True'])).toContain('taken at idle, it seems');
  expect(titles('diode red=a black=pos')).toContain('the leads were swapped');
  // No mistake is likelier than all mistakes together.
  for (const text of ['stator_ac pair=ab', 'diode red=a black=pos', 'ohms_pair pair=ab', 'crank_volts']) {
    const [kind, ...words] = text.split(' ');
    const state = Object.fromEntries(words.map((w) => w.split('=') as [string, string]));
    const sum = elsewhereOf({ kind: kind!, state }, 3, new Set()).reduce(
      (all, e) => all + e.mistake.share,
      0,
    );
    expect(sum).toBeLessThan(0.4);
  }
});

it('a value noted a digit short is believed to that digit only', () => {
  expect(roundingScatter('batt_volts', 12.84)).toBeCloseTo(0.01 / Math.sqrt(12), 6);
  expect(roundingScatter('batt_volts', 12.8)).toBeCloseTo(0.1 / Math.sqrt(12), 6);
  // Ohms and amps are shown to a tenth: a whole number is no shortened one.
  expect(roundingScatter('ohms_pair', 1)).toBeCloseTo(0.1 / Math.sqrt(12), 6);
  expect(roundingScatter('drop_pos', 0)).toBeCloseTo(0.001 / Math.sqrt(12), 6);
});

it('AC and DC are only mixed up where a meter has both', () => {
  const titles = (kind: string) => mistakesFor(kind, 1.2).map(({ title }) => title);
  for (const kind of ['ohms_pair', 'ohms_case', 'diode']) {
    expect(titles(kind)).not.toContain('AC and DC mixed up');
    expect(titles(kind)).toContain('another range of the meter');
  }
  expect(titles('batt_volts')).toContain('AC and DC mixed up');
  expect(titles('batt_volts')).not.toContain('another range of the meter');
});

it('a value that may have been meant has no digit that a cheap meter would not show', () => {
  expect(toLastDigit('ohms_case', 0.517)).toBe(0.5);
  expect(toLastDigit('drop_pos', 0.1234)).toBe(0.123);
  expect(toLastDigit('batt_volts', 14.3)).toBe(14.3);
});
