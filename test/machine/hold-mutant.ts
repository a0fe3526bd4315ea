/** What must hold of any machine file, however spoilt: it is read, or every complaint has its place; and nothing throws. */
import { compare } from '../../src/draft/compare.ts';
import { freeTexts } from '../../src/draft/free-texts.ts';
import { choicesAt, merge, type Whose } from '../../src/draft/merge.ts';
import { sayDifference } from '../../src/draft/say-difference.ts';
import { sheetPlaces } from '../../src/draft/sheet-places.ts';
import { bringUp } from '../../src/machine/bring-up.ts';
import { chargingSpec } from '../../src/machine/charging-spec.ts';
import { PARTS } from '../../src/machine/definition.ts';
import { readJson } from '../../src/machine/json-text.ts';
import { type Json, jsonOf, readPath, sameJson, writeJson } from '../../src/machine/json-value.ts';
import { judgeFile } from '../../src/machine/judge-file.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { workOf } from '../../src/machine/work.ts';
import { packMachine } from '../../src/press/machine-pack.ts';

export type Outcome = 'read' | 'refused' | 'no file';

/** Whether it was read; what does not hold is thrown as an Error. `original` is the file it was made from; `drawn` packs it too, which takes a second. */
export function holdMutant(text: string, original: Json, drawn = false): Outcome {
  const read = readMachine(text, 'x.json');
  const { problems, findings, mark } = judgeFile(text, 'x.json', 2026);
  if (read.ok === (mark === 'broken')) throw new Error(`read ${read.ok} but marked ${mark}`);
  if (!read.ok) {
    if (read.problems.length === 0) throw new Error('refused without a problem');
    for (const { path, what, fix, line } of [...read.problems, ...problems])
      if (!path.startsWith('$') || what === '' || fix === '' || !(line >= 1))
        throw new Error(`a problem without its place: ${JSON.stringify({ path, what, fix, line })}`);
  }
  for (const { path, what } of findings)
    if (!path.startsWith('$') || what === '') throw new Error(`a finding without its place: ${path} ${what}`);
  const { root } = readJson(text);
  if (root === null) return 'no file';
  const value = jsonOf(bringUp(root));
  bothWays(value, original);
  for (const part of PARTS) sheetPlaces(value, part);
  freeTexts(value);
  if (!read.ok) return 'refused';
  chargingSpec(read.machine);
  chargingSpec(read.machine, PARTS);
  workOf(read.machine, 2026);
  const written = writeJson(value);
  const again = readMachine(written, 'x.json');
  if (!again.ok) throw new Error(`written anew it does not read: ${JSON.stringify(again.problems[0])}`);
  if (drawn && !packMachine(text, 'x.json').ok) throw new Error('it reads and cannot be packed');
  if (writeJson(JSON.parse(written) as Json) !== written) throw new Error('written twice it differs');
  return 'read';
}

/** Compared and made one with the file it came from, in both directions and by every word that fits. */
function bothWays(value: Json, original: Json): void {
  for (const [mine, theirs] of [
    [value, original],
    [original, value],
  ] as const) {
    const found = compare(mine, theirs);
    for (const one of found) {
      if (readPath(one.at) === null) throw new Error(`a difference without a place: ${one.at}`);
      sayDifference(one, mine, theirs);
    }
    const all = new Map(found.map(({ at }) => [at, 'theirs' as Whose]));
    const whole = merge(mine, theirs, all);
    if (!sameJson(whole, theirs)) throw new Error('with everything taken it is not the other file');
    if (!sameJson(merge(mine, theirs, new Map()), mine)) throw new Error('with nothing taken it is not mine');
    merge(mine, theirs, new Map(found.map((one) => [one.at, choicesAt(one).at(-1)!])));
  }
}
