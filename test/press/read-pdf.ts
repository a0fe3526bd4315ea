/** What an independent reader (pdf.js) finds in a PDF: title, language, the tree of tags, text page by page, faces. */
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { getDocument, OPS, VerbosityLevel } from 'pdfjs-dist/legacy/build/pdf.mjs';

const FONTS = join(
  dirname(createRequire(import.meta.url).resolve('pdfjs-dist/package.json')),
  'standard_fonts/',
);

export interface Tag {
  readonly role: string;
  /** What stands for it to those who hear it; null for none. */
  readonly alt: string | null;
  /** Its own text with that of all below it, in one line. */
  readonly text: string;
  readonly below: readonly Tag[];
}

export interface ReadPdf {
  readonly title: string;
  readonly language: string | null;
  readonly marked: boolean;
  readonly pages: readonly {
    readonly text: string;
    readonly tags: readonly Tag[];
    readonly images: number;
  }[];
  /** Name of each face and whether its letters are in the file. */
  readonly faces: ReadonlyMap<string, boolean>;
  readonly outline: readonly string[];
}

interface Node {
  readonly role?: string;
  readonly alt?: string;
  readonly children?: readonly Node[];
  readonly type?: string;
  readonly id?: string;
}

export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const task = getDocument({
    data: new Uint8Array(bytes),
    verbosity: VerbosityLevel.ERRORS,
    standardFontDataUrl: FONTS,
    disableFontFace: true,
  });
  const doc = await task.promise;
  try {
    const { info } = await doc.getMetadata();
    const faces = new Map<string, boolean>();
    const pages: ReadPdf['pages'][number][] = [];
    for (let n = 1; n <= doc.numPages; n += 1) {
      const page = await doc.getPage(n);
      const operators = await page.getOperatorList();
      let images = 0;
      for (const [k, fn] of operators.fnArray.entries()) {
        if (fn === OPS.paintImageXObject) images += 1;
        if (fn !== OPS.setFont) continue;
        const font = page.commonObjs.get(operators.argsArray[k][0]) as {
          readonly name: string;
          readonly missingFile?: boolean;
        };
        faces.set(font.name, font.missingFile !== true);
      }
      const content = await page.getTextContent({ includeMarkedContent: true });
      const texts = new Map<string, string>();
      const open: (string | null)[] = [];
      let text = '';
      for (const item of content.items as readonly {
        type?: string;
        id?: string;
        str?: string;
        hasEOL?: boolean;
      }[]) {
        if (item.type?.startsWith('beginMarkedContent')) open.push(item.id ?? null);
        else if (item.type === 'endMarkedContent') open.pop();
        else if (item.str !== undefined) {
          // The reader takes the space at the end of a line for its end.
          const words = item.str + (item.hasEOL ? ' ' : '');
          text += words;
          const id = open.findLast((one) => one !== null);
          if (id) texts.set(id, (texts.get(id) ?? '') + words);
        }
      }
      const tagOf = (node: Node): Tag => {
        const below = (node.children ?? []).filter(({ role }) => role !== undefined).map(tagOf);
        const own = (node.children ?? []).map((child) =>
          child.role === undefined ? (texts.get(child.id ?? '') ?? '') : tagOf(child).text,
        );
        return {
          role: node.role!,
          alt: node.alt ?? null,
          text: own.join('').replace(/\s+/g, ' ').trim(),
          below,
        };
      };
      const tree = (await page.getStructTree()) as Node | null;
      pages.push({
        text: text.replace(/\s+/g, ' '),
        images,
        tags: (tree?.children ?? []).filter(({ role }) => role).map(tagOf),
      });
    }
    return {
      title: String((info as { Title?: string }).Title ?? ''),
      language: ((info as { Language?: string | null }).Language ?? null) as string | null,
      marked: ((await doc.getMarkInfo()) as { Marked?: boolean } | null)?.Marked === true,
      pages,
      faces,
      outline: ((await doc.getOutline()) ?? []).map(({ title }) => title),
    };
  } finally {
    await task.destroy();
  }
}

/** Every tag of a role in the document, in order. On each page the reader names all of a tree, empty where it is elsewhere. */
export function tagsOf({ pages }: ReadPdf, role: string): readonly Tag[] {
  const all = (tag: Tag): readonly Tag[] => [
    ...(tag.role === role && (tag.text !== '' || tag.alt !== null) ? [tag] : []),
    ...tag.below.flatMap(all),
  ];
  return pages.flatMap(({ tags }) => tags.flatMap(all));
}
