import { h, type JSX } from 'preact';
import type { Block, PaperDocument, Pictured } from '../../paper/document.ts';
import { isFigure } from '../../paper/is-figure.ts';
import { usePicture } from './photo-strip.tsx';
import { pictureOf } from './picture.tsx';

/** Class of a photograph that is still looked for: whoever prints waits for it. */
export const LOOKING = 'paper-looking';

/** A document as a page says it: headings, tables with captions, figures; the browser's print makes a tagged PDF of it. */
export function PaperPage(props: { readonly of: PaperDocument }): JSX.Element {
  const { title, under, blocks } = props.of;
  return (
    <article class="paper">
      <h1 tabIndex={-1}>{title}</h1>
      <p class="quiet">{under}</p>
      {blocks.map((block, n) => (
        // A document is made anew as a whole: its blocks have no other name than their place.
        <BlockPart key={n} of={block} />
      ))}
    </article>
  );
}

function BlockPart(props: { readonly of: Block }): JSX.Element {
  const block = props.of;
  switch (block.kind) {
    case 'heading':
      return h(`h${block.level + 1}` as 'h2', {}, block.text);
    case 'words':
      return <p>{block.text}</p>;
    case 'caution':
      return (
        <p class="paper-caution">
          <b>▲ Caution</b> {block.text}
        </p>
      );
    case 'list': {
      const items = block.items.map((item, n) => <li key={n}>{item}</li>);
      return block.ordered ? <ol>{items}</ol> : <ul>{items}</ul>;
    }
    case 'rows':
      return <Rows of={block} />;
    case 'drawing':
      return (
        <figure class="paper-drawing">
          {pictureOf(block.sheet)}
          <figcaption>{block.caption}</figcaption>
        </figure>
      );
    case 'photos':
      return (
        <div class="paper-photos">
          {block.photos.map((photo) => (
            <PhotoPart key={photo.photo} of={photo} />
          ))}
        </div>
      );
    case 'page':
      return <div class="paper-turn" />;
  }
}

function Rows(props: { readonly of: Extract<Block, { kind: 'rows' }> }): JSX.Element {
  const { caption, head, rows } = props.of;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways must be reached by the keyboard
    <section class="paper-table" aria-label={caption} tabIndex={0}>
      <table>
        <caption>{caption}</caption>
        <thead>
          <tr>
            {head.map((cell) => (
              <th key={cell} scope="col">
                {cell}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(([first, ...cells], n) => (
            <tr key={n}>
              <th scope="row">{first}</th>
              {cells.map((cell, k) => (
                <td key={k} class={isFigure(cell) ? 'figure' : undefined}>
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function PhotoPart(props: { readonly of: Pictured }): JSX.Element {
  const { photo, about } = props.of;
  const seen = usePicture(photo);
  if (seen.is !== 'here')
    return (
      <p class={seen.is === 'looking' ? `quiet ${LOOKING}` : 'quiet'}>
        {seen.is === 'looking'
          ? 'Looking for the photograph'
          : `Photograph ${seen.is === 'damaged' ? 'damaged' : 'missing'} here`}
        : {about}
      </p>
    );
  return (
    <figure>
      <img src={seen.url} alt={about} />
      <figcaption>{about}</figcaption>
    </figure>
  );
}
