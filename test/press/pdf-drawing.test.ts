/** Every drawing that a paper may hold goes on a page as vectors: no tag, colour or transform of room draw is strange to it. */
import { describe, expect, it } from 'vitest';
import { drawSets } from '../../src/draw/sets.ts';
import { el, letter, type SvgNode, sheet } from '../../src/draw/svg.ts';
import { foldJob } from '../../src/job/fold.ts';
import { howToOf } from '../../src/paper/how-to.ts';
import { machineOf } from '../../src/press/how-to-pack.ts';
import { pdfOf } from '../../src/press/pdf.ts';
import { filmedJob, machineText } from '../paper/filmed-job.ts';
import { readPdf, tagsOf } from './read-pdf.ts';

const page = (drawing: SvgNode, caption = 'A drawing') =>
  pdfOf(
    {
      title: 'Drawn',
      under: 'x',
      at: '2026-01-20T10:00:00.000Z',
      blocks: [{ kind: 'drawing', sheet: drawing, caption }],
    },
    () => null,
  );

describe('drawings on paper', () => {
  it('the loop and the dip of a how-to, with their letters', async () => {
    const { loop, dip } = howToOf(
      foldJob(filmedJob()),
      machineOf(machineText()),
      '2026-01-20T10:00:00.000Z',
      {
        owner: false,
        photos: false,
        notes: false,
      },
    );
    for (const [drawing, word] of [
      [loop!, 'regulator'],
      [dip!, 'ride'],
    ] as const) {
      const pdf = await readPdf(await page(drawing));
      const [figure] = tagsOf(pdf, 'Figure');
      expect(figure!.alt).toMatch(/^A drawing/);
      expect(figure!.text).toContain(word);
      expect(pdf.pages).toHaveLength(1);
      expect(pdf.pages[0]!.images).toBe(0);
    }
  });

  it('a drawing twice as tall as a page is made to fit', async () => {
    const tall = sheet('tall', 300, 2000, 'Tall', 'Tall.', [letter(10, 1990, 'foot of it', { size: 20 })]);
    expect((await readPdf(await page(tall))).pages).toHaveLength(1);
  });

  it('what it does not know is refused, not left out', async () => {
    const strange = (node: SvgNode) => page(sheet('odd', 100, 100, 'Odd', 'Odd.', [node]));
    await expect(strange(el('ellipse', { rx: 3 }))).rejects.toThrow(/tags that paper knows, got ellipse/);
    await expect(strange(el('path', { d: 'M0 0', fill: 'var(--purple)' }))).rejects.toThrow(/palette/);
    await expect(strange(el('g', { transform: 'skewX(3)' }))).rejects.toThrow(/transform/);
  });

  it('bars of sets', async () => {
    const sets = drawSets({
      title: 'Sets',
      sets: [{ faults: ['stator open'], probability: 0.4 }],
      shape: 'wide',
    });
    expect(tagsOf(await readPdf(await page(sets)), 'Figure')[0]!.text).toContain('stator open');
  });
});
