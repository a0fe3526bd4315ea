/** Sum: another locker than the one that is wanted went on: does it hold, and will the screw come out again. */
import { lockerDeviation, undoStrength } from '../joint/deviation.ts';
import { frictionById } from '../joint/friction.ts';
import { strengthOf } from '../joint/grade.ts';
import type { LockerStrength } from '../joint/locker.ts';
import { readGrade } from '../joint/read-grade.ts';
import { readThread } from '../joint/read-thread.ts';
import { stressArea } from '../joint/thread.ts';
import { field, openEntries, YES_NO } from './entries.ts';
import { figureLine, shown, wordLine } from './line.ts';
import { BOOK_WINS, type Line, type Reckoned, type Refused, type Sum, type Texts } from './sum.ts';

const STRENGTHS = [
  { id: 'none', words: 'none' },
  { id: 'low', words: 'low' },
  { id: 'medium', words: 'medium' },
  { id: 'high', words: 'high' },
];

const FIELDS = [
  field('thread', 'Thread', 'text', 'must', '#10-24'),
  field('grade', 'Grade of the screw', 'text', 'must', 'grade 8'),
  field('fitted', 'Torque it was fitted with', 'torque', 'must', '35 lbf·in'),
  field('engaged', 'Thread engaged', 'length', 'must', '3/8 in'),
  field('used', 'Locker that went on', 'choice', 'must', 'high', 'high', STRENGTHS),
  field('wanted', 'Locker that is wanted', 'choice', 'must', 'medium', 'medium', STRENGTHS),
  field('aluminium', 'In aluminium', 'choice', 'may', 'yes', 'yes', YES_NO),
  field('magnets', 'Magnets or a seal near', 'choice', 'may', 'yes', 'yes', YES_NO),
];

function reckon(texts: Texts): Reckoned | Refused {
  const read = openEntries(FIELDS, texts);
  read.demand('thread', 'grade', 'fitted', 'engaged');
  const thread = read.empty('thread') ? null : readThread(read.text('thread'));
  if (thread && !thread.ok) read.blame('thread', thread.why);
  const grade = read.empty('grade') ? null : readGrade(read.text('grade'));
  if (grade && !grade.ok) read.blame('grade', grade.why);
  const fitted = read.span('fitted', { above: 0, most: 2000 });
  const engaged = read.one('engaged', { above: 0, most: 0.3 });
  const strength = thread?.ok && grade?.ok ? strengthOf(grade.grade, thread.thread.diameter) : null;
  if (strength && !strength.ok) read.blame('grade', strength.why);
  const [used, wanted] = [read.choice('used'), read.choice('wanted')];
  const [aluminium, magnets] = [read.choice('aluminium'), read.choice('magnets')];
  const bad = read.refused();
  if (bad) return bad;
  if (!thread?.ok || !strength?.ok || !fitted || engaged === null)
    throw new RangeError('a field must be read or blamed, got neither');
  const { diameter } = thread.thread;
  // Twisted off: the tensile load times the nut factor of dry threads, as everywhere in these sums.
  const load = stressArea(thread.thread) * strength.strength.tensile;
  const { k } = frictionById('dry');
  const locker = (id: string): LockerStrength | null => (id === 'none' ? null : (id as LockerStrength));
  const screw = {
    undo: { fitted, locker: locker(used), diameter, engagement: engaged },
    breaking: { low: load * k.low * diameter, high: load * k.high * diameter },
    inAluminium: aluminium === 'yes',
    nearMagnetOrSeal: magnets === 'yes',
  };
  const is = undoStrength(screw);
  const { severity, brief } = lockerDeviation(screw, locker(wanted));
  const outcome = { safe: 'comes off', 'may-break': 'may break', breaks: 'breaks off' }[is.outcome];
  const lines: Line[] = [
    wordLine(
      'what',
      'What it means',
      { none: 'as wanted', 'next-time': 'holds; matters when it is opened', redo: 'do it again' }[severity],
      brief,
    ),
    figureLine(
      'undo',
      'Comes off at',
      'torque',
      is.undo.torque,
      2,
      (f) => `Cold it comes off at about ${f}.`,
    ),
    figureLine(
      'breaks',
      'The screw breaks at',
      'torque',
      screw.breaking,
      2,
      (f) => `The screw twists off somewhere within ${f}.`,
    ),
    wordLine('outcome', 'When it is opened', outcome, is.words),
  ];
  const picture = {
    kind: 'undo-or-break' as const,
    undo: is.undo.torque,
    breaks: screw.breaking,
    fitted: fitted.high,
    words: [
      `comes off at ${shown('torque', is.undo.torque, 2)}`,
      `breaks at ${shown('torque', screw.breaking, 2)}`,
      `fitted with ${shown('torque', fitted)}`,
    ] as const,
  };
  return { ok: true, lines, cautions: [BOOK_WINS], picture, solvedFor: null };
}

export const OTHER_LOCKER: Sum = {
  id: 'other-locker',
  words: 'Another locker',
  about: 'what it means that another thread locker went on than the one wanted',
  fields: FIELDS,
  example: {
    thread: '#10-24',
    grade: 'grade 8',
    fitted: '35 lbf·in',
    engaged: '3/8 in',
    used: 'high',
    wanted: 'medium',
  },
  reckon,
};
