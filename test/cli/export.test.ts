/** `export` and `import` as a person calls them: out, wiped, in, out again; and what they refuse. */
import { existsSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPhotoShelf } from '../../src/disk/photo-shelf.ts';
import { openPostgresStore } from '../../src/disk/postgres-store.ts';
import { openSqliteStore } from '../../src/disk/sqlite-store.ts';
import { DEMO_JOB, demoJob } from '../../src/job/demo.ts';
import { openOwnMachines } from '../../src/serve/own-machines.ts';
import { opening, story, take } from '../job/stories.ts';
import { PICTURES, SHOT } from '../press/samples.ts';
import { build, type Ran, ROOT, run as runCall, runProcess } from './run.ts';

const folder = mkdtempSync(join(tmpdir(), 'cli-export-'));
const at = (name: string) => join(folder, name);
const GOLDEN = join(ROOT, 'test/press/demo-ferry-run.zip');

/** Runs the program with a garage of its own. */
const run = (home: string, ...args: readonly string[]): Promise<Ran> => runWith({}, home, ...args);

const runWith = (
  more: Readonly<Record<string, string>>,
  home: string,
  ...args: readonly string[]
): Promise<Ran> =>
  runCall(args, args.includes('-') ? readFileSync(GOLDEN) : '', {
    CHARGEWRIGHT_HOME: at(home),
    PORT: 'none',
    ...more,
  });

/** The same as a process of its own. */
const start = (home: string, ...args: readonly string[]): Promise<Ran> =>
  runProcess(args, args.includes('-') ? readFileSync(GOLDEN) : '', {
    CHARGEWRIGHT_HOME: at(home),
    PORT: 'none',
  });

beforeAll(async () => {
  build();
  const store = openSqliteStore(join(at('full'), 'garage.sqlite'));
  const mine = story([{ ...opening, machine: 'mine' } as typeof opening, take('rest_volts', 12.4, '=1+1')]);
  await store.append([...demoJob(), ...mine]);
  await store.close();
  await openOwnMachines(join(at('full'), 'machines')).save('mine', '{ "half": ');
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('export and import', () => {
  it('a job: out, in elsewhere, out again, the same bytes', async () => {
    const out = await start('full', 'export', 'j1', at('j1.zip'));
    expect(out).toMatchObject({ code: 0, err: '' });
    expect(out.out).toMatch(
      /^Wrote \S+j1\.zip: the job "Fades" \(invented\), 2 events, 1 reading, with the machine file mine; \d+ kB\.\n$/,
    );
    const taken = await start('empty', 'import', at('j1.zip'));
    expect(taken).toMatchObject({ code: 0, err: '' });
    expect(taken.out).toMatch(
      /^j1, "Fades" \(invented\): 2 new events, 0 known already\nKept the machine files mine\.\n1 job taken in; /,
    );
    expect((await run('empty', 'export', 'j1', at('again.zip'))).code).toBe(0);
    expect(readFileSync(at('again.zip')).equals(readFileSync(at('j1.zip')))).toBe(true);
    expect((await run('empty', 'import', at('j1.zip'))).out).toMatch(/0 new events, 2 known already\n1 job/);
  });

  it('a whole garage: out, wiped, in, out again, the same bytes', async () => {
    const out = await run('full', 'export', '--all', at('all.zip'));
    expect(out.out).toMatch(
      /: 2 jobs and 1 machine file of your own; \d+ kB\. Put it back with "chargewright import /,
    );
    expect(await run('new', 'import', at('all.zip'))).toMatchObject({ code: 0, err: '' });
    expect((await run('new', 'export', '--all', at('all-again.zip'))).code).toBe(0);
    expect(readFileSync(at('all-again.zip')).equals(readFileSync(at('all.zip')))).toBe(true);
  });

  it.skipIf(!process.env.TEST_POSTGRES)(
    'a garage in PostgreSQL is the one that goes out, not the file beside it',
    async () => {
      const server = process.env.TEST_POSTGRES!;
      const admin = new pg.Client({ connectionString: server });
      await admin.connect();
      const name = `export_${process.pid}`;
      await admin.query(`CREATE DATABASE ${name} TEMPLATE template0`);
      const DATABASE_URL = server.replace('/postgres?', `/${name}?`);
      const there = { DATABASE_URL };
      // The folder holds a file with two jobs; the server has one of its own.
      const store = await openPostgresStore(DATABASE_URL);
      await store.append(story([opening, take('rest_volts', 12.1)]));
      await store.close();
      const out = await runWith(there, 'full', 'export', '--all', at('club.zip'));
      expect(out.out).toMatch(/: 1 job and 1 machine file of your own/);
      expect(await runWith(there, 'full', 'export', DEMO_JOB, at('none.zip'))).toMatchObject({ code: 2 });
      // Taken in there, out again: the same bytes as from a file.
      expect(await runWith(there, 'club', 'import', at('j1.zip'))).toMatchObject({ code: 2 });
      const demo = await runWith(there, 'club', 'import', GOLDEN);
      expect(demo).toMatchObject({ code: 0, err: '' });
      expect(demo.out).not.toContain('garage.sqlite');
      expect((await runWith(there, 'club', 'export', DEMO_JOB, at('club-demo.zip'))).code).toBe(0);
      await run('plain', 'import', GOLDEN);
      await run('plain', 'export', DEMO_JOB, at('plain-demo.zip'));
      expect(readFileSync(at('club-demo.zip')).equals(readFileSync(at('plain-demo.zip')))).toBe(true);
      expect(existsSync(join(at('club'), 'garage.sqlite'))).toBe(false);
      await admin.query(`DROP DATABASE ${name} WITH (FORCE)`);
      await admin.end();
    },
  );

  it('photographs go with it, out of the folder that is set; one that is nowhere is named', async () => {
    const photos = await openPhotoShelf(`${join(at('shot'), 'garage.sqlite')}.photos`);
    const store = openSqliteStore(join(at('shot'), 'garage.sqlite'));
    await store.append(SHOT);
    await store.close();
    for (const bytes of PICTURES.slice(0, 2)) await photos.put(bytes);
    const out = await run('shot', 'export', 'j1', at('shot.zip'));
    expect(out.out).toMatch(/6 events, 0 readings, 2 photographs, without its machine file m1/);
    expect(out.out).toMatch(/\nNot in it: The photograph [0-9a-f]{12}… is not here yet: .*\.\n$/);
    expect((await run('shot', 'export', '--all', at('shot-all.zip'))).out).toMatch(
      /\nNot in it: The photograph /,
    );
    expect((await run('taken', 'import', '--look', at('shot.zip'))).out).toMatch(
      /\nWould keep 2 photographs\.\n/,
    );
    const taken = await run('taken', 'import', at('shot.zip'));
    expect(taken.out).toMatch(
      /\nKept 2 photographs\.\n(.*\n)*A photograph of the job j1 .* is neither here nor/,
    );
    expect((await run('taken', 'export', 'j1', at('shot-again.zip'))).code).toBe(0);
    expect(readFileSync(at('shot-again.zip')).equals(readFileSync(at('shot.zip')))).toBe(true);
  });

  it('the readings as a table, safe in a spreadsheet', async () => {
    const { code, out } = await run('full', 'export', '--csv', 'j1');
    expect(code).toBe(0);
    const [row] = parse(out, { columns: true }) as Record<string, string>[];
    expect(row).toMatchObject({ kind: 'rest_volts', value: '12.4', unit: 'V', entered: "'=1+1" });
  });

  it('a file from standard input, and a look at it that makes no store', async () => {
    const look = await start('nowhere', 'import', '--look', '-');
    expect(look).toMatchObject({ code: 0, err: '' });
    expect(look.out).toMatch(
      /^demo-ferry-run, .*: 10 new events, 0 known already\n(.*\n)*1 job in it; nothing was taken in\.\n$/,
    );
    expect(existsSync(at('nowhere'))).toBe(false);
  });

  it.each(['export', 'import'])('the example of %s runs in a fresh clone', async (name) => {
    const help = (await run('nowhere', name, '--help')).out;
    const example = /Example:\n {2}chargewright (.*)\n {2}shows \S/.exec(help)?.[1];
    const ran = await run('nowhere', ...example!.split(' '));
    expect(ran).toMatchObject({ code: 0, err: '' });
    expect(ran.out.length).toBeGreaterThan(20);
    expect(existsSync(at('nowhere'))).toBe(false);
  });
});

describe('refused in one sentence, exit 2, nothing on standard output', () => {
  const cases: readonly [string, string, () => readonly string[], RegExp][] = [
    ['no words', 'full', () => ['export'], /"export" wants JOB TO\.zip after it/],
    ['no file to write', 'full', () => ['export', DEMO_JOB], /"export" wants JOB TO\.zip after it/],
    [
      'a word too many for --all',
      'full',
      () => ['export', '--all', 'j1', at('x.zip')],
      /takes the zip file alone: leave "j1" out/,
    ],
    [
      'a word too many for --csv',
      'full',
      () => ['export', '--csv', 'j1', 'x.csv'],
      /leave "x\.csv" out, or write > x\.csv/,
    ],
    ['two forms', 'full', () => ['export', '--all', '--csv', 'j1'], /--all and --csv cannot go together/],
    [
      'no such job',
      'full',
      () => ['export', 'demo-fery-run', at('x.zip')],
      /no job "demo-fery-run" in \S+garage\.sqlite: write demo-ferry-run if/,
    ],
    [
      'no job of a like name',
      'full',
      () => ['export', 'zebra', at('x.zip')],
      /: it may be (j1, demo-ferry-run|demo-ferry-run, j1)\.$/m,
    ],
    [
      'no store',
      'nowhere',
      () => ['export', 'j1', at('x.zip')],
      /There is no store \S+nowhere\S+: go to the folder/,
    ],
    ['no store to back up', 'nowhere', () => ['export', '--all', at('x.zip')], /There is no store/],
    [
      'a file that is there',
      'full',
      () => ['export', 'j1', at('there.zip')],
      /there\.zip is there already and was left as it is/,
    ],
    [
      'no file to read',
      'nowhere',
      () => ['import', at('nobody.zip')],
      /nobody\.zip does not exist: check the name/,
    ],
    ['a folder', 'nowhere', () => ['import', folder], /is a folder: name a file in it/],
    ['no zip', 'nowhere', () => ['import', 'package.json'], /package\.json is no zip.*nothing was kept/],
    [
      'a zip cut off',
      'nowhere',
      () => ['import', at('cut.zip')],
      /cut\.zip is cut off or damaged.*nothing was kept/,
    ],
    ['a file beyond 600 MB', 'nowhere', () => ['import', at('huge.zip')], /huge\.zip is larger than 600 MB/],
    [
      'one id with other content',
      'other',
      () => ['import', GOLDEN],
      /demo-ferry-run\.zip holds the event \S+, which is here already with other content; nothing was kept/,
    ],
    ['a store that is none', 'broken', () => ['import', GOLDEN], /is not a Chargewright store/],
  ];

  beforeAll(async () => {
    writeFileSync(at('there.zip'), 'mine');
    writeFileSync(at('cut.zip'), readFileSync(GOLDEN).subarray(0, 4000));
    writeFileSync(at('huge.zip'), 'PK');
    truncateSync(at('huge.zip'), 600_000_001);
    const store = openSqliteStore(join(at('other'), 'garage.sqlite'));
    await store.append(
      demoJob().map((event) => (event.type === 'noteAdded' ? { ...event, text: 'x' } : event)),
    );
    await store.close();
    openSqliteStore(join(at('broken'), 'garage.sqlite')).close();
    writeFileSync(join(at('broken'), 'garage.sqlite'), 'x'.repeat(200));
  });

  it.each(cases)('%s', async (_name, home, args, sentence) => {
    const { code, out, err } = await run(home, ...args());
    expect(err).toMatch(sentence);
    expect([code, out]).toEqual([2, '']);
    expect(err.trim().split('\n')).toHaveLength(1);
    expect(err).not.toMatch(/\bat .*\.js:\d+/);
    expect(existsSync(at('x.zip'))).toBe(false);
    expect(readFileSync(at('there.zip'), 'utf8')).toBe('mine');
    expect(existsSync(at('nowhere'))).toBe(false);
  });
});
