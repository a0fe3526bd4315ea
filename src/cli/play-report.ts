/** Writes the report on played cases to a folder: a reliability diagram for each part of them, and their figures. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { binClaims, type ClaimBin, scoreFigures } from '../cases/reliability.ts';
import { report, type ScoreRow } from '../cases/score.ts';
import { standalone } from '../draw/palette.ts';
import { drawReliability, wilson } from '../draw/reliability.ts';
import { svgText } from '../draw/svg.ts';

/** One part of a report: cases played together. */
export interface ReportPart {
  /** Short, for file names: "even". */
  readonly name: string;
  /** In words, for the title. */
  readonly title: string;
  readonly rows: readonly ScoreRow[];
  /** Times of single answers, s. */
  readonly seconds: readonly number[];
}

const percent = (share: number) => `${(100 * share).toFixed(1)} %`;
const cell = (value: number) => (Number.isNaN(value) ? '' : String(Number(value.toFixed(6))));

/** Bins of a part with the 90 % interval of what was so. */
function binsOf(part: ReportPart): readonly (ClaimBin & { low: number; high: number })[] {
  return binClaims(part.rows.flatMap((row) => row.claims))
    .filter((bin) => bin.count > 0)
    .map((bin) => {
      const [low, high] = wilson(bin.observed, bin.count);
      return { ...bin, low, high };
    });
}

/** The report as text, line by line. */
export function reportLines(parts: readonly ReportPart[]): string[] {
  return parts.flatMap((part) => [
    part.title,
    ...report(part.rows, part.seconds).map((line) => `  ${line}`),
    '  repair claims: was said, came true (90 % interval), claims',
    ...binsOf(part).map(
      (bin) =>
        `  ${percent(bin.predicted).padStart(8)} ${percent(bin.observed).padStart(8)}  (${percent(bin.low)} to ${percent(bin.high)})  ${bin.count}`,
    ),
    '',
  ]);
}

/** Files of a report: name and text. */
export function reportFiles(
  parts: readonly ReportPart[],
): readonly (readonly [name: string, text: string])[] {
  const rows = (header: string, of: (part: ReportPart) => readonly string[]) =>
    `${[header, ...parts.flatMap(of)].join('\n')}\n`;
  return [
    ...parts.map((part): [string, string] => {
      const drawing = drawReliability({ title: part.title, bins: binsOf(part), shape: 'wide' });
      return [`reliability-${part.name}.svg`, `${svgText(standalone(drawing, 'paper'))}\n`];
    }),
    [
      'reliability.csv',
      rows('part,from,to,claims,said,came_true,low_90,high_90', (part) =>
        binsOf(part).map(
          (bin) =>
            `${part.name},${bin.from},${bin.to},${bin.count},${[bin.predicted, bin.observed, bin.low, bin.high].map(cell).join(',')}`,
        ),
      ),
    ],
    [
      'scores.csv',
      rows('part,figure,value', (part) =>
        scoreFigures(part.rows).map(([name, value]) => `${part.name},${name},${cell(value)}`),
      ),
    ],
    ['report.txt', `${reportLines(parts).join('\n')}\n`],
  ];
}

/** Makes the folder and tries it, so that a wrong name does not cost an hour of play. A RangeError says why not. */
export function openFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, 'report.txt'), '');
  } catch (error) {
    throw new RangeError(
      `${folder} cannot be written to (${(error as Error).message}); name another folder after --report.`,
    );
  }
}

/** Writes the files of a report. */
export function writeReport(folder: string, parts: readonly ReportPart[]): void {
  for (const [name, text] of reportFiles(parts)) writeFileSync(join(folder, name), text);
}
