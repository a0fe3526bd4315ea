/** A shelf of photographs in memory, for tests of what uses one. */
import { checkPhoto } from '../../src/job/photo-file.ts';
import { missingPhoto, type PhotoShelf } from '../../src/log/photo-shelf.ts';
import { sumOf } from '../job/pictures.ts';

export function openMemoryPhotos(): PhotoShelf {
  const held = new Map<string, Uint8Array<ArrayBuffer>>();
  return {
    put: async (bytes) => {
      const checked = checkPhoto(bytes);
      if (!checked.ok) return { ok: false, why: `The photograph ${checked.why}.` };
      const photo = sumOf(bytes);
      const fresh = !held.has(photo);
      held.set(photo, new Uint8Array(bytes));
      return { ok: true, photo, fresh };
    },
    get: async (photo) => {
      if (!/^[0-9a-f]{64}$/.test(photo)) throw new RangeError('photo must be 64 small hexadecimal digits');
      const bytes = held.get(photo);
      return bytes ? { ok: true, bytes } : { ok: false, is: 'missing', why: missingPhoto(photo) };
    },
  };
}
