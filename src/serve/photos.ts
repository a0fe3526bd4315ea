/**
 * The photograph routes. A picture comes in only as a plain JPEG under its own sum, and goes out only as an image that runs
 * nothing: whatever its bytes are, a browser takes them for a picture or for nothing at all.
 */
import type { Context } from 'hono';
import { isPhotoName, PHOTO_BYTES } from '../job/photo-file.ts';
import type { PhotoShelf } from '../log/photo-shelf.ts';
import { readBytes } from './body.ts';

const INERT: Readonly<Record<string, string>> = {
  'content-type': 'image/jpeg',
  'content-security-policy': "default-src 'none'; sandbox",
  // What is under a sum never changes.
  'cache-control': 'private, max-age=31536000, immutable',
};

const NO_NAME = 'A photograph is named by its SHA-256: 64 small hexadecimal digits.';
const TOO_LARGE = `The photograph is over ${PHOTO_BYTES / 1e6} MB and was not kept: take it again, smaller.`;

/** GET and HEAD: the picture, or where it is. */
export async function givePhoto(c: Context, shelf: PhotoShelf, photo: string): Promise<Response> {
  if (!isPhotoName(photo)) return c.json({ error: NO_NAME, field: 'photo' }, 400);
  const got = await shelf.get(photo);
  if (got.ok) return c.body(got.bytes, 200, { ...INERT });
  return c.json({ error: got.why }, got.is === 'missing' ? 404 : 410);
}

/** PUT: keeps it; the same one again changes nothing. */
export async function takePhoto(c: Context, shelf: PhotoShelf, photo: string): Promise<Response> {
  if (!isPhotoName(photo)) return c.json({ error: NO_NAME, field: 'photo' }, 400);
  const type = c.req.header('content-type') ?? '';
  if (type.trim().toLowerCase() !== 'image/jpeg')
    return c.json({ error: 'A photograph is sent as image/jpeg; nothing was kept.' }, 415);
  if (Number(c.req.header('content-length') ?? 0) > PHOTO_BYTES) return c.json({ error: TOO_LARGE }, 413);
  const bytes = await readBytes(c.req.raw.body, PHOTO_BYTES);
  if (bytes === null) return c.json({ error: TOO_LARGE }, 413);
  const sum = Buffer.from(await crypto.subtle.digest('SHA-256', new Uint8Array(bytes))).toString('hex');
  if (sum !== photo)
    return c.json(
      { error: 'The photograph was damaged on the way, its sum differs from its name; send it again.' },
      422,
    );
  const taken = await shelf.put(bytes);
  if (!taken.ok) return c.json({ error: taken.why }, 422);
  return c.json({ photo, fresh: taken.fresh }, taken.fresh ? 201 : 200);
}
