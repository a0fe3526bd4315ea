/** The strip-down's editor in a real browser: a small bike by touches and the way in from it, 400 parts, the look. */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import type { Browser, Locator, Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Json } from '../../src/machine/json-value.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { workOf } from '../../src/machine/work.ts';
import { planJob } from '../../src/way/plan.ts';
import { PACKAGE } from '../package-folder.ts';
import { breaches, sideways, tooSmall } from './page-rules.ts';
import { BENCH, openChromium, openPage, PHONE, skipWithoutBrowser, THEMES } from './served-app.ts';
import { BARE, manyParts, TWIN } from './strip-file.ts';

const TYPES: Readonly<Record<string, string>> = {
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.woff2': 'font/woff2',
};
const ADDRESS = 'http://127.0.0.1:9/strip/';
/** As strict as the app's own: nothing inline. */
const POLICY = "default-src 'self'";

describe.skipIf(skipWithoutBrowser)('the strip-down’s editor', { timeout: 240_000 }, () => {
  const built = mkdtempSync(join(tmpdir(), 'chargewright-strip-page-'));
  let browser: Browser;
  beforeAll(async () => {
    await build({
      configFile: false,
      logLevel: 'error',
      root: PACKAGE,
      base: '/strip/',
      oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
      build: {
        outDir: built,
        emptyOutDir: true,
        target: 'es2022',
        assetsInlineLimit: 0,
        rollupOptions: { input: join(PACKAGE, 'test/e2e/strip-page.ts') },
      },
    });
    browser = await openChromium();
  }, 240_000);
  afterAll(async () => {
    await browser?.close();
    rmSync(built, { recursive: true, force: true });
  });

  async function openStrip(page: Page, file: Json): Promise<void> {
    const links = readdirSync(join(built, 'assets')).flatMap((name) =>
      name.endsWith('.css')
        ? [`<link rel="stylesheet" href="/strip/assets/${name}">`]
        : name.endsWith('.js')
          ? [`<script type="module" src="/strip/assets/${name}"></script>`]
          : [],
    );
    await page.route('**/strip/**', (route) => {
      const path = new URL(route.request().url()).pathname.replace('/strip/', '');
      const body =
        path === ''
          ? `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>Parts</title>${links.join('')}<body></body></html>`
          : readFileSync(join(built, path));
      const contentType = path === '' ? 'text/html' : (TYPES[extname(path)] ?? 'application/octet-stream');
      return route.fulfill({ headers: { 'content-security-policy': POLICY }, contentType, body });
    });
    await page.addInitScript((first) => {
      (globalThis as unknown as { firstFile: unknown }).firstFile = first;
    }, file);
    await page.goto(ADDRESS);
    await page.locator('.strip-editor').waitFor();
  }

  async function shoot(page: Page, name: string, fullPage = true): Promise<void> {
    const folder = process.env.SCREENS;
    if (!folder) return;
    mkdirSync(folder, { recursive: true });
    await page.evaluate(() => document.fonts.ready);
    await page.screenshot({ path: join(folder, `${name}.png`), fullPage, timeout: 120_000 });
  }

  const fileNow = (page: Page) => page.evaluate(() => (globalThis as unknown as { fileNow: string }).fileNow);
  /** A touch, late enough after the last one not to be taken for a bounce. */
  async function press(button: Locator): Promise<void> {
    await button.page().waitForTimeout(450);
    await button.click();
  }
  const touch = (page: Page, name: string | RegExp) =>
    press(page.locator('.strip-halves').getByRole('button', { name, exact: true }).last());

  async function addPart(page: Page, name: string): Promise<void> {
    await page.getByLabel(/^(One more part|The first part)/).fill(name);
    await touch(page, 'Add the part');
    await page.locator('.strip-part h3', { hasText: name }).waitFor();
  }
  /** Says of the part in hand what it waits for. */
  async function say(page: Page, how: string, other: string): Promise<void> {
    await press(page.locator('.strip-part').getByRole('button', { name: how, exact: true }).last());
    await press(page.locator('.strip-choose').getByRole('button', { name: other, exact: true }));
    await page.locator('.strip-choose').waitFor({ state: 'detached' });
  }

  test('a small bike by touches: it reads, has a way in, refuses a ring in words, and is taken back', async () => {
    const { page, faults } = await openPage(browser, PHONE);
    await openStrip(page, BARE);
    for (const name of ['left footrest', 'primary cover', 'primary chain', 'engine sprocket'])
      await addPart(page, name);
    await say(page, 'It is enough to slacken …', 'primary chain');
    await say(page, 'It comes off after …', 'primary cover');
    await page.locator('[data-part="primary-chain"]').click();
    await page.locator('.strip-part h3', { hasText: 'primary chain' }).waitFor();
    await say(page, 'It comes off after …', 'engine sprocket');
    await page.locator('[data-part="primary-cover"]').click();
    await page.locator('.strip-part h3', { hasText: 'primary cover' }).waitFor();
    await say(page, 'It comes off after …', 'left footrest');
    // Held by ten screws with a torque.
    await press(page.locator('.strip-part').getByRole('button', { name: 'It is held by …', exact: true }));
    await page.getByLabel(/^What it is called/).fill('cover screws');
    await page.getByLabel(/^Torque/).fill('9–11 N·m');
    await touch(page, 'Add the fastener');
    await page.locator('.strip-waits', { hasText: 'cover screws' }).waitFor();
    // A ring.
    await page.locator('[data-part="left-footrest"]').click();
    await page.locator('.strip-part h3', { hasText: 'left footrest' }).waitFor();
    await press(page.locator('.strip-part').getByRole('button', { name: 'It comes off after …' }));
    await press(page.locator('.strip-choose').getByRole('button', { name: 'engine sprocket' }));
    const told = page.locator('.strip-told.off');
    await told.waitFor();
    expect(await told.textContent()).toMatch(/That cannot be: .*left footrest.*waits for/);
    // What one wants to get to.
    await page.locator('[data-part="engine-sprocket"]').click();
    await press(page.getByRole('button', { name: 'Get to this' }));
    await page.locator('[data-part="engine-sprocket"][aria-label*="to get to"]').waitFor();
    await shoot(page, 'strip-phone-made');
    const text = await fileNow(page);
    const read = readMachine(text, 'touched.json');
    if (!read.ok) throw new Error(read.problems.map(({ path, what }) => `${path}: ${what}`).join('\n'));
    const made = planJob({ work: workOf(read.machine, 2026)!, targets: ['engine-sprocket'], people: 1 });
    if (!made.ok) throw new Error(made.says);
    const moves = made.least.steps.map(({ id }) => id);
    const awaited = ['left-footrest-off', 'primary-cover-off', 'primary-chain-slack', 'engine-sprocket-off'];
    expect(moves.filter((id) => awaited.includes(id)).indexOf('engine-sprocket-off')).toBe(3);
    expect(moves).not.toContain('primary-chain-off');
    expect(moves).toContain('primary-cover-torque');
    const back = page.getByRole('button', { name: 'Take the last touch back' });
    while (await back.isEnabled()) await press(back);
    expect(JSON.parse(await fileNow(page))).toEqual(BARE);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  test('400 parts: only what is in view is drawn, and a key touches nothing but its field', async () => {
    const { page, faults } = await openPage(browser, BENCH);
    await openStrip(page, manyParts(400));
    await page.locator('[data-part]').first().waitFor();
    expect(await page.locator('[data-part]').count()).toBeLessThan(160);
    const scroller = page.locator('.strip-drawing');
    await scroller.evaluate((node) => node.scrollTo(0, node.scrollHeight));
    await page.locator('[data-part="piece-399"]').waitFor();
    await page.evaluate(() => {
      const seen = globalThis as unknown as { changed: number };
      seen.changed = 0;
      new MutationObserver((list) => {
        seen.changed += list.length;
      }).observe(document.querySelector('.strip-editor')!, {
        subtree: true,
        childList: true,
        attributes: true,
        characterData: true,
      });
    });
    await page.getByLabel('One more part').pressSequentially('swing arm');
    // The value of a field is no change of the page's tree: nothing else moved either.
    expect(
      await page.evaluate(() => (globalThis as unknown as { changed: number }).changed),
    ).toBeLessThanOrEqual(9);
    await press(page.getByRole('button', { name: /^Find a part/ }));
    await page.getByLabel('Part of its name').fill('piece 123');
    await press(page.locator('.strip-list').getByRole('button', { name: 'piece 123' }));
    await page.locator('[data-part="piece-123"][aria-label*="in hand"]').waitFor();
    await shoot(page, 'strip-400', false);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  test.each([
    ['360', PHONE],
    ['1280', BENCH],
  ] as const)('keeps the rules of the page at %s px in all themes', async (width, shape) => {
    for (const theme of THEMES) {
      const { page, faults } = await openPage(browser, shape, theme);
      await openStrip(page, TWIN);
      await page.locator('[data-part="primary-cover"]').first().click();
      await page.locator('.strip-part h3').waitFor();
      await shoot(page, `strip-top-${width}-${theme}`, false);
      for (const fold of await page.locator('.strip-part > .folded > button.fold').all()) await press(fold);
      await page.waitForTimeout(800);
      await shoot(page, `strip-${width}-${theme}`);
      expect(await sideways(page), theme).toBe(0);
      expect(await tooSmall(page), theme).toEqual([]);
      expect(await breaches(page, theme !== 'paper'), theme).toEqual([]);
      expect(faults).toEqual([]);
      await page.context().close();
    }
  });
});
