/**
 * Runs a plan once for each of its drawn times: step by step over a few hundred runs at once, not run by run over the
 * steps. What a step waits for is then one short loop over flat lists that stay in the processor's cache; run by run the
 * same took three times as long. Nothing is allocated inside: ten thousand runs of forty steps are four hundred
 * thousand steps, and a person waits for them.
 */
import type { Course } from './clock-course.ts';
import type { DrawnTimes } from './draw-times.ts';
import type { Project } from './project.ts';

export interface RunEnds {
  /** End of each run, min, in the order of the draws. */
  readonly ends: Float64Array;
  /** Runs in which each window of the course was missed, count. */
  readonly missed: Int32Array;
}

/** What floats off by less than this is on time, min. */
const HAIR = 1e-9;
/** Runs gone through together, count: with forty steps their starts and ends take 160 kB. */
const BLOCK = 256;

/** Shut hours in flat lists that a night which never comes ends. */
interface Nights {
  readonly from: Float64Array;
  readonly to: Float64Array;
  /** When one pair of hands (resource 0) leaves, min. */
  readonly leaves: number;
}

/** A step as it is begun in all runs of a block. */
interface Step {
  /** Whether people do it. */
  readonly people: boolean;
  /** What must fit before the next shut hours, min; −1 for what hours do not bind. */
  readonly fit: number;
  /** Its time in the plan, min. */
  readonly usual: number;
  /** Pairs of hands that it takes and that there are, count; what is not counted one by one is 0. */
  readonly hands: number;
  readonly most: number;
}

/**
 * The runs. A step is begun where its usual time, and what must follow within its window, fits before the next shut
 * hours, as in the order of work: nobody knows beforehand that it will be seized. What then takes longer is laid
 * down and finished after them. `gone`: when one pair of hands (resource 0) leaves, min; nobody has to begin what would
 * usually outlast that with the one who goes, and what was begun is finished.
 */
export function runCourse(
  { tasks, shut }: Pick<Project, 'tasks' | 'shut'>,
  course: Course,
  drawn: DrawnTimes,
  gone: number | null,
): RunEnds {
  const { order, waitsFrom, waitOn, waitEnd, waitGap, usesFrom, useOf, useMany, unitsFrom, fits } = course;
  const { windows, last } = course;
  const { own, slowness, runs } = drawn;
  const nights: Nights = {
    from: Float64Array.of(...shut.map(({ from }) => from), Number.POSITIVE_INFINITY),
    to: Float64Array.of(...shut.map(({ to }) => to), Number.POSITIVE_INFINITY),
    leaves: gone === null ? Number.POSITIVE_INFINITY : gone,
  };
  const steps = Array.from(order, (task, k): Step => {
    const first = usesFrom[k]!;
    const hands = first < usesFrom[k + 1]! && useOf[first] === 0;
    return {
      people: tasks[task]!.attended,
      fit: fits[k]!,
      usual: tasks[task]!.duration,
      hands: hands ? useMany[first]! : 0,
      most: hands ? unitsFrom[1]! : 0,
    };
  });
  const start = new Float64Array(tasks.length * BLOCK);
  const done = new Float64Array(tasks.length * BLOCK);
  const units = new Float64Array(unitsFrom[unitsFrom.length - 1]! * BLOCK);
  const alone = new Uint8Array(BLOCK);
  const ends = new Float64Array(runs);
  const missed = new Int32Array(windows.length);
  for (let run = 0; run < runs; run += BLOCK) {
    const many = Math.min(BLOCK, runs - run);
    units.fill(0);
    for (let k = 0; k < order.length; k++) {
      const task = order[k]!;
      const at = task * BLOCK;
      let w = waitsFrom[k]!;
      if (w === waitsFrom[k + 1]!) start.fill(0, at, at + many);
      else {
        beginAfter(start, at, waitEnd[w] === 1 ? done : start, waitOn[w]! * BLOCK, waitGap[w]!, many);
        for (w++; w < waitsFrom[k + 1]!; w++)
          waitFor(start, at, waitEnd[w] === 1 ? done : start, waitOn[w]! * BLOCK, waitGap[w]!, many);
      }
      // The units are kept ascending: the last of those needed says when all are free.
      for (let u = usesFrom[k]!; u < usesFrom[k + 1]!; u++)
        waitFor(start, at, units, (unitsFrom[useOf[u]!]! + useMany[u]! - 1) * BLOCK, 0, many);
      const step = steps[k]!;
      if (nights.leaves < Number.POSITIVE_INFINITY) {
        alone.fill(0);
        beginWhileTwo(start, at, units, step, nights, alone, many);
      }
      if (step.people) finishInHours(start, done, at, own[task]!, slowness, run, step.fit, nights, many);
      else finish(start, done, at, own[task]!, run, many);
      for (let u = usesFrom[k]!; u < usesFrom[k + 1]!; u++) {
        const of = useOf[u]!;
        const goes = of === 0 && nights.leaves < Number.POSITIVE_INFINITY ? alone : null;
        hold(units, unitsFrom[of]!, unitsFrom[of + 1]!, useMany[u]!, goes, done, at, many);
      }
    }
    for (const task of last) waitFor(ends, run, done, task * BLOCK, 0, many);
    windows.forEach(({ from, to, fromEnd, room }, w) => {
      missed[w]! += late(start, to * BLOCK, fromEnd ? done : start, from * BLOCK, room + HAIR, many);
    });
  }
  return { ends, missed };
}

/** Starts from what they wait for, with the gap, min; none before 0. */
function beginAfter(
  starts: Float64Array,
  at: number,
  on: Float64Array,
  from: number,
  gap: number,
  many: number,
): void {
  for (let n = 0; n < many; n++) {
    const ready = on[from + n]! + gap;
    starts[at + n] = Math.max(ready, 0);
  }
}

/** No start before what it waits for, with the gap, min. */
function waitFor(
  starts: Float64Array,
  at: number,
  on: Float64Array,
  from: number,
  gap: number,
  many: number,
): void {
  for (let n = 0; n < many; n++) {
    const ready = on[from + n]! + gap;
    if (ready > starts[at + n]!) starts[at + n] = ready;
  }
}

/** Starts where one of two people goes: who goes is the one free first. What takes both, late, is what the helper stays for. */
function beginWhileTwo(
  starts: Float64Array,
  at: number,
  units: Float64Array,
  { fit, usual, hands, most }: Step,
  { from, to, leaves }: Nights,
  alone: Uint8Array,
  many: number,
): void {
  for (let n = 0; n < many; n++) {
    let begun = starts[at + n]!;
    let night = 0;
    for (;;) {
      if (fit >= 0) {
        while (to[night]! <= begun) night++;
        while (from[night]! < begun + fit) begun = to[night++]!;
      }
      if (begun + usual <= leaves || alone[n] === 1 || hands === 0 || hands >= most) break;
      alone[n] = 1;
      const other = units[hands * BLOCK + n]!;
      if (other <= begun) break;
      begun = other;
    }
    starts[at + n] = begun;
  }
}

/** Ends of what runs by itself, from starts and drawn times. */
function finish(
  starts: Float64Array,
  done: Float64Array,
  at: number,
  own: Float64Array,
  run: number,
  many: number,
): void {
  for (let n = 0; n < many; n++) done[at + n] = starts[at + n]! + own[run + n]!;
}

/** Moves starts to where what must fit does so before the next shut hours; what lasts into them is finished after them. */
function finishInHours(
  starts: Float64Array,
  done: Float64Array,
  at: number,
  own: Float64Array,
  slowness: Float64Array,
  run: number,
  fit: number,
  { from, to }: Nights,
  many: number,
): void {
  // Starts go up and down by a little only: most fall between the same two nights.
  let night = 0;
  let [dawn, dusk] = [Number.NEGATIVE_INFINITY, fit < 0 ? Number.POSITIVE_INFINITY : from[0]!];
  for (let n = 0; n < many; n++) {
    let begun = starts[at + n]!;
    if (begun < dawn || begun + fit > dusk) {
      while (night > 0 && to[night - 1]! > begun) night--;
      while (to[night]! <= begun) night++;
      while (from[night]! < begun + fit) begun = to[night++]!;
      starts[at + n] = begun;
      dawn = night > 0 ? to[night - 1]! : Number.NEGATIVE_INFINITY;
      dusk = from[night]!;
    }
    let over = begun + own[run + n]! * slowness[run + n]!;
    if (over > dusk) for (let late = night; from[late]! < over; late++) over += to[late]! - from[late]!;
    done[at + n] = over;
  }
}

/** Takes units of one resource until the ends: the earliest free, of the others alone where one of them goes. */
function hold(
  units: Float64Array,
  first: number,
  end: number,
  takes: number,
  alone: Uint8Array | null,
  done: Float64Array,
  at: number,
  many: number,
): void {
  if (end - first === takes) {
    for (let u = first; u < end; u++) units.set(done.subarray(at, at + many), u * BLOCK);
    return;
  }
  if (end - first === 2 && alone === null) {
    // One pair of hands of two, as in most steps: the loops below in short.
    const [one, other] = [first * BLOCK, (first + 1) * BLOCK];
    for (let n = 0; n < many; n++) {
      const over = done[at + n]!;
      const next = units[other + n]!;
      units[one + n] = Math.min(next, over);
      units[other + n] = Math.max(next, over);
    }
    return;
  }
  for (let n = 0; n < many; n++) {
    const over = done[at + n]!;
    const from = first + (alone === null ? 0 : alone[n]!);
    // Those held are the earliest; they go behind all that are free before this is done.
    let place = from;
    for (let rest = from + takes; rest < end && units[rest * BLOCK + n]! < over; rest++)
      units[place++ * BLOCK + n] = units[rest * BLOCK + n]!;
    for (const until = place + takes; place < until; place++) units[place * BLOCK + n] = over;
  }
}

/** Runs in which a start comes after the window that another step opens, count. */
function late(
  starts: Float64Array,
  at: number,
  opens: Float64Array,
  from: number,
  room: number,
  many: number,
): number {
  let count = 0;
  for (let n = 0; n < many; n++) if (starts[at + n]! > opens[from + n]! + room) count++;
  return count;
}
