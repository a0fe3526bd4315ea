/**
 * The threads that are known by name. Inch: ASME B1.1 coarse and fine series from #4 to 1 in and the extra-fine and
 * constant-pitch ones that shafts use; metric: ISO 261, M3 to M24 and the fine ones up to M30 that shafts use.
 * From memory; the stress areas that follow are held against published ones in the reference tests.
 */
import { INCH, type Thread, type ThreadSeries } from './thread.ts';

/** Size as written, diameter in inches. Number sizes: 0.060 in + 0.013 in a number. */
const INCH_SIZES: readonly (readonly [string, number])[] = [
  ['4', 0.112],
  ['5', 0.125],
  ['6', 0.138],
  ['8', 0.164],
  ['10', 0.19],
  ['12', 0.216],
  ['1/4', 1 / 4],
  ['5/16', 5 / 16],
  ['3/8', 3 / 8],
  ['7/16', 7 / 16],
  ['1/2', 1 / 2],
  ['9/16', 9 / 16],
  ['5/8', 5 / 8],
  ['11/16', 11 / 16],
  ['3/4', 3 / 4],
  ['13/16', 13 / 16],
  ['7/8', 7 / 8],
  ['15/16', 15 / 16],
  ['1', 1],
  ['1-1/16', 17 / 16],
  ['1-1/8', 9 / 8],
  ['1-3/16', 19 / 16],
  ['1-1/4', 5 / 4],
  ['1-5/16', 21 / 16],
  ['1-3/8', 11 / 8],
  ['1-1/2', 3 / 2],
];

/** Threads an inch of each size, in the order of a series. */
const INCH_SERIES: readonly (readonly [ThreadSeries, string])[] = [
  [
    'UNC',
    '4:40 5:40 6:32 8:32 10:24 12:24 1/4:20 5/16:18 3/8:16 7/16:14 1/2:13 9/16:12 5/8:11 3/4:10 7/8:9 1:8 1-1/8:7 1-1/4:7 1-3/8:6 1-1/2:6',
  ],
  [
    'UNF',
    '4:48 5:44 6:40 8:36 10:32 12:28 1/4:28 5/16:24 3/8:24 7/16:20 1/2:20 9/16:18 5/8:18 3/4:16 7/8:14 1:12 1-1/8:12 1-1/4:12 1-3/8:12 1-1/2:12',
  ],
  [
    'UNEF',
    '12:32 1/4:32 5/16:32 3/8:32 7/16:28 1/2:28 9/16:24 5/8:24 11/16:24 3/4:20 13/16:20 7/8:20 15/16:20 1:20 1-1/16:18 1-1/8:18 1-3/16:18 1-1/4:18 1-5/16:18 1-3/8:18 1-1/2:18',
  ],
  [
    'UN',
    '7/16:16 1/2:16 9/16:16 5/8:12 5/8:16 11/16:12 11/16:16 3/4:12 13/16:12 13/16:16 7/8:12 7/8:16 15/16:12 15/16:16 1:16 1-1/16:12 1-1/16:16 1-1/8:16 1-3/16:12 1-3/16:16 1-1/4:16 1-5/16:12 1-5/16:16 1-3/8:16 1-1/2:16',
  ],
  ['UNS', '1/2:12 1:14'],
];

/** Diameter and pitches in millimetres, the coarse one first. 0 stands for "no coarse pitch". */
const METRIC: readonly (readonly number[])[] = [
  [2, 0.4],
  [2.5, 0.45],
  [3, 0.5, 0.35],
  [3.5, 0.6, 0.35],
  [4, 0.7, 0.5],
  [5, 0.8, 0.5],
  [6, 1, 0.75],
  [7, 1, 0.75],
  [8, 1.25, 1, 0.75],
  [9, 1.25, 1, 0.75],
  [10, 1.5, 1.25, 1, 0.75],
  [11, 1.5, 1],
  [12, 1.75, 1.5, 1.25, 1],
  [14, 2, 1.5, 1.25, 1],
  [15, 0, 1.5, 1],
  [16, 2, 1.5, 1],
  [17, 0, 1.5, 1],
  [18, 2.5, 2, 1.5, 1],
  [20, 2.5, 2, 1.5, 1],
  [22, 2.5, 2, 1.5, 1],
  [24, 3, 2, 1.5, 1],
  [25, 0, 2, 1.5, 1],
  [26, 0, 1.5],
  [27, 3, 2, 1.5, 1],
  [28, 0, 2, 1.5, 1],
  [30, 3.5, 2, 1.5, 1],
];

function inchThreads(): readonly Thread[] {
  const sizes = new Map(INCH_SIZES);
  return INCH_SERIES.flatMap(([series, row]) =>
    row.split(' ').map((cell): Thread => {
      const [size = '', count = ''] = cell.split(':');
      const inches = sizes.get(size);
      if (inches === undefined) throw new RangeError(`size must be in the list of sizes, got ${size}`);
      // "10-24" is understood by everybody; the sign only helps where the number could be a fraction's foot.
      const name = `${/^\d+$/.test(size) && size !== '1' ? '#' : ''}${size}-${count} ${series}`;
      return { name, system: 'inch', series, diameter: inches * INCH, pitch: INCH / Number(count) };
    }),
  );
}

function metricThreads(): readonly Thread[] {
  return METRIC.flatMap(([diameter = 0, ...pitches]) =>
    pitches.flatMap((pitch, index): Thread[] =>
      pitch === 0
        ? []
        : [
            {
              name: `M${diameter} × ${pitch}`,
              system: 'metric',
              series: index === 0 ? 'coarse' : 'fine',
              diameter: diameter / 1e3,
              pitch: pitch / 1e3,
            },
          ],
    ),
  );
}

/** Every thread that is known by name, coarse before fine. */
export const THREADS: readonly Thread[] = [...inchThreads(), ...metricThreads()];

/** Diameter of a size as written ("10", "1/4", "1-1/8"), m; null for a size that is not in the list. */
export function inchSize(size: string): number | null {
  const found = INCH_SIZES.find(([written]) => written === size);
  return found ? found[1] * INCH : null;
}

/** Known threads of a diameter to within 0.02 mm, in the order of the table. */
export function threadsOfDiameter(diameter: number, system?: Thread['system']): readonly Thread[] {
  return THREADS.filter(
    (thread) =>
      Math.abs(thread.diameter - diameter) < 2e-5 && (system === undefined || thread.system === system),
  );
}
