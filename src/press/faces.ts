/** The two faces of the product as files that came with it: for what is drawn or read where they are not at hand. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { ttfOfWoff } from './ttf-of-woff.ts';

const require = createRequire(import.meta.url);

const FACES = [
  { family: 'Atkinson Hyperlegible Next', file: 'atkinson-hyperlegible-next-latin-400-normal', weight: 400 },
  { family: 'Atkinson Hyperlegible Next', file: 'atkinson-hyperlegible-next-latin-700-normal', weight: 700 },
  { family: 'B612 Mono', file: 'b612-mono-latin-400-normal', weight: 400 },
  { family: 'B612 Mono', file: 'b612-mono-latin-700-normal', weight: 700 },
] as const;

function fileOf(file: string, ending: 'woff' | 'woff2'): Promise<Buffer> {
  const name = file.slice(0, file.indexOf('-latin-'));
  return readFile(require.resolve(`@fontsource/${name}/files/${file}.${ending}`));
}

/** The faces as TrueType fonts. */
export function faceFonts(): Promise<readonly Uint8Array[]> {
  return Promise.all(FACES.map(async ({ file }) => ttfOfWoff(await fileOf(file, 'woff'))));
}

/** What the two faces lack, plain and bold, as TrueType fonts, to be asked in this order. */
export interface OtherFonts {
  /** Letters of the first face that are not of western Europe. */
  readonly letters: readonly [Uint8Array, Uint8Array];
  /** A face that has nearly every letter and sign: the ohm, arrows, other alphabets. */
  readonly signs: readonly [Uint8Array, Uint8Array];
}

export async function otherFonts(): Promise<OtherFonts> {
  const pair = async (part: string): Promise<readonly [Uint8Array, Uint8Array]> => {
    const [plain, bold] = await Promise.all(
      [400, 700].map(async (weight) => ttfOfWoff(await fileOf(`${part}-${weight}-normal`, 'woff'))),
    );
    return [plain!, bold!];
  };
  return {
    letters: await pair('atkinson-hyperlegible-next-latin-ext'),
    signs: await pair('dejavu-sans-latin'),
  };
}

/** Style rules with the faces in them, for a page that may fetch nothing. */
export async function faceRules(): Promise<string> {
  const rules = FACES.map(async ({ family, file, weight }) => {
    const bytes = (await fileOf(file, 'woff2')).toString('base64');
    return `@font-face{font-family:'${family}';font-weight:${weight};src:url(data:font/woff2;base64,${bytes}) format('woff2')}\n`;
  });
  return (await Promise.all(rules)).join('');
}
