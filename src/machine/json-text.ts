/**
 * Reads JSON (RFC 8259) and remembers where everything stood, so that a later complaint can name its line. Our
 * own reader because the language's own parser gives no positions, stops at the first fault and lets the last of
 * two equal keys win in silence. It mends what it can (a trailing comma, a comment, a curly quote, a forgotten
 * comma), reports each and reads on. Bounded: 1 MB of UTF-8, 32 levels, 50 faults.
 */
import { memberPath, type Place, quote } from './problem.ts';

export interface JsonEntry {
  readonly key: string;
  readonly at: Place;
  readonly value: JsonNode;
}

/** A value with its place; `bad` stands where the text could not be read (already reported). */
export type JsonNode = { readonly at: Place } & (
  | { readonly type: 'object'; readonly entries: readonly JsonEntry[] }
  | { readonly type: 'array'; readonly items: readonly JsonNode[] }
  | { readonly type: 'string'; readonly value: string }
  | { readonly type: 'number'; readonly value: number; readonly text: string }
  | { readonly type: 'boolean'; readonly value: boolean }
  | { readonly type: 'null' }
  | { readonly type: 'bad' }
);

export interface Fault extends Place {
  readonly path: string;
  readonly what: string;
  readonly fix: string;
}

export interface JsonText {
  /** Null when nothing could be read at all. */
  readonly root: JsonNode | null;
  readonly faults: readonly Fault[];
}

/** Largest text that is read, bytes. Counted as UTF-8. */
export const MAX_BYTES = 1_000_000;
/** Deepest nesting of objects and lists, count. */
export const MAX_DEPTH = 32;
const MAX_FAULTS = 50;
const CURLY = '“”„‘’';

/** Length of a text in UTF-8, bytes. */
export function utf8Length(text: string): number {
  let bytes = text.length;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code > 0x7f) bytes += code > 0x7ff && (code < 0xd800 || code > 0xdfff) ? 2 : 1;
  }
  return bytes;
}

class Stop extends Error {}

/** Reads a text; never throws. */
export function readJson(text: string): JsonText {
  const faults: Fault[] = [];
  if (utf8Length(text) > MAX_BYTES) {
    const what = 'the file is larger than 1 MB';
    return {
      root: null,
      faults: [
        { line: 1, column: 1, path: '$', what, fix: 'Keep one bike to a file; pictures do not belong in it' },
      ],
    };
  }
  const reader = openReader(text, faults);
  try {
    return { root: reader.document(), faults };
  } catch (stop) {
    if (!(stop instanceof Stop)) throw stop;
    return { root: null, faults };
  }
}

function openReader(text: string, faults: Fault[]) {
  let i = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  let line = 1;
  let lineStart = i;

  const place = (): Place => ({ line, column: i - lineStart + 1 });
  const fault = (at: Place, path: string, what: string, fix: string) => {
    faults.push({ line: at.line, column: at.column, path, what, fix });
    if (faults.length >= MAX_FAULTS) throw new Stop();
  };
  const newline = () => {
    i++;
    line++;
    lineStart = i;
  };

  /** Skips white space, and comments with a complaint. */
  function space(path: string): void {
    for (; i < text.length; ) {
      const c = text[i]!;
      if (c === '\n') newline();
      else if (c === ' ' || c === '\t' || c === '\r') i++;
      else if (c === '\u00a0' || c === '\u3000') {
        fault(
          place(),
          path,
          'there is a space of a kind that JSON does not know',
          'Replace it with an ordinary space',
        );
        i++;
      } else if (c === '#' || (c === '/' && (text[i + 1] === '/' || text[i + 1] === '*'))) {
        fault(place(), path, 'there is a comment, which JSON does not know', 'Move it into a "note"');
        const block = text[i + 1] === '*' && c === '/';
        while (i < text.length && !(block ? text.startsWith('*/', i) : text[i] === '\n')) {
          if (text[i] === '\n') newline();
          else i++;
        }
        if (block) i += 2;
      } else return;
    }
  }

  function readString(path: string): string {
    const at = place();
    const open = text[i]!;
    if (open !== '"') {
      const name = open === "'" ? 'a single quote' : 'a curly quote';
      fault(at, path, `a text starts with ${name}`, 'Put straight double quotes (") round it');
    }
    const closes = (c: string) =>
      open === '"' ? c === '"' : open === "'" ? c === "'" : CURLY.includes(c) || c === '"';
    let out = '';
    for (i++; ; ) {
      const c = text[i];
      if (c === undefined || c === '\n') {
        fault(at, path, `the text ${quote(out)} has no closing quote`, 'Close it with " on the same line');
        return out;
      }
      if (closes(c)) {
        i++;
        return out;
      }
      if (c === '\\') out += readEscape(path);
      else {
        if (c < ' ')
          fault(
            place(),
            path,
            'a text holds a control character',
            c === '\t' ? 'Write the tab as \\t' : 'Remove it',
          );
        out += c;
        i++;
      }
    }
  }

  function readEscape(path: string): string {
    const c = text[i + 1] ?? '';
    const plain = { '"': '"', '\\': '\\', '/': '/', b: '\b', f: '\f', n: '\n', r: '\r', t: '\t' }[c];
    if (plain !== undefined) {
      i += 2;
      return plain;
    }
    const hex = c === 'u' ? /^[0-9a-fA-F]{4}/.exec(text.slice(i + 2, i + 6)) : null;
    if (hex) {
      i += 6;
      return String.fromCharCode(Number.parseInt(hex[0], 16));
    }
    fault(
      place(),
      path,
      `\\${c === '\n' ? '' : c} is no escape that JSON knows`,
      'Write a backslash itself as \\\\',
    );
    i++;
    return '';
  }

  /** A bare word: a number, true, false, null, or something that should have stood in quotes. */
  function readWord(path: string): JsonNode {
    const at = place();
    const start = i;
    const comment = () => text[i] === '#' || (text[i] === '/' && '/*'.includes(text[i + 1] ?? ' '));
    while (i < text.length && !'\n,:{}[]"'.includes(text[i]!) && !comment()) i++;
    const word = text.slice(start, i).trimEnd();
    if (word === 'true' || word === 'false') return { at, type: 'boolean', value: word === 'true' };
    if (word === 'null') return { at, type: 'null' };
    if (/^-?(0|[1-9]\d*)(\.\d+)?([eE][+-]?\d+)?$/.test(word)) {
      const value = Number(word);
      if (Number.isFinite(value)) return { at, type: 'number', value, text: word };
      fault(at, path, `${quote(word)} is too large a number`, 'Check the exponent');
    } else if (/^[-+]?[\d.][\d.,]*$/.test(word)) {
      fault(
        at,
        path,
        `${quote(word)} is not a number as JSON writes one`,
        'Write it like 14.4: no plus sign, no leading zeros, a digit on both sides of the point',
      );
    } else if (word === '') {
      fault(
        at,
        path,
        i < text.length
          ? `a value is missing before ${quote(text[i]!)}`
          : 'a value is missing at the end of the file',
        'Write the value, or take the key out',
      );
    } else {
      fault(
        at,
        path,
        `${quote(word)} stands without quotes`,
        'Put it in double quotes, or write true, false, null or a plain number',
      );
    }
    return { at, type: 'bad' };
  }

  function readKeyText(path: string): string | null {
    const c = text[i]!;
    if (c === '"' || c === "'" || CURLY.includes(c)) return readString(path);
    const word = /^[A-Za-z_$][\w$-]*(?=\s*:)/.exec(text.slice(i, i + 80));
    if (!word) return null;
    fault(place(), path, `the key ${word[0]} stands without quotes`, `Write it as "${word[0]}"`);
    i += word[0].length;
    return word[0];
  }

  /** After a member: true when another follows. Mends forgotten and trailing commas and crossed brackets. */
  function more(close: '}' | ']', opened: Place, path: string): boolean {
    const end = place();
    space(path);
    let c = text[i];
    let comma: Place | null = null;
    while (c === ',') {
      if (comma) fault(place(), path, 'there are two commas in a row', 'Take one out');
      comma = place();
      i++;
      space(path);
      c = text[i];
    }
    if (c === '}' || c === ']' || c === undefined) {
      if (comma && c !== undefined)
        fault(comma, path, `there is a comma before the closing ${c}`, 'Take it out');
      if (c === undefined) {
        const open = close === '}' ? '{' : '[';
        fault(opened, path, `the ${open} opened here is never closed`, `Add the missing ${close}`);
      } else if (c !== close) {
        fault(
          place(),
          path,
          `${c} closes what line ${opened.line} opened with ${close === '}' ? '{' : '['}`,
          `Write ${close} here, or check for a missing bracket above`,
        );
      }
      if (c !== undefined) i++;
      return false;
    }
    if (!comma) fault(end, path, 'a comma is missing here', 'Put a comma between two entries');
    return true;
  }

  function readObject(path: string, depth: number): JsonNode {
    const at = place();
    const entries: JsonEntry[] = [];
    i++;
    space(path);
    if (text[i] === '}') {
      i++;
      return { at, type: 'object', entries };
    }
    do {
      space(path);
      const keyAt = place();
      const key = i < text.length ? readKeyText(path) : null;
      if (key === null) {
        if (i >= text.length) continue;
        fault(keyAt, path, `a key was expected, not ${quote(text[i]!)}`, 'Write entries as "key": value');
        skip();
        continue;
      }
      const inner = memberPath(path, key);
      space(inner);
      if (text[i] === ':' || text[i] === '=') {
        if (text[i] === '=')
          fault(place(), inner, 'there is a = where JSON wants a colon', 'Write "key": value');
        i++;
      } else fault(place(), inner, `the colon after the key ${quote(key)} is missing`, 'Write "key": value');
      entries.push({ key, at: keyAt, value: readValue(inner, depth + 1) });
    } while (more('}', at, path));
    return { at, type: 'object', entries };
  }

  function readArray(path: string, depth: number): JsonNode {
    const at = place();
    const items: JsonNode[] = [];
    i++;
    space(path);
    if (text[i] === ']') {
      i++;
      return { at, type: 'array', items };
    }
    do {
      items.push(readValue(`${path}[${items.length}]`, depth + 1));
    } while (more(']', at, path));
    return { at, type: 'array', items };
  }

  /** Passes over what cannot be read, up to the next comma, bracket or line, always moving on. */
  function skip(): void {
    i++;
    while (i < text.length && !'\n,{}[]"'.includes(text[i]!)) i++;
  }

  function readValue(path: string, depth: number): JsonNode {
    space(path);
    if (depth > MAX_DEPTH) {
      fault(
        place(),
        path,
        `the file is nested more than ${MAX_DEPTH} levels deep`,
        'A machine file needs no more than ten: check the brackets',
      );
      throw new Stop();
    }
    const c = text[i];
    if (c === '{') return readObject(path, depth);
    if (c === '[') return readArray(path, depth);
    if (c !== undefined && (c === '"' || c === "'" || CURLY.includes(c))) {
      const at = place();
      return { at, type: 'string', value: readString(path) };
    }
    if (c === ':') {
      fault(place(), path, 'a colon stands where a value belongs', 'Take it out');
      i++;
    }
    return readWord(path);
  }

  function document(): JsonNode | null {
    space('$');
    if (i >= text.length) {
      fault(place(), '$', 'the file is empty', 'Start from one of the files in machines/');
      return null;
    }
    const root = readValue('$', 1);
    space('$');
    if (i < text.length && root.type !== 'bad') {
      fault(
        place(),
        '$',
        `there is more after the end: ${quote(text.slice(i, i + 20))}`,
        'Keep one object in the file; check for a bracket closed too early',
      );
    }
    return root;
  }

  return { document };
}
