/** Lists the project's own files and rooms, and reads their imports without a compiler. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, posix, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

const SKIPPED = new Set(['node_modules', 'dist', '.git', 'fixtures', 'golden']);

/** Files under a folder of the project, as paths from its root with forward slashes. */
export function filesUnder(folder: string, endings: RegExp): readonly string[] {
  const start = join(ROOT, folder);
  if (!existsSync(start)) return [];
  const found: string[] = [];
  const walk = (path: string) => {
    for (const entry of readdirSync(path, { withFileTypes: true })) {
      const full = join(path, entry.name);
      if (entry.isDirectory()) {
        if (!SKIPPED.has(entry.name)) walk(full);
      } else if (endings.test(entry.name)) found.push(relative(ROOT, full).split(sep).join('/'));
    }
  };
  walk(start);
  return found.sort();
}

export function read(path: string): string {
  return readFileSync(join(ROOT, path), 'utf8');
}

export const CODE = /\.(ts|tsx|mts|mjs|cjs|js)$/;

/** Rooms: the folders under src. */
export function rooms(): readonly string[] {
  return readdirSync(join(ROOT, 'src'), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .sort();
}

/** Doors of a room: the rooms its tsconfig refers to. */
export function doors(room: string): readonly string[] {
  const config = JSON.parse(read(`src/${room}/tsconfig.json`)) as { references?: { path: string }[] };
  return (config.references ?? []).map(({ path }) => path.replace(/^\.\.\//, '')).sort();
}

/**
 * The source with comments blanked and the inside of strings, templates and regular expressions blanked, every
 * other character in its place. JSX text may hold a lone quote: a string ends with its line at the latest.
 */
export function mask(source: string): string {
  const out = source.split('');
  const blank = (from: number, to: number) => {
    for (let i = from; i < to; i++) if (out[i] !== '\n') out[i] = ' ';
  };
  /** One entry for each open `${`: how many braces are open inside it. */
  const holes: number[] = [];
  let at = 0;
  const template = (from: number): number => {
    let i = from;
    while (i < source.length && source[i] !== '`') {
      if (source[i] === '\\') i += 2;
      else if (source.startsWith('${', i)) {
        blank(from, i);
        holes.push(0);
        return i + 2;
      } else i += 1;
    }
    blank(from, Math.min(i, source.length));
    return i + 1;
  };
  while (at < source.length) {
    const sign = source[at]!;
    if (source.startsWith('//', at) || source.startsWith('/*', at)) {
      const close = source[at + 1] === '/' ? source.indexOf('\n', at) : source.indexOf('*/', at + 2) + 2;
      const end = close < at + 2 ? source.length : close;
      blank(at, end);
      at = end;
    } else if (sign === '"' || sign === "'") {
      let end = at + 1;
      while (end < source.length && source[end] !== sign && source[end] !== '\n')
        end += source[end] === '\\' ? 2 : 1;
      blank(at + 1, end);
      at = end + 1;
    } else if (sign === '`') at = template(at + 1);
    else if (holes.length > 0 && sign === '{') {
      holes[holes.length - 1]! += 1;
      at += 1;
    } else if (holes.length > 0 && sign === '}') {
      if (holes.at(-1) === 0) {
        holes.pop();
        at = template(at + 1);
      } else {
        holes[holes.length - 1]! -= 1;
        at += 1;
      }
    } else if (sign === '/' && startsRegex(source, at)) {
      let end = at + 1;
      let inClass = false;
      while (end < source.length && source[end] !== '\n' && (inClass || source[end] !== '/')) {
        if (source[end] === '[') inClass = true;
        else if (source[end] === ']') inClass = false;
        end += source[end] === '\\' ? 2 : 1;
      }
      blank(at + 1, end);
      at = end + 1;
    } else at += 1;
  }
  return out.join('');
}

/** Whether a slash opens a regular expression: after an operator or a keyword, never after a value or a JSX "<". */
function startsRegex(source: string, at: number): boolean {
  if (source[at + 1] === '>') return false;
  const before = source.slice(Math.max(0, at - 40), at).trimEnd();
  return (
    before === '' || /[=(,:;!&|?+\-*%~^[{}>]$|\b(?:return|typeof|case|in|of|await|yield|else)$/.test(before)
  );
}

export interface Import {
  readonly specifier: string;
  readonly line: number;
}

/** Every specifier a file imports, exports from, imports while running or hands to `new URL(…, import.meta.url)`. */
export function imports(source: string): readonly Import[] {
  const masked = mask(source);
  const found: Import[] = [];
  const patterns = [
    /\b(?:from|import)\s*(?:\(\s*)?(['"`])/g,
    /\bnew\s+URL\s*\(\s*(['"`])(?=\s*['"`]\s*,\s*import\.meta\.url)/g,
    /\brequire\s*\(\s*(['"`])/g,
  ];
  for (const pattern of patterns) {
    for (const match of masked.matchAll(pattern)) {
      const quote = match[1]!;
      const start = match.index + match[0].length;
      const specifier = source.slice(start, source.indexOf(quote, start));
      // A URL that names no code is a file read while running, not an import.
      if (match[0].startsWith('new') && !CODE.test(specifier)) continue;
      found.push({ specifier, line: source.slice(0, start).split('\n').length });
    }
  }
  return found.sort((a, b) => a.line - b.line);
}

/** Where a relative specifier of a file leads, as a path from the root. */
export function target(file: string, specifier: string): string {
  return posix.normalize(posix.join(posix.dirname(file), specifier.replace(/\?.*$/, '')));
}

/** The line number at an index of a text, 1 for the first. */
export function lineAt(text: string, index: number): number {
  return text.slice(0, index).split('\n').length;
}
