/**
 * Room `way`: the way into a bike, the order of work, and the clock. The cheapest strip-down to one or more targets
 * with proof, the schedule of strip-down and build for one or two people with cures, windows and nights, when it is
 * finished as a distribution, what else is worth replacing while it is open, and the plan anew when something jams.
 *
 * This file: one bike's work as data, which the machine file gives (room `machine` writes it, SI names kept but time
 * in minutes, the unit every book of times uses). Three levels, each made from the one before:
 * work (everything that could be done) → strip plan (the moves that must be) → project (tasks with lags).
 */

/**
 * A fact is a thing in a state, written "primary-cover off", "primary-chain slack", "primary-oil drained",
 * "bike raised". At the start of a job no fact holds, except those the job says do. Facts once true stay true while
 * going in; "x off" also makes "x slack" true.
 */
export type Fact = string;

/** Low, likely and high time of one action or step, min: 0 ≤ low ≤ likely ≤ high. A triangular distribution. */
export interface Spread {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** The chance that a fastener or fit will not let go, and what that adds. */
export interface Seizing {
  /** Chance on this bike at this age and place, 0–1. */
  readonly chance: number;
  /** Time it adds when it happens, min. */
  readonly adds: Spread;
  /** Name of a cause shared with others, such as "rust outside": they seize together more often than apart. */
  readonly cause?: string;
}

/** What a build step is about. */
export type StepKind =
  | 'clean'
  | 'inspect'
  | 'gasket'
  | 'shim'
  | 'retainer'
  | 'lock'
  | 'seal'
  | 'refit'
  | 'torque'
  | 'measure'
  | 'fill'
  | 'cure'
  | 'charge'
  | 'prove';

/**
 * A bound between two build steps: this step starts at least `least` and at most `most` minutes after the named
 * step's start or end. A step that is not part of the plan binds nobody.
 */
export interface Lag {
  /** Id of the other build step. */
  readonly after: string;
  readonly from: 'start' | 'end';
  /** min; 0 when it may follow at once. */
  readonly least: number;
  /** min; left out when there is no upper bound. A window: close within it, or do the other again. */
  readonly most?: number;
}

/** What a step uses up or fits new. */
export interface Use {
  /** Id in the work's list of supplies. */
  readonly supply: string;
  /** How much, in the supply's own unit. */
  readonly amount: number;
}

/** Something to have on the bench: a part, gasket, seal, consumable, fluid. */
export interface Supply {
  readonly id: string;
  readonly name: string;
  readonly kind: 'part' | 'gasket' | 'seal' | 'fastener' | 'consumable' | 'fluid';
  /** Unit of its amounts: "piece", "ml", "m". */
  readonly unit: string;
  /** True when what came off must not go back on. */
  readonly singleUse: boolean;
  /** True when the bike can be ridden without it for now. */
  readonly canWait: boolean;
}

/** One step of putting back. */
export interface BuildStep {
  /** Unique over all actions: "cover-bead". */
  readonly id: string;
  readonly does: string;
  readonly kind: StepKind;
  readonly minutes: Spread;
  /** Pairs of hands at once, 0 for what runs by itself (a cure, a charger), also through the night. */
  readonly hands: number;
  readonly tools: readonly string[];
  readonly uses: readonly Use[];
  readonly lags: readonly Lag[];
  /** True when the engine must be cold. */
  readonly cold?: boolean;
  readonly caution?: string;
  /** Id of the fastener it turns, for its figures. */
  readonly fastener?: string;
}

/** One action on the way in, and what putting it back takes. */
export interface Action {
  readonly id: string;
  readonly does: string;
  /** All must hold before. Alternatives are several actions that give the same fact. */
  readonly needs: readonly Fact[];
  readonly gives: readonly Fact[];
  readonly minutes: Spread;
  readonly hands: number;
  readonly tools: readonly string[];
  readonly seizes?: Seizing;
  readonly caution?: string;
  /** Id of the fastener it turns, for its figures. */
  readonly fastener?: string;
  /**
   * Steps that put it back, each after the one before it, in order; empty where nothing goes back. Before the first
   * of them, everything that needed this action must be back.
   */
  readonly back: readonly BuildStep[];
  /** Part of the loop or bike this takes off, for pictures. */
  readonly part?: string;
}

/** What a target is, and what is done to it when one gets there (fit the new stator, measure the magnets). */
export interface Target {
  readonly id: string;
  readonly name: string;
  /** Facts that must hold before the work at the bottom can begin. */
  readonly needs: readonly Fact[];
  /** The work at the bottom, in order. */
  readonly work: readonly BuildStep[];
  /** Repairs of room `fault` that this target serves: "replace-stator". */
  readonly repairs: readonly string[];
}

/** A thing used one at a time: a tool, a lift. */
export interface Tool {
  readonly id: string;
  readonly name: string;
  /** How many the workshop has, 1 unless said. */
  readonly count: number;
}

/** Everything that could be done to one bike. */
export interface Work {
  readonly actions: readonly Action[];
  readonly targets: readonly Target[];
  readonly tools: readonly Tool[];
  readonly supplies: readonly Supply[];
  /** Steps after everything is back: fill, prove, charge. */
  readonly closing: readonly BuildStep[];
  /** How deep each fact is, for the dip: names of the levels from the bike whole downwards, with their facts. */
  readonly levels: readonly { readonly name: string; readonly facts: readonly Fact[] }[];
}

/** Mean of a triangular distribution, min. */
export function meanOf(spread: Spread): number {
  return (spread.low + spread.likely + spread.high) / 3;
}
