/** Parts by pointing: one more, another name for one, and one taken out with everything that named it. */
import { getAt, isObject, type Json, type JsonObject } from '../machine/json-value.ts';
import { freshId } from '../machine/plain-id.ts';
import { ringMade } from './point-reach.ts';
import { CLOSED_WITH, heldBy, makeAction, remake, supplyId } from './point-steps.ts';
import { Touch } from './point-touch.ts';
import { entriesAt, nameOf, objectsOf, off, type Pointed, row, slack, textOf, textsOf } from './pointing.ts';

/** Longest name of a part, characters: `mechanical-definition.ts` says so. */
export const LONGEST_NAME = 80;

/** Why a name does not do for a part; null when it does. `except` is the part that bears it now. */
export function nameRefused(file: Json, name: string, except: string | null = null): string | null {
  const plain = plainName(name);
  if (name.trim() === '') return 'Write what you call it, such as primary cover.';
  if (plain === '') return 'Use letters or digits in its name.';
  if ([...name.trim()].length > LONGEST_NAME)
    return `Shorten the name: it has more than ${LONGEST_NAME} characters.`;
  const other = entriesAt(file, ['parts']).find(
    ([id, one]) => id !== except && plainName(textOf(one.name)) === plain,
  );
  return other === undefined
    ? null
    : `There is a ${textOf(other[1].name)} already. Tell the two apart by name, such as left and right.`;
}

function plainName(name: string): string {
  return name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
}

/** Words of the file that a new id must keep clear of: parts, things of facts, actions. */
function takenIds(file: Json): Set<string> {
  const actions = entriesAt(file, ['work', 'actions']);
  const facts = actions.flatMap(([, one]) => [...textsOf(one.gives), ...textsOf(one.needs)]);
  return new Set([
    ...entriesAt(file, ['parts']).map(([id]) => id),
    ...facts.map((fact) => fact.split(' ')[0]!),
  ]);
}

/** Adds a part with the action that takes it off; `id` is what it is called from now on. */
export function addPart(file: Json, name: string): Pointed & { readonly id: string | null } {
  const why = nameRefused(file, name);
  if (why !== null) return { ok: false, why, id: null };
  const touch = new Touch(file);
  const id = freshId(name.slice(0, 28), takenIds(file));
  touch.put(['parts', id], { name: name.trim() });
  makeAction(touch, id, 'off', []);
  return { ...touch.done(`The ${name.trim()} is there.`), id };
}

/** Gives a part another name; its id stays, so that nothing that leads to it is lost. */
export function renamePart(file: Json, part: string, name: string): Pointed {
  if (!isPart(file, part)) return notThere(file, part);
  const why = nameRefused(file, name, part);
  if (why !== null) return { ok: false, why };
  const touch = new Touch(file);
  const before = nameOf(file, part);
  remake(touch, part, () => touch.put(['parts', part, 'name'], name.trim()));
  for (const [id, target] of entriesAt(file, ['work', 'targets']))
    if (target.name === before && textsOf(target.needs).includes(off(part)))
      touch.put(['work', 'targets', id, 'name'], name.trim());
  return touch.done(`The ${before} is called ${name.trim()} now.`);
}

/** What goes when a part is taken out, in sentences; empty where it stands alone. */
export function goesWith(file: Json, part: string): readonly string[] {
  const facts = [off(part), slack(part)];
  const name = nameOf(file, part);
  const out: string[] = [];
  const waiting = entriesAt(file, ['work', 'actions'])
    .filter(([, one]) => textsOf(one.needs).some((fact) => facts.includes(fact)))
    .filter(([, one]) => !textsOf(one.gives).every((fact) => facts.includes(fact)))
    .map(([, one]) => `“${textOf(one.does)}”`);
  if (waiting.length > 0) out.push(`${row(waiting)} will no longer wait for the ${name}.`);
  const targets = goalsLost(file, facts).map(([, one]) => textOf(one.name));
  if (targets.length > 0) out.push(`${row(targets)} will no longer be something to get to.`);
  const fasteners = fastenersLost(file, part).map(
    (id) => textOf(getAt(file, ['fasteners', id, 'name'])) || id,
  );
  if (fasteners.length > 0) out.push(`${row(fasteners)} go with it.`);
  return out;
}

/** Takes a part out with all that named it. */
export function removePart(file: Json, part: string): Pointed {
  if (!isPart(file, part)) return notThere(file, part);
  const touch = new Touch(file);
  const facts = [off(part), slack(part)];
  const without = (list: Json | undefined): readonly string[] =>
    textsOf(list).filter((fact) => !facts.includes(fact));
  const fasteners = fastenersLost(file, part);
  for (const [id] of goalsLost(file, facts)) touch.put(['work', 'targets', id], undefined);
  for (const [id, one] of entriesAt(file, ['work', 'actions'])) {
    const path = ['work', 'actions', id];
    const gives = without(one.gives);
    if (gives.length === 0 && textsOf(one.gives).length > 0) {
      dropAction(touch, id);
      continue;
    }
    touch.putList([...path, 'gives'], gives);
    touch.putList([...path, 'needs'], without(one.needs));
    if (one.part === part) touch.put([...path, 'part'], undefined);
  }
  for (const section of ['targets', 'wear'])
    for (const [id, one] of entriesAt(touch.value, ['work', section])) {
      const needs = without(one.needs);
      // What wears must say what it needs: without that it cannot be read.
      if (section === 'wear' && needs.length === 0) touch.put(['work', section, id], undefined);
      else if (needs.length < textsOf(one.needs).length) touch.putList(['work', section, id, 'needs'], needs);
    }
  for (const [n, level] of objectsOf(getAt(file, ['work', 'levels'])).entries())
    if (Array.isArray(level.facts)) touch.put(['work', 'levels', n, 'facts'], without(level.facts));
  for (const [id, one] of entriesAt(file, ['parts'])) {
    const by = textsOf(one.blockedBy);
    if (by.includes(part))
      touch.putList(
        ['parts', id, 'blockedBy'],
        by.filter((other) => other !== part),
      );
  }
  touch.put(['parts', part], undefined);
  for (const id of fasteners) touch.put(['fasteners', id], undefined);
  for (const [id, one] of entriesAt(touch.value, ['fasteners']))
    if (one.part === part) touch.put(['fasteners', id, 'part'], undefined);
  for (const kind of CLOSED_WITH)
    if (!usesSupply(touch.value, supplyId(part, kind)))
      touch.put(['work', 'supplies', supplyId(part, kind)], undefined);
  const why = ringMade(file, touch.value);
  return why === null ? touch.done(`The ${nameOf(file, part)} is taken out.`) : { ok: false, why };
}

/** Takes an action out, with the waits of other steps for its steps. */
export function dropAction(touch: Touch, id: string): void {
  const gone = new Set(
    objectsOf(getAt(touch.value, ['work', 'actions', id, 'back'])).map((step) => textOf(step.id)),
  );
  touch.put(['work', 'actions', id], undefined);
  const waits = (steps: Json | undefined, path: readonly (string | number)[]): void => {
    for (const [n, step] of objectsOf(steps).entries()) {
      const lags = objectsOf(step.lags);
      const kept = lags.filter(({ after }) => !gone.has(textOf(after)));
      if (kept.length < lags.length) touch.putList([...path, n, 'lags'], kept);
    }
  };
  for (const [other, one] of entriesAt(touch.value, ['work', 'actions']))
    waits(one.back, ['work', 'actions', other, 'back']);
  for (const [other, one] of entriesAt(touch.value, ['work', 'targets']))
    waits(one.work, ['work', 'targets', other, 'work']);
  waits(getAt(touch.value, ['work', 'closing']), ['work', 'closing']);
}

function goalsLost(file: Json, facts: readonly string[]): readonly (readonly [string, JsonObject])[] {
  return entriesAt(file, ['work', 'targets']).filter(([, one]) => {
    const needs = textsOf(one.needs);
    return needs.length > 0 && needs.every((fact) => facts.includes(fact));
  });
}

/** Fasteners that nothing else names when the part is gone. */
function fastenersLost(file: Json, part: string): readonly string[] {
  const facts = [off(part), slack(part)];
  const stay = entriesAt(file, ['work', 'actions']).filter(
    ([, one]) => !textsOf(one.gives).every((fact) => facts.includes(fact)),
  );
  const steps = [
    ...stay.flatMap(([, one]) => [one, ...objectsOf(one.back)]),
    ...entriesAt(file, ['work', 'targets']).flatMap(([, one]) => objectsOf(one.work)),
    ...objectsOf(getAt(file, ['work', 'closing'])),
  ];
  const named = new Set([
    ...steps.map((one) => textOf(one.fastener)),
    ...entriesAt(file, ['parts']).flatMap(([id, one]) => (id === part ? [] : textsOf(one.heldBy))),
    ...entriesAt(file, ['fluids']).map(([, one]) => textOf(one.plug)),
  ]);
  return heldBy(file, part).filter((id) => isObject(getAt(file, ['fasteners', id])) && !named.has(id));
}

function usesSupply(file: Json, supply: string): boolean {
  const steps = [
    ...entriesAt(file, ['work', 'actions']).flatMap(([, one]) => objectsOf(one.back)),
    ...entriesAt(file, ['work', 'targets']).flatMap(([, one]) => objectsOf(one.work)),
    ...objectsOf(getAt(file, ['work', 'closing'])),
  ];
  return steps.some((step) => objectsOf(step.uses).some((use) => use.supply === supply));
}

export function isPart(file: Json, part: string): boolean {
  return isObject(getAt(file, ['parts', part]));
}

/** The refusal of a part that the file does not have. */
export function notThere(file: Json, part: string): Pointed & { readonly ok: false } {
  const known = entriesAt(file, ['parts']).map(([, one]) => textOf(one.name));
  const some = known.length === 0 ? 'It has no parts yet' : `It has ${row(known.slice(0, 6))}`;
  return {
    ok: false,
    why: `There is no part "${part}" in this file. ${some}${known.length > 6 ? ' and more' : ''}.`,
  };
}
