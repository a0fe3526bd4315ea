/** What holds a part, by pointing: fasteners with what is known of them, and what it is closed with that must be new. */

import { readJson } from '../machine/json-text.ts';
import { getAt, isObject, type Json, type JsonObject } from '../machine/json-value.ts';
import { fastenerShape } from '../machine/mechanical-definition.ts';
import { freshId } from '../machine/plain-id.ts';
import { isPart, notThere } from './point-parts.ts';
import { CLOSED_WITH, type ClosedWith, heldBy, nameOfFastener, remake, supplyId } from './point-steps.ts';
import { Touch } from './point-touch.ts';
import { entriesAt, MOST_IN_LIST, nameOf, objectsOf, type Pointed, textOf, textsOf } from './pointing.ts';

/** What is said of a fastener; texts as a person writes them, empty or left out where nothing is known. */
export interface Holding {
  readonly name: string;
  readonly count?: number;
  readonly thread?: string;
  readonly torque?: string;
  /** Id of the source of thread and torque; left out, they are entered as a guess. */
  readonly from?: string;
}

/** Id of the source that figures get of which nobody says where they come from. */
const GUESS = 'guess';

/** The part is held by this; its torque becomes a step of putting it back. */
export function holdWith(file: Json, part: string, held: Holding): Pointed {
  if (!isPart(file, part)) return notThere(file, part);
  const name = held.name.trim();
  if (name === '') return { ok: false, why: 'Write what holds it, such as cover screws.' };
  if (heldBy(file, part).length >= MOST_IN_LIST)
    return {
      ok: false,
      why: `The ${nameOf(file, part)} is held by ${MOST_IN_LIST} kinds of fastener already.`,
    };
  const touch = new Touch(file);
  // A fastener of which no figure is known needs no source.
  const figure = (text = '') =>
    text.trim() === '' ? undefined : { is: text.trim(), from: held.from ?? guessSource(touch) };
  const thread = figure(held.thread);
  const torque = figure(held.torque);
  const fastener: JsonObject = {
    name,
    part,
    ...(held.count === undefined ? {} : { count: held.count }),
    ...(thread === undefined ? {} : { thread }),
    ...(torque === undefined ? {} : { torque }),
  };
  const why = fastenerRefused(touch.value, fastener);
  if (why !== null) return { ok: false, why };
  const taken = new Set(entriesAt(file, ['fasteners']).map(([id]) => id));
  const id = freshId(name.slice(0, 36), taken);
  remake(touch, part, () => {
    touch.put(['fasteners', id], fastener);
    touch.put(['parts', part, 'heldBy'], [...heldBy(file, part), id]);
  });
  const count = held.count === undefined || held.count === 1 ? name : `${held.count} ${name}`;
  return touch.done(`The ${nameOf(file, part)} is held by ${count}.`);
}

/** The part is no longer held by this; a fastener that nothing else names goes. */
export function letGo(file: Json, part: string, fastener: string): Pointed {
  if (!isPart(file, part)) return notThere(file, part);
  if (!heldBy(file, part).includes(fastener))
    return { ok: false, why: `The ${nameOf(file, part)} is not held by "${fastener}".` };
  const touch = new Touch(file);
  const name = nameOfFastener(file, fastener);
  remake(touch, part, () => {
    touch.putList(
      ['parts', part, 'heldBy'],
      heldBy(file, part).filter((id) => id !== fastener),
    );
  });
  if (!namedStill(touch.value, fastener)) touch.put(['fasteners', fastener], undefined);
  else if (getAt(touch.value, ['fasteners', fastener, 'part']) === part)
    touch.put(['fasteners', fastener, 'part'], undefined);
  return touch.done(`The ${nameOf(file, part)} is no longer held by ${name}.`);
}

/** The part is closed with a gasket or seal that must be new each time, or with nothing of that kind. */
export function closesWith(file: Json, part: string, kind: ClosedWith | null): Pointed {
  if (!isPart(file, part)) return notThere(file, part);
  const touch = new Touch(file);
  const name = nameOf(file, part);
  remake(touch, part, () => {
    for (const one of CLOSED_WITH) {
      const path = ['work', 'supplies', supplyId(part, one)];
      if (one !== kind) touch.put(path, undefined);
      else if (!isObject(getAt(file, path)))
        touch.put(path, { name: `${name.slice(0, 70)} ${one}`, kind: one, unit: 'piece', singleUse: true });
    }
  });
  if (kind === null) return touch.done(`The ${name} goes back without a new gasket or seal.`);
  return touch.done(`The ${name} goes back with a new ${kind}.`);
}

/** The source that says nothing but that it is a guess; made where the file has none. */
function guessSource(touch: Touch): string {
  const sources = entriesAt(touch.value, ['sources']);
  const has = sources.find(([, one]) => one.kind === 'guess');
  if (has) return has[0];
  const id = freshId(GUESS, new Set(sources.map(([one]) => one)));
  touch.put(['sources', id], { kind: 'guess', title: 'A guess' });
  return id;
}

/** Why a fastener cannot be written down, in the words of the check; null where it can. */
function fastenerRefused(file: Json, fastener: JsonObject): string | null {
  const { root } = readJson(JSON.stringify(fastener));
  if (root === null) return 'This cannot be written down.';
  const said: string[] = [];
  fastenerShape.read(root, '', {
    sourceIds: entriesAt(file, ['sources']).map(([id]) => id),
    complain: (_at, path, what, fix) => said.push(`${path.split('.')[1] ?? 'Fastener'}: ${what}. ${fix}.`),
  });
  return said[0] ?? null;
}

function namedStill(file: Json, fastener: string): boolean {
  const actions = entriesAt(file, ['work', 'actions']);
  const steps = [
    ...actions.flatMap(([, one]) => [one, ...objectsOf(one.back)]),
    ...entriesAt(file, ['work', 'targets']).flatMap(([, one]) => objectsOf(one.work)),
    ...objectsOf(getAt(file, ['work', 'closing'])),
  ];
  return (
    steps.some((one) => textOf(one.fastener) === fastener) ||
    entriesAt(file, ['parts']).some(([, one]) => textsOf(one.heldBy).includes(fastener)) ||
    entriesAt(file, ['fluids']).some(([, one]) => textOf(one.plug) === fastener)
  );
}

/** The fasteners of a part as they are listed: id, name, how many, thread and torque where known. */
export function holdingsOf(file: Json, part: string): readonly (Holding & { readonly id: string })[] {
  return heldBy(file, part).map((id) => {
    const one = getAt(file, ['fasteners', id]);
    const figure = (key: string) => textOf(getAt(one, [key, 'is']));
    const count = getAt(one, ['count']);
    return {
      id,
      name: nameOfFastener(file, id),
      ...(typeof count === 'number' ? { count } : {}),
      thread: figure('thread'),
      torque: figure('torque'),
    };
  });
}
