/** What the file tells of one fastener, read by room `joint`; what it does not tell is null. */
import { engagement } from '../joint/engagement.ts';
import { type Friction, frictionById, readFriction } from '../joint/friction.ts';
import { type Strength, strengthOf } from '../joint/grade.ts';
import { type Material, readMaterial } from '../joint/material.ts';
import { readGrade } from '../joint/read-grade.ts';
import { readThread } from '../joint/read-thread.ts';
import { makeThread, type Thread } from '../joint/thread.ts';
import { type AnyFigure, counting } from './counts.ts';
import type { Fastener, Machine, Part } from './definition.ts';
import { middle, type Quantity } from './figure.ts';
import type { Finding } from './finding.ts';

export interface KnownFastener {
  readonly path: string;
  readonly fastener: Fastener;
  readonly thread: Thread | null;
  /** True for a left-hand thread, false for one said to be right-hand; null where it is not said. */
  readonly leftHand: boolean | null;
  readonly strength: Strength | null;
  readonly material: Material | null;
  readonly friction: Friction;
  readonly locker: 'none' | 'low' | 'medium' | 'high' | null;
  /** Lengths, m; null where not told. */
  readonly length: number | null;
  readonly grip: number | null;
  readonly washer: number;
  readonly threadLength: number | null;
  readonly threadDepth: number | null;
  readonly holeDepth: number | null;
  readonly chamfer: number;
  /** Engagement in full thread, m; null where it cannot be worked out. */
  readonly engaged: number | null;
  /** Whether its place is one for a light or odd torque: a plug, a cap, an adjuster. */
  readonly plug: boolean;
}

const PLUGS =
  /plug|\bcap\b|drain|filler|level|inspect|bleed|nipple|adjust|banjo|switch|sensor|sender|filter|knob|wing nut/i;
/** Honest words for a grade that no table holds; a figure beside them is no slip. A material out of the table is only unknown. */
const UNKNOWN = /unknown|unmarked|not |no mark|\?|stainless|titan|alumin|brass|plastic|18-8/i;

/** The value that counts of a figure that may be missing. */
export function saidValue<T>(
  machine: Pick<Machine, 'sources'>,
  figure: (AnyFigure & { readonly is: T }) | null,
  newParts: readonly Part[] = [],
): T | null {
  return figure === null ? null : (counting(machine, figure, newParts).is as T);
}

function metres(
  machine: Pick<Machine, 'sources'>,
  figure: (AnyFigure & { is: Quantity }) | null,
  newParts: readonly Part[],
) {
  const value = saidValue<Quantity>(machine, figure, newParts);
  return value === null ? null : middle(value);
}

/** Reads one fastener as it counts with these parts new, and says what could not be read of it. */
export function knowFastener(
  machine: Pick<Machine, 'sources'>,
  path: string,
  fastener: Fastener,
  newParts: readonly Part[] = [],
): { readonly known: KnownFastener; readonly findings: readonly Finding[] } {
  const findings: Finding[] = [];
  const unread = (at: string, words: string, why: string, level: Finding['level']) => {
    findings.push({
      level,
      topic: 'unread',
      path: `${path}.${at}.is`,
      what: `"${words}" cannot be weighed`,
      why: why.replace(/[.\s]+$/, ''),
      lookUp: 'Write it as the book or the head of the screw has it; until then this check is weaker',
    });
  };

  const threadText = saidValue<string>(machine, fastener.thread, newParts);
  const read = threadText === null ? null : readThread(threadText);
  const given = threadOf(
    metres(machine, fastener.diameter, newParts),
    metres(machine, fastener.pitch, newParts),
  );
  if (read && !read.ok && given === null && !/pipe or Whitworth/.test(read.why))
    unread('thread', threadText!, read.why, 'doubt');
  const thread = read?.ok ? read.thread : given;
  const side = threadText === null ? null : /\b(?:LH|left)/i.test(threadText) || null;

  const gradeText = saidValue<string>(machine, fastener.grade, newParts);
  const grade = gradeText === null ? null : readGrade(gradeText);
  if (grade && !grade.ok && /\d/.test(gradeText!) && !UNKNOWN.test(gradeText!))
    unread('grade', gradeText!, grade.why, 'hint');
  const strong =
    grade?.ok && thread && thread.diameter <= 0.1 ? strengthOf(grade.grade, thread.diameter) : null;

  const materialText = saidValue<string>(machine, fastener.hole?.material ?? null, newParts);
  const material = materialText === null ? null : readMaterial(materialText);

  const conditionText = saidValue<string>(machine, fastener.condition, newParts);
  const condition = conditionText === null ? null : readFriction(conditionText);

  const at = {
    length: metres(machine, fastener.length, newParts),
    grip: metres(machine, fastener.grip, newParts),
    washer: metres(machine, fastener.washer, newParts) ?? 0,
    threadLength: metres(machine, fastener.threadLength, newParts),
    threadDepth: metres(machine, fastener.hole?.threadDepth ?? null, newParts),
    holeDepth:
      fastener.hole?.through === true ? null : metres(machine, fastener.hole?.depth ?? null, newParts),
    chamfer: metres(machine, fastener.hole?.chamfer ?? null, newParts) ?? 0,
  };
  return {
    findings,
    known: {
      path,
      fastener,
      thread,
      leftHand:
        read?.ok && read.leftHand
          ? true
          : side === true
            ? true
            : /\bRH\b|right[ -]?hand/i.test(threadText ?? '')
              ? false
              : null,
      strength: strong?.ok ? strong.strength : null,
      material: material?.ok ? material.material : null,
      friction: condition?.ok ? condition.friction : frictionById('unknown'),
      locker: saidValue<KnownFastener['locker'] & string>(machine, fastener.locker, newParts),
      ...at,
      engaged: thread ? engagedLength(thread, at) : null,
      plug: fastener.kind === 'plug' || fastener.kind === 'adjuster' || PLUGS.test(fastener.name),
    },
  };
}

/** A thread from its figures; null unless both are there and make a thread. */
function threadOf(diameter: number | null, pitch: number | null): Thread | null {
  if (diameter === null || pitch === null) return null;
  const fits = diameter >= 0.001 && diameter <= 0.1 && pitch >= diameter / 60 && pitch <= diameter / 3;
  return fits ? makeThread(diameter, pitch) : null;
}

/** The lengths of a screw and its hole, m. */
export type ScrewLengths = Pick<
  KnownFastener,
  'length' | 'grip' | 'washer' | 'threadLength' | 'threadDepth' | 'holeDepth' | 'chamfer'
>;

/** What `engagement` makes of the lengths; null where one that it needs is missing or cannot be. */
export function engage(thread: Thread, at: ScrewLengths): ReturnType<typeof engagement> | null {
  const { length, grip, washer, threadDepth, holeDepth, chamfer } = at;
  const threadLength = at.threadLength !== null && at.threadLength > 0 ? at.threadLength : null;
  if (length === null || grip === null || length <= 0) return null;
  if (threadDepth === 0 || holeDepth === 0) return null;
  if (threadDepth !== null && holeDepth !== null && threadDepth > holeDepth) return null;
  return engagement({ thread, length, grip, washer, threadLength, threadDepth, holeDepth, chamfer });
}

/** Engagement in full thread, m; null where it cannot be worked out. */
function engagedLength(thread: Thread, at: ScrewLengths): number | null {
  const fit = engage(thread, at);
  return fit?.ok ? fit.engaged : null;
}
