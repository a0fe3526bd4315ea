/**
 * The way in as a planning problem without deletes: facts once true stay true, each move needs facts and gives facts
 * at a cost, and the cheapest set of moves that makes all goals true is wanted. This is h⁺ of the planning
 * literature (Haslum, Slaney and Thiébaux 2012), hard because costs are shared and ways are alternatives
 * (Goldwasser and Motwani 1999). Whole numbers only: costs in tenths of a minute, so that "optimal" can be exact.
 */
export interface Move {
  readonly id: string;
  /** Facts by index; all must hold. */
  readonly needs: readonly number[];
  readonly gives: readonly number[];
  /** Cost, whole number ≥ 0. */
  readonly cost: number;
}

export interface StripDown {
  /** Names of the facts, index = fact. */
  readonly facts: readonly string[];
  /** Facts that hold now. */
  readonly start: readonly number[];
  readonly goals: readonly number[];
  readonly moves: readonly Move[];
}

/** The cheapest way in, in an order that can be carried out, or why there is none. */
export type Way =
  | {
      readonly ok: true;
      /** Indices of moves in an order in which each one's needs hold. */
      readonly moves: readonly number[];
      readonly cost: number;
      /** No way is cheaper than this; equals `cost` when proved. */
      readonly bound: number;
      readonly proved: boolean;
    }
  | {
      readonly ok: false;
      /** Goals that no sequence of moves reaches, by fact index. */
      readonly unreachable: readonly number[];
      /** The facts that block them in the end: nothing gives them, by fact index. */
      readonly missing: readonly number[];
      /** Facts that need each other in a circle, each the next one's need, empty when there is no such circle. */
      readonly cycle: readonly number[];
    };
