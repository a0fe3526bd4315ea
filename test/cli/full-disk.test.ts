/** The commands on a disk that is full, and under a limit of the size of files: a sentence, nothing half, nothing lost. */
import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openSqliteStore } from '../../src/disk/sqlite-store.ts';
import { demoJob } from '../../src/job/demo.ts';
import { packJob } from '../../src/press/job-file.ts';
import { openSmallDisk } from '../disk/small-disk.ts';
import { opening, story, take } from '../job/stories.ts';
import { build, type Ran, ROOT } from './run.ts';

const folder = mkdtempSync(join(tmpdir(), 'cli-full-'));
const at = (name: string) => join(folder, name);

/** Runs it by a shell, which limits it or sends its answer somewhere. */
function run(home: string, line: string): Promise<Ran> {
  const env = { ...process.env, CHARGEWRIGHT_HOME: home, PORT: 'none', MAIN: join(ROOT, 'dist/cli/main.js') };
  return new Promise((done) => {
    const child = execFile('bash', ['-c', line], { cwd: ROOT, env }, (_error, out, err) =>
      done({ code: child.exitCode, out, err }),
    );
  });
}
const PROGRAM = `"${process.execPath}" "$MAIN"`;

const many = story([
  opening,
  ...Array.from({ length: 3000 }, (_, n) => take('rest_volts', n / 100, 'x'.repeat(9))),
]);
beforeAll(async () => {
  build();
  const store = openSqliteStore(join(at('home'), 'garage.sqlite'));
  await store.append([...demoJob(), ...many]);
  await store.close();
  const packed = packJob({ events: many, machine: null, photos: [] });
  if (!packed.ok) throw new Error(packed.why);
  writeFileSync(at('j1.zip'), packed.bytes);
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.skipIf(process.platform !== 'linux')('a limit of the size of files', { timeout: 30_000 }, () => {
  it('ends an export with a sentence and no file', async () => {
    const { code, err } = await run(
      at('home'),
      `ulimit -f 40; exec ${PROGRAM} export --all ${at('small.zip')}`,
    );
    expect([code, err]).toEqual([
      2,
      `${at('small.zip')} was not written, for its disk takes no file of that size: name another place.\n`,
    ]);
    expect(existsSync(at('small.zip'))).toBe(false);
  });

  it('ends an import with a sentence, and the store has none of it', async () => {
    const { code, err } = await run(at('limited'), `ulimit -f 300; exec ${PROGRAM} import ${at('j1.zip')}`);
    expect(code).toBe(2);
    expect(err).toMatch(/^The disk that holds \S+ reports a fault; this was not kept there\..*\n$/);
    const store = openSqliteStore(join(at('limited'), 'garage.sqlite'));
    expect(await store.count('j1')).toBe(0);
    await store.close();
  });
});

it.skipIf(!existsSync('/dev/full'))('says that not all was printed', { timeout: 30_000 }, async () => {
  const { code, err } = await run(at('home'), `exec ${PROGRAM} export --csv j1 > /dev/full`);
  expect([code, err]).toEqual([
    2,
    'Not all of the answer is in the file it was sent to: there is no room left on its disk. Send it elsewhere.\n',
  ]);
});

const small = openSmallDisk(4);
describe.skipIf(small === null)('a full disk, a real one', { timeout: 60_000 }, () => {
  afterAll(() => small?.end());

  it('ends an export and an import with a sentence; it goes well once there is room', async () => {
    const home = join(small!.folder, 'garage');
    const store = openSqliteStore(join(home, 'garage.sqlite'));
    await store.append(demoJob());
    await store.close();
    small!.fill();
    const to = join(small!.folder, 'j1.zip');
    const out = await run(at('home'), `exec ${PROGRAM} export j1 ${to}`);
    expect([out.code, out.err]).toEqual([
      2,
      `${to} was not written, for there is no room left on its disk: free some space, or name another.\n`,
    ]);
    expect(readdirSync(small!.folder).sort()).toEqual(['ballast', 'garage']);
    const into = await run(home, `exec ${PROGRAM} import ${at('j1.zip')}`);
    expect(into.code).toBe(2);
    expect(into.err).toMatch(/^There is no room left on the disk that holds \S+; .*Free some space.*\n$/);
    small!.free();
    expect((await run(home, `exec ${PROGRAM} import ${at('j1.zip')}`)).out).toMatch(/3001 new events/);
  });
});
