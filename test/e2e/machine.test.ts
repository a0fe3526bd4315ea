/** A machine file in the app: its text and its forms, checked as it is typed, saved with its mark, not lost when the laptop is away. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { useApp } from './app-hooks.ts';
import { breaches, sideways, tooSmall } from './page-rules.ts';
import { BENCH, openPage, PHONE, skipWithoutBrowser } from './served-app.ts';

const state = (page: Page) => page.locator('.machine-state');
const place = (page: Page, path: string) => page.locator(`[data-place='${path}']`);
const CARILLON = JSON.parse(readFileSync('machines/pemburrow-900-carillon.json', 'utf8')) as {
  readonly charging: { readonly alternator: { readonly openVolts: { readonly is: string } } };
};
const OPEN_VOLTS = '$.charging.alternator.openVolts.is';

describe.skipIf(skipWithoutBrowser)('a machine file', { timeout: 180_000 }, () => {
  const app = useApp();

  test('as text is judged as it is typed, saved with errors in it, marked, and kept while the laptop is away', async () => {
    const { page, faults } = await openPage(app.browser, BENCH);
    await page.goto(`${app.laptop.address}/#/machines/ardmoor-650-pathway/text`);
    const field = page.locator('textarea.file');
    const change = page.getByRole('button', { name: 'Change the text' });
    await change.click();
    await field.waitFor();
    const text = await field.inputValue();
    // The cover screws' final torque in the wrong unit: 9 lbf·ft become 9 kgf·m.
    const wrong = text.replace('"torque": { "is": "9 lbf·ft"', '"torque": { "is": "9 kgf·m"');
    expect(wrong).not.toBe(text);
    await field.fill(wrong);
    const finding = page
      .locator('.findings li', { hasText: 'cover' })
      .or(page.locator('.findings li', { hasText: 'kgf·m' }));
    await finding.first().waitFor();
    await expect.poll(() => state(page).textContent(), { timeout: 20_000 }).toMatch(/cannot be|would break/);
    // The line of a finding takes the cursor there.
    await page.locator('.findings button').first().click();
    const [at, line] = await page.evaluate(() => {
      const area = document.querySelector<HTMLTextAreaElement>('textarea.file')!;
      const words = document.querySelector('.findings button')!.textContent ?? '';
      return [area.value.slice(0, area.selectionStart).split('\n').length, Number(/\d+$/.exec(words)?.[0])];
    });
    expect(at).toBe(line);

    await page.getByRole('link', { name: 'All pages of this bike' }).click();
    const name = page.getByLabel('Save it as');
    await expect.poll(() => name.inputValue(), { timeout: 60_000 }).toBe('my-ardmoor-650-pathway');
    await name.fill('my-bike');
    await page.getByRole('button', { name: 'Save a copy' }).click();
    await page.getByText('my-bike', { exact: true }).waitFor();
    await page.getByRole('link', { name: 'As text' }).click();
    await change.click();
    expect(await field.inputValue()).toBe(wrong);

    await app.laptop.kill();
    await field.fill(`${wrong} `);
    await page.waitForTimeout(500);
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByText('What was entered here stays here.').waitFor();
    await app.laptop.start();
    await page.reload();
    await change.click();
    await field.waitFor();
    expect(await field.inputValue()).toBe(`${wrong} `);
    await page.goto(`${app.laptop.address}/#/machines`);
    await page.getByText('my-bike, written here, 1 version').waitFor();
    expect(faults).toEqual([]);
    await page.context().close();
  });

  test('in forms: a figure is entered, doubted beside its field, taken back, saved, and its history told', async () => {
    const { page, faults } = await openPage(app.browser, BENCH);
    await page.goto(`${app.laptop.address}/#/machines/pemburrow-900-carillon/charging`);
    await page.getByRole('button', { name: /^Alternator/ }).click();
    const volts = place(page, OPEN_VOLTS);
    const before = CARILLON.charging.alternator.openVolts.is;
    await expect.poll(() => volts.locator('input').inputValue()).toBe(before);
    await volts.locator('input').fill('seventeen');
    await volts.getByText('▲').waitFor();
    expect(await volts.locator('.below').textContent()).toMatch(/seventeen/);
    await volts.locator('input').fill('56–66 V AC');
    await expect.poll(() => volts.locator('.below').textContent()).toMatch(/such as/);
    // Both fillings are one field's typing: one touch takes them back, one makes them again.
    await page.getByRole('button', { name: 'Undo the last change' }).click();
    expect(await volts.locator('input').inputValue()).toBe(before);
    await page.waitForTimeout(300);
    await page.getByRole('button', { name: 'Redo it' }).click();
    expect(await volts.locator('input').inputValue()).toBe('56–66 V AC');

    // A reload in the middle keeps what is not saved.
    await expect.poll(() => state(page).textContent()).toMatch(/kept in this browser/);
    await page.waitForTimeout(400);
    await page.reload();
    await page.getByRole('button', { name: /^Alternator/ }).click();
    expect(await volts.locator('input').inputValue()).toBe('56–66 V AC');
    await page.getByRole('button', { name: 'Save a copy' }).click();
    await page.getByText('my-pemburrow-900-carillon', { exact: true }).waitFor();
    const kept = await fetch(`${app.laptop.address}/api/machines/my-pemburrow-900-carillon`);
    expect(((await kept.json()) as typeof CARILLON).charging.alternator.openVolts.is).toBe('56–66 V AC');

    // A second version, the figure's history in both, and the way back to the first.
    await page.goto(
      `${app.laptop.address}/#/machines/my-pemburrow-900-carillon/charging?field=${encodeURIComponent(OPEN_VOLTS)}`,
    );
    await volts.locator('input').waitFor();
    await expect
      .poll(() =>
        page.evaluate(() => document.activeElement?.closest('[data-place]')?.getAttribute('data-place')),
      )
      .toBe(OPEN_VOLTS);
    await volts.locator('input').fill('54–64 V AC');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByText(/Saved as version 2/).waitFor();
    await page.locator('[data-said="$.charging.alternator.openVolts"]').click();
    await page.locator('.history').getByText('56–66 V AC').waitFor();
    await page.locator('.history li', { hasText: '56–66 V AC' }).getByRole('button').click();
    expect(await volts.locator('input').inputValue()).toBe('56–66 V AC');

    // Side by side with the file it came from: what is picked there is taken over.
    await page.goto(`${app.laptop.address}/#/machines/my-pemburrow-900-carillon/compare`);
    await page.getByLabel('Beside which?').selectOption({ label: 'Pemburrow 900 Carillon' });
    await page.getByRole('heading', { name: '1 difference from Pemburrow 900 Carillon' }).waitFor();
    await page.getByRole('radio', { name: 'as there' }).click();
    await page.getByRole('button', { name: 'Take over what is picked (1)' }).click();
    await page.getByText('They say the same.').waitFor();
    expect(faults).toEqual([]);
    await page.context().close();
  });

  test.each([
    ['phone', PHONE],
    ['laptop', BENCH],
  ] as const)('holds the rules of every page on a %s', async (_, options) => {
    const { page } = await openPage(app.browser, options);
    const wrong: string[] = [];
    for (const part of ['', '/charging', '/fasteners', '/sources', '/work', '/compare', '/text']) {
      await page.goto(`${app.laptop.address}/#/machines/ardmoor-650-pathway${part}`);
      await page.locator('.machine-state').waitFor();
      await page
        .locator('.fold')
        .first()
        .click({ timeout: 2000 })
        .catch(() => undefined);
      // What two files say may be long.
      if (part === '/compare')
        await page.getByLabel('Beside which?').selectOption({ label: 'Pemburrow 900 Carillon' });
      await page.waitForTimeout(500);
      for (const breach of await breaches(page, false)) wrong.push(`${part}: ${breach}`);
      for (const small of await tooSmall(page)) wrong.push(`${part}: ${JSON.stringify(small)}`);
      const wide = await sideways(page);
      if (wide > 0) wrong.push(`${part}: ${wide} px wider than the window`);
    }
    await page.goto(`${app.laptop.address}/#/begin`);
    await page.getByRole('heading', { name: 'Begin with your own bike' }).waitFor();
    wrong.push(...(await breaches(page, false)), ...(await tooSmall(page)).map((one) => JSON.stringify(one)));
    expect(wrong).toEqual([]);
    expect(await sideways(page)).toBe(0);
    await page.context().close();
  });
});
