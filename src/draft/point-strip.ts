/** The strip-down of a file as it is drawn: every thing with the ways it comes off and is slackened, and what each waits for. */
import { getAt, isObject, type Json } from '../machine/json-value.ts';
import { movesOf } from './point-reach.ts';
import { heldBy } from './point-steps.ts';
import { entriesAt, nameOf, off, slack, textOf, textsOf } from './pointing.ts';

/** What a way waits for: a thing that is off, or only slackened. */
export interface Awaited {
  readonly of: string;
  readonly slack: boolean;
}

/** A part, or what an action gives without one, such as "bike raised". */
export interface StripThing {
  readonly id: string;
  readonly name: string;
  /** Whether it stands under the parts of the file. */
  readonly isPart: boolean;
  /** Fasteners that hold it, count. */
  readonly held: number;
  /** What it is called as something to get to; null where it is none. */
  readonly goal: string | null;
  /** One entry for each way of taking it off; none where nothing does. */
  readonly ways: readonly (readonly Awaited[])[];
  readonly slackens: readonly (readonly Awaited[])[];
}

function awaited(fact: string): Awaited {
  if (fact.endsWith(' off')) return { of: fact.slice(0, -4), slack: false };
  if (fact.endsWith(' slack')) return { of: fact.slice(0, -6), slack: true };
  return { of: fact, slack: false };
}

/** Parts first, in the order of the file, then what its actions name beside them. */
export function stripOf(file: Json): readonly StripThing[] {
  const moves = movesOf(file);
  const givers = new Map<string, (readonly Awaited[])[]>();
  for (const { needs, gives } of moves) {
    const waits = needs.map(awaited);
    for (const fact of new Set(gives)) {
      const list = givers.get(fact);
      if (list) list.push(waits);
      else givers.set(fact, [waits]);
    }
  }
  const goals = new Map<string, string>();
  for (const [id, one] of entriesAt(file, ['work', 'targets'])) {
    const needs = textsOf(one.needs).map((fact) => awaited(fact).of);
    for (const of of needs.includes(id) ? [id] : needs) {
      const before = goals.get(of);
      goals.set(of, before === undefined ? textOf(one.name) : `${before}, ${textOf(one.name)}`);
    }
  }
  const parts = entriesAt(file, ['parts']);
  const ids = new Set(parts.map(([id]) => id));
  for (const { needs, gives } of moves) for (const fact of [...gives, ...needs]) ids.add(awaited(fact).of);
  const blocked = new Map(parts.map(([id, one]) => [id, textsOf(one.blockedBy)]));
  return [...ids].map((id) => {
    const ways = givers.get(off(id)) ?? [];
    const slackens = givers.get(slack(id)) ?? [];
    const by = blocked.get(id);
    // A part that no action takes off yet: all that is known is what must be off before it.
    const known = ways.length > 0 || slackens.length > 0 || by === undefined;
    return {
      id,
      name: nameOf(file, id),
      isPart: by !== undefined,
      held: heldCount(file, id),
      goal: goals.get(id) ?? null,
      ways: known ? ways : [by.map((of) => ({ of, slack: false }))],
      slackens,
    };
  });
}

function heldCount(file: Json, part: string): number {
  return heldBy(file, part).reduce((sum, id) => {
    const fastener = getAt(file, ['fasteners', id]);
    if (!isObject(fastener)) return sum;
    return sum + (typeof fastener.count === 'number' ? fastener.count : 1);
  }, 0);
}
