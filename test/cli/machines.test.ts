/** `share`, `compare`, `merge` and the import of a machine file, as a person calls them. */
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { compare } from '../../src/draft/compare.ts';
import type { Json } from '../../src/machine/json-value.ts';
import { packMachine } from '../../src/press/machine-pack.ts';
import { openOwnMachines } from '../../src/serve/own-machines.ts';
import { ARDMOOR, build, file, OSKERLUND, type Ran, ROOT, run, runProcess } from './run.ts';

beforeAll(build, 120_000);
const folder = mkdtempSync(join(tmpdir(), 'cli-machines-'));
const at = (name: string) => join(folder, name);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const good = readFileSync(join(ROOT, ARDMOOR), 'utf8');
const other = file(
  'other.json',
  good.replace(
    '"fuse": { "is": "40 A", "from": "labels" }',
    '"fuse": { "is": "30 A", "from": "book", "page": "8-2" }',
  ),
);

/** Places at which two texts differ, without a program started for it. */
const differs = (one: string, two: string): readonly string[] =>
  compare(JSON.parse(one) as Json, JSON.parse(two) as Json).map((difference) => difference.at);
const oskerlund = readFileSync(join(ROOT, OSKERLUND), 'utf8');

/** Runs the program with a garage of its own. */
const runIn = (home: string, ...args: readonly string[]): Promise<Ran> =>
  run(args, '', { CHARGEWRIGHT_HOME: at(home), PORT: 'none' });

describe('compare', () => {
  it('a line each, both figures with their sources, and the exit code of diff', async () => {
    const ran = await runProcess(['compare', ARDMOOR, other]);
    expect(ran).toEqual({
      code: 1,
      err: '',
      out: '$.charging.fuse: 40 A (Read off the labels on the bike (invented)) | 30 A (Ardmoor 650 Pathway, workshop book (invented), 8-2)\n1 difference.\n',
    });
    expect(await run(['compare', ARDMOOR, ARDMOOR])).toMatchObject({ code: 0, err: '' });
    const json = await run(['compare', ARDMOOR, other, '--json']);
    expect(JSON.parse(json.out)).toEqual([
      {
        at: '$.charging.fuse',
        here: { is: '40 A', from: 'labels' },
        there: { is: '30 A', from: 'book', page: '8-2' },
      },
    ]);
    const bad = await run(['compare', ARDMOOR, file('no.json', 'not JSON')]);
    expect([bad.code, bad.out]).toEqual([2, '']);
    expect(bad.err).toMatch(/no\.json is no machine file/);
  });
});

describe('merge', () => {
  it('mine with what is taken, to standard output', async () => {
    const taken = await run(['merge', ARDMOOR, other, '--take', '$.charging.fuse']);
    expect([taken.code, taken.err]).toEqual([0, '']);
    expect(JSON.parse(taken.out).charging.fuse).toEqual({ is: '30 A', from: 'book', page: '8-2' });
    expect(differs(taken.out, readFileSync(other, 'utf8'))).toEqual([]);
    const none = await run(['merge', ARDMOOR, other]);
    expect(differs(none.out, good)).toEqual([]);
    const both = await run(['merge', ARDMOOR, other, '--both', 'charging.fuse', '--json']);
    expect(JSON.parse(both.out)).toMatchObject({
      file: { charging: { fuse: { is: '40 A', also: [{ is: '30 A', from: 'book' }] } } },
      taken: ['$.charging.fuse'],
      left: 1,
    });
  });
  it('says where they differ when asked for another place', async () => {
    const ran = await run(['merge', ARDMOOR, other, '--take', '$.charging.fuze']);
    expect([ran.code, ran.out]).toEqual([2, '']);
    expect(ran.err).toMatch(/do not differ at "\$\.charging\.fuze": did you mean \$\.charging\.fuse\?/);
    expect((await run(['merge', ARDMOOR, other, '--all', '--take', 'charging.fuse'])).err).toMatch(
      /cannot go together/,
    );
  });
  it('all of another bike makes that bike', async () => {
    const all = await run(['merge', ARDMOOR, OSKERLUND, '--all']);
    expect([all.code, all.err]).toEqual([0, '']);
    expect(differs(all.out, oskerlund)).toEqual([]);
  });
});

describe('share and import', () => {
  it('packs a file, names what to look over, and writes over none', async () => {
    const out = await run(['share', other, '--out', at('bike.zip')]);
    expect([out.code, out.err]).toEqual([0, '']);
    expect(out.out).toMatch(
      /^Wrote \S+bike\.zip: Ardmoor 650 Pathway \(invented\), \d+ drawings; \d+ kB\. The check marks it clean\.\n/,
    );
    expect(out.out).toContain('$.about.note:');
    expect((await run(['share', other, '--out', at('bike.zip')])).err).toMatch(/there already/);
  });
  it('takes a pack in under another name where the bike is a shipped one; to look keeps nothing', async () => {
    const packed = packMachine(readFileSync(other, 'utf8'), 'other.json');
    if (!packed.ok) throw new Error(packed.why);
    const pack = file('pack.zip', packed.bytes);
    const look = await runIn('a', 'import', '--look', pack);
    expect(look.out).toMatch(
      /would be kept as ardmoor-650-pathway-2, which differs from the one here in 1 place; nothing was kept/,
    );
    expect(existsSync(at('a'))).toBe(false);
    const kept = await runIn('a', 'import', '--as', 'mine', pack);
    expect(kept).toMatchObject({ code: 0, err: '' });
    expect(kept.out).toMatch(/kept as mine\.\n$/);
    const stored = readFileSync(join(at('a'), 'machines', 'mine', '0001.json'), 'utf8');
    expect(differs(stored, readFileSync(other, 'utf8'))).toEqual(['$.$schema']);
  });
  it('what is here already is known; what differs is the next version', async () => {
    await openOwnMachines(join(at('c'), 'machines')).save('mine', readFileSync(other, 'utf8'));
    expect((await runIn('c', 'import', '--as', 'mine', other)).out).toMatch(/here already as mine/);
    expect((await runIn('c', 'import', '--as', 'mine', ARDMOOR)).out).toMatch(
      /kept as version 2 of mine, which differs from the one here in 1 place/,
    );
    expect((await runIn('c', 'import', ARDMOOR)).out).toMatch(/here already as ardmoor-650-pathway/);
    expect(readdirSync(join(at('c'), 'machines', 'mine'))).toEqual(['0001.json', '0002.json']);
  });
  it('refuses a name that is none, and a file with problems', async () => {
    expect((await runIn('b', 'import', '--as', 'My Bike', ARDMOOR)).err).toMatch(/--as wants an id/);
    const broken = await runIn('b', 'import', file('broken.json', good.replace('"40 A"', '"forty"')));
    expect([broken.code, broken.out]).toEqual([2, '']);
    expect(broken.err).toMatch(/\$\.charging\.fuse\.is/);
    const job = await runIn(
      'b',
      'import',
      '--as',
      'x',
      '--look',
      join(ROOT, 'test/press/demo-ferry-run.zip'),
    );
    expect(job.err).toMatch(/--as is for a machine file alone/);
  });
});
