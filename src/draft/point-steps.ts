/**
 * What a part's coming off and going back look like until somebody says otherwise: the sentence, a guess of the minutes,
 * and the steps back as the mirror of the way in: a new gasket or seal, the part, then each fastener with a torque. What
 * still stands as it was made is made anew when the part changes; what a hand wrote stays.
 */
import { getAt, isObject, type Json, type JsonObject, sameJson } from '../machine/json-value.ts';
import { freshId } from '../machine/plain-id.ts';
import { type Move, waysOff, waysSlack } from './point-reach.ts';
import type { Touch } from './point-touch.ts';
import { entriesAt, nameOf, objectsOf, off, slack, stepIds, textOf, textsOf } from './pointing.ts';

/** Minutes of taking off and of putting back until somebody says them: a guess, no source. */
export const GUESSED_MINUTES = '5–15 min';
/** Minutes of slackening, of tightening and of a gasket until somebody says them: a guess, no source. */
export const GUESSED_SHORT = '2–6 min';

/** What a part is closed with that must be new. */
export const CLOSED_WITH = ['gasket', 'seal'] as const;
export type ClosedWith = (typeof CLOSED_WITH)[number];

/** The sentence of an action or step until somebody writes another. */
export const SENTENCES = {
  off: (name: string) => `Take the ${name} off`,
  slack: (name: string) => `Slacken the ${name}`,
  back: (name: string) => `Put the ${name} back`,
  tight: (name: string) => `Tighten the ${name} again`,
  torque: (name: string) => `Torque the ${name}`,
  gasket: (name: string) => `Clean both faces and lay the new gasket of the ${name}`,
  seal: (name: string) => `Fit the new seal of the ${name}`,
} as const;

/** Id of the supply that a part is closed with. */
export function supplyId(part: string, kind: ClosedWith): string {
  return `${part.slice(0, 33)}-${kind}`;
}

/** What a part is closed with, by the supply its steps use; null for nothing. */
export function closedWith(file: Json, part: string): ClosedWith | null {
  return (
    CLOSED_WITH.find((kind) => isObject(getAt(file, ['work', 'supplies', supplyId(part, kind)]))) ?? null
  );
}

/** Ids of the fasteners that hold a part. */
export function heldBy(file: Json, part: string): readonly string[] {
  return textsOf(getAt(file, ['parts', part, 'heldBy']));
}

/** The steps back of one way as they are made, without ids. */
function madeSteps(file: Json, part: string, move: Move): readonly JsonObject[] {
  const name = nameOf(file, part);
  const fasteners = heldBy(file, part);
  const torqued = fasteners.filter((id) => getAt(file, ['fasteners', id, 'torque']) !== undefined);
  const plain = fasteners.find((id) => !torqued.includes(id));
  const torques = torqued.map((id) => ({
    does: SENTENCES.torque(nameOfFastener(file, id)),
    kind: 'torque',
    minutes: GUESSED_SHORT,
    fastener: id,
  }));
  const loose = plain === undefined ? {} : { fastener: plain };
  if (!move.gives.includes(off(part)))
    return torques.length > 0
      ? torques
      : [{ does: SENTENCES.tight(name), kind: 'refit', minutes: GUESSED_SHORT, ...loose }];
  const closed = closedWith(file, part);
  const fresh =
    closed === null
      ? []
      : [
          {
            does: SENTENCES[closed](name),
            kind: closed,
            minutes: GUESSED_SHORT,
            uses: [{ supply: supplyId(part, closed), amount: 1 }],
          },
        ];
  return [
    ...fresh,
    { does: SENTENCES.back(name), kind: 'refit', minutes: GUESSED_MINUTES, ...loose },
    ...torques,
  ];
}

export function nameOfFastener(file: Json, id: string): string {
  return textOf(getAt(file, ['fasteners', id, 'name'])) || id;
}

/** Steps without their ids, to see whether they still stand as they were made. */
function bare(steps: readonly JsonObject[]): Json {
  return steps.map(({ id: _id, ...step }) => step as JsonObject);
}

/** Steps with ids: what was there keeps its own, so that waits for it still lead to it. */
function withIds(file: Json, part: string, steps: readonly JsonObject[], was: readonly JsonObject[]): Json {
  const taken = stepIds(file);
  return steps.map((step) => {
    const same = was.find(
      (one) => one.kind === step.kind && one.fastener === step.fastener && typeof one.id === 'string',
    );
    const end = step.kind === 'refit' ? 'on' : String(step.kind);
    const id = same === undefined ? freshId(`${part.slice(0, 28)}-${end}`, taken) : textOf(same.id);
    taken.add(id);
    return { id, ...step };
  });
}

/** Makes an action that takes a thing off or slackens it, and gives its id. */
export function makeAction(
  touch: Touch,
  part: string,
  how: 'off' | 'slack',
  needs: readonly string[],
): string {
  const taken = new Set(entriesAt(touch.value, ['work', 'actions']).map(([id]) => id));
  const id = freshId(`${part.slice(0, 30)}-${how}`, taken);
  const gives = [how === 'off' ? off(part) : slack(part)];
  const file = touch.value;
  const known = isObject(getAt(file, ['parts', part]));
  const [fastener] = heldBy(file, part);
  touch.put(['work', 'actions', id], {
    does: SENTENCES[how](nameOf(file, part)),
    ...(needs.length === 0 ? {} : { needs: [...needs] }),
    gives,
    minutes: how === 'off' ? GUESSED_MINUTES : GUESSED_SHORT,
    ...(fastener === undefined ? {} : { fastener }),
    ...(known && how === 'off' ? { part } : {}),
    back: withIds(file, part, madeSteps(file, part, { id, needs, gives }), []),
  });
  return id;
}

/** Does something to a part and then makes anew what of its sentences and steps back stood as they had been made. */
export function remake(touch: Touch, part: string, act: () => void): void {
  const before = touch.value;
  const moves = [...waysOff(before, part), ...waysSlack(before, part)];
  act();
  const after = touch.value;
  for (const move of moves) {
    const path = ['work', 'actions', move.id];
    const one = getAt(after, path);
    if (!isObject(one)) continue;
    const how = move.gives.includes(off(part)) ? 'off' : 'slack';
    if (one.does === SENTENCES[how](nameOf(before, part)))
      touch.put([...path, 'does'], SENTENCES[how](nameOf(after, part)));
    const fasteners = heldBy(after, part);
    if (one.fastener === undefined || heldBy(before, part).includes(textOf(one.fastener)))
      touch.put(
        [...path, 'fastener'],
        fasteners.includes(textOf(one.fastener)) ? one.fastener : fasteners[0],
      );
    const was = objectsOf(one.back);
    const now = madeSteps(after, part, move);
    const then = madeSteps(before, part, move);
    if (sameJson(bare(was), bare(then)))
      touch.putList([...path, 'back'], withIds(touch.value, part, now, was) as Json[]);
    else touch.putList([...path, 'back'], byHand(touch.value, part, was, then, now));
  }
}

/** Steps a hand wrote: those that were made and are no longer called for go, those newly called for come at the end. */
function byHand(
  file: Json,
  part: string,
  was: readonly JsonObject[],
  then: readonly JsonObject[],
  now: readonly JsonObject[],
): readonly Json[] {
  const among = (list: readonly JsonObject[], step: JsonObject) =>
    list.some((one) => sameJson(bare([one]), bare([step])));
  const kept = was
    .filter((step) => !(among(then, step) && !among(now, step)))
    .map((step) => (called(file, step.fastener) ? step : withoutFastener(step)));
  const fresh = now.filter((step) => !among(then, step) && !among(kept, step) && step.kind !== 'refit');
  return [...kept, ...(withIds(file, part, fresh, []) as Json[])];
}

function called(file: Json, fastener: Json | undefined): boolean {
  return fastener === undefined || isObject(getAt(file, ['fasteners', textOf(fastener)]));
}

function withoutFastener({ fastener: _fastener, ...step }: JsonObject): JsonObject {
  return step as JsonObject;
}
