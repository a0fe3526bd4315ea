/** Engine states in which readings are offered, and the physics of the single faults in them worked out beforehand. */
import { completeKey } from '../reading/catalogue.ts';
import { type Asked, askedOf } from './asked.ts';
import { type Field, facing, fitOf, type Member } from './field.ts';

/**
 * Engine states in the order they come into play: one more with each reading, because each costs physics for every
 * single fault and minutes at the lift. The first look is at what needs no running engine.
 * Words as `stateWords` writes them: rpm, lights, temperature, battery charged, accessories.
 */
export const ENGINE_STATES: readonly string[] = [
  'idle|low|cold|False|True',
  '3000|low|cold|False|True',
  '5000|low|cold|False|True',
  '5000|off|cold|False|True',
  '3000|low|cold|False|False',
  'idle|low|hot|False|True',
  '3000|low|hot|False|True',
  '5000|off|cold|True|True',
  'idle|low|cold|True|True',
  '3000|low|cold|True|True',
];

/** States that nobody is sent to but that anybody may read in: worked out last, while the mechanic is at the bike. */
const FURTHER_STATES: readonly string[] = [
  'idle|off|cold|False|True',
  '3000|off|cold|False|True',
  '2000|low|cold|False|True',
  '2000|off|cold|False|True',
  'idle|high|cold|False|True',
];

/** All states worked out beforehand, in this order. */
export const WARMED_STATES: readonly string[] = [...ENGINE_STATES, ...FURTHER_STATES];

/**
 * A running reading in one of the states, as it is and with the harness moved, which is another point only where something
 * is loose: whoever shows it knows the operating point, and with it all others. A reading with the harness moved that does
 * not fit is asked whether it was taken in another state: its points in all of them, worked out then, were half of the
 * slowest answer.
 */
export function pointsIn(words: string): readonly Asked[] {
  const [rpm, lights, temp, charged, acc] = words.split('|') as [string, string, string, string, string];
  return ['False', 'True'].map((wiggle) =>
    askedOf(completeKey({ kind: 'batt_volts', state: { rpm, lights, temp, charged, acc, wiggle } })),
  );
}

/** Readings that may come next, by what they need: those at a standing engine first, then one list for each engine state. */
function listsOf(offers: readonly Asked[]): readonly (readonly Asked[])[] {
  const lists = new Map<string, Asked[]>([
    ['', []],
    ...WARMED_STATES.map((words) => [words, []] as [string, Asked[]]),
  ]);
  for (const asked of offers) lists.get(asked.running ? asked.words : '')?.push(asked);
  return [...lists.values()];
}

/**
 * Works ahead, a little at each call; false when nothing is left to do. First the operating points of single faults, one of
 * them in one state, then those of the sets in `hopeful`, which the next answer may have to compute; then the lines of both
 * for the readings in `offers`. It never changes an answer, it only makes the next ones come sooner.
 */
export function openWarmer(
  field: Field,
  offers: readonly Asked[],
  phases: 1 | 3,
  hopeful: () => readonly Hopeful[],
): () => boolean {
  const singles = field.members.filter((member) => member.base.atoms.length <= 1);
  const lists = listsOf(offers);
  let next = 0;
  let lined = 0;
  const done = new WeakMap<Member, number>();
  const drawn = new WeakMap<Hopeful, number>();
  const line = (member: Member, turn: number, list: readonly Asked[]): void => {
    for (const asked of list) fitOf(member, facing(member, turn, asked, phases), true);
  };
  return () => {
    const words = WARMED_STATES[Math.floor(next / singles.length)];
    if (words !== undefined) {
      for (const point of pointsIn(words)) singles[next % singles.length]!.rough.read(point);
      next++;
      return true;
    }
    for (const { member } of hopeful()) {
      if (member.base.atoms.length < 2) continue;
      const states = done.get(member) ?? 0;
      const state = WARMED_STATES[states];
      if (state === undefined) continue;
      for (const point of pointsIn(state)) field.ready(member, point);
      done.set(member, states + 1);
      return true;
    }
    const list = lists[Math.floor(lined / singles.length)];
    if (list) {
      line(singles[lined % singles.length]!, 0, list);
      lined++;
      return true;
    }
    for (const set of hopeful()) {
      const at = drawn.get(set) ?? 0;
      if (at >= lists.length) continue;
      line(set.member, set.turn, lists[at]!);
      drawn.set(set, at + 1);
      return true;
    }
    return false;
  };
}

/** A set, turned to one place. */
export interface Hopeful {
  readonly member: Member;
  readonly turn: number;
}

/** Sets made ready for the next answer at the most. */
const HOPEFUL = 80;

/** The likeliest sets of a list that is sorted by likelihood. */
export function hopefulOf(rated: readonly Hopeful[]): readonly Hopeful[] {
  return rated.slice(0, HOPEFUL);
}
