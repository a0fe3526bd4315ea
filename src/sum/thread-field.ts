/** Fields that several sums share: a thread, the grade of a screw, what it is tapped into. */
import { type Strength, strengthOf } from '../joint/grade.ts';
import { type Material, readMaterial } from '../joint/material.ts';
import { readGrade } from '../joint/read-grade.ts';
import { readThread } from '../joint/read-thread.ts';
import { makeThread, type Thread } from '../joint/thread.ts';
import type { Entries } from './entries.ts';

/** The thread by its name in field `thread`; null where it is empty or refused. */
export function namedThread(read: Entries): Thread | null {
  if (read.empty('thread')) return null;
  const found = readThread(read.text('thread'));
  return found.ok ? found.thread : read.blame('thread', found.why);
}

/** The strength by field `grade` for a thread; null where it is empty or refused. */
export function gradeStrength(read: Entries, thread: Thread | null): Strength | null {
  if (read.empty('grade')) return null;
  const grade = readGrade(read.text('grade'));
  if (!grade.ok) return read.blame('grade', grade.why);
  if (!thread) return null;
  const strength = strengthOf(grade.grade, thread.diameter);
  return strength.ok ? strength.strength : read.blame('grade', strength.why);
}

/** The material by field `into`; null where it is empty or refused. */
export function tappedInto(read: Entries): Material | null {
  if (read.empty('into')) return null;
  const found = readMaterial(read.text('into'));
  return found.ok ? found.material : read.blame('into', found.why);
}

/** The thread by its name in field `thread`, or from fields `diameter` and `pitch`; null where it is refused. */
export function threadOrSize(read: Entries): Thread | null {
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
  return read.empty('thread')
    ? read.blame('thread', 'nothing is entered: write e.g. 1/4-20 or M6, or give diameter and pitch.')
    : namedThread(read);
}
