import { createHash } from 'node:crypto';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { explain, StoreFault } from '../../src/disk/fault.ts';
import { openFile } from '../../src/disk/open.ts';
import { APPLICATION_ID, VERSION } from '../../src/disk/schema.ts';
import { openSqliteStore } from '../../src/disk/sqlite-store.ts';
import { opening, story, take } from '../job/stories.ts';

let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'chargewright-disk-'));
  file = join(folder, 'garage.sqlite');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const log = story([
  opening,
  ...Array.from({ length: 400 }, (_, n) => take('rest_volts', n / 100, 'x'.repeat(40))),
]);

/** Every file of the folder with its content, to see that nothing was touched. */
function print(): Readonly<Record<string, string>> {
  const names = readdirSync(folder)
    .filter((name) => statSync(join(folder, name)).isFile())
    .sort();
  return Object.fromEntries(
    names.map((name) => [
      name,
      createHash('sha256')
        .update(readFileSync(join(folder, name)))
        .digest('hex'),
    ]),
  );
}

function refusal(): StoreFault {
  try {
    openFile(file).close();
  } catch (error) {
    if (error instanceof StoreFault) return error;
    throw error;
  }
  throw new Error('the store was opened');
}

async function filled(): Promise<void> {
  const store = openSqliteStore(file);
  await store.append(log);
  await store.close();
}

describe('opening a sound store', () => {
  it('12: sets WAL and a full flush, in this order, and both are in force', () => {
    for (const again of [false, true]) {
      const db = openFile(file);
      expect(db.pragma('journal_mode', { simple: true }), `opened again: ${again}`).toBe('wal');
      expect(db.pragma('synchronous', { simple: true }), `opened again: ${again}`).toBe(2);
      db.close();
    }
  });

  it('12: needs to set the flush itself: left alone, a file in WAL is flushed less', () => {
    openFile(file).close();
    const db = new Database(file);
    db.prepare('SELECT count(*) FROM event').get();
    expect(db.pragma('synchronous', { simple: true })).toBe(1);
    db.close();
  });

  it('makes the last folder of the path, and marks the file as its own', () => {
    file = join(folder, 'new', 'garage.sqlite');
    openFile(file).close();
    const header = readFileSync(file);
    expect(header.readUInt32BE(68)).toBe(APPLICATION_ID);
    expect(header.readUInt32BE(60)).toBe(VERSION);
  });

  it('takes an empty file for a store that was never begun', () => {
    writeFileSync(file, '');
    openFile(file).close();
    expect(readFileSync(file).length).toBeGreaterThan(100);
  });

  it('is shared by two connections, each seeing what the other kept', async () => {
    const [one, two] = [openSqliteStore(file), openSqliteStore(file)];
    await Promise.all([one.append(log.slice(0, 200)), two.append(log.slice(100))]);
    expect(await one.since('j1', 0)).toEqual(await two.since('j1', 0));
    expect(await one.since('j1', 0)).toHaveLength(log.length);
    await one.close();
    await two.close();
  });

  it('7: holds off an UPDATE and a DELETE from underneath', async () => {
    await filled();
    const db = new Database(file);
    expect(() => db.exec("UPDATE event SET job = 'j2'")).toThrow(/never changed/);
    expect(() => db.exec('DELETE FROM event')).toThrow(/never removed/);
    db.close();
  });
});

describe('11: what is refused is named, and left as it is', () => {
  const untouched = (pattern: RegExp): void => {
    const before = print();
    const fault = refusal();
    expect(fault.message).toMatch(pattern);
    expect(fault.message).toContain(file);
    expect(fault.message).toContain('CHARGEWRIGHT_HOME');
    expect(print()).toEqual(before);
  };

  it('a text file', () => {
    writeFileSync(file, 'my notes about the bike\n'.repeat(20));
    untouched(/not a Chargewright store/);
  });

  it('a file cut off in its header', () => {
    writeFileSync(file, 'SQLite format 3\0');
    untouched(/not a Chargewright store, or its beginning is damaged/);
  });

  it("another program's database, with a journal that opening it would fold in", () => {
    const other = new Database(file);
    other.pragma('journal_mode = WAL');
    other.exec('CREATE TABLE bills (sum REAL); INSERT INTO bills VALUES (1)');
    // Left open as by a program that was killed: its -wal holds what the file does not have yet.
    untouched(/another program/);
    other.close();
  });

  it('a store of a later version', async () => {
    await filled();
    const db = new Database(file);
    db.pragma(`user_version = ${VERSION + 1}`);
    db.close();
    untouched(/later version/);
  });

  it.each([
    ['its middle overwritten', (bytes: Buffer) => bytes.fill(0x5a, 8192, 8192 + 4096)],
    ['its end cut off', (bytes: Buffer) => bytes.subarray(0, bytes.length - 6000)],
    [
      'one letter of an index changed',
      (bytes: Buffer) => {
        // The id stands in the table and in the index over ids; now the two disagree.
        const at = bytes.indexOf(Buffer.from(log[200]!.id));
        expect(at).toBeGreaterThan(0);
        bytes.write('z', at);
        return bytes;
      },
    ],
  ])('a damaged store: %s', async (_, damage) => {
    await filled();
    writeFileSync(file, damage(readFileSync(file)));
    untouched(/damaged/);
  });

  it('a folder in the place of the file', () => {
    mkdirSync(file);
    untouched(/is a folder/);
  });

  it('a path whose folder is missing for more than its last part', () => {
    file = join(folder, 'no', 'such', 'garage.sqlite');
    untouched(/does not exist/);
    expect(existsSync(join(folder, 'no'))).toBe(false);
  });

  it('a path through a file', () => {
    writeFileSync(join(folder, 'a'), 'x');
    file = join(folder, 'a', 'garage.sqlite');
    untouched(/does not exist/);
  });
});

describe('faults while writing', () => {
  it('4: a full disk is said to be full, and nothing of the batch is kept', async () => {
    await filled();
    const db = openFile(file);
    const pages = Number(db.pragma('page_count', { simple: true }));
    db.pragma(`max_page_count = ${pages + 1}`);
    const insert = db.prepare("INSERT INTO event (id, job, type, body) VALUES (?, 'j9', 'noteAdded', ?)");
    let thrown: unknown;
    try {
      db.transaction(() => {
        for (let n = 0; n < 500; n += 1) insert.run(`n${n}`, JSON.stringify('x'.repeat(500)));
      })();
    } catch (error) {
      thrown = explain(file, error);
    }
    expect(thrown).toBeInstanceOf(StoreFault);
    expect((thrown as StoreFault).message).toMatch(/no room left/);
    expect(db.prepare('SELECT count(*) AS n FROM event').get()).toEqual({ n: log.length });
    db.close();
  });

  it('leaves alone what it cannot explain', () => {
    const bug = new TypeError('x is not a function');
    expect(explain(file, bug)).toBe(bug);
  });
});

/** Root may write anywhere: while `work` runs, this process is nobody. */
function asNobody(work: () => void): void {
  const root = process.geteuid?.() === 0;
  if (root) process.seteuid!(65_534);
  try {
    work();
  } finally {
    if (root) process.seteuid!(0);
  }
}

describe.runIf(process.platform !== 'win32')('11: a store that may not be written', () => {
  beforeEach(() => chmodSync(folder, 0o755));

  it.each<[string, () => void, RegExp]>([
    [
      'the file is read-only',
      () => [chmodSync(file, 0o444), chmodSync(folder, 0o777)],
      /cannot be opened: this user may not read and write it/,
    ],
    [
      'the file may not even be read',
      () => [chmodSync(file, 0o000), chmodSync(folder, 0o777)],
      /cannot be opened/,
    ],
    [
      'the folder is read-only',
      () => [chmodSync(file, 0o666), chmodSync(folder, 0o555)],
      /cannot be (opened|written)/,
    ],
  ])('%s', async (_, forbid, pattern) => {
    await filled();
    const before = createHash('sha256').update(readFileSync(file)).digest('hex');
    forbid();
    asNobody(() => {
      const fault = refusal();
      expect(fault.message).toMatch(pattern);
      expect(fault.message).toContain('CHARGEWRIGHT_HOME');
    });
    expect(createHash('sha256').update(readFileSync(file)).digest('hex')).toBe(before);
  });

  it('and there is none yet: the folder is read-only', () => {
    asNobody(() => expect(refusal().message).toMatch(/cannot be opened/));
    expect(readdirSync(folder)).toEqual([]);
  });
});
