/**
 * The better way in for a phone: the garage's authority trusted once, in the list of the browser itself (NSS, as Chromium has
 * it on Linux; libnss3-tools). No warning is let through anywhere here.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { type BrowserContext, chromium } from 'playwright-core';
import { afterAll, describe, expect, test } from 'vitest';
import { useApp } from './app-hooks.ts';
import { CHROMIUM_ARGS, CHROMIUM_PATH, DEMO, PHONE, skipWithoutBrowser } from './served-app.ts';

const certutil =
  process.env.CERTUTIL ||
  (process.env.PATH ?? '')
    .split(delimiter)
    .map((folder) => join(folder, 'certutil'))
    .find((path) => existsSync(path));
const cannot = skipWithoutBrowser || process.platform !== 'linux' || !certutil;

describe.skipIf(cannot)('a device that trusts the garage’s authority', { timeout: 180_000 }, () => {
  const app = useApp();
  const home = mkdtempSync(join(tmpdir(), 'chargewright-trust-'));
  afterAll(() => rmSync(home, { recursive: true, force: true }));

  /** A browser of its own with a list of trusted authorities of its own: `authority` alone, or none. */
  async function openTrusting(name: string, authority: string | null): Promise<BrowserContext> {
    const own = join(home, name);
    // Where Chromium looked, and where newer ones look.
    for (const place of ['.pki/nssdb', '.local/share/pki/nssdb']) {
      const list = join(own, place);
      mkdirSync(list, { recursive: true });
      execFileSync(certutil!, ['-d', `sql:${list}`, '-N', '--empty-password']);
      if (authority !== null)
        execFileSync(certutil!, ['-d', `sql:${list}`, '-A', '-t', 'C,,', '-n', 'garage', '-i', authority]);
    }
    return chromium.launchPersistentContext(join(own, 'profile'), {
      ...PHONE,
      executablePath: CHROMIUM_PATH,
      args: [...CHROMIUM_ARGS],
      env: { ...process.env, HOME: own, XDG_DATA_HOME: join(own, '.local/share') },
    });
  }

  async function post<T>(path: string, value: unknown): Promise<T> {
    const answer = await fetch(`${app.laptop.address}${path}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(value),
    });
    if (!answer.ok) throw new Error(await answer.text());
    return (await answer.json()) as T;
  }

  test('meets no warning, keeps the app, may install it, and opens a job with the laptop off', async () => {
    const { door } = await post<{ door: { hosts: string[]; landings: string[] } }>('/api/devices/door', {
      open: true,
    });
    const [landing] = door.landings;
    const authority = join(home, 'garage.crt');
    writeFileSync(authority, await (await fetch(new URL('/garage.crt', landing))).text());
    const address = `https://${door.hosts[0]}`;

    const stranger = await openTrusting('stranger', null);
    await expect(stranger.newPage().then((page) => page.goto(address))).rejects.toThrow(
      /ERR_CERT_AUTHORITY_INVALID/,
    );
    await stranger.close();

    const { landings } = await post<{ landings: string[] }>('/api/devices/invite', {});
    const phone = await openTrusting('phone', authority);
    const page = await phone.newPage();
    const faults: string[] = [];
    page.on('pageerror', (error) => faults.push(error.message));
    await page.goto(landings[0]!);
    await page.getByRole('link', { name: 'Go on' }).click();
    await page.getByRole('heading', { name: 'Pair this device' }).waitFor({ timeout: 30_000 });
    await page.locator('input').fill('trusting phone');
    await page.getByRole('button', { name: 'Pair it' }).click();
    await page.locator('.job-list li').first().waitFor({ timeout: 30_000 });
    expect(page.url().startsWith(address)).toBe(true);
    expect(await page.evaluate(() => isSecureContext)).toBe(true);
    const session = await phone.newCDPSession(page);
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null, null, { timeout: 60_000 });
    const { installabilityErrors } = await session.send('Page.getInstallabilityErrors');
    expect(installabilityErrors).toEqual([]);

    await page.goto(`${address}/#/job/${DEMO}/complaint`);
    await page.locator('textarea').first().waitFor({ timeout: 30_000 });
    await page.waitForTimeout(1000);
    await app.laptop.kill();
    await page.reload();
    await page.locator('textarea').first().waitFor({ timeout: 30_000 });
    expect(faults).toEqual([]);
    await phone.close();
    await app.laptop.start();
  });
});
