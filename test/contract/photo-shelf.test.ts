/** The rules 19 to 21 of src/log/SPEC.md, tried on every shelf of photographs. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { openPhotoShelf } from '../../src/disk/photo-shelf.ts';
import type { PhotoShelf } from '../../src/log/photo-shelf.ts';
import { PROGRESSIVE, picture, SQUARE, sumOf } from '../job/pictures.ts';
import { openMemoryPhotos } from './memory-photos.ts';

const home = mkdtempSync(join(tmpdir(), 'chargewright-shelf-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));
let count = 0;

const trials: readonly [string, () => Promise<PhotoShelf>][] = [
  ['in memory', async () => openMemoryPhotos()],
  ['on the disk', () => openPhotoShelf(join(home, `${count++}.photos`))],
];

describe.each(trials)('a shelf of photographs %s', (_name, fresh) => {
  it('19: gives out under a sum what has that sum, byte for byte', async () => {
    const shelf = await fresh();
    for (const bytes of [SQUARE, PROGRESSIVE, picture(3, 1_900_000)]) {
      expect(await shelf.put(bytes)).toEqual({ ok: true, photo: sumOf(bytes), fresh: true });
      const got = await shelf.get(sumOf(bytes));
      expect(got.ok && Buffer.from(got.bytes).equals(bytes)).toBe(true);
    }
  });

  it('19: keeps each content once, however often and however many at once it comes', async () => {
    const shelf = await fresh();
    await shelf.put(SQUARE);
    expect(await shelf.put(SQUARE)).toEqual({ ok: true, photo: sumOf(SQUARE), fresh: false });
    const answers = await Promise.all(Array.from({ length: 8 }, () => shelf.put(picture(9))));
    expect(answers.every((answer) => answer.ok)).toBe(true);
    expect((await shelf.get(sumOf(picture(9)))).ok).toBe(true);
  });

  it('19: holds on any order of coming and asking', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(fc.boolean(), fc.nat(6)), { maxLength: 20 }), async (deeds) => {
        const shelf = await fresh();
        const held = new Set<number>();
        for (const [put, number] of deeds) {
          const bytes = picture(number);
          if (put)
            expect(await shelf.put(bytes)).toMatchObject({
              ok: true,
              fresh: held.size !== held.add(number).size,
            });
          else expect((await shelf.get(sumOf(bytes))).ok).toBe(held.has(number));
        }
      }),
      { seed: 4, numRuns: 30 },
    );
  });

  it('21: tells one that has not come as missing, by its name', async () => {
    const shelf = await fresh();
    const got = await shelf.get('ab'.repeat(32));
    expect(got).toMatchObject({ ok: false, is: 'missing' });
    expect(got.ok ? '' : got.why).toMatch(/^The photograph abababababab… is not here yet: open .*\.$/);
  });

  it('refuses what is no photograph, with a sentence, and keeps nothing of it', async () => {
    const shelf = await fresh();
    const page = new Uint8Array(Buffer.from('<script>'));
    const taken = await shelf.put(page);
    expect(taken.ok ? '' : taken.why).toMatch(/^The photograph is not a JPEG picture: .*\.$/);
    expect((await shelf.get(sumOf(page))).ok).toBe(false);
  });

  it.each([
    '',
    '..',
    '../../garage.sqlite',
    'A'.repeat(64),
    `${'a'.repeat(64)}/`,
    `..%2f${'a'.repeat(59)}`,
    'a\0',
  ])('takes %j for no name', async (name) => {
    await expect((await fresh()).get(name)).rejects.toThrow(RangeError);
  });
});
