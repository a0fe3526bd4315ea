/** Photographs in a real browser: taken at the width of a phone, with the laptop dead, over a reload, to a second device. */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import type { Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checkPhoto } from '../../src/job/photo-file.ts';
import { sumOf } from '../job/pictures.ts';
import { PACKAGE } from '../package-folder.ts';
import { useApp } from './app-hooks.ts';
import { BENCH, openPage, PHONE, skipWithoutBrowser } from './served-app.ts';
import { putJob, SINGLE } from './worked-jobs.ts';

const TYPES: Readonly<Record<string, string>> = { '.js': 'text/javascript', '.css': 'text/css' };

describe.skipIf(skipWithoutBrowser)('photographs', { timeout: 180_000 }, () => {
  const app = useApp();
  const built = mkdtempSync(join(tmpdir(), 'chargewright-photo-page-'));
  beforeAll(async () => {
    await build({
      configFile: false,
      logLevel: 'error',
      root: PACKAGE,
      oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
      build: {
        outDir: built,
        emptyOutDir: true,
        target: 'es2022',
        rollupOptions: { input: join(PACKAGE, 'test/e2e/photo-page.ts') },
      },
    });
    await putJob(app.laptop.address, SINGLE);
  }, 180_000);
  afterAll(() => rmSync(built, { recursive: true, force: true }));

  /** Opens the page at the laptop's own address and under its policy; it comes out of the test, so that it opens without the laptop too. */
  async function openPhotos(page: Page, policy: string): Promise<void> {
    const files = readdirSync(join(built, 'assets'));
    const links = files.map((name) =>
      name.endsWith('.css')
        ? `<link rel="stylesheet" href="/photo-page/${name}">`
        : `<script type="module" src="/photo-page/${name}"></script>`,
    );
    const headers = { 'content-security-policy': policy };
    await page.route('**/photo-page/**', (route) => {
      const name = new URL(route.request().url()).pathname.split('/').at(-1)!;
      if (name === '')
        return route.fulfill({
          headers,
          contentType: 'text/html',
          body: `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>Photographs</title>${links.join('')}<body></body></html>`,
        });
      return route.fulfill({
        headers,
        contentType: TYPES[extname(name)] ?? 'application/octet-stream',
        body: readFileSync(join(built, 'assets', name)),
      });
    });
    await page.goto(`${app.laptop.address}/photo-page/#/job/${SINGLE.job}/way`);
    await page.locator('.photo-take').waitFor();
  }
  const policyOf = async (): Promise<string> =>
    (await fetch(`${app.laptop.address}/`)).headers.get('content-security-policy')!;

  /** A picture as a browser draws one: red on its left, blue on its right, with noise, so that it is as large as a camera's. */
  const drawn = async (page: Page, width: number, height: number, type = 'image/jpeg'): Promise<Buffer> =>
    Buffer.from(
      await page.evaluate(
        async ([w, h, kind]) => {
          const canvas = document.createElement('canvas');
          canvas.width = w;
          canvas.height = h;
          const pen = canvas.getContext('2d')!;
          pen.fillStyle = 'red';
          pen.fillRect(0, 0, w / 2, h);
          pen.fillStyle = 'blue';
          pen.fillRect(w / 2, 0, w / 2, h);
          let state = 1;
          for (let n = 0; n < 20_000; n++) {
            state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
            pen.fillStyle = `hsl(${state % 360} 90% ${30 + (state % 40)}% / 0.3)`;
            pen.fillRect((state >>> 3) % w, (state >>> 9) % h, 9, 9);
          }
          const blob = await new Promise<Blob>((done) => canvas.toBlob((made) => done(made!), kind, 0.95));
          let text = '';
          for (const byte of new Uint8Array(await blob.arrayBuffer())) text += String.fromCharCode(byte);
          return btoa(text);
        },
        [width, height, type] as const,
      ),
      'base64',
    );
  const choose = (page: Page, name: string, mimeType: string, buffer: Buffer): Promise<void> =>
    page.locator('.photo-take input').setInputFiles({ name, mimeType, buffer });

  interface Named {
    readonly photo: string;
    readonly step: string;
    readonly about: string;
  }
  async function photosOnLaptop(): Promise<readonly Named[]> {
    const got = await fetch(`${app.laptop.address}/api/jobs/${SINGLE.job}`);
    const { events } = (await got.json()) as { events: { event: { type: string } & Named }[] };
    return events.map(({ event }) => event).filter(({ type }) => type === 'photoAdded');
  }
  async function pictureOnLaptop(photo: string): Promise<Buffer> {
    const got = await fetch(`${app.laptop.address}/api/photos/${photo}`);
    expect(got.status).toBe(200);
    return Buffer.from(await got.arrayBuffer());
  }

  test('one taken with the laptop dead outlives a reload, arrives when it is back, and shows on a second device', async () => {
    const policy = await policyOf();
    const phone = await openPage(app.browser, PHONE);
    const { page } = phone;
    await openPhotos(page, policy);
    const camera = await drawn(page, 4000, 3000);
    const button = (await page.locator('.photo-take label').boundingBox())!;
    expect(Math.min(button.width, button.height)).toBeGreaterThanOrEqual(64);

    await app.laptop.kill();
    await choose(page, 'IMG_0001.jpg', 'image/jpeg', camera);
    await page.getByText('✓ Photograph kept').waitFor({ timeout: 30_000 });
    await page.getByRole('img', { name: 'Where the wire ran' }).waitFor();
    await page
      .getByText('1 entry and 1 photograph not on the laptop yet')
      .first()
      .waitFor({ state: 'attached' });
    await page.reload();
    await page.getByRole('img', { name: 'Where the wire ran' }).waitFor({ timeout: 30_000 });
    await page
      .getByText('1 entry and 1 photograph not on the laptop yet')
      .first()
      .waitFor({ state: 'attached' });

    await app.laptop.start();
    await page.getByText('All on the laptop', { exact: true }).waitFor({ timeout: 60_000 });
    const [named] = await photosOnLaptop();
    expect(named).toMatchObject({ step: 'cover', about: 'Where the wire ran' });
    const kept = await pictureOnLaptop(named!.photo);
    expect(sumOf(kept)).toBe(named!.photo);
    expect(checkPhoto(kept)).toEqual({ ok: true, width: 1600, height: 1200 });
    expect(kept.length).toBeLessThan(1_500_000);
    console.log(`a photograph of 4000 × 3000: ${camera.length} bytes given, ${kept.length} kept`);

    const second = await openPage(app.browser, BENCH);
    await openPhotos(second.page, policy);
    const small = second.page.getByRole('img', { name: 'Where the wire ran' });
    await small.waitFor({ timeout: 30_000 });
    expect(await small.evaluate((img: HTMLImageElement) => img.decode().then(() => img.naturalWidth))).toBe(
      1600,
    );

    // Large and small again, by keyboard too.
    await second.page.getByRole('button', { name: 'Open large: Where the wire ran' }).click();
    await second.page.getByRole('dialog').getByRole('img').waitFor();
    await second.page.keyboard.press('Escape');
    await expect.poll(() => second.page.getByRole('dialog').count()).toBe(0);
    // What was seen shows without the laptop, and nothing of it lies among the app's own files.
    await app.laptop.kill();
    await second.page.reload();
    await small.waitFor({ timeout: 30_000 });
    const cached = await second.page.evaluate(async () => {
      const names: string[] = [];
      for (const name of await caches.keys())
        for (const request of await (await caches.open(name)).keys()) names.push(request.url);
      return names.filter((url) => url.includes('/api/'));
    });
    expect(cached).toEqual([]);
    await app.laptop.start();
    expect([...phone.faults, ...second.faults]).toEqual([]);
    await page.context().close();
    await second.page.context().close();
  });

  test('one whose entry is here before its picture says so, and shows when it comes', async () => {
    const policy = await policyOf();
    const first = await openPage(app.browser, PHONE);
    await openPhotos(first.page, policy);
    // Pictures do not get through, entries do.
    await first.page.route('**/api/photos/**', (route) => route.abort());
    await choose(first.page, 'a.jpg', 'image/jpeg', await drawn(first.page, 300, 200));
    await first.page.getByText('1 photograph not on the laptop yet').first().waitFor({ state: 'attached' });
    const second = await openPage(app.browser, BENCH);
    await openPhotos(second.page, policy);
    await second.page.getByText('◇ Not here yet').waitFor({ timeout: 30_000 });
    await first.page.unroute('**/api/photos/**');
    await first.page.getByText('All on the laptop', { exact: true }).waitFor({ timeout: 60_000 });
    await expect.poll(() => second.page.locator('.photo-thumb').count(), { timeout: 60_000 }).toBe(2);
    expect(await second.page.getByText('◇ Not here yet').count()).toBe(0);
    await first.page.context().close();
    await second.page.context().close();
  });

  test('comes upright and without a word of where it was taken; what is no picture is told in a sentence', async () => {
    const { page, faults } = await openPage(app.browser, PHONE);
    await openPhotos(page, await policyOf());
    const before = (await photosOnLaptop()).length;
    const plain = await drawn(page, 600, 300);
    // Exif as a camera writes it: turned by a quarter (orientation 6; CIPA DC-008, 4.6.4).
    const exif = Buffer.from(
      'ffe1002245786966000049492a0008000000010012010300010000000600000000000000',
      'hex',
    );
    await choose(page, 'b.jpg', 'image/jpeg', Buffer.concat([plain.subarray(0, 2), exif, plain.subarray(2)]));
    await expect.poll(async () => (await photosOnLaptop()).length, { timeout: 30_000 }).toBe(before + 1);
    await page.getByText('All on the laptop', { exact: true }).waitFor({ timeout: 30_000 });
    const kept = await pictureOnLaptop((await photosOnLaptop()).at(-1)!.photo);
    expect(checkPhoto(kept)).toEqual({ ok: true, width: 300, height: 600 });
    expect(kept.includes('Exif')).toBe(false);

    // A picture with holes comes as well.
    await choose(page, 'c.png', 'image/png', await drawn(page, 80, 60, 'image/png'));
    await expect.poll(async () => (await photosOnLaptop()).length, { timeout: 30_000 }).toBe(before + 2);

    for (const [name, type, bytes, words] of [
      [
        'note.txt',
        'text/plain',
        Buffer.from('not a picture'),
        /“note\.txt” is not a picture that this browser can read/,
      ],
      ['page.jpg', 'image/jpeg', Buffer.from('<script>alert(1)</script>'), /is not a picture/],
      ['half.jpg', 'image/jpeg', plain.subarray(0, 40), /is not a picture.*damaged/],
      ['none.jpg', 'image/jpeg', Buffer.alloc(0), /is empty/],
    ] as const) {
      await choose(page, name, type, bytes);
      await page.locator('.photo-take .warn', { hasText: words }).waitFor({ timeout: 30_000 });
    }
    expect((await photosOnLaptop()).length).toBe(before + 2);
    expect(faults).toEqual([]);
    if (process.env.SHOTS)
      await page.screenshot({ path: join(process.env.SHOTS, 'photos.png'), fullPage: true });
    await page.context().close();
  });

  test('a laptop that lost its photographs gets them back from a browser that still has them', async () => {
    const { page } = await openPage(app.browser, PHONE);
    await openPhotos(page, await policyOf());
    await expect.poll(() => page.locator('.photo-thumb').count(), { timeout: 30_000 }).toBe(4);
    const elsewhere = mkdtempSync(join(tmpdir(), 'chargewright-photos-'));
    await app.laptop.kill();
    await app.laptop.start({ CHARGEWRIGHT_PHOTOS: join(elsewhere, 'photos') });
    const { photo } = (await photosOnLaptop())[0]!;
    expect((await fetch(`${app.laptop.address}/api/photos/${photo}`)).status).toBe(404);
    await page.reload();
    await expect
      .poll(async () => (await fetch(`${app.laptop.address}/api/photos/${photo}`)).status, {
        timeout: 60_000,
      })
      .toBe(200);
    await page.context().close();
    await app.laptop.kill();
    await app.laptop.start();
    rmSync(elsewhere, { recursive: true, force: true });
  });
});
