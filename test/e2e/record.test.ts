/** The record in a real browser: read on screen, printed as a tagged PDF, and kept as the server makes it; both say the same. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { DEMO_JOB } from '../../src/job/demo.ts';
import { picture, sumOf } from '../job/pictures.ts';
import { type ReadPdf, readPdf, tagsOf } from '../press/read-pdf.ts';
import { useApp } from './app-hooks.ts';
import { putStory, STORY } from './bench-story.ts';
import { breaches, sideways, tooSmall } from './page-rules.ts';
import { PROOF_TALE } from './proof-story.ts';
import { putBodies } from './put-bodies.ts';
import { BENCH, openPage, PHONE, skipWithoutBrowser } from './served-app.ts';

/** Folder for pictures; none where it is not named. */
const PICTURES = process.env.SCREENS;

const textOf = (pdf: ReadPdf): string => pdf.pages.map(({ text }) => text).join(' ');

describe.skipIf(skipWithoutBrowser)('the record', { timeout: 240_000 }, () => {
  const app = useApp();

  test('is printed by the browser as a tagged PDF, and the server’s says the same', async () => {
    await putStory(app.laptop.address);
    const { page, faults } = await openPage(app.browser, BENCH);
    for (const [job, words] of [
      [DEMO_JOB, 'the headlight fades after half an hour'],
      [STORY, 'under the tensioner, two clips'],
    ] as const) {
      await page.goto(`${app.laptop.address}/#/job/${job}/record`);
      await page.getByRole('heading', { name: 'Complaint' }).waitFor();
      await page.evaluate(() => document.fonts.ready);
      const bytes = await page.pdf({ tagged: true, preferCSSPageSize: true, format: 'A4' });
      const [file] = await Promise.all([
        page.waitForEvent('download', { timeout: 60_000 }),
        page.getByRole('link', { name: 'Keep as PDF' }).click(),
      ]);
      const kept = readFileSync(await file.path());
      if (PICTURES) {
        mkdirSync(PICTURES, { recursive: true });
        writeFileSync(join(PICTURES, `${job}-print.pdf`), bytes);
        writeFileSync(join(PICTURES, `${job}-server.pdf`), kept);
      }
      const [printed, served] = [await readPdf(new Uint8Array(bytes)), await readPdf(new Uint8Array(kept))];
      for (const pdf of [printed, served]) {
        expect(pdf.marked).toBe(true);
        expect(pdf.language).toBe('en');
        expect([...pdf.faces].filter(([, inside]) => !inside)).toEqual([]);
        expect(textOf(pdf)).toContain(words);
        expect(textOf(pdf)).toMatch(/Everything here is invented/);
        expect(textOf(pdf)).toContain(`Page 1 of ${pdf.pages.length}`);
      }
      // Nothing of the screen's own is on paper.
      expect(textOf(printed)).not.toMatch(/Keep as PDF|Back to the handover|To the work/);
      expect(tagsOf(printed, 'H1').map(({ text }) => text)).toEqual(
        tagsOf(served, 'H1').map(({ text }) => text),
      );
      expect(tagsOf(printed, 'H2').map(({ text }) => text)).toEqual(
        tagsOf(served, 'H2').map(({ text }) => text),
      );
      // The faces have no Ω: the server writes the word, the browser borrows the letter from another face.
      const cells = (pdf: ReadPdf) =>
        tagsOf(pdf, 'TD').map(({ text }) => text.replaceAll(/\s/g, '').replaceAll('ohm', 'Ω'));
      expect(cells(printed).length).toBeGreaterThan(4);
      expect(cells(printed)).toEqual(cells(served));
    }
    expect(faults).toEqual([]);
  });

  test('a photograph that is here is shown, one that is not is named', async () => {
    const job = `${STORY}-shots`;
    const shot = picture(41);
    const put = await fetch(`${app.laptop.address}/api/photos/${sumOf(shot)}`, {
      method: 'PUT',
      headers: { 'content-type': 'image/jpeg' },
      body: new Uint8Array(shot),
    });
    expect(put.status).toBe(201);
    await putBodies(
      app.laptop.address,
      { job, who: 'the demo', device: 'shots' },
      [
        { type: 'jobOpened', machine: 'ardmoor-650-pathway', title: 'Two pictures', invented: true },
        { type: 'photoAdded', photo: sumOf(shot), step: 'cover-off', about: 'The stator' },
        { type: 'photoAdded', photo: sumOf(picture(42)), step: 'cover-off', about: 'The rotor' },
      ],
      Date.now(),
    );
    const { page } = await openPage(app.browser, PHONE);
    await page.goto(`${app.laptop.address}/#/job/${job}/record`);
    await page.getByRole('img', { name: /^The stator/ }).waitFor();
    await page.getByText('Photograph missing here: The rotor').waitFor();
  });

  test('a print that is asked for at once waits for the proof and for the photographs', async () => {
    const job = `${STORY}-hurry`;
    const shot = picture(43);
    await fetch(`${app.laptop.address}/api/photos/${sumOf(shot)}`, {
      method: 'PUT',
      headers: { 'content-type': 'image/jpeg' },
      body: new Uint8Array(shot),
    });
    await putBodies(
      app.laptop.address,
      { job, who: 'the demo', device: 'hurry' },
      [
        ...PROOF_TALE,
        {
          type: 'repairsMade',
          repairs: ['replace-stator'],
          left: [{ fault: 'plug-pins', chance: 0.2 }],
          noneOfThese: 0.01,
        },
        { type: 'photoAdded', photo: sumOf(shot), step: '', about: 'the new stator' },
      ],
      Date.now(),
    );
    const { page } = await openPage(app.browser, BENCH);
    // What stands on the paper at the moment it is printed.
    await page.addInitScript(() => {
      globalThis.print = () => {
        const paper = document.querySelector('.paper') as HTMLElement;
        const drawn = [...paper.querySelectorAll('img')].filter(
          (one) => one.complete && one.naturalWidth > 0,
        );
        Object.assign(globalThis, { printed: { text: paper.textContent, pictures: drawn.length } });
      };
    });
    // The picture is slow to come.
    await page.route('**/api/photos/*', async (route) => {
      await new Promise((done) => setTimeout(done, 1500));
      await route.continue();
    });
    await page.goto(`${app.laptop.address}/#/job/${job}/record`);
    await page.getByRole('button', { name: 'Print' }).click({ timeout: 60_000 });
    await page.waitForFunction(() => 'printed' in globalThis);
    const { text, pictures } = await page.evaluate(
      () => (globalThis as unknown as { printed: { text: string; pictures: number } }).printed,
    );
    expect(pictures).toBe(1);
    expect(text).toMatch(/that a fault is left, \d+\sin\s100/);
    expect(text).not.toContain('Looking for the photograph');
  });

  for (const [width, shape] of [
    [360, PHONE],
    [1280, BENCH],
  ] as const)
    test(`its look at ${width} px`, async () => {
      await putStory(app.laptop.address);
      const { page, faults } = await openPage(app.browser, shape);
      for (const place of ['record', 'owner'] as const) {
        await page.goto(`${app.laptop.address}/#/job/${STORY}/${place}`);
        await page.locator('.paper h2').first().waitFor();
        if (PICTURES) {
          mkdirSync(PICTURES, { recursive: true });
          await page.screenshot({
            path: join(PICTURES, `${place}-${width}.png`),
            fullPage: true,
            scale: 'css',
          });
        }
        expect(await sideways(page), `${place} must not scroll sideways`).toBe(0);
        expect(await tooSmall(page), `${place}: controls under 64 px`).toEqual([]);
        expect(await breaches(page, false), `${place}: accessibility`).toEqual([]);
      }
      expect(faults).toEqual([]);
    });
});
