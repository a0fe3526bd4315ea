/** The rules about walls, as functions of a file's text, so that they can be tried on bad samples. */
import { imports, lineAt, mask, target } from './source-files.ts';

/** Rooms that may know node, the clock and the screen. */
export const EDGE_ROOMS: ReadonlySet<string> = new Set(['disk', 'press', 'serve', 'cli', 'web']);
/** Packages a pure room may use: they compute only. */
const PURE_PACKAGES: ReadonlySet<string> = new Set();

export interface HouseFacts {
  readonly doors: (room: string) => readonly string[];
  readonly dependencies: readonly string[];
}

function packageOf(specifier: string): string {
  const [scope = '', name = ''] = specifier.split('/');
  return scope.startsWith('@') ? `${scope}/${name}` : scope;
}

/** What breaks through a wall in a file of src: one sentence each, empty when nothing does. */
export function breaches(file: string, source: string, facts: HouseFacts): readonly string[] {
  const room = file.split('/')[1] ?? '';
  const pure = !EDGE_ROOMS.has(room);
  const wrong: string[] = [];
  for (const { specifier, line } of imports(source)) {
    const place = `${file}:${line} imports "${specifier}"`;
    if (specifier.startsWith('.')) {
      const [top, other = ''] = target(file, specifier).split('/');
      if (top !== 'src') wrong.push(`${place}, which lies outside src`);
      else if (other !== room && !facts.doors(room).includes(other))
        wrong.push(`${place}, and ${room} has no door to ${other}`);
    } else if (specifier.startsWith('node:')) {
      if (pure) wrong.push(`${place}, and ${room} is a pure room`);
    } else if (specifier.startsWith('/') || specifier.startsWith('#') || /^\w+:/.test(specifier)) {
      wrong.push(`${place}, which is neither a file, a package nor a part of node`);
    } else if (!facts.dependencies.includes(packageOf(specifier))) {
      wrong.push(`${place}, which is no dependency in package.json`);
    } else if (pure && !PURE_PACKAGES.has(packageOf(specifier))) {
      wrong.push(`${place}, and ${room} is a pure room`);
    }
  }
  return wrong;
}

const IMPURE: readonly (readonly [RegExp, string])[] = [
  [
    /\bDate\s*\.\s*now\b|\bnew\s+Date\s*(?:\(\s*\)|(?![\s\w]*\())|\bperformance\s*\.|\bset(?:Timeout|Interval|Immediate)\s*\(/g,
    'the clock',
  ],
  [/\bMath\s*\.\s*random\b|\bcrypto\s*\./g, 'a random source'],
  [/\b(?:document|window|navigator|localStorage|indexedDB)\s*[.[]|\bfetch\s*\(/g, 'the browser'],
  [/\bprocess\s*[.[]|\bBuffer\s*\.|\b__dirname\b/g, 'node'],
  [/\bglobalThis\b|\bconsole\s*\./g, 'the world outside'],
];

/** What a file of a pure room knows of the world outside: one sentence each, empty when nothing. */
export function impurities(file: string, source: string): readonly string[] {
  const masked = mask(source);
  // `subject.process.x` or `.window[0]` is a field of ours, not the global of that name.
  return IMPURE.flatMap(([pattern, what]) =>
    [...masked.matchAll(pattern)]
      .filter((match) => masked[match.index - 1] !== '.')
      .map((match) => `${file}:${lineAt(masked, match.index)} knows ${what} ("${match[0].trim()}")`),
  );
}
