/** Every link of the pages leads somewhere: to a file of the project, and to a heading or mark in it. */
import { existsSync } from 'node:fs';
import { join, posix } from 'node:path';
import { describe, expect, test } from 'vitest';
import { filesUnder, ROOT, read } from '../house/source-files.ts';

const PAGES = [
  ...filesUnder('docs', /\.md$/),
  ...['README.md', 'CONTRIBUTING.md', 'HOUSE.md', 'SECURITY.md', 'CHANGELOG.md'],
];
/** Written by hand, and listed in docs/README.md. */
const LISTED = PAGES.filter((path) => /^docs\/[^/]+\.md$/.test(path) && path !== 'docs/README.md');

/** Names that a link may have behind #: headings as the usual readers of Markdown name them, and marks. */
function anchors(text: string): ReadonlySet<string> {
  const headings = [...text.matchAll(/^#{1,6} (.+)$/gm)].map(([, title]) =>
    title!
      .toLowerCase()
      .replace(/\[([^\]]*)\]\([^)]*\)/g, '$1')
      .replace(/[^\p{L}\p{N}_\- ]/gu, '')
      .replaceAll(' ', '-'),
  );
  const marks = [...text.matchAll(/<a id="([^"]+)">/g)].map(([, id]) => id!);
  return new Set([...headings, ...marks]);
}

function broken(page: string, text: string): readonly string[] {
  const plain = text.replace(/^```[\s\S]*?^```/gm, '').replace(/`[^`\n]*`/g, 'code');
  return [...plain.matchAll(/\]\(([^)\s]+)\)/g)].flatMap(([, link]) => {
    if (/^[a-z]+:/.test(link!)) return [];
    const [path, anchor] = link!.split('#', 2);
    const target = path === '' ? page : posix.normalize(posix.join(posix.dirname(page), path!));
    if (!existsSync(join(ROOT, target))) return [`${page}: ${link} leads nowhere`];
    if (anchor === undefined || anchors(read(target)).has(anchor)) return [];
    return [`${page}: ${link} has no such heading`];
  });
}

describe('links', () => {
  test('lead somewhere', () => {
    expect(PAGES.length).toBeGreaterThan(20);
    expect(PAGES.flatMap((page) => broken(page, read(page)))).toEqual([]);
  });

  test('of the index lead to every page', () => {
    const index = read('docs/README.md');
    expect(LISTED.filter((path) => !index.includes(`](${path.replace('docs/', '')})`))).toEqual([]);
  });

  test('that lead nowhere are found', () => {
    expect(
      broken('docs/way.md', 'see [a](nothing.md) and [b](way.md#nothing) and [c](#measured)'),
    ).toHaveLength(2);
  });
});
