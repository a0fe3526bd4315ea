/** Engine states in which readings are offered, and the physics of the single faults in them worked out beforehand. */
import { completeKey } from '../reading/catalogue.ts';
import { type Asked, askedOf } from './asked.ts';
import type { Field, Member } from './field.ts';

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

/** A running reading in one of the states: whoever shows it knows the operating point, and with it all others. */
function pointIn(words: string): Asked {
  const [rpm, lights, temp, charged, acc] = words.split('|') as [string, string, string, string, string];
  return askedOf(completeKey({ kind: 'batt_volts', state: { rpm, lights, temp, charged, acc } }));
}

/**
 * Works ahead, a little at each call; false when nothing is left to do. First the operating points of single faults, one of
 * them in one state, then those of the sets in `hopeful`, which the next answer may have to compute. It never changes an
 * answer, it only makes the next ones come sooner.
 */
export function openWarmer(field: Field, hopeful: () => readonly Member[]): () => boolean {
  const singles = field.members.filter((member) => member.base.atoms.length <= 1);
  let next = 0;
  const done = new WeakMap<Member, number>();
  return () => {
    const words = WARMED_STATES[Math.floor(next / singles.length)];
    if (words !== undefined) {
      singles[next % singles.length]!.rough.read(pointIn(words));
      next++;
      return true;
    }
    for (const member of hopeful()) {
      const states = done.get(member) ?? 0;
      const state = WARMED_STATES[states];
      if (state === undefined) continue;
      field.ready(member, pointIn(state));
      done.set(member, states + 1);
      return true;
    }
    return false;
  };
}

/** Sets made ready for the next answer at the most. */
const HOPEFUL = 40;

/** The likeliest sets of several faults on a list that is sorted by likelihood. */
export function hopefulOf(rated: readonly { readonly member: Member }[]): Member[] {
  const found = new Set<Member>();
  for (const { member } of rated) {
    if (member.base.atoms.length > 1) found.add(member);
    if (found.size >= HOPEFUL) break;
  }
  return [...found];
}
