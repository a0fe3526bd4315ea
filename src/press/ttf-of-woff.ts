/**
 * A font of the web as the font it was made from. A WOFF 1.0 file is the tables of a TrueType or OpenType font, each
 * compressed with zlib where that made it smaller (W3C WOFF 1.0, 3 to 5): unpacked and laid one after the other they are
 * that font again (OpenType 1.9, "Table directory").
 */
import { unzlibSync } from 'fflate';

const SIGNATURE = 0x774f4646;
const HEADER = 44;
const ENTRY = 20;

/** Throws RangeError for bytes that are no WOFF 1.0 file. */
export function ttfOfWoff(woff: Uint8Array): Uint8Array {
  const view = new DataView(woff.buffer, woff.byteOffset, woff.byteLength);
  if (woff.length < HEADER || view.getUint32(0) !== SIGNATURE)
    throw new RangeError('woff must be a WOFF 1.0 file, got other bytes');
  const count = view.getUint16(12);
  const tables = Array.from({ length: count }, (_, n) => {
    const at = HEADER + n * ENTRY;
    const [tag, from, packed, size, sum] = [0, 4, 8, 12, 16].map((shift) => view.getUint32(at + shift));
    const bytes = woff.subarray(from!, from! + packed!);
    return { tag: tag!, sum: sum!, bytes: packed! < size! ? unzlibSync(bytes) : bytes };
  });
  const padded = (length: number) => Math.ceil(length / 4) * 4;
  const start = 12 + 16 * count;
  const ttf = new Uint8Array(tables.reduce((end, { bytes }) => end + padded(bytes.length), start));
  const out = new DataView(ttf.buffer);
  const power = 2 ** Math.floor(Math.log2(Math.max(1, count)));
  out.setUint32(0, view.getUint32(4));
  out.setUint16(4, count);
  out.setUint16(6, power * 16);
  out.setUint16(8, Math.log2(power));
  out.setUint16(10, count * 16 - power * 16);
  let at = start;
  for (const [n, { tag, sum, bytes }] of tables.entries()) {
    for (const [shift, value] of [tag, sum, at, bytes.length].entries())
      out.setUint32(12 + 16 * n + 4 * shift, value);
    ttf.set(bytes, at);
    at += padded(bytes.length);
  }
  return ttf;
}
