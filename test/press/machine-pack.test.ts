/** A machine file as a pack: what goes into it comes out again, the same bytes each time; what was tampered with is refused. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { getAt, type Json, putAt, writeJson } from '../../src/machine/json-value.ts';
import { packMachine } from '../../src/press/machine-pack.ts';
import type { MachineShelf } from '../../src/press/machine-shelf.ts';
import { idOf, proposeMachine } from '../../src/press/propose-machine.ts';
import { readMachineFile } from '../../src/press/read-machine-file.ts';
import { utf8 } from '../../src/press/zip-write.ts';
import { summedZip, zipOf } from './samples.ts';

const TEXT = readFileSync('machines/ardmoor-650-pathway.json', 'utf8');
const FILE = JSON.parse(TEXT) as Json;
function packOf(text: string) {
  const packed = packMachine(text, 'mine.json');
  if (!packed.ok) throw new Error(packed.why);
  return packed;
}
const good = packOf(TEXT);
const files = () => new Map<string, Uint8Array | string>(Object.entries(unzipSync(good.bytes)));
const inside = (name: string) => Buffer.from(files().get(name) as Uint8Array).toString('utf8');
/** The good pack with files changed and the sums made to fit; null takes one out. */
function changed(changes: Readonly<Record<string, string | Uint8Array | null>>): Uint8Array {
  const map = files();
  map.delete('SHA256SUMS');
  for (const [name, file] of Object.entries(changes)) {
    if (file === null) map.delete(name);
    else map.set(name, file);
  }
  return summedZip(map);
}
const refusal = (bytes: Uint8Array): string => {
  const read = readMachineFile(bytes, 'x.zip');
  return read.ok ? '' : read.why;
};

describe('a pack', () => {
  it('holds the file, its drawings, a few lines and the sums, and makes the same bytes again', () => {
    expect(good.files).toEqual(
      expect.arrayContaining(['SHA256SUMS', 'machine.json', 'pack.json', 'read-me.txt'].slice(1)),
    );
    expect(good.files).toEqual(
      expect.arrayContaining([
        'drawings/loop.svg',
        'drawings/way-in-stator.svg',
        'drawings/screws-cover-screws.svg',
      ]),
    );
    expect(Buffer.from(packOf(TEXT).bytes).equals(Buffer.from(good.bytes))).toBe(true);
    expect(inside('drawings/way-in-stator.svg')).toMatch(/^<svg[\s\S]*<\/svg>\n$/);
    expect(inside('read-me.txt')).toContain('INVENTED');
    expect(JSON.parse(inside('pack.json'))).toMatchObject({
      format: 'chargewright-machine',
      name: 'Ardmoor 650 Pathway',
      invented: true,
    });
  });
  it('is read back to the very same file, and sets out any text the same way', () => {
    const read = readMachineFile(good.bytes, 'x.zip');
    expect(read).toMatchObject({
      ok: true,
      name: 'Ardmoor 650 Pathway',
      invented: true,
      mark: good.mark,
      problems: [],
    });
    if (!read.ok) return;
    expect(JSON.parse(read.text)).toEqual(putAt(FILE, ['$schema'], undefined));
    expect(Buffer.from(packOf(read.text).bytes).equals(Buffer.from(good.bytes))).toBe(true);
    expect(Buffer.from(packOf(JSON.stringify(FILE)).bytes).equals(Buffer.from(good.bytes))).toBe(true);
  });
  it('lists what was typed in free words, so that it can be looked over', () => {
    const noted = packOf(
      writeJson(putAt(FILE, ['fasteners', 'cover-screws', 'note'], 'Ask Mrs. Example, 01234')!),
    );
    expect(noted.texts).toContainEqual({
      path: '$.fasteners["cover-screws"].note',
      text: 'Ask Mrs. Example, 01234',
    });
    expect(noted.texts.map(({ path }) => path)).toEqual(
      expect.arrayContaining(['$.about.note', '$.sources.book.title']),
    );
  });
  it('a file of version 1 is shared as one of this version; a broken one is not shared', () => {
    const old = packOf(writeJson(putAt(FILE, ['version'], 1)!));
    expect(JSON.parse(Buffer.from(unzipSync(old.bytes)['machine.json']!).toString('utf8'))).toMatchObject({
      version: 2,
    });
    const broken = packMachine(writeJson(putAt(FILE, ['charging', 'fuse', 'is'], 'forty')!), 'mine.json');
    expect(broken).toEqual({
      ok: false,
      why: expect.stringMatching(/^mine\.json, line \d+, \$\.charging\.fuse\.is: .*Mend it first/),
    });
  });
});

describe('from outside', () => {
  it('plain JSON is taken as well, with what is wrong with it', () => {
    expect(readMachineFile(utf8(TEXT), 'mine.json')).toMatchObject({ ok: true, text: TEXT, problems: [] });
    const bad = readMachineFile(
      utf8(writeJson(putAt(FILE, ['charging', 'fuse', 'is'], 'forty')!)),
      'mine.json',
    );
    expect(bad).toMatchObject({ ok: true, mark: 'broken', name: null });
    expect(bad.ok && bad.problems[0]).toContain('$.charging.fuse.is');
  });
  const HUGE = 'x'.repeat(1_200_000);
  const CASES: readonly [string, () => Uint8Array, RegExp][] = [
    ['nothing', () => new Uint8Array(0), /no machine file/],
    ['a text', () => utf8('readings\n'), /there is no JSON object in it/],
    ['a list', () => utf8('[1, 2]'), /there is no JSON object in it/],
    ['bytes that are no text', () => new Uint8Array([0xff, 0xfe, 0x00]), /neither a zip nor text/],
    ['a huge text', () => utf8(HUGE), /larger than 1 MB/],
    ['a huge file in a pack', () => changed({ 'machine.json': HUGE }), /machine\.json that is larger/],
    ['a cut-off pack', () => good.bytes.subarray(0, good.bytes.length - 40), /cut off|no zip/],
    ['a pack of something else', () => changed({ 'pack.json': null }), /something else/],
    ['a stranger in it', () => changed({ 'run.sh': 'echo' }), /"run\.sh", which does not belong/],
    ['a way out of the folder', () => changed({ '../x': '1' }), /lead out of its folder/],
    ['another format', () => changed({ 'pack.json': '{"format": "other", "version": 1}' }), /did not write/],
    [
      'a later version',
      () => changed({ 'pack.json': '{"format": "chargewright-machine", "version": 9}' }),
      /version 9 of its format/,
    ],
    [
      'no sums',
      () => zipOf(new Map([...files()].filter(([name]) => name !== 'SHA256SUMS'))),
      /no SHA256SUMS/,
    ],
    [
      'sums that do not fit',
      () => zipOf(files().set('machine.json', '{}')),
      /other content than its SHA256SUMS/,
    ],
    [
      'a file that is no text',
      () => changed({ 'machine.json': new Uint8Array([0x7b, 0xff]) }),
      /no text in UTF-8/,
    ],
  ];
  it.each(CASES)('%s is refused in one sentence', (_what, bytes, why) => {
    const said = refusal(bytes());
    expect(said).toMatch(why);
    expect(said).toMatch(/^x\.zip /);
    expect(said).toMatch(/; nothing was kept\.$/);
  });
  it('no byte changed in a pack makes it throw', () => {
    fc.assert(
      fc.property(fc.nat(good.bytes.length - 1), fc.nat(255), (at, byte) => {
        const copy = new Uint8Array(good.bytes);
        copy[at] = byte;
        readMachineFile(copy, 'x.zip');
      }),
      { numRuns: 60, seed: 7 },
    );
  });
});

describe('what would become of it', () => {
  const shelfOf = (
    own: Readonly<Record<string, readonly string[]>>,
    shipped: Readonly<Record<string, string>> = {},
  ): MachineShelf => ({
    shipped: async (id) => shipped[id] ?? null,
    ids: async () => Object.keys(own),
    versions: async (id) => (own[id] ?? []).map((_, n) => n + 1),
    text: async (id, version) => own[id]?.at(version === undefined ? -1 : version - 1) ?? null,
    save: async () => ({ ok: true }),
  });
  const file = (text: string) => {
    const read = readMachineFile(utf8(text), 'x');
    if (!read.ok) throw new Error(read.why);
    return read;
  };
  const other = writeJson(putAt(putAt(FILE, ['charging', 'fuse', 'is'], '30 A')!, ['about', 'year'], 1990)!);

  it('an id from its name, the number of differences, and whether it is known', async () => {
    expect(await proposeMachine(file(TEXT), shelfOf({}))).toEqual({
      id: 'ardmoor-650-pathway',
      is: 'new',
      differences: null,
      versions: 0,
    });
    expect(await proposeMachine(file(TEXT), shelfOf({ 'ardmoor-650-pathway': [other] }))).toEqual({
      id: 'ardmoor-650-pathway',
      is: 'version',
      differences: 2,
      versions: 1,
    });
    const known = shelfOf({ 'ardmoor-650-pathway': [JSON.stringify(FILE), other] });
    expect(await proposeMachine(file(TEXT), known)).toMatchObject({
      is: 'same',
      differences: 2,
      versions: 2,
    });
    expect(await proposeMachine(file(other), shelfOf({ mine: [TEXT] }), 'mine')).toMatchObject({
      id: 'mine',
      is: 'version',
      differences: 2,
    });
  });
  it('a shipped one is never taken the place of', async () => {
    const shelf = shelfOf({}, { 'ardmoor-650-pathway': TEXT });
    expect(await proposeMachine(file(writeJson(FILE)), shelf)).toMatchObject({
      id: 'ardmoor-650-pathway',
      is: 'same',
    });
    expect(await proposeMachine(file(other), shelf)).toEqual({
      id: 'ardmoor-650-pathway-2',
      is: 'new',
      differences: 2,
      versions: 0,
    });
  });
  it('any name makes an id', () => {
    expect(idOf('Örtliche Mühle 500')).toBe('ortliche-muhle-500');
    expect(idOf('日本')).toBe('machine');
    expect(idOf(null)).toBe('machine');
    expect(idOf('x'.repeat(300)).length).toBeLessThanOrEqual(64);
    expect(getAt(FILE, ['version'])).toBe(2);
  });
});
