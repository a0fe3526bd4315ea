/**
 * What every touch by pointing is made of: the file as it becomes while the touch is worked out, the changes in their
 * order, and a sentence. A touch never leaves a section that cannot be read: a list of entries that ran empty goes, and a
 * way in always has something to get to.
 */
import { getAt, isObject, type Json, type Path, putAt, sameJson } from '../machine/json-value.ts';
import type { Put } from './draft.ts';
import { madeLevels } from './point-levels.ts';
import { entriesAt, off, type Pointed, textOf, textsOf } from './pointing.ts';

/** The file while one touch is worked out. */
export class Touch {
  value: Json;
  readonly puts: Put[] = [];
  readonly before: Json;

  constructor(file: Json) {
    this.before = file;
    this.value = file;
  }

  put(path: Path, is: Json | undefined): void {
    if (sameJson(getAt(this.value, path), is)) return;
    this.puts.push({ path, is });
    this.value = putAt(this.value, path, is) ?? null;
  }

  /** Puts a list, and takes an empty one away. */
  putList(path: Path, list: readonly Json[]): void {
    this.put(path, list.length === 0 ? undefined : list);
  }

  done(says: string): Pointed {
    const more = this.tidy();
    putLevels(this);
    return { ok: true, puts: this.puts, says: more === null ? says : `${says} ${more}` };
  }

  private tidy(): string | null {
    for (const section of EMPTY_GOES)
      if (isObject(getAt(this.value, section)) && entriesAt(this.value, section).length === 0)
        this.put(section, undefined);
    if (getAt(this.value, ['work']) === undefined) return null;
    if (entriesAt(this.value, ['work', 'actions']).length === 0) {
      this.put(['work'], undefined);
      return null;
    }
    if (entriesAt(this.value, ['work', 'targets']).length > 0) return null;
    const given = new Set(
      entriesAt(this.value, ['work', 'actions']).flatMap(([, one]) => textsOf(one.gives)),
    );
    const parts = entriesAt(this.value, ['parts']).filter(([id]) => given.has(off(id)));
    const last = parts.at(-1);
    if (last === undefined) {
      const fact = [...given][0] ?? '';
      this.put(['work', 'targets'], { goal: { name: fact, needs: [fact] } });
      return `Until you point at something else, "${fact}" is what one wants to get to.`;
    }
    const [id, { name }] = last;
    this.put(['work', 'targets'], { [id]: { name: textOf(name) || id, needs: [off(id)] } });
    return `Until you point at something else, the ${textOf(name) || id} is what one wants to get to.`;
  }
}

const EMPTY_GOES: readonly Path[] = [
  ['parts'],
  ['fasteners'],
  ['work', 'tools'],
  ['work', 'supplies'],
  ['work', 'wear'],
];

/** Names the depths for the dip, unless somebody has named them otherwise. */
function putLevels(touch: Touch): void {
  const was = getAt(touch.before, ['work', 'levels']);
  if (was !== undefined && !sameJson(was, madeLevels(touch.before))) return;
  const levels = madeLevels(touch.value);
  if (getAt(touch.value, ['work']) !== undefined) touch.putList(['work', 'levels'], levels);
}
