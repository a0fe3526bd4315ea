/**
 * What a photograph's file may be: a plain JPEG to its last byte and nothing besides, so that it is a picture in every
 * program and never a page, a script or an archive. Checked wherever one comes in: in the browser, at the server's door
 * and out of a zip. Segments and markers as in ITU-T T.81, annex B.
 */
import type { JobEvent } from './event.ts';

/** Largest file that is taken, bytes. */
export const PHOTO_BYTES = 2_000_000;
/** Longest side that is taken, px. */
export const PHOTO_SIDE = 4096;

/** A photograph's name: SHA-256 of its bytes, 64 small hexadecimal digits. */
const NAME = /^[0-9a-f]{64}$/;

export function isPhotoName(text: string): boolean {
  return NAME.test(text);
}

export type PhotoChecked =
  /** Sides in px. */
  | { readonly ok: true; readonly width: number; readonly height: number }
  /** `why` goes on from "The photograph". */
  | { readonly ok: false; readonly why: string };

/** One marker with what belongs to it, and the picture's data where it begins a scan. */
interface Segment {
  readonly marker: number;
  readonly from: number;
  /** Where its own bytes begin, after the length. */
  readonly body: number;
  readonly to: number;
}

const SOI = 0xd8;
const EOI = 0xd9;
const SOS = 0xda;
const COMMENT = 0xfe;
/** Baseline, extended and progressive with Huffman codes: what every browser reads. */
const FRAMES: ReadonlySet<number> = new Set([0xc0, 0xc1, 0xc2]);
/** Kinds of coding that browsers do not read. */
const ODD_FRAMES: ReadonlySet<number> = new Set([0xc3, 0xc5, 0xc6, 0xc7, 0xc9, 0xca, 0xcb, 0xcd, 0xce, 0xcf]);
/** Huffman and quantisation tables, the restart interval, JFIF, and which colours the numbers stand for. */
const PLAIN: ReadonlySet<number> = new Set([0xc4, 0xdb, 0xdd, 0xe0, 0xee]);

/** The segments of a file from its first byte to its last; null when it is not built so. Never throws on any bytes. */
function segmentsOf(bytes: Uint8Array): readonly Segment[] | null {
  if (bytes[0] !== 0xff || bytes[1] !== SOI) return null;
  const found: Segment[] = [{ marker: SOI, from: 0, body: 2, to: 2 }];
  let at = 2;
  while (at + 1 < bytes.length) {
    if (bytes[at] !== 0xff) return null;
    const marker = bytes[at + 1]!;
    if (marker === EOI) {
      found.push({ marker, from: at, body: at + 2, to: at + 2 });
      return at + 2 === bytes.length ? found : null;
    }
    // A marker that stands alone has no place between segments.
    if (marker < 0xc0 || (marker >= 0xd0 && marker <= SOI)) return null;
    if (at + 4 > bytes.length) return null;
    const end = at + 2 + bytes[at + 2]! * 256 + bytes[at + 3]!;
    if (end < at + 4 || end > bytes.length) return null;
    const to = marker === SOS ? endOfScan(bytes, end) : end;
    found.push({ marker, from: at, body: at + 4, to });
    at = to;
  }
  return null;
}

/** Where the data of a scan ends: at the next marker that is neither a stuffed byte nor a restart. */
function endOfScan(bytes: Uint8Array, from: number): number {
  for (let at = bytes.indexOf(0xff, from); at >= 0 && at + 1 < bytes.length; ) {
    const next = bytes[at + 1]!;
    if (next !== 0 && !(next >= 0xd0 && next <= 0xd7)) return at;
    at = bytes.indexOf(0xff, at + 2);
  }
  return bytes.length;
}

const no = (why: string): PhotoChecked => ({ ok: false, why });

/** Whether bytes are a photograph as it is kept here. Never throws on any bytes. */
export function checkPhoto(bytes: Uint8Array): PhotoChecked {
  if (bytes.length > PHOTO_BYTES) return no(`is over ${PHOTO_BYTES / 1e6} MB: take it again, smaller`);
  if (bytes[0] !== 0xff || bytes[1] !== SOI) return no('is not a JPEG picture: take it with the app');
  const segments = segmentsOf(bytes);
  if (segments === null) return no('is cut off or damaged, or has something else behind it: take it again');
  let size: { readonly width: number; readonly height: number } | null = null;
  let scans = 0;
  for (const { marker, body, to } of segments) {
    if (marker === SOI || marker === EOI || PLAIN.has(marker)) continue;
    if (marker === COMMENT || (marker >= 0xe1 && marker <= 0xef))
      return no('carries more than the picture, such as where it was taken: take it with the app');
    if (ODD_FRAMES.has(marker))
      return no('is packed in a way that browsers do not show: take it with the app');
    if (marker === SOS && size !== null) scans += 1;
    else if (FRAMES.has(marker) && size === null && to - body >= 6) {
      const height = bytes[body + 1]! * 256 + bytes[body + 2]!;
      const width = bytes[body + 3]! * 256 + bytes[body + 4]!;
      const parts = bytes[body + 5]!;
      if (bytes[body] !== 8 || (parts !== 1 && parts !== 3) || to - body !== 6 + 3 * parts)
        return no('is no plain grey or colour picture: take it with the app');
      if (width < 1 || height < 1 || Math.max(width, height) > PHOTO_SIDE)
        return no(
          `is ${width} × ${height} points, and each side may have 1 to ${PHOTO_SIDE}: take it with the app`,
        );
      size = { width, height };
    } else return no('is built in a way that is not known here: take it with the app');
  }
  if (size === null || scans === 0) return no('holds no picture: take it again');
  return { ok: true, ...size };
}

/** The picture without what a camera or an encoder wrote beside it; null when the bytes are no whole JPEG. */
export function onlyPicture(bytes: Uint8Array): Uint8Array<ArrayBuffer> | null {
  const segments = segmentsOf(bytes);
  if (segments === null) return null;
  const kept = segments.filter(
    ({ marker }) => marker !== COMMENT && !(marker >= 0xe1 && marker <= 0xef && marker !== 0xee),
  );
  const whole = new Uint8Array(kept.reduce((sum, { from, to }) => sum + to - from, 0));
  let at = 0;
  for (const { from, to } of kept) {
    whole.set(bytes.subarray(from, to), at);
    at += to - from;
  }
  return whole;
}

/** Names of the photographs that events speak of, struck ones too, in order: a strike may be struck itself. */
export function photosNamed(events: readonly JobEvent[]): readonly string[] {
  const names = events.flatMap((event) => (event.type === 'photoAdded' ? [event.photo] : []));
  return [...new Set(names)].sort();
}
