/** Hands at the bench in a real browser: the lock for wiping, palms, a photograph, and the nut that undoes the other way round. */
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { useApp } from './app-hooks.ts';
import { keys } from './bench-keys.ts';
import { finger } from './bench-player.ts';
import { putStory, STORY } from './bench-story.ts';
import { BENCH, openPage, PHONE, skipWithoutBrowser } from './served-app.ts';
import { putJob, SINGLE } from './worked-jobs.ts';

/** How long a button is held, with room for a busy computer, ms. */
const HELD_MS = 1100;

describe.skipIf(skipWithoutBrowser)('hands at the bench', { timeout: 120_000 }, () => {
  const app = useApp();
  const stepOf = (page: Page) => page.locator('#bench-step').textContent();
  async function openAt(page: Page, job: string, step: string): Promise<string> {
    await page.goto(`${app.laptop.address}/#/job/${job}/bench?take=${step}`);
    await page.locator('.bench-place:not([aria-busy=true])').waitFor({ timeout: 60_000 });
    await page.locator('.bench-more').waitFor();
    return (await stepOf(page))!;
  }

  test('the lock takes the focus and gives it back; keys, pedal, voice and Escape do nothing while it is on', async () => {
    const { page, faults } = await openPage(app.browser, BENCH);
    // The browser's ear, played: what is heard comes from the test.
    await page.addInitScript(() => {
      class Ear {
        onresult: ((event: unknown) => void) | null = null;
        start(): void {
          Object.assign(globalThis, {
            hear: (words: string) => this.onresult?.({ results: [[{ transcript: words }]] }),
          });
        }
        abort(): void {}
      }
      Object.assign(globalThis, { SpeechRecognition: Ear });
    });
    const hear = async (words: string): Promise<void> => {
      await page.evaluate(
        (said) => (globalThis as unknown as { hear: (x: string) => void }).hear(said),
        words,
      );
      await page.waitForTimeout(300);
    };
    await putJob(app.laptop.address, { ...SINGLE, job: 'bench-locked' });
    const hand = keys(page);
    const before = await openAt(page, 'bench-locked', 'seat');
    await hand.press(page.getByRole('button', { name: /^This device/ }));
    const listening = page.getByRole('button', { name: /Listen for/ });
    await listening.waitFor();
    await hand.press(listening);
    await page.waitForFunction(() => 'hear' in globalThis);
    const wipe = page.getByRole('button', { name: 'Wipe the screen' });
    await hand.press(wipe);
    const lock = page.getByRole('dialog', { name: 'Locked for wiping' });
    await lock.waitFor();
    const focused = () => page.evaluate(() => document.activeElement?.textContent ?? '');
    expect(await focused()).toMatch(/^Unlock/);

    for (const key of ['PageDown', 'PageUp', 'ArrowRight', 'Escape', 'Escape', 'Escape', 'Tab', 'Tab', ' ']) {
      await page.keyboard.press(key);
      await page.waitForTimeout(60);
    }
    for (const words of ['done', 'next', 'back']) await hear(words);
    await page.mouse.click(640, 760);
    await page.waitForTimeout(400);
    expect(await lock.isVisible()).toBe(true);
    expect(await stepOf(page)).toBe(before);
    await expect(page.getByText(/^Taken back|^Done:/).count()).resolves.toBe(0);

    await lock.getByRole('button').focus();
    await page.keyboard.down('Enter');
    await page.waitForTimeout(HELD_MS);
    await page.keyboard.up('Enter');
    await lock.waitFor({ state: 'detached' });
    expect(await focused()).toBe('Wipe the screen');
    // The same ear and the same pedal, unlocked.
    await hear('next');
    await expect.poll(() => stepOf(page)).not.toBe(before);
    await page.keyboard.press('PageUp');
    await expect.poll(() => stepOf(page)).toBe(before);
    expect(faults).toEqual([]);
  });

  test('a palm presses nothing, a fingertip does', async () => {
    const { page } = await openPage(app.browser, PHONE);
    await putJob(app.laptop.address, { ...SINGLE, job: 'bench-palm' });
    const before = await openAt(page, 'bench-palm', 'seat');
    const touches = await page.context().newCDPSession(page);
    const touch = async (name: string, role: 'button' | 'link', radius: number): Promise<void> => {
      const control = page.getByRole(role, { name }).first();
      // Clear of the bar at the foot and of the clocks at the head.
      await control.evaluate((found) => found.scrollIntoView({ block: 'center' }));
      const box = (await control.boundingBox())!;
      const touchPoints = [
        { x: box.x + box.width / 2, y: box.y + box.height / 2, radiusX: radius, radiusY: radius },
      ];
      await touches.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints });
      await page.waitForTimeout(60);
      await touches.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
      await page.waitForTimeout(500);
    };
    await touch('Next', 'button', 24);
    expect(await stepOf(page)).toBe(before);
    await touch('Way in', 'link', 24);
    expect(page.url()).toMatch(/bench/);
    await touch('Next', 'button', 9);
    await expect.poll(() => stepOf(page)).not.toBe(before);
    await touch('Way in', 'link', 9);
    await expect.poll(() => page.url()).toMatch(/way/);
  });

  test('4: the plan that a seized rotor brings says that its nut is left-handed before it is undone', async () => {
    const { page, faults } = await openPage(app.browser, PHONE);
    await putJob(app.laptop.address, { ...SINGLE, job: 'bench-left' });
    const hand = finger(page);
    await openAt(page, 'bench-left', 'rotor-past-clutch');
    await hand.press(page.getByRole('button', { name: 'It’s stuck' }));
    await hand.press(page.getByRole('button', { name: 'It will not come at all' }));
    await page.getByText('Planned anew').waitFor({ timeout: 60_000 });
    await openAt(page, 'bench-left', 'clutch-nut');
    const warning = page.locator('.bench-caution', { hasText: 'LEFT' });
    await warning.waitFor();
    // Before the words that send somebody to undo it.
    expect(
      await warning.evaluate((found) => {
        const words = document.querySelector('#bench-step')!;
        return Boolean(found.compareDocumentPosition(words) & Node.DOCUMENT_POSITION_FOLLOWING);
      }),
    ).toBe(true);
    expect(faults).toEqual([]);
  });

  test('a photograph taken where the thing comes off is seen where it goes back, after a reload too', async () => {
    const { page, faults } = await openPage(app.browser, PHONE);
    await putStory(app.laptop.address);
    await openAt(page, STORY, 'plug-retainer');
    const picture = await page.evaluate(async () => {
      const canvas = document.createElement('canvas');
      canvas.width = 800;
      canvas.height = 600;
      const pen = canvas.getContext('2d')!;
      pen.fillStyle = 'teal';
      pen.fillRect(0, 0, 800, 600);
      return canvas.toDataURL('image/jpeg').split(',')[1]!;
    });
    const chooser = page.waitForEvent('filechooser');
    await page.locator('.photo-take label').click();
    await (await chooser).setFiles({
      name: 'wire.jpg',
      mimeType: 'image/jpeg',
      buffer: Buffer.from(picture, 'base64'),
    });
    await page.getByText('Photograph kept').waitFor();
    const seen = page.locator('.bench-found img');
    for (let round = 0; round < 2; round++) {
      await openAt(page, STORY, 'retainer-on');
      await seen.waitFor();
      await expect
        .poll(() => seen.evaluate((found: HTMLImageElement) => found.naturalWidth), { timeout: 20_000 })
        .toBeGreaterThan(0);
      await page.reload();
    }
    // And at no step that puts something else back.
    await openAt(page, STORY, 'grommet-in');
    await page.waitForTimeout(500);
    expect(await seen.count()).toBe(0);
    expect(faults).toEqual([]);
  });
});
