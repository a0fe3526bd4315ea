/** The app as a mechanic gets it: built, served by the laptop's program on a free port, opened in Chromium. */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import type { Place } from '../../src/web/route.ts';
import { PACKAGE } from '../package-folder.ts';

const ROOT = PACKAGE;
export const CHROMIUM_PATH = process.env.CHROMIUM ?? '/usr/bin/chromium';

export const haveChromium = existsSync(CHROMIUM_PATH);
/** On the build server a missing browser is a failure; at home the tests of the screen are skipped. */
export const skipWithoutBrowser = !haveChromium && process.env.CI !== 'true';

function newest(folder: string): number {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .reduce((latest, entry) => Math.max(latest, statSync(join(entry.parentPath, entry.name)).mtimeMs), 0);
}

function isBuilt(): boolean {
  const page = join(ROOT, 'dist/app/index.html');
  if (!existsSync(page) || !existsSync(join(ROOT, 'dist/serve/main.js'))) return false;
  const sources = Math.max(newest(join(ROOT, 'src')), statSync(join(ROOT, 'vite.config.ts')).mtimeMs);
  return statSync(page).mtimeMs >= sources;
}

let built: Promise<void> | null = null;

/** Builds the app and the server unless they are newer than their sources. One test file builds, the others wait. */
export function ensureBuilt(): Promise<void> {
  built ??= build();
  return built;
}

async function build(): Promise<void> {
  const lock = join(tmpdir(), 'chargewright-e2e-build.lock');
  for (let waited = 0; ; waited += 250) {
    if (isBuilt()) return;
    try {
      mkdirSync(lock);
      break;
    } catch {
      // A build that was killed leaves its lock: after a minute it is nobody's.
      if (waited > 60_000) rmSync(lock, { recursive: true, force: true });
      await new Promise((done) => setTimeout(done, 250));
    }
  }
  try {
    const run = (script: string, ...args: string[]): void => {
      execFileSync(process.execPath, [join(ROOT, 'node_modules', script), ...args], {
        cwd: ROOT,
        stdio: 'pipe',
        // What runs the tests calls its surroundings "test", and the bundle would carry what is there for finding faults.
        env: { ...process.env, NODE_ENV: 'production' },
      });
    };
    run('typescript/bin/tsc', '-b', 'src/serve');
    run('vite/bin/vite.js', 'build', '--logLevel', 'error');
  } finally {
    rmSync(lock, { recursive: true, force: true });
  }
}

function freePort(): Promise<number> {
  return new Promise((done, fail) => {
    const server = createServer();
    server.on('error', fail);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      const port = typeof address === 'object' && address ? address.port : 0;
      server.close(() => done(port));
    });
  });
}

export interface Laptop {
  readonly address: string;
  /** Starts the program again on the same port and store. */
  readonly start: (env?: Readonly<Record<string, string>>) => Promise<void>;
  /** Kills it the hard way. */
  readonly kill: () => Promise<void>;
  /** Kills it and throws its store away. */
  readonly end: () => Promise<void>;
}

export async function openLaptop(): Promise<Laptop> {
  await ensureBuilt();
  const home = mkdtempSync(join(tmpdir(), 'chargewright-e2e-'));
  const port = await freePort();
  let child: ChildProcess | null = null;
  const start = (env: Readonly<Record<string, string>> = {}): Promise<void> =>
    new Promise((done, fail) => {
      const started = spawn(process.execPath, [join(ROOT, 'dist/serve/main.js')], {
        cwd: ROOT,
        env: { ...process.env, PORT: String(port), CHARGEWRIGHT_HOME: home, ...env },
        stdio: ['ignore', 'pipe', 'pipe'],
      });
      child = started;
      let heard = '';
      const hear = (chunk: Buffer): void => {
        heard += chunk.toString();
        if (heard.includes(`:${port}`)) done();
      };
      started.stdout.on('data', hear);
      started.stderr.on('data', hear);
      started.on('exit', (code) => fail(new Error(`the server ended with ${code}: ${heard}`)));
    });
  const kill = (): Promise<void> =>
    new Promise((done) => {
      const running = child;
      child = null;
      if (!running || running.exitCode !== null) return done();
      running.removeAllListeners('exit');
      running.on('exit', () => done());
      running.kill('SIGKILL');
    });
  await start();
  return {
    address: `http://127.0.0.1:${port}`,
    start,
    kill,
    end: async () => {
      await kill();
      rmSync(home, { recursive: true, force: true });
    },
  };
}

/**
 * Parts of the browser that no test looks at. The last two fill the list under its address bar: with them each window starts
 * pages of the browser's own, which cost more than the page under test. Of several such lists the last counts: the names
 * before are those that Playwright 1.65 would set itself.
 */
const WITHOUT = [
  'AvoidUnnecessaryBeforeUnloadCheckSync',
  'DestroyProfileOnBrowserClose',
  'HttpsUpgrades',
  'HttpsFirstBalancedModeAutoEnable',
  'LensOverlay',
  'MediaRouter',
  'PaintHolding',
  'ThirdPartyStoragePartitioning',
  'AvoidCorsURLLoaderRestartOnRedirect',
  'TcpPortRandomizationWin',
  'OptimizationHints',
  'NetworkTimeServiceQuerying',
  'AimEnabled',
  'PreconnectToSearch',
  'WebUIOmniboxPopup',
  'WebUIOmniboxAimPopup',
] as const;

export const CHROMIUM_ARGS = [
  '--no-sandbox',
  '--disable-quic',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
  `--disable-features=${WITHOUT.join(',')}`,
] as const;

export function openChromium(): Promise<Browser> {
  return chromium.launch({ executablePath: CHROMIUM_PATH, args: [...CHROMIUM_ARGS] });
}

export const PHONE: BrowserContextOptions = {
  viewport: { width: 360, height: 740 },
  hasTouch: true,
  isMobile: true,
  deviceScaleFactor: 2,
};
export const BENCH: BrowserContextOptions = { viewport: { width: 1280, height: 800 } };
export const THEMES = ['paper', 'slate', 'glare'] as const;

export interface Opened {
  readonly page: Page;
  /** What went wrong in the page: uncaught errors, breaches of the content policy, errors on the console. */
  readonly faults: readonly string[];
}

export async function openPage(
  browser: Browser,
  shape: BrowserContextOptions,
  theme: (typeof THEMES)[number] = 'paper',
): Promise<Opened> {
  const context = await browser.newContext({ ...shape, reducedMotion: 'reduce' });
  await context.addInitScript((name) => {
    if (localStorage.getItem('chargewright.theme') === null) localStorage.setItem('chargewright.theme', name);
  }, theme);
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('console', (message) => {
    // A dead laptop is part of the tests; the browser reports it on its own.
    if (
      message.type() === 'error' &&
      !/ERR_CONNECTION|Failed to load resource|occurred when fetching the script/.test(message.text())
    )
      faults.push(message.text());
  });
  return { page, faults };
}

export const DEMO = 'demo-ferry-run';

/** Opens a station of a job and waits until the verdict has been worked out. */
export async function openStation(page: Page, address: string, station: Place, job = DEMO): Promise<void> {
  await page.goto(`${address}/#/job/${job}/${station}`);
  await page.locator('nav.stations').waitFor();
  if (station === 'readings') await page.locator('.keypad, .seen').first().waitFor({ timeout: 30_000 });
  if (station === 'verdict') {
    await page.locator('.lead').waitFor({ timeout: 30_000 });
    await page.locator('.suspects').waitFor({ state: 'attached', timeout: 30_000 });
  }
  if (station === 'way') await page.locator('#way-to').waitFor({ timeout: 30_000 });
  if (station === 'odds') await page.locator('.odds').first().waitFor({ timeout: 30_000 });
}
