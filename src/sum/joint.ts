/** Sum: what a torque makes of a screw in its hole, and whether that torque is believable. */
import { FRICTIONS, frictionById } from '../joint/friction.ts';
import { strengthOf } from '../joint/grade.ts';
import { readMaterial } from '../joint/material.ts';
import { readGrade } from '../joint/read-grade.ts';
import { readThread } from '../joint/read-thread.ts';
import { reckonJoint } from '../joint/reckon-joint.ts';
import { makeThread, type Thread } from '../joint/thread.ts';
import type { TorqueUnit } from '../joint/unit-hint.ts';
import { type Entries, field, openEntries } from './entries.ts';
import { figureLine, wordLine } from './line.ts';
import { BOOK_WINS, type Line, type Reckoned, type Refused, type Sum, type Texts } from './sum.ts';

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
  field('torque', 'Torque', 'torque', 'must', '7–9 lbf·ft'),
  field('drag', 'Torque that turns it before it seats', 'torque', 'may', '5 lbf·in'),
  field('into', 'What it is tapped into', 'text', 'may', 'die-cast aluminium'),
  field('engaged', 'Thread engaged', 'length', 'may', '3/8 in'),
];

/** The thread from its name, or from diameter and pitch. */
function threadOf(read: Entries): Thread | null {
  const diameter = read.one('diameter', { least: 0.001, most: 0.1 });
  const pitch = read.one('pitch', { above: 0, most: 0.02 });
  if (!read.empty('diameter') || !read.empty('pitch')) {
    read.demand('diameter', 'pitch');
    if (diameter === null || pitch === null) return null;
    if (pitch < diameter / 60 || pitch > diameter / 3)
      return read.blame(
        'pitch',
        `${read.text('pitch')} does not go with this diameter: no screw is made so, measure again.`,
      );
    return makeThread(diameter, pitch);
  }
  if (read.empty('thread'))
    return read.blame('thread', 'nothing is entered: write e.g. 1/4-20 or M6, or give diameter and pitch.');
  const found = readThread(read.text('thread'));
  return found.ok ? found.thread : read.blame('thread', found.why);
}

function unitOf(echo: string): TorqueUnit | null {
  const written = echo.split(' = ')[0]!;
  return (['N·m', 'lbf·ft', 'lbf·in'] as const).find((unit) => written.endsWith(unit)) ?? null;
}

function reckon(texts: Texts): Reckoned | Refused {
  const read = openEntries(FIELDS, texts);
  read.demand('grade', 'torque');
  const thread = threadOf(read);
  const torque = read.span('torque', { above: 0, most: 5000 });
  const drag = read.span('drag', { least: 0, most: 5000 });
  const condition = read.choice('threads');
  const grade = read.empty('grade') ? null : readGrade(read.text('grade'));
  if (grade && !grade.ok) read.blame('grade', grade.why);
  const into = read.empty('into') ? null : readMaterial(read.text('into'));
  if (into && !into.ok) read.blame('into', into.why);
  const engaged = read.one('engaged', { above: 0, most: 0.3 });
  if (!read.empty('into') && read.empty('engaged'))
    read.blame('engaged', 'it belongs to what the screw is tapped into: enter both, or neither.');
  if (!read.empty('engaged') && read.empty('into'))
    read.blame('into', 'it belongs to the thread engaged: enter both, or neither.');
  const strength = thread && grade?.ok ? strengthOf(grade.grade, thread.diameter) : null;
  if (strength && !strength.ok) read.blame('grade', strength.why);
  const bad = read.refused();
  if (bad) return bad;
  if (!thread || !torque || !strength?.ok)
    throw new RangeError('a field must be read or blamed, got neither');
  const found = reckonJoint({
    thread,
    strength: strength.strength,
    friction: frictionById(condition),
    tapped: into?.ok && engaged !== null ? { material: into.material, engaged } : null,
    torque,
    unit: unitOf(torque.echo),
    ...(drag ? { drag } : {}),
  });
  const lines: Line[] = [
    wordLine('believable', 'Is it believable', found.judgement.verdict, found.judgement.says),
    figureLine('preload', 'Preload', 'force', found.preload, 2, (f) => `The screw is pulled with ${f}.`),
    figureLine(
      'share',
      'Share of proof load',
      'ratio',
      found.share,
      2,
      (f) => `That is ${f} of its proof load.`,
    ),
    figureLine(
      'three-quarters',
      'For three quarters of proof',
      'torque',
      found.threeQuarters,
      2,
      (f) => `Three quarters of the proof load may take ${f}.`,
    ),
  ];
  if (found.failure && found.engagementWanted) {
    const what = { screw: 'the screw', external: "the screw's own thread", internal: 'the tapped thread' }[
      found.failure.weaker
    ];
    lines.push(
      figureLine(
        'fails',
        'Gives way',
        'torque',
        found.failure.torque,
        2,
        (f) => `First ${what} gives way, somewhere within ${f}.`,
      ),
      figureLine(
        'wanted',
        'Thread for the screw to break first',
        'length',
        found.engagementWanted,
        2,
        (f) => `From ${f} of thread the screw would break first.`,
      ),
    );
  }
  const cautions = [BOOK_WINS];
  return { ok: true, lines, cautions, picture: null, solvedFor: null };
}

export const JOINT: Sum = {
  id: 'joint',
  words: 'Bolted joint',
  about: 'preload, share of proof load, stripping, and whether a torque is believable',
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
