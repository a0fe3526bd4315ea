/** A PNG of eight bits a colour with alpha and no interlace, as pixels. PNG (ISO/IEC 15948), 5, 7 and 9. */
import { unzlibSync } from 'fflate';

export interface Pixels {
  readonly width: number;
  readonly height: number;
  /** "#rrggbb" at a place. */
  readonly at: (x: number, y: number) => string;
}

export function readPng(png: Uint8Array): Pixels {
  const view = new DataView(png.buffer, png.byteOffset, png.byteLength);
  if (view.getUint32(0) !== 0x89504e47) throw new Error('no PNG');
  const data: Uint8Array[] = [];
  let [width, height] = [0, 0];
  for (let at = 8; at < png.length; ) {
    const length = view.getUint32(at);
    const name = String.fromCharCode(...png.subarray(at + 4, at + 8));
    if (name === 'IHDR') {
      [width, height] = [view.getUint32(at + 8), view.getUint32(at + 12)];
      if (png[at + 16] !== 8 || png[at + 17] !== 6 || png[at + 20] !== 0)
        throw new Error('another kind of PNG');
    }
    if (name === 'IDAT') data.push(png.subarray(at + 8, at + 8 + length));
    at += length + 12;
  }
  const raw = unzlibSync(Buffer.concat(data));
  const row = width * 4;
  const pixels = new Uint8Array(row * height);
  for (let y = 0; y < height; y++) {
    const filter = raw[y * (row + 1)]!;
    for (let i = 0; i < row; i++) {
      const here = raw[y * (row + 1) + 1 + i]!;
      const left = i < 4 ? 0 : pixels[y * row + i - 4]!;
      const up = y === 0 ? 0 : pixels[(y - 1) * row + i]!;
      const corner = y === 0 || i < 4 ? 0 : pixels[(y - 1) * row + i - 4]!;
      pixels[y * row + i] = here + [0, left, up, (left + up) >> 1, paeth(left, up, corner)][filter]!;
    }
  }
  const at = (x: number, y: number) =>
    `#${Buffer.from(pixels.subarray(y * row + 4 * x, y * row + 4 * x + 3)).toString('hex')}`;
  return { width, height, at };
}

function paeth(a: number, b: number, c: number): number {
  const [pa, pb, pc] = [Math.abs(b - c), Math.abs(a - c), Math.abs(a + b - 2 * c)];
  return pa <= pb && pa <= pc ? a : pb <= pc ? b : c;
}
