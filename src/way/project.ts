/**
 * A project: tasks that share people and tools, with minimum and maximum lags between their starts, and hours in
 * which nobody works. This is the resource-constrained project scheduling problem with generalized precedence,
 * RCPSP/max (Bartusch, Möhring and Radermacher 1988; Neumann, Schwindt and Zimmermann 2003), with a calendar.
 * Times are whole numbers of one unit: minutes for a bike, whatever the file says for a benchmark.
 */
export interface Task {
  readonly id: string;
  /** Words for a person, used when lags fight. */
  readonly name: string;
  /** How long it takes, in whole units ≥ 0. */
  readonly duration: number;
  /** Amount of each resource it holds while it runs, by resource index, ≥ 0. */
  readonly demand: readonly number[];
  /** True for what needs people: it may not overlap a shut interval. A cure runs through the night. */
  readonly attended: boolean;
}

/** start(to) ≥ start(from) + least. A negative `least` from j to i is a maximum lag: i starts at most −least before j … */
export interface StartLag {
  /** Index of a task. */
  readonly from: number;
  /** Index of a task. */
  readonly to: number;
  readonly least: number;
  /**
   * Whether it is counted from the end of the earlier step, whose planned time `least` then has in it; left out where
   * nobody has said. For the order of work, whose times are fixed, it is all one; the clock's times are drawn.
   */
  readonly fromEnd?: boolean;
}

export interface Project {
  readonly tasks: readonly Task[];
  readonly lags: readonly StartLag[];
  /** Capacity of each resource. */
  readonly capacity: readonly number[];
  /** Names of the resources, for words; same length as `capacity`. */
  readonly resources: readonly string[];
  /** Intervals [from, to) in which no attended task may run, ascending and disjoint; none for a benchmark. */
  readonly shut: readonly { readonly from: number; readonly to: number }[];
}

/** What became of a project. */
export type Schedule =
  | {
      readonly ok: true;
      /** Start of each task. */
      readonly starts: readonly number[];
      /** Time at which the last task ends. */
      readonly makespan: number;
      /** No schedule is shorter than this. */
      readonly bound: number;
      /** True when makespan = bound has been proved. */
      readonly proved: boolean;
    }
  | {
      readonly ok: false;
      /** `lags`: the lags alone fight; `resources`: no order of the tasks fits; `time`: none found within the effort. */
      readonly why: 'lags' | 'resources' | 'time';
      /** Indices of the tasks that fight, in the order of the cycle for `lags`; a small set otherwise, may be empty. */
      readonly fight: readonly number[];
      /** No schedule is shorter than this. */
      readonly bound: number;
    };
