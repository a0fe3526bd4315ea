/** What the program runs on: every package's licence goes with MIT, each direct one is in README, and all are pinned. */
import { existsSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

interface Lock {
  readonly packages: Readonly<
    Record<
      string,
      {
        readonly version?: string;
        readonly license?: string;
        readonly dev?: boolean;
        readonly optional?: boolean;
        readonly integrity?: string;
      }
    >
  >;
}

const read = (path: string) => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');
const lock = JSON.parse(read('package-lock.json')) as Lock;
const own = JSON.parse(read('package.json')) as {
  readonly dependencies: Record<string, string>;
  readonly devDependencies: Record<string, string>;
};
const GOES_WITH_MIT = new Set([
  'MIT',
  'ISC',
  '0BSD',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'Apache-2.0',
  'OFL-1.1',
]);

/**
 * MPL-2.0 covers the files it comes in and no others: 3.3 lets a larger work stand under its own licence as long as those
 * files stay under theirs. Packages that run here as they come, unchanged, each by name.
 */
const AS_IT_COMES: ReadonlySet<string> = new Set([
  'node_modules/@resvg/resvg-wasm: MPL-2.0',
  // Its package.json names none; the LICENSE file that comes with it is the MIT licence.
  'node_modules/png-js: none',
]);

/** Packages whose list of facts names no licence, and whose LICENSE file is that of MIT: the file is read below. */
const BY_ITS_FILE: readonly string[] = ['node_modules/png-js'];

test('a package that names no licence has it in its file', () => {
  for (const path of BY_ITS_FILE) expect(read(`${path}/LICENSE`)).toMatch(/^MIT License\s/);
});

test('licences of all packages that the program runs on go with MIT', () => {
  const running = Object.entries(lock.packages).filter(([path, { dev }]) => path !== '' && !dev);
  expect(running.length).toBeGreaterThan(Object.keys(own.dependencies).length - 1);
  const odd = running.flatMap(([path, { license = 'none' }]) => {
    // "(MIT OR WTFPL)": one that goes is enough.
    const any = license.split(/[()\s]+|OR/).some((one) => GOES_WITH_MIT.has(one));
    const line = `${path}: ${license}`;
    const said = license === 'none' && BY_ITS_FILE.includes(path);
    return any || said || AS_IT_COMES.has(line) ? [] : [line];
  });
  expect(odd).toEqual([]);
});

/** The licence that an installed package names: a text, or as old ones do an object or a list of them. */
function named(facts: Readonly<Record<string, unknown>>): string {
  const one = (value: unknown): string =>
    typeof value === 'string' ? value : String((value as { readonly type?: unknown } | null)?.type ?? '');
  const { license, licenses } = facts;
  if (Array.isArray(licenses)) return licenses.map(one).join(' OR ');
  return license === undefined ? 'none' : one(license);
}

test('what is installed names the same licence as what was pinned, package by package', () => {
  let seen = 0;
  const odd: string[] = [];
  for (const [path, { license = 'none', version, dev, optional }] of Object.entries(lock.packages)) {
    if (path === '' || dev) continue;
    if (!existsSync(new URL(`../../${path}/package.json`, import.meta.url))) {
      // Those for other systems are left out by npm.
      if (!optional) odd.push(`${path}: not installed`);
      continue;
    }
    const facts = JSON.parse(read(`${path}/package.json`)) as Record<string, unknown>;
    seen += 1;
    const line = `${path}: ${named(facts)}`;
    if (named(facts) !== license && !AS_IT_COMES.has(line))
      odd.push(`${line}, but ${license} in the lock file`);
    if (facts.version !== version) odd.push(`${path}: ${String(facts.version)} in place of ${version}`);
  }
  expect(odd).toEqual([]);
  expect(seen).toBeGreaterThanOrEqual(Object.keys(own.dependencies).length);
});

test('nothing is installed beside what was pinned', () => {
  const pinned = new Set(Object.keys(lock.packages));
  const installed = JSON.parse(read('node_modules/.package-lock.json')) as Lock;
  expect(Object.keys(installed.packages).filter((path) => !pinned.has(path))).toEqual([]);
});

test('versions are pinned to the letter, and every file that is fetched is known by its hash', () => {
  for (const [name, version] of Object.entries({ ...own.dependencies, ...own.devDependencies }))
    expect([name, version]).toEqual([name, expect.stringMatching(/^\d+\.\d+\.\d+$/)]);
  for (const [path, { integrity, version }] of Object.entries(lock.packages))
    if (path !== '' && version) expect([path, integrity]).toEqual([path, expect.stringMatching(/^sha512-/)]);
});

test('README names each package that the program runs on', () => {
  const text = read('README.md');
  for (const name of Object.keys(own.dependencies)) expect(text).toContain(name);
});
