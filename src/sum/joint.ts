/** Sum: what a torque makes of a screw in its hole, and whether it is believable; or the torque for a wanted pull. */
import { DANGER_PROOF, DANGER_STRIP } from '../joint/believable.ts';
import { FRICTIONS, type Friction, frictionById, nutFactor, usualSeat } from '../joint/friction.ts';
import type { Strength } from '../joint/grade.ts';
import { preloadAtShare, preloadFromTorque, shareOfProof, torqueForPreload } from '../joint/preload.ts';
import { type JointAsked, reckonJoint } from '../joint/reckon-joint.ts';
import type { Interval } from '../joint/require.ts';
import { type FailureTorque, failureTorque, lengthToBreakScrew } from '../joint/strip.ts';
import type { Thread } from '../joint/thread.ts';
import type { TorqueUnit } from '../joint/unit-hint.ts';
import { type Entries, field, openEntries, type Span } from './entries.ts';
import { figureLine, shown, wordLine } from './line.ts';
import type { Picture } from './picture.ts';
import { BOOK_WINS, type Line, type Reckoned, type Refused, type Sum, type Texts } from './sum.ts';
import { gradeStrength, tappedInto, threadOrSize } from './thread-field.ts';

/** Coefficients of friction that a screw can have, dimensionless: from polished and greased to seizing (common practice, no source). */
const LEAST_FRICTION = 0.02;
const MOST_FRICTION = 0.6;
const WRENCH_ON_TOP = 'The error of the wrench comes on top.';
const at = (value: number): Interval => ({ low: value, high: value });

const FIELDS = [
  field('thread', 'Thread', 'text', 'may', '1/4-20'),
  field('diameter', 'Diameter, for a thread not in the table', 'length', 'may', '11 mm'),
  field('pitch', 'Pitch, for a thread not in the table', 'length', 'may', '1.25 mm'),
  field('grade', 'Grade of the screw', 'text', 'must', 'grade 8'),
  field(
    'threads',
    'Condition of the threads',
    'choice',
    'may',
    'dry',
    'unknown',
    FRICTIONS.map(({ id, name }) => ({ id, words: name })),
  ),
  field('friction', 'Or its coefficient of friction, thread and head alike', 'text', 'may', '0.12'),
  field('torque', 'Torque', 'torque', 'solve', '7–9 lbf·ft'),
  field('share', 'Or the share of proof load it is to have', 'ratio', 'solve', '75 %'),
  field('preload', 'Or the preload it is to have', 'force', 'solve', '6 kN'),
  field('drag', 'Torque that turns it before it seats', 'torque', 'may', '5 lbf·in'),
  field('into', 'What it is tapped into', 'text', 'may', 'die-cast aluminium'),
  field('engaged', 'Thread engaged', 'length', 'may', '3/8 in'),
];

function unitOf(echo: string): TorqueUnit | null {
  const written = echo.split(' = ')[0]!;
  return (['N·m', 'lbf·ft', 'lbf·in'] as const).find((unit) => written.endsWith(unit)) ?? null;
}

/** Friction of the threads: by its condition, or by a coefficient that is known (thread and head alike). */
function frictionOf(read: Entries, thread: Thread | null): Friction | null {
  const named = frictionById(read.choice('threads') || 'unknown');
  if (read.empty('friction')) return named;
  const ends = read
    .text('friction')
    .replaceAll(',', '.')
    .split(/\s*[-–]\s*|\s+to\s+/)
    .map(Number);
  const [low = Number.NaN, high = low] = ends;
  if (ends.length > 2 || !(low >= LEAST_FRICTION && high >= low && high <= MOST_FRICTION))
    return read.blame(
      'friction',
      `"${read.text('friction').slice(0, 40)}" is no coefficient of friction from ${LEAST_FRICTION} to ${MOST_FRICTION}: write e.g. 0.12 or 0.10–0.16.`,
    );
  if (!thread) return null;
  const both = { thread: { low, high }, head: { low, high } };
  return {
    ...named,
    ...both,
    name: `friction ${read.text('friction')}`,
    k: nutFactor(thread, usualSeat(thread), both),
  };
}

interface Aim {
  /** Preload wanted, N. */
  readonly preload: number;
  /** Share of proof that is, dimensionless. */
  readonly share: number;
}

/** The preload that is wanted, from itself or from a share of proof; null where neither is entered or one is refused. */
function aimOf(read: Entries, thread: Thread | null, strength: Strength | null): Aim | null {
  const share = read.one('share', { above: 0, most: 1 });
  const preload = read.one('preload', { above: 0, most: 5e6 });
  if (!read.empty('share') && !read.empty('preload'))
    return read.blame('preload', 'it and the share of proof are both entered: leave one empty.');
  if (!thread || !strength) return null;
  const proof = preloadAtShare(1, thread, strength);
  if (share !== null) return { share, preload: preloadAtShare(share, thread, strength) };
  if (preload === null) return null;
  return preload <= proof * (1 + 1e-9)
    ? { preload, share: preload / proof }
    : read.blame(
        'preload',
        `${read.text('preload')} is above the proof load of this screw, ${shown('force', at(proof))}: it would stay longer; take a lower one.`,
      );
}

function reckon(texts: Texts): Reckoned | Refused {
  const read = openEntries(FIELDS, texts);
  read.demand('grade');
  const thread = threadOrSize(read);
  const strength = gradeStrength(read, thread);
  const friction = frictionOf(read, thread);
  const torque = read.span('torque', { above: 0, most: 5000 });
  const aim = aimOf(read, thread, strength);
  const drag = read.span('drag', { least: 0, most: 5000 });
  const into = tappedInto(read);
  const engaged = read.one('engaged', { above: 0, most: 0.3 });
  if (!read.empty('into') && read.empty('engaged'))
    read.blame('engaged', 'it belongs to what the screw is tapped into: enter both, or neither.');
  if (!read.empty('engaged') && read.empty('into'))
    read.blame('into', 'it belongs to the thread engaged: enter both, or neither.');
  const aimed = !read.empty('share') || !read.empty('preload');
  if (read.empty('torque') && !aimed)
    read.blame(
      'torque',
      'neither it nor a wanted pull is entered: write e.g. 7–9 lbf·ft, or a share of proof.',
    );
  if (!read.empty('torque') && aimed)
    read.blame('torque', 'it and a wanted pull are both entered: leave one empty, it is worked out.');
  const bad = read.refused();
  if (bad) return bad;
  if (!thread || !strength || !friction) throw new RangeError('a field must be read or blamed, got neither');
  const known: Known = {
    thread,
    strength,
    friction,
    tapped: into && engaged !== null ? { material: into, engaged } : null,
    ...(drag ? { drag } : {}),
  };
  if (torque) return fromTorque(known, torque);
  if (!aim) throw new RangeError('a field must be read or blamed, got neither');
  return fromAim(known, aim);
}

type Known = Omit<JointAsked, 'torque' | 'unit' | 'wrenchError'>;

function fromTorque(known: Known, torque: Span): Reckoned {
  const found = reckonJoint({ ...known, torque, unit: unitOf(torque.echo) });
  const lines: Line[] = [
    wordLine('believable', 'Is it believable', found.judgement.verdict, found.judgement.says),
    ...pullLines(found.preload, found.share),
    figureLine(
      'three-quarters',
      'For three quarters of proof',
      'torque',
      found.threeQuarters,
      2,
      (f) => `Three quarters of the proof load may take ${f}.`,
    ),
    ...endLines(found.failure, found.engagementWanted),
  ];
  const picture = pictureOf(known, found.share, null, `pull with ${shown('torque', torque)}`, [
    `pulled with ${shown('force', found.preload, 2)}`,
  ]);
  return { ok: true, lines, cautions: [BOOK_WINS], picture, solvedFor: 'share' };
}

function fromAim(known: Known, { preload, share }: Aim): Reckoned {
  const { thread, strength, friction, tapped, drag } = known;
  const torque = torqueForPreload(preload, thread, friction.k, drag);
  const failure = tapped
    ? failureTorque(thread, strength, tapped.material, tapped.engaged, friction.k)
    : null;
  const wanted = tapped ? lengthToBreakScrew(thread, strength, tapped.material) : null;
  const low = at(torque.low);
  const shareWith = (set: number): Interval => {
    const tightening = { torque: at(set), wrenchError: 0, ...(drag ? { drag } : {}) };
    return shareOfProof(preloadFromTorque(tightening, thread, friction.k), thread, strength);
  };
  const [atLow, atHigh] = [shareWith(torque.low), shareWith(torque.high).high];
  const lines: Line[] = [
    figureLine('torque', 'Torque', 'torque', torque, torque.low === torque.high ? 3 : 2, (f) =>
      torque.low === torque.high
        ? `It takes ${f}.`
        : `It may take ${f}, by the friction: the low figure never pulls it harder than wanted; the high one never less, but up to ${shown('ratio', at(atHigh), 2)} of proof where the threads run easily.`,
    ),
    ...pullLines(at(preload), at(share)),
    ...endLines(failure, wanted),
  ];
  const cautions: string[] = [];
  if (share > DANGER_PROOF)
    cautions.push(
      `Above ${Math.round(DANGER_PROOF * 100)} % of the proof load nothing is left for the twist of the wrench: take three quarters, where the book says nothing.`,
    );
  // At the same friction, so that K falls out: what is wanted against the least that gives way.
  const strip = failure ? (torque.low - (drag?.low ?? 0)) / failure.torque.low : 0;
  if (strip > DANGER_STRIP)
    cautions.push(
      `That is up to ${Math.round(strip * 100)} % of the pull at which it gives way: take a lower one, or more thread.`,
    );
  cautions.push(WRENCH_ON_TOP, BOOK_WINS);
  const picture = pictureOf(known, atLow, share, `pull with the low figure, ${shown('torque', low, 2)}`, [
    `wanted ${shown('force', at(preload))}`,
    `takes ${shown('torque', torque, 2)}`,
  ]);
  return { ok: true, lines, cautions, notes: [WRENCH_ON_TOP], picture, solvedFor: 'torque' };
}

function pullLines(preload: Interval, share: Interval): readonly Line[] {
  return [
    figureLine('preload', 'Preload', 'force', preload, 2, (f) => `The screw is pulled with ${f}.`),
    figureLine('share', 'Share of proof load', 'ratio', share, 2, (f) => `That is ${f} of its proof load.`),
  ];
}

const GIVES_WAY = { screw: 'the screw', external: "the screw's own thread", internal: 'the tapped thread' };

function endLines(failure: FailureTorque | null, wanted: Interval | null): readonly Line[] {
  if (!failure || !wanted) return [];
  return [
    figureLine(
      'fails',
      'Gives way',
      'torque',
      failure.torque,
      2,
      (f) => `First ${GIVES_WAY[failure.weaker]} gives way, somewhere within ${f}.`,
    ),
    figureLine(
      'wanted',
      'Thread for the screw to break first',
      'length',
      wanted,
      2,
      (f) => `From ${f} of thread the screw would break first.`,
    ),
  ];
}

function pictureOf(
  { thread, tapped }: Known,
  share: Interval,
  wanted: number | null,
  bar: string,
  words: readonly string[],
): Picture {
  const held = tapped ? [`${shown('length', at(tapped.engaged))} of thread engaged`] : [];
  return {
    kind: 'pulled-bolt',
    diameter: thread.diameter,
    engaged: tapped?.engaged ?? null,
    share,
    wanted,
    bar,
    words: [...words, ...held],
  };
}

export const JOINT: Sum = {
  id: 'joint',
  words: 'Bolted joint',
  about:
    'preload, share of proof load, stripping, whether a torque is believable, or the torque for a wanted pull',
  fields: FIELDS,
  example: {
    thread: '1/4-20',
    grade: 'A574',
    torque: '35 lbf·in',
    into: 'die-cast aluminium',
    engaged: '3/8 in',
  },
  reckon,
};
