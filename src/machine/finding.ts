/** What the blunder check finds in a machine file: the one shape of every rule, and how it reads as a sentence. */

/**
 * How bad it is. `impossible`: it cannot be so, whatever the bike. `danger`: doing it as written breaks or loses
 * something. `doubt`: few bikes are like that, look again. `hint`: worth knowing, nothing need be wrong.
 */
export const LEVELS = ['impossible', 'danger', 'doubt', 'hint'] as const;
export type Level = (typeof LEVELS)[number];

/** What a finding is about: one word for each class of blunder. */
export const TOPICS = [
  'contradiction',
  'torque',
  'unit',
  'length',
  'stages',
  'locker',
  'direction',
  'sources',
  'battery',
  'stator',
  'wire',
  'fuse',
  'loads',
  'drain',
  'fluid',
  'chain',
  'shims',
  'count',
  'date',
  'parts',
  'work',
  'unread',
] as const;
export type Topic = (typeof TOPICS)[number];

/** One finding. Nothing is ever corrected by it. */
export interface Finding {
  readonly level: Level;
  readonly topic: Topic;
  /** JSON path of the figure to look at first. */
  readonly path: string;
  /** What is wrong, one clause without a full stop. */
  readonly what: string;
  /** Why, with the figures, one sentence without a full stop. */
  readonly why: string;
  /** What to look up, one sentence without a full stop. */
  readonly lookUp: string;
}

/** A finding with its place in a text; both count from 1. */
export interface PlacedFinding extends Finding {
  readonly line: number;
  readonly column: number;
}

/** A finding as one line for people: line, path, what, why, what to look up. */
export function writeFinding({ line, path, what, why, lookUp }: PlacedFinding): string {
  return `line ${line}, ${path}: ${what}. ${why}. ${lookUp}.`;
}

/** Worst first; findings of one level keep their order. */
export function worstFirst<F extends Finding>(findings: readonly F[]): readonly F[] {
  return LEVELS.flatMap((level) => findings.filter((finding) => finding.level === level));
}

/** A figure of a sentence in three digits. */
export function say(value: number): string {
  return String(Number(value.toPrecision(3)));
}
