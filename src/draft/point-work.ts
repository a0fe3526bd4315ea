/** What taking a part off takes, by pointing: minutes, hands, tools, what may seize; and what one wants to get to. */

import { range } from '../machine/figure.ts';
import { readJson } from '../machine/json-text.ts';
import { getAt, isObject, type Json } from '../machine/json-value.ts';
import { freshId } from '../machine/plain-id.ts';
import type { PLACES } from '../machine/work-definition.ts';
import { isPart, notThere } from './point-parts.ts';
import { waysOff } from './point-reach.ts';
import { Touch } from './point-touch.ts';
import { entriesAt, MOST_IN_LIST, nameOf, off, type Pointed, textOf, textsOf } from './pointing.ts';

/** Low, likely and high time of one action, min; `likely` null where the middle is the likely one. */
export interface Minutes {
  readonly low: number;
  readonly likely: number | null;
  readonly high: number;
}

/** Longest time of one action, min: 14 days. */
const LONGEST_MINUTES = 14 * 1440;
const time = range(
  'time',
  { low: 0, high: LONGEST_MINUTES * 60, words: 'from 0 min to 14 days' },
  '8–20 min',
);

/** How an action stands in the file for its form; null where there is no such action. */
export interface ActionNow {
  readonly does: string;
  /** Null where the text cannot be read as a time. */
  readonly minutes: Minutes | null;
  readonly hands: number;
  readonly tools: readonly string[];
  /** Chance out of 100 that it will not let go after ten years outside; null where that was not said. */
  readonly seizes: number | null;
}

export function actionNow(file: Json, action: string): ActionNow | null {
  const one = getAt(file, ['work', 'actions', action]);
  if (!isObject(one)) return null;
  const seizes = getAt(one, ['seizes', 'basePercent']);
  return {
    does: textOf(one.does),
    minutes: minutesNow(textOf(one.minutes), one.likely),
    hands: typeof one.hands === 'number' ? one.hands : 1,
    tools: textsOf(one.tools),
    seizes: typeof seizes === 'number' ? seizes : null,
  };
}

function minutesNow(text: string, likely: Json | undefined): Minutes | null {
  const low = readTime(text);
  if (low === null) return null;
  const middle = likely === undefined ? null : readTime(textOf(likely));
  return { low: low.low / 60, likely: middle === null ? null : middle.low / 60, high: low.high / 60 };
}

function readTime(text: string): { readonly low: number; readonly high: number } | null {
  const { root } = readJson(JSON.stringify(text));
  if (root === null) return null;
  return time.read(root, '', { sourceIds: [], complain: () => {} }) ?? null;
}

/** How long an action takes at least, likely and at most. */
export function setMinutes(file: Json, action: string, { low, likely, high }: Minutes): Pointed {
  const path = ['work', 'actions', action];
  if (!isObject(getAt(file, path))) return noAction(action);
  for (const [words, value] of [
    ['least', low],
    ['likely', likely ?? low],
    ['most', high],
  ] as const)
    if (!(value >= 0 && value <= LONGEST_MINUTES))
      return {
        ok: false,
        why: `Write the ${words} minutes as a figure from 0 to ${LONGEST_MINUTES} (14 days).`,
      };
  if (low > high) return { ok: false, why: `At least ${low} min cannot be more than at most ${high} min.` };
  if (likely !== null && (likely < low || likely > high))
    return { ok: false, why: `The likely ${likely} min must lie between ${low} and ${high} min.` };
  const touch = new Touch(file);
  touch.put([...path, 'minutes'], low === high ? `${tidy(low)} min` : `${tidy(low)}–${tidy(high)} min`);
  const middle = (low + high) / 2;
  touch.put([...path, 'likely'], likely === null || likely === middle ? undefined : `${tidy(likely)} min`);
  return touch.done(`It takes ${tidy(low)} to ${tidy(high)} min.`);
}

function tidy(minutes: number): string {
  return String(Number(minutes.toFixed(2)));
}

/** Pairs of hands of an action, 0 for what runs by itself. */
export function setHands(file: Json, action: string, hands: 0 | 1 | 2): Pointed {
  const path = ['work', 'actions', action];
  if (!isObject(getAt(file, path))) return noAction(action);
  const touch = new Touch(file);
  touch.put([...path, 'hands'], hands === 1 ? undefined : hands);
  return touch.done(
    hands === 0 ? 'It runs by itself.' : `It takes ${hands === 1 ? 'one person' : 'two people'}.`,
  );
}

/** Takes a tool to hand for an action, or puts it away again; `tool` is an id of the file. */
export function useTool(file: Json, action: string, tool: string, use: boolean): Pointed {
  const path = ['work', 'actions', action];
  if (!isObject(getAt(file, path))) return noAction(action);
  const name = textOf(getAt(file, ['work', 'tools', tool, 'name']));
  if (name === '') return { ok: false, why: `There is no tool "${tool}" in this file. Add it first.` };
  const touch = new Touch(file);
  const others = textsOf(getAt(file, [...path, 'tools'])).filter((id) => id !== tool);
  if (use && others.length >= MOST_IN_LIST)
    return { ok: false, why: `More than ${MOST_IN_LIST} tools cannot be written down for one action.` };
  touch.putList([...path, 'tools'], use ? [...others, tool] : others);
  return touch.done(use ? `It needs ${name}.` : `It does not need ${name}.`);
}

/** Adds a tool of the workshop and takes it to hand for an action. */
export function addTool(file: Json, action: string, name: string): Pointed {
  const words = name.trim();
  if (words === '') return { ok: false, why: 'Write what you call it, such as torque wrench.' };
  if ([...words].length > 80) return { ok: false, why: 'Shorten the name: it has more than 80 characters.' };
  const tools = entriesAt(file, ['work', 'tools']);
  const same = tools.find(([, one]) => textOf(one.name).toLowerCase() === words.toLowerCase());
  if (same) return useTool(file, action, same[0], true);
  if (!isObject(getAt(file, ['work', 'actions', action]))) return noAction(action);
  const id = freshId(words, new Set(tools.map(([one]) => one)));
  const added = new Touch(file);
  added.put(['work', 'tools', id], { name: words });
  const used = useTool(added.value, action, id, true);
  return used.ok ? { ...used, puts: [...added.puts, ...used.puts] } : used;
}

/** Chances one may point at instead of writing a figure, out of 100 after ten years outside: guesses, no source. */
export const SEIZING = { seldom: 4, sometimes: 8, often: 20 } as const;
/** Time that a seized fastener adds until somebody says otherwise: a guess, no source. */
const SEIZED_ADDS = '10–40 min';

/** How often it will not let go, and where it sits; null for what never seizes. */
export function setSeizing(
  file: Json,
  action: string,
  seizes: { readonly basePercent: number; readonly place: (typeof PLACES)[number] } | null,
): Pointed {
  const path = ['work', 'actions', action];
  if (!isObject(getAt(file, path))) return noAction(action);
  const touch = new Touch(file);
  if (seizes === null) {
    touch.put([...path, 'seizes'], undefined);
    return touch.done('It lets go as a rule.');
  }
  const { basePercent, place } = seizes;
  if (!Number.isInteger(basePercent) || basePercent < 0 || basePercent > 100)
    return { ok: false, why: 'Write the chance as a whole figure from 0 to 100.' };
  const was = getAt(file, [...path, 'seizes']);
  touch.put([...path, 'seizes'], { adds: SEIZED_ADDS, ...(isObject(was) ? was : {}), basePercent, place });
  return touch.done(`${basePercent} in 100 will not let go after ten years outside.`);
}

/** The target that speaks of a part: its id, null where nobody wants to get to it. */
export function goalOf(file: Json, part: string): string | null {
  const goals = entriesAt(file, ['work', 'targets']).filter(([, one]) =>
    textsOf(one.needs).includes(off(part)),
  );
  // Where several things must be off, the target speaks of another one, unless it has this one's name.
  const own = goals.find(([id]) => id === part) ?? goals.find(([, one]) => textsOf(one.needs).length === 1);
  return own?.[0] ?? null;
}

/** Repairs that a part's target serves. */
export function repairsOf(file: Json, part: string): readonly string[] {
  const goal = goalOf(file, part);
  return goal === null ? [] : textsOf(getAt(file, ['work', 'targets', goal, 'repairs']));
}

/** This is what one wants to get to, for these repairs; none where it is only to be reached. */
export function getTo(file: Json, part: string, repairs: readonly string[]): Pointed {
  if (!isPart(file, part)) return notThere(file, part);
  if (waysOff(file, part).length === 0)
    return {
      ok: false,
      why: `Nothing takes the ${nameOf(file, part)} off yet: say first what it comes off after.`,
    };
  if (repairs.length > MOST_IN_LIST)
    return { ok: false, why: `More than ${MOST_IN_LIST} repairs cannot be written down for one part.` };
  const touch = new Touch(file);
  const taken = new Set(entriesAt(file, ['work', 'targets']).map(([id]) => id));
  const goal = goalOf(file, part);
  const id = goal ?? freshId(part, taken);
  if (goal === null) touch.put(['work', 'targets', id], { name: nameOf(file, part), needs: [off(part)] });
  touch.putList(['work', 'targets', id, 'repairs'], [...new Set(repairs)]);
  return touch.done(`The ${nameOf(file, part)} is what one wants to get to.`);
}

/** Nobody wants to get to this part any more. Refused for the last one: a way in leads somewhere. */
export function leaveBe(file: Json, part: string): Pointed {
  const goal = goalOf(file, part);
  if (goal === null) return { ok: false, why: `Nobody wants to get to the ${nameOf(file, part)} as it is.` };
  if (entriesAt(file, ['work', 'targets']).length === 1)
    return { ok: false, why: 'Point first at something else to get to: a way in must lead somewhere.' };
  const touch = new Touch(file);
  touch.put(['work', 'targets', goal], undefined);
  return touch.done(`The ${nameOf(file, part)} is nothing to get to any more.`);
}

function noAction(action: string): Pointed {
  return { ok: false, why: `There is no action "${action}" in this file.` };
}
