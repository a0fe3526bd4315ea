/**
 * The dip: time runs right, depth into the bike runs down. Going in on the left flank, the dead part at the bottom, coming
 * back on the right flank with the extra work of the build hung on it, cures as flat shelves, "now" as a line, and the
 * time the bike can be ridden where the line comes out. The same drawing on a screen, on a phone and on paper.
 */
import type { PlanStep } from '../way/plan-shape.ts';
import { sayMinutes, sayTime, startMinute, type WallStart } from '../way/plan-words.ts';
import { attendedSteps, type Corner, hoursIn, layTime, profileOf, type Run } from './dip-plan.ts';
import type { Point } from './hatch.ts';
import { shorten, textWidth } from './measure.ts';
import { ink, line, WEIGHT } from './pen.ts';
import { el, letter, type SvgNode, sheet } from './svg.ts';

export interface DipInput {
  readonly steps: readonly PlanStep[];
  /** Names of the depths, the bike whole first. */
  readonly levels: readonly string[];
  /** Wall-clock start of the job. */
  readonly startsAt: WallStart;
  /** min from the start of the job; null before it has begun. */
  readonly now: number | null;
  /** Ids of steps done. */
  readonly done: ReadonlySet<string>;
  /** When it can be ridden by the plan, and by the clock's runs, min from the start of the job. */
  readonly ride: { readonly at: number; readonly p50?: number; readonly p90?: number };
}

export type DipShape = 'wide' | 'narrow';

const SIZE = { wide: 15, narrow: 14 } as const;
/** px for a minute's work, for a long wait, and between two depths. */
const PER_MINUTE = { wide: 2.6, narrow: 2.1 } as const;
const CUT = { wide: 170, narrow: 128 } as const;
const FALL = { wide: 58, narrow: 48 } as const;

/** Draws the dip of a plan. Throws RangeError for a plan without steps or a level that is not named. */
export function drawDip(input: DipInput, shape: DipShape): SvgNode {
  const { steps, levels, startsAt, now, done, ride } = input;
  if (steps.length === 0) throw new RangeError('steps must hold at least one step, got none');
  for (const { id, depth } of steps)
    if (!(depth >= 0 && depth < levels.length))
      throw new RangeError(
        `depth of step ${id} must be a level from 0 to ${levels.length - 1}, got ${depth}`,
      );
  const size = SIZE[shape];
  const names = { size: size - 1, fill: 'var(--quiet)' };
  const left = 16 + Math.max(...levels.map((name) => textWidth(name, names))) + 14;
  const from = Math.min(0, ...steps.map(({ start }) => start));
  const end = Math.max(ride.at, ...steps.map((step) => step.end));
  const scale = layTime(steps, from, end, left, PER_MINUTE[shape], CUT[shape]);
  // A phone shows the sheet through a window that is narrower than its words: there the page writes them below it.
  const words = shape === 'wide';
  const top = words ? 3 * size + 46 : 46;
  const width = scale.width + Math.max(60, 24 + textWidth('ride', { size }));
  const levelY = (depth: number) => top + depth * FALL[shape];
  const bottom = levelY(levels.length - 1) + 66;
  const place = ({ at, depth }: Corner): Point => [scale.at(at), levelY(depth)];
  const runs = profileOf(steps, from, ride.at);
  const rideX = scale.at(ride.at);
  const flat = { size, bold: true };
  const nodes: SvgNode[] = [
    ...(words
      ? [
          letter(12, size + 6, 'The dip', { size: size + 4, bold: true }),
          letter(12, 2 * size + 18, wordsOfRide(input), flat),
        ]
      : []),
    ...levels.flatMap((name, depth) => [
      letter(left - 12, levelY(depth) + size * 0.35, name, { ...names, anchor: 'end' }),
      el('path', {
        d: line([
          [left, levelY(depth)],
          [scale.width, levelY(depth)],
        ]),
        stroke: 'var(--rule, var(--quiet))',
        'stroke-width': WEIGHT.hair,
        'stroke-dasharray': '1 7',
      }),
    ]),
    ...clockOf(input, scale, bottom, size, shape),
    ...shelvesOf(steps, scale, runs, place, size),
    ...runs.flatMap((run) => flankOf(run, place, done)),
    ...marksOf(steps, runs, place, done, size, rideX),
  ];
  if (now !== null) {
    const x = scale.at(now);
    const words = `now ${sayTime(now, startsAt)}`;
    const right = x + 8 + textWidth(words, flat) < width;
    nodes.push(
      el('path', {
        d: line([
          [x, top - 22],
          [x, bottom],
        ]),
        stroke: 'var(--danger)',
        'stroke-width': 2.4,
      }),
      letter(x + (right ? 7 : -7), top - 26, words, {
        ...flat,
        fill: 'var(--danger)',
        anchor: right ? 'start' : 'end',
      }),
    );
  }
  nodes.push(
    el('circle', {
      cx: rideX,
      cy: levelY(0),
      r: 8,
      fill: 'var(--paper)',
      stroke: 'var(--teal)',
      'stroke-width': 4,
    }),
    letter(rideX + 13, levelY(0) + size * 0.35, 'ride', { size, bold: true, fill: 'var(--teal)' }),
    ...(words ? keyOf(bottom + size + 30, size, width) : []),
  );
  return sheet(
    `dip ${shape}`,
    width,
    bottom + (words ? 3 * size + 58 : size + 22),
    'The dip',
    descriptionOf(input),
    nodes,
  );
}

function wordsOfRide({ ride, startsAt }: DipInput): string {
  if (ride.p50 === undefined || ride.p90 === undefined)
    return `ride from ${sayTime(ride.at, startsAt)}, if all goes as planned`;
  return `ride from ${sayTime(ride.p50, startsAt)} (P50), ${sayTime(ride.p90, startsAt)} (P90)`;
}

function descriptionOf(input: DipInput): string {
  const steps = attendedSteps(input.steps);
  const deepest = Math.max(...steps.map(({ depth }) => depth));
  const critical = steps.filter((step) => step.critical).length;
  return `${steps.length} steps, down to ${input.levels[deepest]}; ${critical} of them hold up the ride. ${wordsOfRide(input)}.`;
}

/** The clock along the bottom, and a break where a wait is cut. */
function clockOf(
  { startsAt }: DipInput,
  scale: ReturnType<typeof layTime>,
  bottom: number,
  size: number,
  shape: DipShape,
): SvgNode[] {
  const axis: SvgNode[] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (const stretch of scale.stretches) {
    const { x0, x1, cut } = stretch;
    const middle = (x0 + x1) / 2;
    axis.push(
      ink(
        cut
          ? line([
              [x0, bottom],
              [middle - 9, bottom],
              [middle - 4, bottom - 8],
              [middle + 4, bottom + 8],
              [middle + 9, bottom],
              [x1, bottom],
            ])
          : line([
              [x0, bottom],
              [x1, bottom],
            ]),
        WEIGHT.detail,
      ),
    );
    const ticks = cut
      ? [stretch.from, stretch.to]
      : hoursIn(stretch, startMinute(startsAt), PER_MINUTE[shape]);
    for (const at of ticks) {
      const x = scale.at(at);
      if (x - last < 52) continue;
      last = x;
      axis.push(
        ink(
          line([
            [x, bottom],
            [x, bottom + 6],
          ]),
          WEIGHT.detail,
        ),
        letter(x, bottom + size + 8, sayTime(at, startMinute(startsAt)).slice(0, 5), {
          size: size - 1,
          anchor: 'middle',
          fill: 'var(--quiet)',
        }),
      );
    }
  }
  return axis;
}

/** Cures and other waits that run by themselves, as bands under the line at the depth where the bike stands meanwhile. */
function shelvesOf(
  steps: readonly PlanStep[],
  scale: ReturnType<typeof layTime>,
  runs: readonly Run[],
  place: (corner: Corner) => Point,
  size: number,
): SvgNode[] {
  const high = size + 7;
  const rows: number[] = [];
  return steps
    .filter((step) => step.unattended && step.end > step.start)
    .flatMap((step) => {
      const [x0, x1] = [scale.at(step.start), scale.at(step.end)];
      if (x1 - x0 < 6) return [];
      const y0 = Math.max(depthAt(runs, step.start, place), depthAt(runs, step.end, place)) + 7;
      let row = rows.findIndex((right) => right < x0);
      if (row < 0) row = rows.push(0) - 1;
      rows[row] = x1;
      const y = y0 + row * (high + 3);
      const words = shorten(`${step.does}, ${sayMinutes(step.end - step.start)}`, Math.max(x1 - x0 - 10, 0), {
        size: size - 2,
      });
      return [
        el('rect', { x: x0, y, width: x1 - x0, height: high, fill: 'var(--brass)', 'fill-opacity': 0.2 }),
        el('path', {
          d: line([
            [x0, y],
            [x1, y],
          ]),
          stroke: 'var(--brass)',
          'stroke-width': 2,
        }),
        ...(x1 - x0 > 46 ? [letter(x0 + 5, y + size, words, { size: size - 2 })] : []),
      ];
    });
}

/** How far down the line is at a time, px. */
function depthAt(runs: readonly Run[], at: number, place: (corner: Corner) => Point): number {
  for (const { corners } of runs) {
    const [a, b] = [corners[0]!, corners[1]!];
    if (at < a.at || at > b.at) continue;
    const [from, to] = [place(a)[1], place(b)[1]];
    return b.at > a.at ? from + ((at - a.at) / (b.at - a.at)) * (to - from) : to;
  }
  return place({ at, depth: 0 })[1];
}

/** One step's piece of the line: teal when done, ink ahead, thick where the ride waits for it, dashed where nobody works. */
function flankOf(
  { step, corners }: Run,
  place: (corner: Corner) => Point,
  done: ReadonlySet<string>,
): SvgNode[] {
  const d = line(corners.map(place));
  if (!step) return [ink(d, 2.4, { 'stroke-dasharray': '9 7' })];
  const isDone = done.has(step.id);
  return [
    el('path', {
      d,
      stroke: isDone ? 'var(--teal)' : 'var(--ink)',
      'stroke-width': step.critical ? 5 : 2.6,
      'data-step': step.id,
    }),
  ];
}

/** What one must stop at, as rings with a letter of their kind; windows as a brass bar beside the line. */
function marksOf(
  steps: readonly PlanStep[],
  runs: readonly Run[],
  place: (corner: Corner) => Point,
  done: ReadonlySet<string>,
  size: number,
  rideX: number,
): SvgNode[] {
  let last = Number.NEGATIVE_INFINITY;
  return attendedSteps(steps).flatMap((step) => {
    const nodes: SvgNode[] = [];
    const middle = (step.start + step.end) / 2;
    const [x] = place({ at: middle, depth: 0 });
    const y = depthAt(runs, middle, place);
    if (step.window) {
      const [x0] = place({ at: step.window.from, depth: 0 });
      const [x1] = place({ at: step.window.to, depth: 0 });
      nodes.push(
        el('path', {
          d: line([
            [x0, y + 15],
            [x1, y + 15],
          ]),
          stroke: 'var(--brass)',
          'stroke-width': 6,
        }),
      );
    }
    const { hold } = step;
    if (hold && hold !== 'wait' && x - last > 15 && rideX - x > 18) {
      last = x;
      nodes.push(
        el('circle', {
          cx: x,
          cy: y,
          r: 8,
          fill: 'var(--paper)',
          stroke: done.has(step.id) ? 'var(--teal)' : 'var(--danger)',
          'stroke-width': 2.4,
          'data-step': step.id,
        }),
        letter(x, y + (size - 4) * 0.36, HOLD_LETTERS[hold], {
          size: size - 4,
          anchor: 'middle',
          bold: true,
        }),
      );
    }
    return nodes;
  });
}

const HOLD_LETTERS = { sign: 's', measure: 'm', look: 'l' } as const;

/** What the drawing's lines and rings mean. */
export const DIP_KEY = [
  'thick: the ride waits for it. teal: done. dashed: nobody works.',
  'ring: stop and sign (s), measure (m), look (l). brass: a cure, or a window that closes.',
];

function keyOf(y: number, size: number, width: number): SvgNode[] {
  return DIP_KEY.map((words, n) =>
    letter(12, y + n * (size + 6), shorten(words, width - 20, { size: size - 1 }), {
      size: size - 1,
      fill: 'var(--quiet)',
    }),
  );
}
