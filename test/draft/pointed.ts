/** Files made by pointing, for the tests of it. */
import { readFileSync } from 'node:fs';
import { change, openDraft } from '../../src/draft/draft.ts';
import { comesOffAfter } from '../../src/draft/point-order.ts';
import { addPart } from '../../src/draft/point-parts.ts';
import type { Pointed } from '../../src/draft/pointing.ts';
import { type Json, putAt, writeJson } from '../../src/machine/json-value.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { workOf } from '../../src/machine/work.ts';
import { cheapestWay } from '../../src/way/cheapest-way.ts';
import { stripProblem } from '../../src/way/strip-problem.ts';

export const shipped = (name: string) => JSON.parse(readFileSync(`machines/${name}.json`, 'utf8')) as Json;
export const ARDMOOR = shipped('ardmoor-650-pathway');

/** A bike of which only the electrics are written down. */
export const BARE = ['parts', 'fasteners', 'chains', 'shims', 'fluids', 'work'].reduce<Json>(
  (file, section) => putAt(file, [section], undefined) ?? null,
  ARDMOOR,
);

/** Makes a touch, which must be granted. */
export function did(file: Json, touch: (file: Json) => Pointed): Json {
  const pointed = touch(file);
  if (!pointed.ok) throw new Error(pointed.why);
  return change(openDraft(file), pointed.puts).value;
}
export const all = (file: Json, ...touches: ((file: Json) => Pointed)[]) => touches.reduce(did, file);
export const add = (name: string) => (file: Json) => addPart(file, name);
export const behind = (part: string, other: string) => (file: Json) => comesOffAfter(file, part, other);

export function workIn(file: Json) {
  const read = readMachine(writeJson(file), 'pointed.json');
  if (!read.ok) throw new Error(read.problems.map(({ path, what }) => `${path}: ${what}`).join('\n'));
  return workOf(read.machine, 2026);
}

/** Ids of the actions of the cheapest way to a target, in order; null where there is none. */
export function wayTo(file: Json, target: string): readonly string[] | null {
  const work = workIn(file)!;
  const { problem } = stripProblem(work, [target], { at: 0, did: [], facts: [] });
  const way = cheapestWay(problem, { effort: 2e7 });
  return way.ok ? way.moves.map((n) => problem.moves[n]!.id) : null;
}
