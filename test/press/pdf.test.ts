/** Papers as PDF, read back by another program (pdf.js): tags, order, faces, pictures; the same bytes at every call. */
import { describe, expect, it } from 'vitest';
import { demoJob } from '../../src/job/demo.ts';
import { checkPhoto } from '../../src/job/photo-file.ts';
import type { Block, PaperDocument } from '../../src/paper/document.ts';
import { machineOf } from '../../src/press/how-to-pack.ts';
import { paperPdf } from '../../src/press/job-paper.ts';
import { pdfOf } from '../../src/press/pdf.ts';
import { picture, sumOf } from '../job/pictures.ts';
import { machineText } from '../paper/filmed-job.ts';
import { recordedJob, TAKEN } from '../paper/recorded-job.ts';
import { readPdf, tagsOf } from './read-pdf.ts';

const AT = '2026-01-20T10:00:00.000Z';
const photos = {
  get: async (photo: string) => {
    const bytes = TAKEN.find((one) => sumOf(one) === photo);
    return bytes
      ? { ok: true as const, bytes: new Uint8Array(bytes) }
      : { ok: false as const, is: 'missing' as const, why: 'It is not here.' };
  },
};
const made = (kind: 'record' | 'owner', events = recordedJob(true), machine: string | null = machineText()) =>
  paperPdf(kind, { events, machine, photos, at: AT, east: 60 });
const paper = (blocks: readonly Block[], title = 'A paper'): PaperDocument => ({
  title,
  under: 'Below the title',
  at: AT,
  blocks,
});
const none = (): null => null;

/** A picture as heavy as one of a phone: empty JFIF segments before what is seen. */
function heavy(jpeg: Uint8Array): Uint8Array {
  const filler = new Uint8Array(60_002);
  filler.set([0xff, 0xe0, 60_000 >> 8, 60_000 & 255]);
  return Buffer.concat([jpeg.subarray(0, 2), ...Array.from({ length: 10 }, () => filler), jpeg.subarray(2)]);
}

describe('a paper as PDF', () => {
  it('has title, language, marks, outline, and all its faces in it', async () => {
    const pdf = await readPdf((await made('record')).bytes);
    expect(pdf.title).toBe('Record: Stator and plug, Ω run');
    expect(pdf.language).toBe('en');
    expect(pdf.marked).toBe(true);
    expect([...pdf.faces].filter(([, inside]) => !inside)).toEqual([]);
    expect([...pdf.faces.keys()].join()).toMatch(/AtkinsonHyperlegibleNext-Bold/);
    expect([...pdf.faces.keys()].join()).toMatch(/B612Mono/);
    expect(pdf.outline).toEqual(
      expect.arrayContaining(['Complaint', 'Evidence', 'Verdict', 'Torques', 'Proof']),
    );
  });

  it('tells headings, lists, tables and figures as such', async () => {
    const pdf = await readPdf((await made('record')).bytes);
    expect(tagsOf(pdf, 'H1')).toHaveLength(1);
    expect(tagsOf(pdf, 'H2').map(({ text }) => text)).toEqual(pdf.outline);
    for (const item of tagsOf(pdf, 'LI'))
      expect(item.below.map(({ role }) => role)).toEqual(['Lbl', 'LBody']);
    const tables = tagsOf(pdf, 'Table');
    expect(tables.length).toBeGreaterThan(4);
    for (const row of tagsOf(pdf, 'TR')) expect(row.below[0]!.role, row.text).toBe('TH');
    const alts = tagsOf(pdf, 'Figure').map(({ alt }) => alt ?? '');
    expect(alts).toEqual(expect.arrayContaining([expect.stringMatching(/^How the wire ran/)]));
    expect(alts.every((alt) => alt !== '')).toBe(true);
  });

  it('is read in the order in which it is written, and pages have their numbers outside of it', async () => {
    const pdf = await readPdf((await made('record')).bytes);
    const read = pdf.pages.flatMap(({ tags }) => tags.map(({ text }) => text)).join('\n');
    const places = [
      'Dies on the road',
      'The tip slipped off',
      'Held for dead',
      'Sheet packed',
      '30, 60 thou',
      '42 lbf·in',
      'The tester is lent out',
      'high-strength',
      'Written down as proven',
      'ticks when cold',
      'cupOfTeaDrunk',
    ].map((word) => read.indexOf(word));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBeGreaterThan(0);
    expect(read).not.toMatch(/Page 1 of/);
    for (const [n, { text }] of pdf.pages.entries())
      expect(text).toContain(`Page ${n + 1} of ${pdf.pages.length}`);
  });

  it('embeds each picture once and says which are missing', async () => {
    const { bytes, missing } = await made('record');
    const pdf = await readPdf(bytes);
    expect(pdf.pages.reduce((sum, { images }) => sum + images, 0)).toBe(3);
    expect(missing).toBe(1);
    expect(pdf.pages.map(({ text }) => text).join('')).toContain('Inside the cover');
    const text = Buffer.from(bytes).toString('latin1');
    expect(text.match(/\/DCTDecode/g)).toHaveLength(3);
    const twice = await pdfOf(
      paper([1, 2].map(() => ({ kind: 'photos', photos: [{ photo: 'a', about: 'The plug' }] }))),
      () => TAKEN[0]!,
    );
    expect(
      Buffer.from(twice)
        .toString('latin1')
        .match(/\/DCTDecode/g),
    ).toHaveLength(1);
  });

  it('makes the same bytes of the same paper', async () => {
    for (const kind of ['record', 'owner'] as const)
      expect(Buffer.from((await made(kind)).bytes).equals(Buffer.from((await made(kind)).bytes))).toBe(true);
  });

  it('twenty photographs of 600 kB take at most 3 s', async () => {
    const twenty = Array.from({ length: 20 }, (_, n) => heavy(picture(200 + n)));
    for (const photo of twenty) expect(checkPhoto(photo)).toMatchObject({ ok: true });
    const shots: Block = {
      kind: 'photos',
      photos: twenty.map((_, n) => ({ photo: String(n), about: `Picture ${n}` })),
    };
    const begun = performance.now();
    const bytes = await pdfOf(paper([shots]), (photo) => twenty[Number(photo)]!);
    expect(performance.now() - begun).toBeLessThan(3000);
    expect(bytes.length).toBeGreaterThan(20 * 600_000);
    expect((await readPdf(bytes)).pages.reduce((sum, { images }) => sum + images, 0)).toBe(20);
  });

  it('the page for the owner is one page', async () => {
    for (const events of [recordedJob(true), recordedJob(false), demoJob()])
      expect((await readPdf((await made('owner', events)).bytes)).pages).toHaveLength(1);
  });

  it('stands without the machine file', async () => {
    const pdf = await readPdf((await made('record', recordedJob(true), null)).bytes);
    expect(machineOf(machineText())).not.toBeNull();
    expect(pdf.pages.map(({ text }) => text).join('')).toContain('The machine file of this bike is not here');
  });
});

describe('pages', () => {
  const row = (n: number): readonly string[] => [`Row ${n}`, `Value ${n}`];

  it('a long table has its head on each page, told once', async () => {
    const rows = Array.from({ length: 120 }, (_, n) => row(n));
    const bytes = await pdfOf(
      paper([{ kind: 'rows', caption: 'Rows', head: ['Name of it', 'Figure of it'], rows }]),
      none,
    );
    const pdf = await readPdf(bytes);
    expect(pdf.pages.length).toBeGreaterThan(2);
    for (const { text } of pdf.pages) expect(text).toContain('Figure of it');
    expect(tagsOf(pdf, 'TH').filter(({ text }) => text === 'Figure of it')).toHaveLength(1);
    expect(tagsOf(pdf, 'TD').map(({ text }) => text)).toEqual(rows.map(([, value]) => value));
  });

  it('a cell longer than a page goes on overleaf and loses no word', async () => {
    const words = Array.from({ length: 1500 }, (_, n) => `word${n}`);
    const pdf = await readPdf(
      await pdfOf(
        paper([{ kind: 'rows', caption: 'One', head: ['A', 'B'], rows: [['first', words.join(' ')]] }]),
        none,
      ),
    );
    expect(pdf.pages.length).toBeGreaterThan(1);
    const read = tagsOf(pdf, 'TD')
      .map(({ text }) => text)
      .join(' ');
    expect(read.split(/\s+/).filter(Boolean)).toEqual(words);
  });

  it('no heading is left at the foot of a page, wherever it falls', async () => {
    for (let lines = 30; lines < 48; lines += 1) {
      const pdf = await readPdf(
        await pdfOf(
          paper([
            ...Array.from({ length: lines }, (): Block => ({ kind: 'words', text: 'A line.' })),
            { kind: 'heading', level: 1, text: 'Chapter' },
            { kind: 'heading', level: 2, text: 'Section' },
            { kind: 'rows', caption: 'Rows', head: ['A', 'B'], rows: [row(1), row(2)] },
          ]),
          none,
        ),
      );
      const page = pdf.pages.findIndex(({ text }) => text.includes('Chapter'));
      expect(pdf.pages[page]!.text, `${lines} lines before it`).toContain('Value 1');
    }
  });

  it('letters of other alphabets are named as lacking, never dropped in silence', async () => {
    const pdf = await readPdf(
      await pdfOf(paper([{ kind: 'words', text: 'Łukasz, Ōta, 4.7 Ω, ½, Жук, 漢' }], 'Ω'), none),
    );
    const text = pdf.pages[0]!.text.normalize('NFC');
    expect(text).toContain('Łukasz, Ōta, 4.7 Ω, ½, Жук, ?');
    expect(text).toContain('Some letters are not in the faces of this file');
    expect(pdf.title).toBe('Ω');
  });

  it('the signs of the trade are the signs themselves, and another alphabet can be read', async () => {
    const said = 'Ω mΩ ≤ ≥ ≈ → ⅝ ☑ ⚠ Καλημέρα Привет łódź 😀';
    const bytes = await pdfOf(
      paper([
        { kind: 'words', text: said },
        { kind: 'rows', caption: 'c', head: ['What', 'Shown'], rows: [['pin to case', '0.4 MΩ']] },
      ]),
      none,
    );
    const [page] = (await readPdf(bytes)).pages;
    const text = page!.text.normalize('NFC');
    for (const word of said.split(' ')) expect(text).toContain(word);
    expect(text.replaceAll(/\s/g, '')).toContain('0.4MΩ');
    expect(text).not.toContain('Some letters are not in the faces');
  });

  it('a word wider than the page, an empty list and bytes that are no picture do no harm', async () => {
    const pdf = await readPdf(
      await pdfOf(
        paper([
          { kind: 'words', text: 'x'.repeat(400) },
          { kind: 'list', ordered: true, items: [] },
          { kind: 'caution', text: 'y'.repeat(300) },
          { kind: 'photos', photos: [{ photo: 'b', about: 'A broken one' }] },
        ]),
        () => new Uint8Array(50).fill(7),
      ),
    );
    const text = pdf.pages[0]!.text.replaceAll(' ', '');
    expect(text).toContain('x'.repeat(400));
    expect(text).toContain('y'.repeat(300));
    expect(text).toContain('Photographmissinghere:Abrokenone');
  });
});
