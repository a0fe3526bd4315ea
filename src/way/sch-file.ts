/**
 * Projects in the ProGen/max text format (Schwindt 1998), in which the public benchmark sets of RCPSP/max are written:
 * a first line `activities resources 0 0`, then for each activity 0 … n + 1 its number, modes, count of successors, the
 * successors and their lags in brackets; then for each its number, mode, duration and demands; last the capacities. A
 * negative lag from j back to i is a maximum lag: j starts at most that long after i.
 */
import type { Project, StartLag, Task } from './project.ts';

export type SchRead =
  | { readonly ok: true; readonly project: Project }
  /** One sentence with the line. */
  | { readonly ok: false; readonly why: string };

/** Most activities and resources that are read, count. */
const MOST_ACTIVITIES = 2000;
const MOST_RESOURCES = 60;

class Trouble extends Error {}

/** Reads a project; whatever is wrong is said in one sentence with its line. */
export function readSch(text: string): SchRead {
  try {
    return { ok: true, project: read(text) };
  } catch (error) {
    if (error instanceof Trouble) return { ok: false, why: error.message };
    throw error;
  }
}

function read(text: string): Project {
  const lines = text.split(/\r?\n/).flatMap((line, n) => {
    const words = line.trim().split(/\s+/).filter(Boolean);
    return words.length > 0 ? [{ words, at: n + 1 }] : [];
  });
  let next = 0;
  const take = (what: string) => {
    const line = lines[next++];
    if (!line)
      throw new Trouble(`The file ends before ${what}: it has ${lines.length} lines that are not empty.`);
    return line;
  };
  const whole = (word: string | undefined, at: number, what: string, least: number, most: number): number => {
    const value = word !== undefined && /^-?\d+$/.test(word) ? Number(word) : Number.NaN;
    if (value >= least && value <= most) return value;
    throw new Trouble(
      `Line ${at}: ${what} must be a whole number from ${least} to ${most}, got ${word === undefined ? 'nothing' : `"${word.slice(0, 20)}"`}.`,
    );
  };
  const head = take('its first line');
  const count = whole(head.words[0], head.at, 'the number of activities', 1, MOST_ACTIVITIES) + 2;
  const kinds = whole(head.words[1], head.at, 'the number of resources', 0, MOST_RESOURCES);
  const lags: StartLag[] = [];
  for (let i = 0; i < count; i++) {
    const { words, at } = take(`the successors of activity ${i}`);
    if (whole(words[0], at, 'the activity', 0, count - 1) !== i)
      throw new Trouble(`Line ${at}: activity ${i} is due here, got ${words[0]}.`);
    whole(words[1], at, 'the number of modes', 1, 1);
    const many = whole(words[2], at, 'the number of successors', 0, count);
    const brackets =
      words
        .slice(3 + many)
        .join('')
        .match(/\[[^[\]]*\]/g) ?? [];
    if (brackets.length !== many)
      throw new Trouble(
        `Line ${at}: ${many} successors and ${brackets.length} lags in brackets; write one lag for each.`,
      );
    for (let n = 0; n < many; n++) {
      const to = whole(words[3 + n], at, 'a successor', 0, count - 1);
      const least = whole(brackets[n]!.slice(1, -1), at, 'a lag', -1e6, 1e6);
      if (to === i && least > 0) throw new Trouble(`Line ${at}: activity ${i} cannot wait for itself.`);
      lags.push({ from: i, to, least });
    }
  }
  const tasks: Task[] = [];
  for (let i = 0; i < count; i++) {
    const { words, at } = take(`the duration of activity ${i}`);
    if (whole(words[0], at, 'the activity', 0, count - 1) !== i)
      throw new Trouble(`Line ${at}: activity ${i} is due here, got ${words[0]}.`);
    whole(words[1], at, 'the mode', 1, 1);
    if (words.length !== 3 + kinds)
      throw new Trouble(
        `Line ${at}: a duration and ${kinds} demands are due, got ${words.length - 2} figures.`,
      );
    const duration = whole(words[2], at, 'the duration', 0, 1e6);
    const demand = Array.from({ length: kinds }, (_, r) => whole(words[3 + r], at, 'a demand', 0, 1e6));
    tasks.push({ id: String(i), name: `activity ${i}`, duration, demand, attended: false });
  }
  const capacity: number[] = [];
  if (kinds > 0) {
    const { words, at } = take('the capacities');
    if (words.length !== kinds)
      throw new Trouble(`Line ${at}: ${kinds} capacities are due, got ${words.length} figures.`);
    for (const word of words) capacity.push(whole(word, at, 'a capacity', 0, 1e6));
  }
  const more = lines[next];
  if (more)
    throw new Trouble(
      `Line ${more.at}: nothing is due after the capacities, got "${more.words[0]!.slice(0, 20)}".`,
    );
  return { tasks, lags, capacity, resources: capacity.map((_, r) => `resource ${r + 1}`), shut: [] };
}
