/**
 * What a shelf of photographs must do (SPEC.md, rules 19 to 21): the pictures that events name by their sum, kept beside the
 * log, each content once.
 */

export type PhotoTaken =
  /** `fresh` is false where it was here already, whole. */
  | { readonly ok: true; readonly photo: string; readonly fresh: boolean }
  | { readonly ok: false; readonly why: string };

export type PhotoGot =
  | { readonly ok: true; readonly bytes: Uint8Array<ArrayBuffer> }
  /** Not here, or here with other bytes than its name says; `why` is one sentence. */
  | { readonly ok: false; readonly is: 'missing' | 'damaged'; readonly why: string };

export interface PhotoShelf {
  /**
   * Keeps a picture under its sum; bytes that are no photograph are refused. When it has answered `ok`, the picture survives
   * a kill and a loss of power. One that lies here damaged is mended by it. A fault of the environment is thrown, and
   * then what was here before is as it was.
   */
  readonly put: (bytes: Uint8Array) => Promise<PhotoTaken>;
  /** The picture of a sum, looked over. Throws RangeError unless `photo` is 64 small hexadecimal digits. */
  readonly get: (photo: string) => Promise<PhotoGot>;
}

/** Sentence for a picture that has not come, or has gone. */
export function missingPhoto(photo: string): string {
  return `The photograph ${photo.slice(0, 12)}… is not here yet: open the job on the device that took it.`;
}

/** Sentence for a picture whose bytes have changed on the disk. */
export function damagedPhoto(photo: string, place: string): string {
  return `The photograph ${photo.slice(0, 12)}… is damaged on the disk (${place}) and is not shown: open the job on the device that took it, or put a backup of the file there.`;
}
