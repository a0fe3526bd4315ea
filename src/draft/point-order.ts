/** What comes off after what, by pointing: wholly off, only slackened, or either of two. */
import { getAt, type Json, type JsonObject, sameJson } from '../machine/json-value.ts';
import { freshId } from '../machine/plain-id.ts';
import { dropAction, isPart, notThere } from './point-parts.ts';
import { type Move, movesOf, reached, ringMade, waysOff, waysSlack } from './point-reach.ts';
import { makeAction } from './point-steps.ts';
import { Touch } from './point-touch.ts';
import {
  entriesAt,
  MOST_IN_LIST,
  nameOf,
  objectsOf,
  off,
  type Pointed,
  slack,
  stepIds,
  textOf,
  textsOf,
} from './pointing.ts';

/** A thing that something else can wait for: a part, or what an action gives, such as "bike raised". */
function isThing(file: Json, thing: string): boolean {
  const facts = [off(thing), slack(thing)];
  return isPart(file, thing) || movesOf(file).some(({ gives }) => gives.some((fact) => facts.includes(fact)));
}

/** The moves that are meant: one by its id, or all that take the part off; a part without any gets its first. */
function meant(touch: Touch, part: string, way: string | undefined): readonly string[] {
  if (way !== undefined) return movesOf(touch.value).some(({ id }) => id === way) ? [way] : [];
  const ways = waysOff(touch.value, part).map(({ id }) => id);
  return ways.length > 0 ? ways : [makeAction(touch, part, 'off', [])];
}

function refusal(file: Json, part: string, other: string): Pointed | null {
  if (!isThing(file, part)) return notThere(file, part);
  if (!isThing(file, other)) return notThere(file, other);
  if (part === other) return { ok: false, why: `The ${nameOf(file, part)} cannot wait for itself.` };
  return null;
}

/**
 * The other must be off before the part comes off; `way` is one action where only that one waits. Refused with the ring in
 * words where the two would wait for each other.
 */
export function comesOffAfter(file: Json, part: string, other: string, way?: string): Pointed {
  const refused = refusal(file, part, other);
  if (refused) return refused;
  const touch = new Touch(file);
  if (isPart(file, other) && waysOff(file, other).length === 0) makeAction(touch, other, 'off', []);
  if (waysOff(touch.value, other).length === 0)
    return { ok: false, why: `Nothing takes the ${nameOf(file, other)} off: it can only be slackened.` };
  const words = `The ${nameOf(file, part)} comes off after the ${nameOf(file, other)}.`;
  return waits(touch, file, part, other, off(other), way, words);
}

/** Slackening the other is enough for the part to come off. */
export function slackIsEnough(file: Json, part: string, other: string, way?: string): Pointed {
  const refused = refusal(file, part, other);
  if (refused) return refused;
  if (other.includes(' ')) return { ok: false, why: `"${other}" is no part that could be slackened.` };
  const touch = new Touch(file);
  if (waysSlack(file, other).length === 0) {
    // What the other's slackening waits for is what its coming off waits for, as far as that does not wait for the part.
    const ways = waysOff(file, other);
    const free = reached(movesOf(file).filter(({ gives }) => !gives.includes(off(part))));
    const shared = (ways[0]?.needs ?? []).filter((fact) => ways.every(({ needs }) => needs.includes(fact)));
    makeAction(
      touch,
      other,
      'slack',
      shared.filter((fact) => free.has(fact)),
    );
  }
  const words = `Slackening the ${nameOf(file, other)} is enough for the ${nameOf(file, part)} to come off.`;
  return waits(touch, file, part, other, slack(other), way, words);
}

function waits(
  touch: Touch,
  file: Json,
  part: string,
  other: string,
  fact: string,
  way: string | undefined,
  words: string,
): Pointed {
  for (const id of meant(touch, part, way)) {
    const path = ['work', 'actions', id];
    const gives = textsOf(getAt(touch.value, [...path, 'gives']));
    if (gives.includes(off(other)))
      return {
        ok: false,
        why: `The ${nameOf(file, part)} and the ${nameOf(file, other)} come off in one go.`,
      };
    const needs = textsOf(getAt(touch.value, [...path, 'needs']));
    const both = [off(other), slack(other)];
    const at = needs.findIndex((one) => both.includes(one));
    const kept = needs.filter((one, n) => n === at || !both.includes(one));
    const now = at < 0 ? [...needs, fact] : kept.map((one) => (both.includes(one) ? fact : one));
    if (now.length > MOST_IN_LIST)
      return {
        ok: false,
        why: `The ${nameOf(file, part)} waits for ${MOST_IN_LIST} others already, and more cannot be written down. Most of them wait for one another: the last ones are enough.`,
      };
    touch.put([...path, 'needs'], now);
  }
  block(touch, part, other);
  dropUnused(touch);
  const why = ringMade(file, touch.value);
  return why === null ? touch.done(words) : { ok: false, why };
}

/** The part no longer waits for the other. Where that was one of several ways, that way goes. */
export function takeBack(file: Json, part: string, other: string, way?: string): Pointed {
  const touch = new Touch(file);
  const facts = [off(other), slack(other)];
  const ways = (
    way === undefined ? waysOff(file, part) : movesOf(file).filter(({ id }) => id === way)
  ) as Move[];
  const waiting = ways.filter(({ needs }) => needs.some((fact) => facts.includes(fact)));
  const blocked = textsOf(getAt(file, ['parts', part, 'blockedBy'])).includes(other);
  if (waiting.length === 0 && !blocked)
    return { ok: false, why: `The ${nameOf(file, part)} does not wait for the ${nameOf(file, other)}.` };
  if (waiting.length > 0 && waiting.length < ways.length) for (const { id } of waiting) dropAction(touch, id);
  else
    for (const { id, needs } of waiting)
      touch.putList(
        ['work', 'actions', id, 'needs'],
        needs.filter((fact) => !facts.includes(fact)),
      );
  block(touch, part, other);
  dropUnused(touch);
  const why = ringMade(file, touch.value);
  if (why !== null) return { ok: false, why };
  return touch.done(`The ${nameOf(file, part)} no longer waits for the ${nameOf(file, other)}.`);
}

/**
 * Either this or that: wherever the part waits for `first`, there is another way now that waits for `instead`, off or,
 * with `slackened`, slackened.
 */
export function orElse(file: Json, part: string, first: string, instead: string, slackened = false): Pointed {
  const refused = refusal(file, part, first) ?? refusal(file, part, instead);
  if (refused) return refused;
  if (first === instead) return { ok: false, why: `That is the ${nameOf(file, first)} once more.` };
  const made = new Touch(file);
  const facts = [off(first), slack(first)];
  const fact = slackened ? slack(instead) : off(instead);
  const ways = waysOff(file, part).filter(({ needs }) => needs.some((one) => facts.includes(one)));
  if (ways.length === 0)
    return { ok: false, why: `The ${nameOf(file, part)} does not wait for the ${nameOf(file, first)}.` };
  if (slackened && !instead.includes(' ') && waysSlack(file, instead).length === 0)
    makeAction(made, instead, 'slack', []);
  if (!slackened && isPart(file, instead) && waysOff(file, instead).length === 0)
    makeAction(made, instead, 'off', []);
  let added = 0;
  for (const { id, needs } of ways) {
    const now = [...new Set(needs.map((one) => (facts.includes(one) ? fact : one)))];
    if (waysOff(made.value, part).some((one) => sameNeeds(one.needs, now))) continue;
    copyAction(made, id, now);
    added++;
  }
  const words = `The ${nameOf(file, part)} comes off after the ${nameOf(file, first)} or the ${nameOf(file, instead)}, whichever is less work.`;
  if (added === 0) return { ok: false, why: 'That way stands there already.' };
  block(made, part, first);
  const why = ringMade(file, made.value) ?? deadWay(file, made.value, part);
  return why === null ? made.done(words) : { ok: false, why };
}

function sameNeeds(a: readonly string[], b: readonly string[]): boolean {
  return sameJson([...a].sort(), [...b].sort());
}

/** Why a new way of taking a part off could never be gone; null where all can be that could before. */
function deadWay(before: Json, after: Json, part: string): string | null {
  const old = new Set(waysOff(before, part).map(({ id }) => id));
  const fresh = waysOff(after, part).filter(({ id }) => !old.has(id));
  for (const { id } of fresh) {
    // The new way alone: where it waits for the part itself, the ring shows.
    const alone = new Touch(after);
    for (const other of waysOff(after, part))
      if (other.id !== id) alone.put(['work', 'actions', other.id], undefined);
    const why = ringMade(before, alone.value);
    if (why !== null) return why;
  }
  return null;
}

/** One more action like another, with needs of its own and steps back under new ids. */
function copyAction(touch: Touch, from: string, needs: readonly string[]): void {
  const one = getAt(touch.value, ['work', 'actions', from]) as JsonObject;
  const taken = stepIds(touch.value);
  const ids = new Map<string, string>();
  const back = objectsOf(one.back);
  for (const { id } of back) {
    const fresh = freshId(textOf(id), taken);
    taken.add(fresh);
    ids.set(textOf(id), fresh);
  }
  const copied = back.map((step) => ({
    ...step,
    id: ids.get(textOf(step.id)) ?? '',
    ...(step.lags === undefined
      ? {}
      : {
          lags: objectsOf(step.lags).map((lag) => ({
            ...lag,
            after: ids.get(textOf(lag.after)) ?? lag.after,
          })),
        }),
  })) as JsonObject[];
  const actions = new Set(entriesAt(touch.value, ['work', 'actions']).map(([id]) => id));
  const { needs: _needs, back: _back, ...rest } = one;
  touch.put(['work', 'actions', freshId(from, actions)], {
    ...rest,
    ...(needs.length === 0 ? {} : { needs: [...needs] }),
    ...(copied.length === 0 ? {} : { back: copied }),
  } as JsonObject);
}

/** `blockedBy` says what must be off on every way; what a hand wrote there about others stays. */
function block(touch: Touch, part: string, other: string): void {
  if (!isPart(touch.value, part) || !isPart(touch.value, other)) return;
  const path = ['parts', part, 'blockedBy'];
  const ways = waysOff(touch.value, part);
  const by = textsOf(getAt(touch.value, path)).filter((id) => id !== other);
  const always = ways.length > 0 && ways.every(({ needs }) => needs.includes(off(other)));
  const was = textsOf(getAt(touch.value, path));
  if (!always) touch.putList(path, by);
  else if (!was.includes(other) && by.length < MOST_IN_LIST) touch.put(path, [...by, other]);
}

/** A slackening that nothing waits for any more and that still stands as it was made goes again. */
function dropUnused(touch: Touch): void {
  const moves = movesOf(touch.value);
  const named = new Set([
    ...moves.flatMap(({ needs }) => needs),
    ...['targets', 'wear'].flatMap((section) =>
      entriesAt(touch.value, ['work', section]).flatMap(([, one]) => textsOf(one.needs)),
    ),
  ]);
  for (const { id, needs, gives } of moves) {
    const [fact] = gives;
    if (gives.length !== 1 || !fact!.endsWith(' slack') || named.has(fact!)) continue;
    const thing = fact!.slice(0, -6);
    const fresh = new Touch(touch.value);
    fresh.put(['work', 'actions', id], undefined);
    const again = makeAction(fresh, thing, 'slack', needs);
    const made = getAt(fresh.value, ['work', 'actions', again]);
    if (again !== id || !sameJson(made, getAt(touch.value, ['work', 'actions', id]))) continue;
    dropAction(touch, id);
    for (const [n, { facts }] of objectsOf(getAt(touch.value, ['work', 'levels'])).entries())
      if (textsOf(facts).includes(fact!))
        touch.put(
          ['work', 'levels', n, 'facts'],
          textsOf(facts).filter((one) => one !== fact),
        );
  }
}
