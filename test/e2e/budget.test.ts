/** What each page needs before it works, packed: the first script at most 60 kB, each station with it at most 110 kB. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { PACKAGE } from '../package-folder.ts';
import { ensureBuilt, skipWithoutBrowser } from './served-app.ts';

const ASSETS = join(PACKAGE, 'dist', 'app', 'assets');
const KB = 1000;

/** Scripts that a built script imports before it runs, itself among them. */
function needs(name: string, seen = new Set<string>()): ReadonlySet<string> {
  if (seen.has(name)) return seen;
  seen.add(name);
  const text = readFileSync(join(ASSETS, name), 'utf8');
  // `import(` fetches later and is not counted here.
  for (const [, other] of text.matchAll(/(?:from|import)\s*["']\.\/([\w.-]+\.js)["']/g)) needs(other!, seen);
  return seen;
}

const packed = (names: Iterable<string>): number =>
  [...names].reduce((sum, name) => sum + gzipSync(readFileSync(join(ASSETS, name))).length, 0);

// Bundled only where the browser's tests are.
test.skipIf(skipWithoutBrowser)('what a page fetches before it works', { timeout: 180_000 }, async () => {
  await ensureBuilt();
  const scripts = readdirSync(ASSETS).filter((name) => name.endsWith('.js'));
  const html = readFileSync(join(ASSETS, '..', 'index.html'), 'utf8');
  // The first script and what the page has the browser fetch beside it.
  const first = [...html.matchAll(/(?:src|href)="\/assets\/([\w.-]+\.js)"/g)].map(([, name]) => name!);
  expect(first.some((name) => name.startsWith('main-'))).toBe(true);
  const initial = new Set(first.flatMap((name) => [...needs(name)]));
  expect(packed(initial) / KB, 'first script, kB').toBeLessThanOrEqual(60);
  const exports = (name: string) =>
    readFileSync(join(ASSETS, name), 'utf8')
      .match(/export\s*\{[^}]*\}/g)
      ?.join() ?? '';
  const pageOf = (word: string): string => {
    const found = scripts.filter((name) => new RegExp(`\\bas ${word}\\b`).test(exports(name)));
    expect(found, word).toHaveLength(1);
    return found[0]!;
  };
  const clocks = needs(pageOf('BenchClocks'));
  const sizes: string[] = [];
  for (const page of [
    'Complaint',
    'ReadingsWork',
    'Verdict',
    'Odds',
    'WayWork',
    'Bench',
    'ProofStation',
    'Handover',
    'RecordPage',
    'Sums',
    'Machines',
    'MachinePage',
    'Begin',
    'Ride',
    'Devices',
  ]) {
    const job = !['Sums', 'Machines', 'MachinePage', 'Begin', 'Ride', 'Devices'].includes(page);
    const all = new Set([...initial, ...needs(pageOf(page)), ...(job ? clocks : [])]);
    const size = packed(all) / KB;
    sizes.push(`${page} ${size.toFixed(0)} in ${all.size}`);
    // Each file costs a way to the laptop and back, and a browser goes few ways at once.
    expect(all.size, `${page}, files`).toBeLessThanOrEqual(10);
    expect(size, `${page}, kB`).toBeLessThanOrEqual(110);
  }
  console.log(`first ${(packed(initial) / KB).toFixed(0)} kB; ${sizes.join(', ')} kB`);
});
