/** A whole garage out, wiped, in and out again; and what an import does beside what is here already. */
import { mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { unzipSync } from 'fflate';
import { afterAll, describe, expect, it } from 'vitest';
import { StoreFault } from '../../src/disk/fault.ts';
import { openPhotoShelf } from '../../src/disk/photo-shelf.ts';
import { openSqliteStore } from '../../src/disk/sqlite-store.ts';
import { demoJob } from '../../src/job/demo.ts';
import type { JobEvent } from '../../src/job/event.ts';
import { canonical } from '../../src/job/stamp.ts';
import type { PhotoShelf } from '../../src/log/photo-shelf.ts';
import type { JobStore } from '../../src/log/store.ts';
import { contentOf, eventsOf, jobsOf, ownTexts } from '../../src/press/collect.ts';
import { packGarage, readGarageFile } from '../../src/press/garage-file.ts';
import { keep } from '../../src/press/keep.ts';
import { GARAGE_LIMITS } from '../../src/press/limits.ts';
import type { MachineShelf } from '../../src/press/machine-shelf.ts';
import { readFileToImport } from '../../src/press/read-file.ts';
import { writeNew } from '../../src/press/write-new.ts';
import { listZip } from '../../src/press/zip-read.ts';
import { openOwnMachines } from '../../src/serve/own-machines.ts';
import { openMemoryPhotos } from '../contract/memory-photos.ts';
import { openMemoryStore } from '../contract/memory-store.ts';
import { sumOf } from '../job/pictures.ts';
import { opening, START, story, take } from '../job/stories.ts';
import { content, openedLogs, PICTURES, packed, SHOT, SMALL, summedZip } from './samples.ts';

const folder = mkdtempSync(join(tmpdir(), 'press-garage-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
let count = 0;

interface Bench {
  readonly store: JobStore;
  readonly shelf: MachineShelf;
  readonly photos: PhotoShelf;
}

/** A garage with nothing in it; one machine is shipped. */
function bench(store = openMemoryStore(), photos = openMemoryPhotos()): Bench {
  const own = openOwnMachines(join(folder, `machines-${count++}`));
  return {
    store,
    photos,
    shelf: { ...own, shipped: async (id) => (id === 'shipped' ? '{ "shipped": 1 }' : null) },
  };
}

async function exported({ store, shelf, photos }: Bench): Promise<Uint8Array> {
  const made = packGarage(await jobsOf(store, shelf, photos), await ownTexts(shelf));
  if (!made.ok) throw new Error(made.why);
  return made.bytes;
}

async function takeIn(bytes: Uint8Array, into: Bench, really = true) {
  const read = readFileToImport(bytes, 'x.zip');
  if (!read.ok) throw new Error(read.why);
  return keep(read.jobs, read.machines, into, 'x.zip', really);
}

const openedWith = (machine: string, job: string, device = 'bench') =>
  story([{ ...opening, machine } as typeof opening, take('rest_volts', 12.4)], { job, device });

describe('a garage', () => {
  it('comes back on another computer as it was, and goes out again as the same bytes', async () => {
    const first = bench(openSqliteStore(join(folder, 'first.sqlite')));
    await first.store.append([
      ...openedWith('shipped', 'a'),
      ...demoJob(),
      ...openedWith('mine', 'b', 'phone'),
    ]);
    for (const text of ['{ "v": 1 }', '{ "v": 2', '{ "v": 1 }']) await first.shelf.save('mine', text);
    await first.shelf.save('unused', '');
    const bytes = await exported(first);

    const second = bench(openSqliteStore(join(folder, 'second.sqlite')));
    expect(await takeIn(bytes, second)).toMatchObject({
      ok: true,
      kept: { jobs: { length: 3 }, machines: ['mine', 'unused'] },
    });
    expect(Buffer.from(await exported(second)).equals(bytes)).toBe(true);
    expect(await second.shelf.text('mine', 2)).toBe('{ "v": 2');
    for (const job of ['a', 'b'])
      expect((await eventsOf(second.store, job)).map(canonical)).toEqual(
        (await eventsOf(first.store, job)).map(canonical),
      );
    // Once more: nothing is new, nothing changes.
    const again = await takeIn(bytes, second);
    expect(again.ok && again.kept.jobs.every(({ fresh }) => fresh === 0)).toBe(true);
    expect(Buffer.from(await exported(second)).equals(bytes)).toBe(true);
    await first.store.close();
    await second.store.close();
  });

  it('does so on any logs', async () => {
    await fc.assert(
      fc.asyncProperty(openedLogs, async (log) => {
        const [first, second] = [bench(), bench()];
        await first.store.append(log);
        const bytes = await exported(first);
        await takeIn(bytes, second);
        expect(Buffer.from(await exported(second)).equals(bytes)).toBe(true);
      }),
      { seed: 16, numRuns: 25 },
    );
  });

  it('with photographs comes back and goes out as the same bytes; one damaged meanwhile is left out and named', async () => {
    const place = join(folder, 'shelf.photos');
    const first = bench(openMemoryStore(), await openPhotoShelf(place));
    await first.store.append(SHOT);
    for (const bytes of PICTURES) await first.photos.put(bytes);
    const bytes = await exported(first);
    const second = bench(openMemoryStore(), await openPhotoShelf(join(folder, 'second.photos')));
    expect(await takeIn(bytes, second)).toMatchObject({
      ok: true,
      kept: { photos: 3 },
    });
    expect(Buffer.from(await exported(second)).equals(bytes)).toBe(true);
    expect(await takeIn(bytes, second)).toMatchObject({ ok: true, kept: { photos: 0 } });

    const photo = sumOf(PICTURES[0]!);
    truncateSync(join(place, photo.slice(0, 2), `${photo}.jpg`), 20);
    const jobs = await jobsOf(first.store, first.shelf, first.photos);
    expect(jobs.get('j1')!.lacking).toEqual([expect.stringMatching(/is damaged on the disk/)]);
    const less = await exported(first);
    expect(less.length).toBeLessThan(bytes.length);
    // What is lacking there is here still, and goes back.
    await takeIn(less, second);
    expect(Buffer.from(await exported(second)).equals(bytes)).toBe(true);
    await takeIn(await exported(second), first);
    expect(Buffer.from(await exported(first)).equals(bytes)).toBe(true);
  });

  it('holds each job as the file that exporting it alone makes', async () => {
    const one = bench();
    await one.store.append(openedWith('shipped', 'a'));
    const alone = packed(await contentOf(await eventsOf(one.store, 'a'), one.shelf, one.photos));
    const methods: number[] = [];
    const files = unzipSync(await exported(one), {
      filter: ({ compression }) => methods.push(compression) > 0,
    });
    expect(Buffer.from(files['jobs/a.zip']!).equals(alone)).toBe(true);
    // Stored: to compress what is compressed already costs time and gains nothing.
    expect(methods).toEqual([0, 0, 0]);
  });

  it('whose jobs together unpack to too much is refused, though each alone is small enough', async () => {
    const one = bench();
    await one.store.append([...openedWith('m1', 'a'), ...openedWith('m1', 'b', 'phone')]);
    const bytes = await exported(one);
    const listed = listZip(bytes, GARAGE_LIMITS);
    const read = (most: number) => readGarageFile(bytes, listed.ok ? listed.entries : [], 'x.zip', most);
    expect(read(10_000).ok).toBe(true);
    const refused = read(6000);
    expect(refused.ok ? '' : refused.why).toMatch(
      /^x\.zip, jobs\/b\.zip would unpack to .* nothing was kept\.$/,
    );
  });

  it('may be empty', async () => {
    const bytes = await exported(bench());
    expect(await takeIn(bytes, bench())).toMatchObject({ ok: true, kept: { jobs: [], machines: [] } });
  });

  it.each<readonly [string, () => Map<string, Uint8Array | string>, RegExp]>([
    ['a stranger in it', () => new Map([['x.txt', 'x']]), /"x\.txt", which does not belong in a garage/],
    ['a job that is none', () => new Map([['jobs/j1.zip', 'x']]), /^x\.zip, jobs\/j1\.zip is no zip/],
    [
      'a job under another name',
      () => new Map([['jobs/j2.zip', packed(content(SMALL))]]),
      /holds the job j1 under the name "jobs\/j2\.zip"/,
    ],
    [
      'a later version',
      () => new Map([['garage.json', '{"format":"chargewright-garage","version":3}']]),
      /is of version 3 of its format/,
    ],
    ['another head', () => new Map([['garage.json', '[]']]), /garage\.json that Chargewright did not write/],
    [
      'a machine file that is no text',
      () => new Map([['machines/mine/0001.json', Uint8Array.of(0xff)]]),
      /which is no text in UTF-8 of up to 1 MB/,
    ],
    ['a machine file by another name', () => new Map([['machines/Mine/0001.json', '{}']]), /does not belong/],
    ['a way out', () => new Map([['jobs/../j1.zip', 'x']]), /would lead out of its folder/],
  ])('with %s is refused', (_name, files, sentence) => {
    const all = new Map([['garage.json', '{"format":"chargewright-garage","version":1}'], ...files()]);
    const read = readFileToImport(summedZip(all), 'x.zip');
    expect(read.ok ? '' : read.why).toMatch(sentence);
    expect(read.ok ? '' : read.why).toMatch(/; nothing was kept\.$/);
  });
});

describe('beside what is here already', () => {
  it('two logs of one job that were worked on apart become one', async () => {
    const [laptop, phone] = [bench(), bench()];
    const start = openedWith('shipped', 'a');
    const later = (device: string): readonly JobEvent[] =>
      story([{ type: 'noteAdded', text: device }], { job: 'a', device, start: START + 3_600_000 });
    await laptop.store.append([...start, ...later('laptop')]);
    await phone.store.append([...start, ...later('phone')]);
    const [one, two] = [await exported(laptop), await exported(phone)];
    expect(await takeIn(two, laptop)).toMatchObject({ kept: { jobs: [{ job: 'a', fresh: 1, known: 2 }] } });
    await takeIn(one, phone);
    expect(Buffer.from(await exported(laptop)).equals(await exported(phone))).toBe(true);
  });

  it('one id with other content refuses all of it, also where another job holds the id', async () => {
    const here = bench();
    await here.store.append(openedWith('shipped', 'a'));
    const before = await exported(here);
    const changed = SMALL.map((event) => ({ ...event, job: 'a' }));
    for (const events of [changed, SMALL]) {
      // The good job beside it is not taken either.
      const files = new Map<string, Uint8Array | string>([
        ['garage.json', '{"format":"chargewright-garage","version":1}'],
        [`jobs/${events[0]!.job}.zip`, packed(content(events))],
        ['jobs/good.zip', packed(content(openedWith('shipped', 'good', 'tablet')))],
      ]);
      const answer = await takeIn(summedZip(files), here);
      expect(answer.ok ? '' : answer.why).toMatch(
        /^x\.zip holds the event \S+, which is here already with other content; nothing was kept\./,
      );
      expect(Buffer.from(await exported(here)).equals(before)).toBe(true);
    }
  });

  it('looking keeps nothing', async () => {
    const here = bench();
    expect(await takeIn(packed(content(SMALL)), here, false)).toMatchObject({
      kept: { jobs: [{ job: 'j1', fresh: 4, known: 0 }], machines: ['m1'] },
    });
    expect(await here.store.jobs()).toEqual([]);
    expect(await here.shelf.ids()).toEqual([]);
  });

  it('photographs that are not here are kept, and one that is nowhere is named and holds nothing up', async () => {
    const here = bench();
    await here.photos.put(PICTURES[0]!);
    const bytes = packed({ ...content(SHOT), photos: PICTURES.slice(0, 2) });
    for (const really of [false, true]) {
      const answer = await takeIn(bytes, here, really);
      expect(answer).toMatchObject({ ok: true, kept: { photos: 1 } });
      expect(answer.ok && answer.kept.notes.join('\n')).toMatch(
        new RegExp(
          `^A photograph of the job j1 \\(${sumOf(PICTURES[2]!).slice(0, 12)}…\\) is neither here nor in the zip`,
        ),
      );
      expect((await here.photos.get(sumOf(PICTURES[1]!))).ok).toBe(really);
    }
    expect(await eventsOf(here.store, 'j1')).toHaveLength(SHOT.length);
    // The same as ever when it comes at last.
    await takeIn(packed({ ...content(SHOT), photos: PICTURES }), here);
    const { lacking, photos } = await contentOf(await eventsOf(here.store, 'j1'), here.shelf, here.photos);
    expect([lacking, photos.length]).toEqual([[], 3]);
  });

  it('a disk that takes no photograph keeps nothing of the import', async () => {
    const full: PhotoShelf = {
      ...openMemoryPhotos(),
      put: async () => {
        throw new StoreFault('photos', 'There is too little room.');
      },
    };
    const here = bench(openMemoryStore(), full);
    await expect(takeIn(packed({ ...content(SHOT), photos: PICTURES }), here)).rejects.toThrow(
      /too little room/,
    );
    expect(await here.store.jobs()).toEqual([]);
  });

  it('a machine file that is not here is kept, one that differs stays as it is and is told', async () => {
    const notes = async (own: readonly string[], machine: string | null, id = 'm1') => {
      const here = bench();
      for (const text of own) await here.shelf.save(id, text);
      const events = id === 'm1' ? SMALL : openedWith(id, 'a');
      const answer = await takeIn(packed(content(events, machine)), here);
      if (!answer.ok) throw new Error(answer.why);
      return { told: answer.kept.notes.join('\n'), texts: (await here.shelf.versions(id)).length };
    };
    expect(await notes([], '{}')).toEqual({ told: '', texts: 1 });
    expect(await notes(['{}'], '{}')).toEqual({ told: '', texts: 1 });
    expect(await notes(['{}', '{ "v": 2 }'], '{}')).toMatchObject({
      told: expect.stringMatching(/later version/),
      texts: 2,
    });
    expect(await notes(['[]'], '{}')).toMatchObject({
      told: expect.stringMatching(/here differs from the one in the zip/),
      texts: 1,
    });
    expect(await notes([], null)).toMatchObject({
      told: expect.stringMatching(/no machine file m1 here or in the zip/),
      texts: 0,
    });
    expect(await notes([], '{ "shipped": 1 }', 'shipped')).toEqual({ told: '', texts: 0 });
    expect(await notes([], '{}', 'shipped')).toMatchObject({
      told: expect.stringMatching(/differs/),
      texts: 0,
    });
  });

  it('versions that follow on are added, a row that went its own way is left', async () => {
    const from = bench();
    for (const text of ['1', '2', '3']) await from.shelf.save('mine', text);
    const bytes = await exported(from);
    const [behind, apart] = [bench(), bench()];
    await behind.shelf.save('mine', '1');
    for (const text of ['1', 'x']) await apart.shelf.save('mine', text);
    await takeIn(bytes, behind);
    expect(await ownTexts(behind.shelf)).toEqual(new Map([['mine', ['1', '2', '3']]]));
    expect(await takeIn(bytes, apart)).toMatchObject({
      kept: { machines: [], notes: [expect.stringMatching(/differs/)] },
    });
    expect(await ownTexts(apart.shelf)).toEqual(new Map([['mine', ['1', 'x']]]));
  });
});

describe('writing a file', () => {
  it('never overwrites one, and says why it cannot write', async () => {
    const path = join(folder, 'there.zip');
    writeFileSync(path, 'mine');
    const why = async (to: string) => {
      const written = await writeNew(to, Uint8Array.of(1));
      return written.ok ? '' : written.why;
    };
    expect(await why(path)).toMatch(/there\.zip is there already and was left as it is: name a new file\.$/);
    expect(readFileSync(path, 'utf8')).toBe('mine');
    expect(await why(folder)).toMatch(/is there already/);
    expect(await why(join(folder, 'nowhere', 'a.zip'))).toMatch(/its folder does not exist/);
    expect(await why(join(path, 'a.zip'))).toMatch(/its folder is none/);
    expect(await why(join(folder, 'new.zip'))).toBe('');
  });
});
