/**
 * A drawing as PNG, in the light theme and the two faces, the same bytes on every computer: the renderer is a program for
 * a machine that is the same everywhere (WebAssembly), and it sees no font but those handed to it.
 */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { initWasm, Resvg } from '@resvg/resvg-wasm';
import { standalone } from '../draw/palette.ts';
import { type SvgNode, svgText } from '../draw/svg.ts';
import { faceFonts } from './faces.ts';

/** Pixels of the picture for one of the drawing. */
const SCALE = 2;
/** Longest side, px: what programs for films take. */
const LONGEST = 8192;

const require = createRequire(import.meta.url);
let ready: Promise<readonly Uint8Array[]> | null = null;

/** Loads the renderer once in the life of the program. */
async function load(): Promise<readonly Uint8Array[]> {
  await initWasm(await readFile(require.resolve('@resvg/resvg-wasm/index_bg.wasm')));
  return faceFonts();
}

/** A drawing of the room `draw` as PNG. */
export async function drawPng(drawing: SvgNode): Promise<Uint8Array> {
  ready ??= load().catch((error: unknown) => {
    ready = null;
    throw error;
  });
  const fontBuffers = [...(await ready)];
  const [, , width = 0, height = 0] = String(drawing.attrs.viewBox ?? '')
    .split(' ')
    .map(Number);
  if (!(width > 0 && height > 0))
    throw new RangeError(`drawing must have a viewBox with a size, got ${drawing.attrs.viewBox}`);
  const scale = Math.min(SCALE, LONGEST / Math.max(width, height));
  const renderer = new Resvg(svgText(standalone(drawing, 'paper')), {
    fitTo: { mode: 'zoom', value: scale },
    font: {
      fontBuffers,
      loadSystemFonts: false,
      defaultFontFamily: 'Atkinson Hyperlegible Next',
      sansSerifFamily: 'Atkinson Hyperlegible Next',
      monospaceFamily: 'B612 Mono',
    },
  });
  try {
    const image = renderer.render();
    try {
      return image.asPng();
    } finally {
      image.free();
    }
  } finally {
    renderer.free();
  }
}
