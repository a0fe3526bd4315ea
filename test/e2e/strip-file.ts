/** Files the strip-down's editor is opened on in the tests: one without any part, the primary-case twin, one of 400 parts. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { change, openDraft } from '../../src/draft/draft.ts';
import { comesOffAfter } from '../../src/draft/point-order.ts';
import { addPart } from '../../src/draft/point-parts.ts';
import { type Json, putAt } from '../../src/machine/json-value.ts';
import { PACKAGE } from '../package-folder.ts';

export const TWIN = JSON.parse(
  readFileSync(join(PACKAGE, 'machines/ardmoor-650-pathway.json'), 'utf8'),
) as Json;

/** Of the twin only the electrics. */
export const BARE = ['parts', 'fasteners', 'chains', 'shims', 'fluids', 'work'].reduce<Json>(
  (file, section) => putAt(file, [section], undefined) ?? null,
  TWIN,
);

/** A bike of this many parts, each behind one or two earlier ones. */
export function manyParts(count: number): Json {
  let draft = openDraft(BARE);
  for (let n = 0; n < count; n++) {
    const added = addPart(draft.value, `piece ${n}`);
    if (!added.ok || added.id === null) throw new Error('not added');
    draft = change(draft, added.puts);
    for (const before of n < 20 ? [] : [n - 20, n - 20 - (n % 3)].filter((m) => m >= 0)) {
      const behind = comesOffAfter(draft.value, added.id, `piece-${before}`);
      if (behind.ok) draft = change(draft, behind.puts);
    }
  }
  return draft.value;
}
