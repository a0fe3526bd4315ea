/** Screws that bottom, jam, hang by too few threads or do not reach; and lengths in the wrong unit. */
import { sayLength } from '../joint/say.ts';
import type { Thread } from '../joint/thread.ts';
import { engage, type KnownFastener } from './fastener-known.ts';
import { type Finding, say } from './finding.ts';

/** Room below which a screw is said to bottom, m: a rule and a caliper in a hole are no better than that. */
const SURE = 0.2e-3;
/** Diameters of engagement below which it is dangerous, and doubtful, in soft and in hard metal. Common practice, no source. */
const FEWEST = { soft: { danger: 0.6, doubt: 0.95 }, hard: { danger: 0.4, doubt: 0.6 } };
/** Longest believable screw and hole, in diameters. From memory: engine bolts reach some 35 diameters. */
const LONGEST = 60;
const DEEPEST = 25;

/** What may have been meant: the same figure in another unit that fits, as a clause. */
function lengthHint(known: KnownFastener, thread: Thread): string {
  if (known.length === null || known.grip === null) return '';
  const fits = (scale: number, of: 'length' | 'grip') => {
    const fit = engage(thread, { ...known, [of]: known[of]! * scale });
    return fit?.ok && !fit.bottoms && fit.diameters >= 0.8 && fit.diameters <= 3.5;
  };
  for (const [scale, words] of [
    [25.4, 'inches'],
    [1 / 25.4, 'millimetres'],
    [10, 'centimetres'],
    [0.1, 'a tenth of it'],
  ] as const) {
    if (fits(scale, 'length')) return `; ${words} may be meant for the length`;
    if (fits(scale, 'grip')) return `; ${words} may be meant for the grip`;
  }
  return '';
}

export function lengthFindings(known: KnownFastener): readonly Finding[] {
  const { thread, path, material, length, grip, threadDepth, holeDepth, threadLength } = known;
  if (thread === null) return [];
  const out: Finding[] = [];
  const add = (level: Finding['level'], at: string, what: string, why: string, lookUp: string) => {
    out.push({ level, topic: 'length', path: `${path}.${at}`, what, why, lookUp });
  };
  if (threadDepth !== null && holeDepth !== null && threadDepth > holeDepth + SURE) {
    const why = `Thread to ${sayLength(threadDepth)}, bottom at ${sayLength(holeDepth)}`;
    add('impossible', 'hole.threadDepth.is', 'the thread is deeper than its hole', why, 'Measure both again');
  }
  if (threadLength !== null && length !== null && threadLength > length + SURE) {
    const why = `${sayLength(threadLength)} of thread on ${sayLength(length)} of screw`;
    add('impossible', 'threadLength.is', 'the thread is longer than the screw', why, 'Measure both again');
  }
  const depth = Math.max(threadDepth ?? 0, holeDepth ?? 0);
  if (depth > DEEPEST * thread.diameter) {
    const at = threadDepth === depth ? 'hole.threadDepth.is' : 'hole.depth.is';
    const why = `${sayLength(depth)} is ${say(depth / thread.diameter)} diameters of ${thread.name}`;
    add('doubt', at, 'the hole is deeper than holes are', why, 'Check the figure and its unit');
  }
  const screw = (known.fastener.kind ?? 'screw') === 'screw';
  if (!screw || length === null) return out;
  if (length > LONGEST * thread.diameter || length < 0.4 * thread.diameter) {
    const why = `${sayLength(length)} is ${say(length / thread.diameter)} diameters of ${thread.name}`;
    const what =
      length < thread.diameter
        ? 'the screw is shorter than screws are'
        : 'the screw is longer than screws are';
    add('doubt', 'length.is', what, why, `Check the figure and its unit${lengthHint(known, thread)}`);
  }
  if (grip === null) return out;
  const hint = lengthHint(known, thread);
  const lookUp = `Look up the length for this hole, and measure grip and depth${hint}`;
  const fit = engage(thread, known);
  if (fit === null) return out;
  if (!fit.ok) {
    add('impossible', 'length.is', 'the screw does not reach its thread', fit.why.split(':')[0]!, lookUp);
    return out;
  }
  const reach = `${sayLength(length)} less ${sayLength(grip + known.washer)} of grip and washers leaves ${sayLength(fit.reach)}`;
  if (fit.room !== null && fit.room < -SURE) {
    const room = `the hole takes ${sayLength(fit.reach + fit.room)}`;
    const why = `${reach}, and ${room}, ${sayLength(-fit.room)} less`;
    add('danger', 'length.is', 'the screw bottoms before it clamps', why, lookUp);
  }
  const plain = threadLength === null ? 0 : length - threadLength;
  if (fit.shankJams && plain > grip + known.washer + known.chamfer + SURE) {
    const why = `${sayLength(plain)} of plain shank stands against ${sayLength(grip + known.washer)} of grip and washers`;
    add('danger', 'threadLength.is', 'the shank jams in the thread before the head clamps', why, lookUp);
  }
  const soft = material !== null && /alumin|magnes/i.test(material.name);
  const fewest = soft ? FEWEST.soft : FEWEST.hard;
  if (fit.diameters < fewest.doubt) {
    const level = fit.diameters < fewest.danger ? 'danger' : 'doubt';
    const metal = soft ? `; ${material.name} wants 1.5 to 2 diameters` : '';
    const why = `${sayLength(fit.engaged)} of full thread is ${say(fit.diameters)} diameters${metal}`;
    add(level, 'length.is', 'the screw has too few threads to hold by', why, lookUp);
  }
  if (fit.diameters > 8) {
    const why = `${sayLength(fit.engaged)} of thread is ${say(fit.diameters)} diameters`;
    add('doubt', 'length.is', 'the screw goes deeper than screws do', why, lookUp);
  }
  return out;
}
