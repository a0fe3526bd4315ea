/** Texts of a machine file that may tell more of its writer than of the bike: to be looked over before it is given away. */
import { isObject, type Json, pathText } from '../machine/json-value.ts';

/** A text that somebody typed in their own words. */
export interface FreeText {
  readonly path: string;
  readonly text: string;
}

/** Remarks and names of sources, in the order of the file: what may tell more of its writer than of the bike. */
export function freeTexts(value: Json): readonly FreeText[] {
  const out: FreeText[] = [];
  const walk = (one: Json, path: readonly (string | number)[]): void => {
    if (Array.isArray(one)) {
      for (const [n, item] of (one as readonly Json[]).entries()) walk(item, [...path, n]);
      return;
    }
    if (!isObject(one)) return;
    for (const [key, item] of Object.entries(one)) {
      const here = [...path, key];
      const source = path.length === 2 && path[0] === 'sources';
      if (typeof item === 'string' && (key === 'note' || (source && key === 'title')))
        out.push({ path: pathText(here), text: item });
      else if (item !== undefined) walk(item, here);
    }
  };
  walk(value, []);
  return out;
}
