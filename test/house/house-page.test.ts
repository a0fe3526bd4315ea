/** HOUSE.md tells the truth: every room, its doors, and every path named in the pages about the house. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { doors, filesUnder, ROOT, read, rooms } from './source-files.ts';

interface Row {
  readonly room: string;
  readonly what: string;
  readonly doors: readonly string[];
}

/** Rows such as "| `units` | what lives there | may import a, b |"; "imports no room" for none. */
function rows(page: string): readonly Row[] {
  return [
    ...page.matchAll(/^\| `([a-z-]+)` \| ([^|]*?) \| (?:may import ([a-z, -]+)|(imports no room)) \|$/gm),
  ].map((match) => ({
    room: match[1]!,
    what: match[2]!.trim(),
    doors: (match[3] ?? '')
      .split(',')
      .map((door) => door.trim())
      .filter((door) => door !== '')
      .sort(),
  }));
}

/** What a page says wrongly of the rooms: one sentence each. */
function lies(page: string, truth: ReadonlyMap<string, readonly string[]>): readonly string[] {
  const told = rows(page);
  const wrong: string[] = [];
  for (const room of truth.keys()) {
    const count = told.filter((row) => row.room === room).length;
    if (count !== 1) wrong.push(`${room} is listed ${count} times`);
  }
  for (const row of told) {
    const real = truth.get(row.room);
    if (!real) wrong.push(`${row.room} is no room`);
    else if (real.join() !== row.doors.join())
      wrong.push(
        `${row.room} may import ${real.join(', ') || 'no room'}, the page says ${row.doors.join(', ') || 'no room'}`,
      );
    if (row.what.length < 10) wrong.push(`${row.room} is not described`);
  }
  return wrong;
}

/** Paths in backticks that lead into this project. */
function pathsNamed(page: string): readonly string[] {
  return [...page.matchAll(/`((?:src|test|docs|schema|machines|scripts)\/[\w./-]*)`/g)].map(
    (match) => match[1]!,
  );
}

const truth = new Map(rooms().map((room) => [room, doors(room)] as const));

describe('HOUSE.md', () => {
  test('lists every room once, with its true doors', () => {
    expect(truth.size).toBeGreaterThan(10);
    expect(lies(read('HOUSE.md'), truth)).toEqual([]);
  });

  test.each(['HOUSE.md', 'CONTRIBUTING.md', ...filesUnder('docs', /\.md$/)])(
    'every path named in %s exists',
    (page) => {
      expect(pathsNamed(read(page)).filter((path) => !existsSync(join(ROOT, path)))).toEqual([]);
    },
  );

  test('every room says what it is at the top of one of its files', () => {
    const silent = rooms().filter((room) => {
      const opening = new RegExp(`^/\\*\\*\\s+(?:\\* )?Room \`${room}\`: \\S`);
      return !filesUnder(`src/${room}`, /\.tsx?$/).some((file) => opening.test(read(file)));
    });
    expect(silent).toEqual([]);
  });

  test('the whole project is compiled room by room', () => {
    const { references } = JSON.parse(read('tsconfig.json')) as { references: { path: string }[] };
    expect(references.map(({ path }) => path).sort()).toEqual(rooms().map((room) => `src/${room}`));
  });
});

describe('the rule finds', () => {
  const small = new Map([
    ['units', []],
    ['circuit', ['numbers', 'units']],
  ]);
  const good =
    '| `units` | quantities of all kinds | imports no room |\n| `circuit` | the physics of it | may import units, numbers |\n';

  test('nothing in a true page, in whichever order the doors stand', () =>
    expect(lies(good, small)).toEqual([]));

  test.each([
    ['a room left out', good.split('\n')[0]!, 'circuit is listed 0 times'],
    ['a room told twice', good + good, 'units is listed 2 times'],
    [
      'a door that is not there',
      good.replace('numbers |', 'numbers, verdict |'),
      'circuit may import numbers, units, the page says',
    ],
    [
      'a door left out',
      good.replace('units, numbers', 'units'),
      'circuit may import numbers, units, the page says units',
    ],
    [
      'a room that is not there',
      `${good}| \`attic\` | nobody lives there | imports no room |\n`,
      'attic is no room',
    ],
    ['a room without a word', good.replace('quantities of all kinds', 'x'), 'units is not described'],
  ])('%s', (_, page, sentence) => {
    expect(lies(page, small).join('\n')).toContain(sentence);
  });

  test('a path that leads nowhere', () => {
    expect(pathsNamed('see `src/units/nowhere.ts` and `npm test`')).toEqual(['src/units/nowhere.ts']);
  });
});
