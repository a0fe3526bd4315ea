/** The project stands alone: no file names a package registry or a path of somebody's computer. */
import { describe, expect, test } from 'vitest';
import { filesUnder, read } from './source-files.ts';

// Put together from pieces, so that this file does not break its own rule.
const HOSTS = [
  ['registry.npmjs', 'org'],
  ['npmjs', 'com'],
  ['registry.yarnpkg', 'com'],
  ['jsr', 'io'],
  ['pypi', 'org'],
  ['pythonhosted', 'org'],
  ['crates', 'io'],
  ['rubygems', 'org'],
  ['proxy.golang', 'org'],
  ['deb.debian', 'org'],
  ['archive.ubuntu', 'com'],
  ['unpkg', 'com'],
  ['cdn.jsdelivr', 'net'],
  ['esm', 'sh'],
  ['npm.pkg.github', 'com'],
].map((parts) => parts.join('.'));
const HOST = new RegExp(
  `(?<![\\w-])(?:${HOSTS.map((host) => host.replaceAll('.', '\\.')).join('|')})(?![\\w-])`,
  'i',
);
const FOLDERS = ['work', 'home', 'root', 'Users', 'tmp', 'mnt', 'workspace'];
const MACHINE_PATH = new RegExp(
  `(?<![\\w./:*-])(?:/(?:${FOLDERS.join('|')})/[\\w.-]|[A-Z]:\\\\{1,2}(?:Users|Program|Windows))`,
);

function places(path: string, text: string): readonly string[] {
  return text.split('\n').flatMap((line, index) => {
    const found = HOST.exec(line)?.[0] ?? MACHINE_PATH.exec(line)?.[0];
    return found ? [`${path}:${index + 1} names "${found}"`] : [];
  });
}

const TEXT = /\.(ts|tsx|mjs|cjs|js|json|css|html|md|svg|yml|yaml|sh|py|cir)$/;
const pages = filesUnder('.', /^[^.].*\.(md|ts|json)$/).filter(
  (path) => !path.includes('/') && path !== 'package-lock.json',
);
const files = [
  ...['src', 'test', 'docs', 'scripts', 'schema', 'machines', '.ci'].flatMap((folder) =>
    filesUnder(folder, TEXT),
  ),
  ...pages,
];

test('there are files to look at', () => {
  expect(files.length).toBeGreaterThan(80);
  expect(files).toContain('HOUSE.md');
});

test('no file names a registry or a path of a computer', () => {
  expect(files.flatMap((file) => places(file, read(file)))).toEqual([]);
});

describe('the rule finds', () => {
  test.each([
    `fetch('https://${HOSTS[0]}/preact')`,
    `see ${HOSTS[4]}`,
    `const path = '/${FOLDERS[1]}/me/bike.json';`,
    `"/${FOLDERS[0]}/main"`,
    `cd /${FOLDERS[4]}/x`,
    `C:${'\\'}Users`,
  ])('%s', (line) => {
    expect(places('a.ts', line)).toHaveLength(1);
  });

  test.each([
    "import a from '../work/a.ts';",
    "app.get('/jobs/:job')",
    'https://example.org/home/page',
    'N·m/rad',
    'src/root/a.ts',
    'a: Bike',
  ])('nothing in %s', (line) => {
    expect(places('a.ts', line)).toEqual([]);
  });
});
