/** The photograph routes: what comes in, what goes out, and what neither does. */
import { existsSync, readdirSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { picture, SQUARE, sumOf, withSegment } from '../job/pictures.ts';
import { type Garage, openGarage } from './garage.ts';

let garage: Garage;
beforeEach(async () => {
  garage = await openGarage();
});
afterEach(() => garage.close());

const NAME = sumOf(SQUARE);
const JPEG = { 'content-type': 'image/jpeg' };
const put = (
  name: string,
  body: Uint8Array,
  headers: Readonly<Record<string, string>> = JPEG,
  chunked = false,
) => garage.ask(`/api/photos/${name}`, { method: 'PUT', headers, body: Buffer.from(body), chunked });
const shelf = () => join(garage.folder, 'garage.sqlite.photos');
/** How many files lie on the shelf. */
const lying = () =>
  existsSync(shelf())
    ? readdirSync(shelf(), { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile()).length
    : 0;

describe('a photograph', () => {
  it('is kept once under its sum, and comes back byte for byte, inert', async () => {
    expect(await put(NAME, SQUARE)).toMatchObject({
      status: 201,
      text: JSON.stringify({ photo: NAME, fresh: true }),
    });
    expect((await put(NAME, SQUARE)).status).toBe(200);
    expect(lying()).toBe(1);
    const { status, bytes, headers } = await garage.ask(`/api/photos/${NAME}`);
    expect(status).toBe(200);
    expect(bytes.equals(SQUARE)).toBe(true);
    expect(headers['content-type']).toBe('image/jpeg');
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['content-security-policy']).toBe("default-src 'none'; sandbox");
    expect(headers['cache-control']).toBe('private, max-age=31536000, immutable');
    expect(headers['cross-origin-resource-policy']).toBe('same-origin');
    const head = await garage.ask(`/api/photos/${NAME}`, { method: 'HEAD' });
    expect(head).toMatchObject({ status: 200, text: '' });
  });

  it('that has not come is 404, and browsers do not remember that', async () => {
    const { status, headers, json } = await garage.ask(`/api/photos/${NAME}`);
    expect(status).toBe(404);
    expect(headers['cache-control']).toBe('no-store');
    expect(json().error).toMatch(/is not here yet: open the job on the device that took it\.$/);
  });

  it('that was damaged on the disk is told and not given out; sent again it is mended', async () => {
    await put(NAME, SQUARE);
    truncateSync(join(shelf(), NAME.slice(0, 2), `${NAME}.jpg`), 50);
    const { status, headers, json } = await garage.ask(`/api/photos/${NAME}`);
    expect([status, headers['content-type'], headers['cache-control']]).toEqual([
      410,
      'application/json',
      'no-store',
    ]);
    expect(json().error).toMatch(/is damaged on the disk/);
    expect((await put(NAME, SQUARE)).status).toBe(201);
    expect((await garage.ask(`/api/photos/${NAME}`)).status).toBe(200);
  });

  it('up to 2 MB is taken, also without its length told before', async () => {
    const large = picture(2, 2_000_000);
    expect((await put(sumOf(large), large, JPEG, true)).status).toBe(201);
    const over = picture(2, 2_000_001);
    for (const chunked of [false, true]) {
      const { status, json } = await put(sumOf(over), over, JPEG, chunked);
      expect(status).toBe(413);
      expect(json().error).toMatch(/over 2 MB and was not kept/);
    }
    expect(lying()).toBe(1);
  });

  const page = new Uint8Array(Buffer.from('<!doctype html><script>alert(1)</script>'));
  const exif = withSegment(0xe1, 'Exif\0\0MM');
  const behind = new Uint8Array(Buffer.concat([SQUARE, page]));
  it.each([
    ['under another sum', 'a'.repeat(64), SQUARE, JPEG, 422, /sum differs/],
    ['cut off', NAME, SQUARE.subarray(0, 99), JPEG, 422, /sum differs/],
    ['a page', sumOf(page), page, JPEG, 422, /not a JPEG picture/],
    ['with a page behind it', sumOf(behind), behind, JPEG, 422, /something else behind it/],
    ['with the place it was taken', sumOf(exif), exif, JPEG, 422, /where it was taken/],
    ['empty', sumOf(new Uint8Array(0)), new Uint8Array(0), JPEG, 422, /not a JPEG/],
    ['declared as another thing', NAME, SQUARE, { 'content-type': 'image/svg+xml' }, 415, /as image\/jpeg/],
    ['declared as nothing', NAME, SQUARE, {}, 415, /as image\/jpeg/],
    ['under a name that is no sum', 'photo.jpg', SQUARE, JPEG, 400, /64 small hexadecimal/],
    ['under large letters', NAME.toUpperCase(), SQUARE, JPEG, 400, /64 small hexadecimal/],
  ] as const)(
    '%s is refused in one sentence, and nothing is kept',
    async (_how, name, body, headers, status, words) => {
      const answer = await put(name, body, headers as Readonly<Record<string, string>>);
      expect(answer.status).toBe(status);
      expect(answer.json().error).toMatch(words);
      expect(answer.json().error).toMatch(/^[A-Z].*\.$/);
      expect(lying()).toBe(0);
      expect(garage.faults).toEqual([]);
    },
  );

  it.each([
    '..%2f..%2fgarage.sqlite',
    '..%2Fsecret.txt',
    '%2e%2e/secret.txt',
    '../secret.txt',
    '..',
    `${NAME}%2f..%2f..`,
    `${NAME}%00`,
    `${NAME}.jpg`,
    '%c0%ae%c0%ae',
    '*',
  ])('no path leads out of the shelf: %s', async (path) => {
    writeFileSync(join(garage.folder, 'secret.txt'), 'not for anybody');
    await put(NAME, SQUARE);
    const got = await garage.ask(`/api/photos/${path}`);
    expect(got.status === 400 || got.status === 404).toBe(true);
    expect(got.text).not.toContain('not for anybody');
    const sent = await garage.ask(`/api/photos/${path}`, {
      method: 'PUT',
      headers: JPEG,
      body: Buffer.from(SQUARE),
    });
    expect(sent.status >= 400 && sent.status < 500).toBe(true);
    expect(lying()).toBe(1);
  });

  it('comes only from the pages of this computer, as everything else', async () => {
    const evil = { ...JPEG, origin: 'http://evil.example' };
    expect((await put(NAME, SQUARE, evil)).status).toBe(403);
    expect((await put(NAME, SQUARE, { ...JPEG, host: 'evil.example' })).status).toBe(403);
    expect((await put(NAME, SQUARE, { ...JPEG, 'sec-fetch-site': 'cross-site' })).status).toBe(403);
    await put(NAME, SQUARE);
    const framed = await garage.ask(`/api/photos/${NAME}`, { headers: { 'sec-fetch-site': 'cross-site' } });
    expect(framed.status).toBe(403);
    expect((await garage.ask(`/api/photos/${NAME}`, { method: 'DELETE' })).status).toBe(405);
  });

  it('that the disk has no place for is 503 with a sentence, and the server goes on', async () => {
    writeFileSync(shelf(), 'a file where the folder should be');
    const { status, json } = await put(NAME, SQUARE);
    expect(status).toBe(503);
    expect(json().error).toMatch(/stays where it came from/);
    expect(garage.faults).toHaveLength(1);
    expect((await garage.ask('/api/health')).status).toBe(200);
  });
});
