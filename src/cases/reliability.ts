/** How far probabilities can be taken at their word: claims gathered into bins, and the figures of a run as a table. */
import type { ScoreRow } from './score.ts';

/** A claimed probability, 0–1, and whether it was so. */
export type Claim = readonly [number, boolean];

export interface ClaimBin {
  /** Claims from this probability to under that one, 0–1; the last bin includes 1. */
  readonly from: number;
  readonly to: number;
  readonly count: number;
  /** Mean probability claimed, and share that was so, 0–1; NaN where the bin is empty. */
  readonly predicted: number;
  readonly observed: number;
}

/** Claims in `bins` equal bins, lowest first; empty ones are kept. */
export function binClaims(claims: readonly Claim[], bins = 10): ClaimBin[] {
  return Array.from({ length: bins }, (_, b) => {
    const [from, to] = [b / bins, (b + 1) / bins];
    const those = claims.filter(([p]) => from <= p && (p < to || (b === bins - 1 && p <= 1)));
    const mean = (of: (claim: Claim) => number) =>
      those.reduce((sum, claim) => sum + of(claim), 0) / those.length;
    return {
      from,
      to,
      count: those.length,
      predicted: mean(([p]) => p),
      observed: mean(([, so]) => Number(so)),
    };
  });
}

/** Mean distance of what was claimed from what was so over the bins, weighted by their claims, 0–1. */
export function calibrationError(bins: readonly ClaimBin[]): number {
  const all = bins.reduce((sum, bin) => sum + bin.count, 0);
  return bins.reduce(
    (sum, bin) => (bin.count === 0 ? sum : sum + (bin.count / all) * Math.abs(bin.predicted - bin.observed)),
    0,
  );
}

/** The figures of a run by name: shares 0–1, minutes, counts. NaN where there is nothing to count. */
export function scoreFigures(rows: readonly ScoreRow[]): readonly (readonly [name: string, value: number])[] {
  const mean = (of: (row: ScoreRow) => number, those = rows) =>
    those.reduce((sum, row) => sum + of(row), 0) / those.length;
  const claims = rows.flatMap((row) => row.claims);
  const bold = claims.filter(([p]) => p >= 0.99);
  const sizes = rows.map((row) => row.size).sort((a, b) => a - b);
  const spoiled = rows.filter((row) => row.slip);
  const clean = rows.filter((row) => !row.slip);
  const sound = rows.filter((row) => row.n === 0);
  return [
    ['cases', rows.length],
    ['repairs_exact', mean((row) => Number(row.exact))],
    ...[0, 1, 2, 3].flatMap((n): (readonly [string, number])[] => {
      const those = rows.filter((row) => row.n === n);
      return [
        [`cases_${n}_faults`, those.length],
        [`repairs_exact_${n}_faults`, mean((row) => Number(row.exact), those)],
      ];
    }),
    ['sound_bike_part_bought', mean((row) => Number(row.do.length > 0), sound)],
    ['minutes', mean((row) => row.minutes)],
    ['readings', mean((row) => row.asked)],
    ['truth_in_95_set', mean((row) => Number(row.inside))],
    ['median_size_95_set', sizes[Math.floor(sizes.length / 2)] ?? Number.NaN],
    ['probability_on_truth', mean((row) => row.pt)],
    ['claims', claims.length],
    ['calibration_error', calibrationError(binClaims(claims))],
    ['overconfidence', claims.reduce((sum, [p, so]) => sum + p - Number(so), 0) / claims.length],
    ['claims_99', bold.length],
    ['claims_99_wrong', bold.filter(([, so]) => !so).length / bold.length],
    ['spoiled', spoiled.length],
    ['spoiled_blamed', mean((row) => Number(row.blamed), spoiled)],
    ['spoiled_exact', mean((row) => Number(row.exact), spoiled)],
    ['good_readings_doubted', mean((row) => Number(row.false_doubt), clean)],
  ];
}
