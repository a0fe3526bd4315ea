/** What passes for a photograph. Markers and segments: ITU-T T.81, annex B; the two sample files come from an encoder of the system. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPhoto, isPhotoName, onlyPicture, PHOTO_BYTES, photosNamed } from '../../src/job/photo-file.ts';
import { frameOf, PROGRESSIVE, picture, SQUARE, withSegment, withSides } from './pictures.ts';
import { opening, story } from './stories.ts';

const whyNot = (bytes: Uint8Array): string => {
  const checked = checkPhoto(bytes);
  return checked.ok ? '' : checked.why;
};
const joined = (...parts: (Uint8Array | string)[]) =>
  new Uint8Array(Buffer.concat(parts.map((part) => Buffer.from(part as string))));

describe('a photograph', () => {
  it('is a plain JPEG, baseline or progressive, and its sides are read', () => {
    expect(checkPhoto(SQUARE)).toEqual({ ok: true, width: 8, height: 8 });
    expect(checkPhoto(PROGRESSIVE)).toEqual({ ok: true, width: 8, height: 8 });
    expect(checkPhoto(withSides(1600, 1200))).toEqual({ ok: true, width: 1600, height: 1200 });
    expect(checkPhoto(picture(7, PHOTO_BYTES))).toMatchObject({ ok: true });
  });

  it.each([
    ['nothing', new Uint8Array(0), /not a JPEG/],
    ['a PNG', Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10), /not a JPEG/],
    ['a page', new Uint8Array(Buffer.from('<!doctype html><script>')), /not a JPEG/],
    ['a page behind the first marker', joined(SQUARE.subarray(0, 2), '<script>'), /cut off or damaged/],
    ['a page behind the picture', joined(SQUARE, '<script>alert(1)</script>'), /something else behind it/],
    ['an archive behind the picture', joined(SQUARE, 'PK\u0003\u0004'), /something else behind it/],
    ['one cut off', SQUARE.subarray(0, -2), /cut off/],
    ['one byte too large', picture(1, PHOTO_BYTES + 1), /over 2 MB/],
    ['a place and a time', withSegment(0xe1, 'Exif\0\0MM'), /where it was taken/],
    ['a comment', withSegment(0xfe, '<script>'), /where it was taken/],
    ['a colour profile', withSegment(0xe2, 'ICC_PROFILE\0'), /carries more/],
    ['no width', withSides(0, 8), /0 × 8 points/],
    ['no height', withSides(8, 0), /8 × 0 points/],
    ['a side too long', withSides(4097, 8), /4097 × 8 points/],
    ['only beginning and end', Uint8Array.of(0xff, 0xd8, 0xff, 0xd9), /holds no picture/],
    ['a segment longer than the file', Uint8Array.of(0xff, 0xd8, 0xff, 0xdb, 0xff, 0xff, 0), /cut off/],
    ['a segment shorter than its length', Uint8Array.of(0xff, 0xd8, 0xff, 0xdb, 0, 1, 0, 0), /cut off/],
    ['a marker that is none', Uint8Array.of(0xff, 0xd8, 0xff, 0x01, 0, 2, 0xff, 0xd9), /cut off/],
  ])('is not: %s', (_what, bytes, why) => expect(whyNot(bytes)).toMatch(why));

  it.each([
    ['lossless', 0xc3, /browsers do not show/],
    ['arithmetic codes', 0xc9, /browsers do not show/],
  ])('is not one packed with %s', (_what, marker, why) => {
    const made = new Uint8Array(SQUARE);
    made[frameOf(made) + 1] = marker;
    expect(whyNot(made)).toMatch(why);
  });

  it('is not one of four colours, of twelve bits, or with its scan before its frame', () => {
    const [four, deep, early] = [new Uint8Array(SQUARE), new Uint8Array(SQUARE), new Uint8Array(SQUARE)];
    four[frameOf(four) + 9] = 4;
    deep[frameOf(deep) + 4] = 12;
    early[frameOf(early) + 1] = 0xda;
    for (const one of [four, deep]) expect(whyNot(one)).toMatch(/no plain grey or colour/);
    expect(whyNot(early)).not.toBe('');
  });

  it('never throws, and a changed byte never makes one that is longer or bears a name', () => {
    fc.assert(
      fc.property(fc.nat(SQUARE.length - 1), fc.nat(255), fc.nat(SQUARE.length), (at, value, length) => {
        const changed = new Uint8Array(SQUARE);
        changed[at] = value;
        const checked = checkPhoto(changed.subarray(0, length));
        if (length < SQUARE.length) expect(checked.ok).toBe(false);
      }),
      { seed: 5, numRuns: 2000 },
    );
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 400 }), (noise) => {
        expect(checkPhoto(joined(SQUARE.subarray(0, 2), noise)).ok).toBe(false);
      }),
      { seed: 6, numRuns: 1000 },
    );
  });
});

describe('what lies beside the picture', () => {
  it('is dropped, and what is left is a photograph with the same picture', () => {
    for (const made of [withSegment(0xe1, 'Exif\0\0MM'), withSegment(0xfe, 'x'), withSegment(0xe2, 'ICC')]) {
      expect(checkPhoto(made).ok).toBe(false);
      expect(Buffer.from(onlyPicture(made)!).equals(SQUARE)).toBe(true);
    }
    expect(Buffer.from(onlyPicture(PROGRESSIVE)!).equals(PROGRESSIVE)).toBe(true);
    expect(onlyPicture(joined(SQUARE, 'x'))).toBeNull();
  });
});

describe('names of photographs', () => {
  it('are sums, and nothing that leads anywhere', () => {
    expect(isPhotoName('a'.repeat(64))).toBe(true);
    for (const name of ['', 'A'.repeat(64), 'a'.repeat(63), `${'a'.repeat(64)}\n`, `../${'a'.repeat(61)}`])
      expect(isPhotoName(name)).toBe(false);
  });

  it('of a job are each named once, in order', () => {
    const shot = (photo: string) => ({ type: 'photoAdded' as const, photo, step: '', about: '' });
    const [a, b] = ['a'.repeat(64), 'b'.repeat(64)];
    expect(photosNamed(story([opening, shot(b), shot(a), shot(b)]))).toEqual([a, b]);
    expect(photosNamed(story([opening]))).toEqual([]);
  });
});
