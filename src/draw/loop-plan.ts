import type { Member } from '../fault/catalogue.ts';
import type { ProbePoint } from '../reading/kinds.ts';
import type { Point, Shape } from './hatch.ts';
import type { SvgNode } from './svg.ts';

/** What the loop drawing is told. */
export interface LoopInput {
  readonly phases: 1 | 3;
  readonly regulator: 'shunt' | 'series';
  readonly senses: 'output' | 'wire';
  readonly loadsFedFrom: 'battery' | 'regulator';
  /** Probability that something is wrong with the member, 0–1. */
  readonly suspicion: Readonly<Record<Member, number>>;
  /** Members shown to be sound: drawn with a second outline and the word "proven". */
  readonly proven: readonly Member[];
  /** A small figure by a member, at most about nine characters ("12.61 V"); longer ones are cut, never lost: the member's `aria-label` has them whole. */
  readonly readings?: Readonly<Partial<Record<Member, string>>>;
  readonly probes?: Probes | null;
  /** `wide` for a laptop (1120 px across), `narrow` for a phone (360 px across, taller). */
  readonly shape: 'wide' | 'narrow';
  readonly highlight?: Member | null;
  /** True where nothing was reckoned: members are named without a figure. */
  readonly plain?: boolean;
}

export interface Probes {
  readonly red: ProbePoint | null;
  readonly black: ProbePoint | null;
  /** Where a clamp meter goes round a wire; the fixed places are laid out for a clamp without tips beside it. */
  readonly around: ProbePoint | null;
  /** What to measure: "AC volts, pins b–c". */
  readonly meter: string;
  /** What a sound bike shows: "a sound bike: 14.1–16.3 V". */
  readonly sound: string;
}

/** Where a label stands: `x`, `y` is the baseline of its first line (`down`) or of its last (`up`). */
export interface LabelPlace {
  readonly at: Point;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly grow: 'up' | 'down';
  /** Name and figure on one line, or one under the other. */
  readonly form: 'line' | 'stack';
  /** More room between the first line and the next, px. */
  readonly skip?: number;
  /** Widest it may get, px. */
  readonly room: number;
}

/** A member on the sheet: `shape` takes hatching and outlines, `body` is drawn on the hatching. */
export interface Placed {
  readonly shape: Shape;
  /** What is hatched, where it must be wider than what is outlined. */
  readonly tone?: Shape;
  readonly body: readonly SvgNode[];
  readonly label: LabelPlace;
  /** A thin pointer from the label to a member that is not right beside it. */
  readonly leader?: readonly [Point, Point];
}

/** A probe's fixed place: its tip, where the needle leaves the tag, the middle of the tag, and the cable's way. */
export interface ProbePlace {
  readonly tip: Point;
  readonly from: Point;
  readonly tag: Point;
  readonly exit: Point;
  /** The cable from `exit` to the meter, or the name of the lanes it shares with others. */
  readonly route: readonly Point[] | string;
}

/** A laid-out sheet: everything the assembler needs, nothing of suspicion or readings. */
export interface LoopPlan {
  readonly width: number;
  readonly height: number;
  readonly text: number;
  readonly leading: number;
  /** Wires and terminals that belong to no single member. */
  readonly wires: readonly SvgNode[];
  /** Letters of the leads and dots where wires join: drawn over everything but probes. */
  readonly marks: readonly SvgNode[];
  readonly members: ReadonlyMap<Member, Placed>;
  readonly points: ReadonlyMap<ProbePoint, ProbePlace>;
  /** Both probes at one mated pin, one from each side of the plug: red's place, then black's. */
  readonly backProbed: ReadonlyMap<ProbePoint, readonly [ProbePlace, ProbePlace]>;
  readonly meter: { readonly at: Point; readonly width: number; readonly height: number };
  /** Way of a cable in shared lanes; `rank` 0 is the cable that must lie innermost. */
  readonly lane: (group: string, rank: number, exit: Point) => readonly Point[];
}

/** What a layout needs to know before it can place anything. */
export interface PlanInput {
  readonly phases: 1 | 3;
  readonly regulator: 'shunt' | 'series';
  readonly senses: 'output' | 'wire';
  readonly loadsFedFrom: 'battery' | 'regulator';
  /** Height the meter takes, px; 0 when no probe is shown. */
  readonly meterHeight: number;
}
