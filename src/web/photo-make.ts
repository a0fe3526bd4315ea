/**
 * Makes a photograph of a file that a camera or a person gave: upright, at most 1600 points long, a plain JPEG without a word
 * beside the picture (no place, no time, no device), named by its sum. It is drawn anew, so nothing of the file comes along.
 */
import { checkPhoto, onlyPicture } from '../job/photo-file.ts';

/** Longest side that is tried first, then shorter ones where the file stays too large, px. */
const SIDES_PX = [1600, 1200, 800] as const;
const QUALITIES = [0.8, 0.65, 0.5] as const;
/** Largest photograph that is made, bytes. */
const MOST_BYTES = 1_500_000;
/** Largest file that is looked at, bytes. */
const MOST_GIVEN_BYTES = 60_000_000;

export type Made =
  | { readonly ok: true; readonly photo: string; readonly bytes: ArrayBuffer }
  /** One sentence. */
  | { readonly ok: false; readonly why: string };

const no = (why: string): Made => ({ ok: false, why });

/** Never throws; what goes wrong is said. */
export async function makePhoto(file: File): Promise<Made> {
  const name = file.name === '' ? 'The file' : `“${file.name.slice(0, 60)}”`;
  if (!('subtle' in crypto))
    return no(
      'This browser does not trust the address of this page and so cannot seal a photograph: open the encrypted address that the laptop shows under Devices.',
    );
  if (file.size === 0) return no(`${name} is empty; nothing was kept. Take the photograph again.`);
  if (file.size > MOST_GIVEN_BYTES)
    return no(`${name} is over ${MOST_GIVEN_BYTES / 1e6} MB; nothing was kept. Take the photograph smaller.`);
  const bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' }).catch(() => null);
  if (bitmap === null)
    return no(
      `${name} is not a picture that this browser can read, or it is damaged; nothing was kept. Take the photograph again, or choose a JPEG.`,
    );
  try {
    const blob = await shrink(bitmap);
    const bytes = blob && onlyPicture(new Uint8Array(await blob.arrayBuffer()));
    if (!bytes || !checkPhoto(bytes).ok)
      return no(`This browser could not make a JPEG of ${name}; nothing was kept. Use another browser.`);
    const sum = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
    const photo = Array.from(sum, (byte) => byte.toString(16).padStart(2, '0')).join('');
    return { ok: true, photo, bytes: bytes.buffer };
  } catch {
    return no(`${name} could not be made smaller; nothing was kept. Close other pages and take it again.`);
  } finally {
    bitmap.close();
  }
}

/** The first size and quality that is small enough; null when the browser makes none. */
async function shrink(bitmap: ImageBitmap): Promise<Blob | null> {
  for (const side of SIDES_PX) {
    const canvas = drawn(bitmap, side);
    for (const quality of QUALITIES) {
      const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', quality));
      if (blob?.type !== 'image/jpeg') return null;
      if (blob.size <= MOST_BYTES) return blob;
    }
  }
  return null;
}

function drawn(bitmap: ImageBitmap, side: number): HTMLCanvasElement {
  const scale = Math.min(1, side / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  const pen = canvas.getContext('2d');
  if (!pen) throw new Error('no canvas');
  // What shows through in the file is white here: a JPEG has no holes.
  pen.fillStyle = 'white';
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.imageSmoothingQuality = 'high';
  pen.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  return canvas;
}
