/**
 * Runs a plan once for each of its drawn times: step by step over the runs of one block at once, not run by run over the
 * steps. What a step waits for is then one short loop over flat lists that stay in the processor's cache; run by run the
 * same took three times as long. Nothing is allocated inside: ten thousand runs of forty steps are four hundred
 * thousand steps, and a person waits for them.
 */
import type { Course } from './clock-course.ts';
import { finishInHours, hold, holdAll, holdOneOfTwo, late, type Nights, waitFor } from './course-rows.ts';
import { BLOCK } from './draw-times.ts';
import type { Project } from './project.ts';

/** What floats off by less than this is on time, min. */
const HAIR = 1e-9;

export class CourseRuns {
  /** Runs so far in which each window of the course was missed, count. */
  readonly missed: Int32Array;
  private readonly course: Course;
  private readonly nights: Nights;
  /** When one pair of hands (resource 0) leaves, min; infinite where nobody does. */
  private readonly leaves: number;
  /** Rows of a block's length: starts of all tasks, their ends, the units of all resources. */
  private readonly cells: Float64Array;
  private readonly done: number;
  private readonly units: number;
  /** Runs in which a step is done by who stays alone. */
  private readonly alone = new Uint8Array(BLOCK);
  /** Whether people do the k-th in order. */
  private readonly people: Uint8Array;
  /** Pace of what runs by itself, 1: with it one loop finishes all steps, and the engine has one to compile. */
  private readonly steady = new Float64Array(BLOCK).fill(1);
  /** Planned time of the k-th in order, min. */
  private readonly usual: Float64Array;

  /**
   * A step is begun where its usual time, and what must follow within its window, fits before the next shut hours, as in
   * the order of work: nobody knows beforehand that it will be seized. What then takes longer is laid down and finished
   * after them. `gone`: when one pair of hands (resource 0) leaves, min; nobody has to begin what would usually
   * outlast that with the one who goes, and what was begun is finished.
   */
  constructor({ tasks, shut }: Pick<Project, 'tasks' | 'shut'>, course: Course, gone: number | null) {
    const { order, unitsFrom, windows } = course;
    this.course = course;
    this.nights = {
      from: Float64Array.of(...shut.map(({ from }) => from), Number.POSITIVE_INFINITY),
      to: Float64Array.of(...shut.map(({ to }) => to), Number.POSITIVE_INFINITY),
    };
    this.leaves = gone ?? Number.POSITIVE_INFINITY;
    this.done = tasks.length * BLOCK;
    this.units = 2 * this.done;
    this.cells = new Float64Array(this.units + unitsFrom[unitsFrom.length - 1]! * BLOCK);
    this.people = Uint8Array.from(order, (task) => Number(tasks[task]!.attended));
    this.usual = Float64Array.from(order, (task) => tasks[task]!.duration);
    this.missed = new Int32Array(windows.length);
  }

  /**
   * The runs of one block: their times in `own` from `row` on, a row of a block's length for each task, their paces in
   * `slowness` from `slowAt` on; their ends, min, go to `ends` from `endAt` on.
   */
  block(
    own: Float64Array,
    row: number,
    slowness: Float64Array,
    slowAt: number,
    ends: Float64Array,
    endAt: number,
    many: number,
  ): void {
    const { cells, course, done, nights, people, units } = this;
    const { order, usesFrom, fits, last, windows } = course;
    const goes = this.leaves < Number.POSITIVE_INFINITY;
    cells.fill(0, units);
    for (let k = 0; k < order.length; k++) {
      const task = order[k]!;
      const at = task * BLOCK;
      this.begin(k, at, many);
      if (goes) this.beginWhileTwo(k, at, many);
      const [pace, paceAt] = people[k] === 1 ? [slowness, slowAt] : [this.steady, 0];
      finishInHours(cells, at, done + at, own, row + at, pace, paceAt, fits[k]!, nights, many);
      for (let u = usesFrom[k]!; u < usesFrom[k + 1]!; u++) this.holdUse(u, goes, done + at, many);
    }
    // The starts are done with: a row of them takes the ends.
    for (const [w, { from, to, fromEnd, room }] of windows.entries())
      this.missed[w]! += late(cells, to * BLOCK, (fromEnd ? done : 0) + from * BLOCK, room + HAIR, many);
    cells.fill(0, 0, many);
    for (let n = 0; n < last.length; n++) waitFor(cells, 0, done + last[n]! * BLOCK, 0, many);
    for (let n = 0; n < many; n++) ends[endAt + n] = cells[n]!;
  }

  /** No start before what it waits for and before its resources are free. */
  private begin(k: number, at: number, many: number): void {
    const { cells, course, done, units } = this;
    const { waitsFrom, waitOn, waitEnd, waitGap, usesFrom, useOf, useMany, unitsFrom } = course;
    cells.fill(0, at, at + many);
    for (let w = waitsFrom[k]!; w < waitsFrom[k + 1]!; w++)
      waitFor(cells, at, (waitEnd[w] === 1 ? done : 0) + waitOn[w]! * BLOCK, waitGap[w]!, many);
    // The units are kept ascending: the last of those needed says when all are free.
    for (let u = usesFrom[k]!; u < usesFrom[k + 1]!; u++)
      waitFor(cells, at, units + (unitsFrom[useOf[u]!]! + useMany[u]! - 1) * BLOCK, 0, many);
  }

  /** Starts where one of two people goes: who goes is the one free first. What takes both, late, is what the helper stays for. */
  private beginWhileTwo(k: number, at: number, many: number): void {
    const { alone, cells, course, leaves, units, usual } = this;
    const { usesFrom, useOf, useMany, unitsFrom, fits } = course;
    const { from, to } = this.nights;
    const first = usesFrom[k]!;
    const [takes, there] =
      first < usesFrom[k + 1]! && useOf[first] === 0 ? [useMany[first]!, unitsFrom[1]!] : [0, 0];
    const [fit, long] = [fits[k]!, usual[k]!];
    alone.fill(0);
    for (let n = 0; n < many; n++) {
      let begun = cells[at + n]!;
      let night = 0;
      for (;;) {
        if (fit >= 0) {
          while (to[night]! <= begun) night++;
          while (from[night]! < begun + fit) begun = to[night++]!;
        }
        if (begun + long <= leaves || alone[n] === 1 || takes === 0 || takes >= there) break;
        alone[n] = 1;
        const other = cells[units + takes * BLOCK + n]!;
        if (other <= begun) break;
        begun = other;
      }
      cells[at + n] = begun;
    }
  }

  /** Takes the units of one use until the ends. */
  private holdUse(u: number, goes: boolean, done: number, many: number): void {
    const { cells, course } = this;
    const { useOf, useMany, unitsFrom } = course;
    const of = useOf[u]!;
    const takes = useMany[u]!;
    const there = unitsFrom[of + 1]! - unitsFrom[of]!;
    const first = this.units + unitsFrom[of]! * BLOCK;
    const alone = goes && of === 0 ? this.alone : null;
    if (there === takes) holdAll(cells, first, many, takes, done, BLOCK);
    else if (there === 2 && alone === null) holdOneOfTwo(cells, first, first + BLOCK, done, many);
    else hold(cells, first, there, takes, alone, done, many, BLOCK);
  }
}
