/** The page of a how-to in a browser, out of the pack and with the network cut: WCAG rules, no sideways scrolling, its own faces. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { packHowTo } from '../../src/press/how-to-pack.ts';
import { sumOf } from '../job/pictures.ts';
import { filmedJob, machineText, SHOTS } from '../paper/filmed-job.ts';
import { breaches, sideways } from './page-rules.ts';
import { openChromium, skipWithoutBrowser } from './served-app.ts';

describe.skipIf(skipWithoutBrowser)('the how-to as a page', () => {
  const folder = mkdtempSync(join(tmpdir(), 'chargewright-how-to-'));
  let browser: Browser;
  beforeAll(async () => {
    const packed = await packHowTo({
      events: filmedJob(),
      machine: machineText(),
      may: { owner: true, photos: true, notes: true },
      at: '2026-01-20T10:00:00.000Z',
      east: 0,
      photo: async (photo) => SHOTS.find((shot) => sumOf(shot) === photo) ?? null,
    });
    if (!packed.ok) throw new Error(packed.why);
    writeFileSync(join(folder, 'how-to.html'), unzipSync(packed.bytes)['how-to.html']!);
    browser = await openChromium();
  }, 180_000);
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  test.each([360, 1280])('at %i px', async (width) => {
    const page = await browser.newPage({ viewport: { width, height: 900 } });
    const asked: string[] = [];
    const said: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    page.on('console', (message) => said.push(message.text()));
    page.on('pageerror', (error) => said.push(error.message));
    await page.goto(`file://${join(folder, 'how-to.html')}`);
    await page.evaluate(() => document.fonts.ready);
    expect(asked.filter((url) => !/^(?:file|data):/.test(url))).toEqual([]);
    expect(said).toEqual([]);
    expect(await sideways(page)).toBe(0);
    const faces = await page.evaluate(() =>
      [...document.fonts].filter(({ status }) => status === 'loaded').map(({ family }) => family),
    );
    expect(new Set(faces.map((face) => face.replaceAll('"', '')))).toEqual(
      new Set(['Atkinson Hyperlegible Next', 'B612 Mono']),
    );
    // Letters of the smallest drawing on the page as the eye meets them, px.
    const least = await page.evaluate(() =>
      Math.min(
        ...[...document.querySelectorAll<SVGTextElement>('svg text')].map(
          (text) => Number(text.getAttribute('font-size')) * (text.getScreenCTM()?.a ?? 0),
        ),
      ),
    );
    expect(least).toBeGreaterThanOrEqual(11);
    expect(await breaches(page, false)).toEqual([]);
    await page.close();
  });
});
