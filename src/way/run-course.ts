/**
 * Runs a plan once for each of its drawn times. Nothing is allocated inside, every list is flat: ten thousand runs of
 * forty steps are four hundred thousand steps, and a person waits for them.
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
  const { windows } = course;
  const { own, slowness, runs } = drawn;
  const many = order.length;
  const columns = Array.from(order, (task) => own[task]!);
  const attended = Uint8Array.from(order, (task) => Number(tasks[task]!.attended));
  const usual = Float64Array.from(order, (task) => tasks[task]!.duration);
  // A night that never comes ends both lists.
  const shutFrom = Float64Array.of(...shut.map(({ from }) => from), Number.POSITIVE_INFINITY);
  const shutTo = Float64Array.of(...shut.map(({ to }) => to), Number.POSITIVE_INFINITY);
  const leaves = gone === null ? Number.POSITIVE_INFINITY : gone;
  const start = new Float64Array(tasks.length);
  const done = new Float64Array(tasks.length);
  const units = new Float64Array(unitsFrom[unitsFrom.length - 1]!);
  const ends = new Float64Array(runs);
  const missed = new Int32Array(windows.length);
  const [opens, closes, opensAtEnd] = [
    Int32Array.from(windows, ({ from }) => from),
    Int32Array.from(windows, ({ to }) => to),
    Uint8Array.from(windows, ({ fromEnd }) => Number(fromEnd)),
  ];
  const room = Float64Array.from(windows, (each) => each.room + HAIR);
  for (let run = 0; run < runs; run++) {
    const slow = slowness[run]!;
    units.fill(0);
    let end = 0;
    let night = 0;
    for (let k = 0; k < many; k++) {
      const people = attended[k] === 1;
      const time = people ? columns[k]![run]! * slow : columns[k]![run]!;
      let at = 0;
      for (let w = waitsFrom[k]!; w < waitsFrom[k + 1]!; w++) {
        const on = waitOn[w]!;
        const ready = (waitEnd[w] === 1 ? done[on]! : start[on]!) + waitGap[w]!;
        if (ready > at) at = ready;
      }
      for (let u = usesFrom[k]!; u < usesFrom[k + 1]!; u++) {
        // The units are kept ascending: the last of those needed says when all are free.
        const free = units[unitsFrom[useOf[u]!]! + useMany[u]! - 1]!;
        if (free > at) at = free;
      }
      const fit = fits[k]!;
      let alone = 0;
      for (;;) {
        if (fit >= 0) {
          // Starts go up and down by a little only: the night is looked for from the last one.
          while (night > 0 && shutTo[night - 1]! > at) night--;
          while (shutTo[night]! <= at) night++;
          while (shutFrom[night]! < at + fit) at = shutTo[night++]!;
        }
        if (at + usual[k]! <= leaves || alone === 1) break;
        const first = usesFrom[k]!;
        if (first === usesFrom[k + 1]! || useOf[first] !== 0) break;
        // Who goes is the one free first. What takes both, late, is what the helper stays for.
        const next = unitsFrom[0]! + useMany[first]!;
        if (next >= unitsFrom[1]!) break;
        alone = 1;
        if (units[next]! <= at) break;
        at = units[next]!;
      }
      let over = at + time;
      if (fit >= 0) for (let n = night; shutFrom[n]! < over; n++) over += shutTo[n]! - shutFrom[n]!;
      start[order[k]!] = at;
      done[order[k]!] = over;
      for (let u = usesFrom[k]!; u < usesFrom[k + 1]!; u++) {
        const first = unitsFrom[useOf[u]!]! + (useOf[u] === 0 ? alone : 0);
        const held = first + useMany[u]!;
        const last = unitsFrom[useOf[u]! + 1]!;
        // Those held are the earliest; they go behind all that are free before this is done.
        let place = first;
        for (let rest = held; rest < last && units[rest]! < over; rest++) units[place++] = units[rest]!;
        for (const until = place + useMany[u]!; place < until; place++) units[place] = over;
      }
      if (over > end) end = over;
    }
    for (let w = 0; w < missed.length; w++) {
      const from = opens[w]!;
      if (start[closes[w]!]! > (opensAtEnd[w] === 1 ? done[from]! : start[from]!) + room[w]!) missed[w]!++;
    }
    ends[run] = end;
  }
  return { ends, missed };
}
