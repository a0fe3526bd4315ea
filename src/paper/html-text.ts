/** A document as one page of HTML that stands alone: its style in it, no script, nothing fetched from anywhere. */
import { themeVariables } from '../draw/palette.ts';
import { type SvgNode, svgText } from '../draw/svg.ts';
import type { Block, PaperDocument } from './document.ts';

export interface HtmlWith {
  /** Rules that bring the faces, `@font-face{…}` with the file in them; empty for those of the reader's device. */
  readonly faces: string;
  /** Address of a photograph's picture, `data:image/jpeg;base64,…`; null where it is not here. */
  readonly photo: (photo: string) => string | null;
}

/** Whatever slips in, the page runs and fetches nothing. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:";

const STYLE = `*{box-sizing:border-box}
body{margin:0 auto;padding:1.25rem 1rem 4rem;max-width:48rem;background:var(--paper);color:var(--ink);font:1.0625rem/1.5 'Atkinson Hyperlegible Next','Atkinson Hyperlegible',sans-serif;overflow-wrap:break-word}
h1{font-size:1.75rem;line-height:1.2;margin:0 0 .25rem}
h2{font-size:1.375rem;line-height:1.25;margin:2.25rem 0 .5rem;border-top:2px solid var(--ink);padding-top:.5rem}
h3{font-size:1.125rem;margin:1.25rem 0 .25rem}
p,ul,ol{margin:.5rem 0}
ul,ol{padding-left:1.4rem}
.under,figcaption,caption{color:var(--quiet)}
.caution{border-left:.375rem solid var(--danger);padding-left:.75rem;margin-top:1.25rem}
.caution b{color:var(--danger)}
.wide{overflow-x:auto}
.wide:focus-visible{outline:3px solid var(--brass)}
table{border-collapse:collapse;width:100%;min-width:34rem;margin:.75rem 0;font-size:.9375rem;line-height:1.35}
.many table{min-width:52rem}
.many,.drawn{position:relative;left:50%;width:min(100vw - 2rem,76rem);transform:translateX(-50%)}
td:nth-child(2){white-space:nowrap}
caption{text-align:left;padding-bottom:.25rem}
th,td{text-align:left;vertical-align:top;padding:.35rem .6rem .35rem 0;border-bottom:1px solid var(--quiet)}
th:first-child{overflow-wrap:normal}
figure{margin:1rem 0}
figure svg{display:block;width:100%;height:auto}
figure img{display:block;max-width:100%;height:auto}
@media print{body{max-width:none;padding:0;font-size:11pt}h2,h3{break-after:avoid}figure,tr,.caution{break-inside:avoid}.wide{overflow:visible}table,figure svg{min-width:0!important}.many,.drawn{left:0;width:auto;transform:none}.page{break-before:page}}`;

export function htmlText(document: PaperDocument, include: HtmlWith): string {
  const { title, under, blocks } = document;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeHtml(title)}</title>
<style>
:root{color-scheme:light;${themeVariables('paper')}}
${include.faces}${STYLE}
</style>
</head>
<body>
<main>
<h1>${escapeHtml(title)}</h1>
<p class="under">${escapeHtml(under)}</p>
${blocks.map((block) => blockHtml(block, include)).join('\n')}
</main>
</body>
</html>
`;
}

function blockHtml(block: Block, include: HtmlWith): string {
  switch (block.kind) {
    case 'heading':
      // The title has the first level.
      return `<h${block.level + 1}>${escapeHtml(block.text)}</h${block.level + 1}>`;
    case 'words':
      return `<p>${escapeHtml(block.text)}</p>`;
    case 'caution':
      return `<p class="caution"><b>⚠ Caution.</b> ${escapeHtml(block.text)}</p>`;
    case 'list': {
      const tag = block.ordered ? 'ol' : 'ul';
      return `<${tag}>\n${block.items.map((item) => `<li>${escapeHtml(item)}</li>`).join('\n')}\n</${tag}>`;
    }
    case 'rows': {
      const head = block.head.map((cell) => `<th scope="col">${escapeHtml(cell)}</th>`).join('');
      const rows = block.rows.map(
        ([first = '', ...cells]) =>
          `<tr><th scope="row">${escapeHtml(first)}</th>${cells.map((cell) => `<td>${escapeHtml(cell)}</td>`).join('')}</tr>`,
      );
      const many = block.head.length > 4 ? ' many' : '';
      return `<div class="wide${many}" tabindex="0" role="region" aria-label="${escapeHtml(block.caption)}">\n<table>\n<caption>${escapeHtml(block.caption)}</caption>\n<thead><tr>${head}</tr></thead>\n<tbody>\n${rows.join('\n')}\n</tbody>\n</table>\n</div>`;
    }
    case 'drawing':
      return `<figure class="drawn">\n<div class="wide" tabindex="0" role="region" aria-label="${escapeHtml(block.caption)}">\n${svgText(scrolling(block.sheet))}\n</div>\n<figcaption>${escapeHtml(block.caption)}</figcaption>\n</figure>`;
    case 'photos':
      return block.photos
        .map(({ photo, about }) => {
          const address = include.photo(photo);
          return address === null
            ? `<p class="under">Photograph missing here: ${escapeHtml(about)}</p>`
            : `<figure>\n<img src="${escapeHtml(address)}" alt="${escapeHtml(about)}">\n<figcaption>${escapeHtml(about)}</figcaption>\n</figure>`;
        })
        .join('\n');
    case 'page':
      return '<div class="page"></div>';
  }
}

/** A drawing keeps its size, so that its letters can be read; a narrow screen scrolls it. */
function scrolling(drawing: SvgNode): SvgNode {
  const width = Number(String(drawing.attrs.viewBox ?? '').split(' ')[2]);
  if (!(width > 0)) return drawing;
  return { ...drawing, attrs: { ...drawing.attrs, style: `min-width:${Math.round(width)}px` } };
}

function escapeHtml(text: string): string {
  return text
    .replace(/(?![\n\t])\p{Cc}|\p{Cs}/gu, '\ufffd')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
