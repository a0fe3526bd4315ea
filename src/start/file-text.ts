/** A value as the text of a machine file: two spaces a level, and what is short on one line, as in machines/. */

export type Json =
  | string
  | number
  | boolean
  | null
  | readonly Json[]
  | { readonly [key: string]: Json | undefined };

/** Up to this many columns an object or a list stands on one line. */
const COLUMNS = 100;
/** The file itself and its sections are always opened: depth from which a short object stands on one line. */
const SHORT_FROM = 2;

/** The whole text, with a newline at its end. Members that are undefined are left out. */
export function writeFileText(value: Json): string {
  return `${write(value, 0, 0)}\n`;
}

/** `taken`: columns of the line that stand before the value. */
function write(value: Json, depth: number, taken: number): string {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const short = oneLine(value);
  // One column more for the comma behind it.
  if (depth >= SHORT_FROM && taken + short.length + 1 <= COLUMNS) return short;
  const inner = '  '.repeat(depth + 1);
  const outer = '  '.repeat(depth);
  if (Array.isArray(value)) {
    const items = value.map((item: Json) => `${inner}${write(item, depth + 1, inner.length)}`);
    return items.length === 0 ? '[]' : `[\n${items.join(',\n')}\n${outer}]`;
  }
  const members = entries(value).map(([key, member]) => {
    const head = `${inner}${JSON.stringify(key)}: `;
    return `${head}${write(member, depth + 1, head.length)}`;
  });
  return members.length === 0 ? '{}' : `{\n${members.join(',\n')}\n${outer}}`;
}

function oneLine(value: Json): string {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map(oneLine).join(', ')}]`;
  const members = entries(value).map(([key, member]) => `${JSON.stringify(key)}: ${oneLine(member)}`);
  return members.length === 0 ? '{}' : `{ ${members.join(', ')} }`;
}

function entries(value: object): [string, Json][] {
  return Object.entries(value).filter(([, member]) => member !== undefined) as [string, Json][];
}
