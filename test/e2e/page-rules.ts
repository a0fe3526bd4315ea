/** Rules that every page must hold: WCAG by axe with enhanced contrast, least sizes of controls, no sideways scrolling. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Breach {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
}

/** Breaches of WCAG 2.2 A and AA and, for contrast, of the enhanced 7:1 (1.4.6). */
export async function breaches(page: Page, coloursOnly: boolean): Promise<string[]> {
  // Playwright evaluates outside the page's content policy, which would refuse a script tag. It stays until the page is loaded anew.
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(AXE);
  const found = await page.evaluate(async (only) => {
    const { axe } = globalThis as unknown as {
      axe: { run: (root: Document, how: unknown) => Promise<{ violations: Breach[] }> };
    };
    const colours = ['color-contrast', 'color-contrast-enhanced'];
    const rules = { 'color-contrast-enhanced': { enabled: true }, 'target-size': { enabled: true } };
    const how = only ? { runOnly: { type: 'rule', values: colours } } : { rules };
    return (await axe.run(document, how)).violations;
  }, coloursOnly);
  // The letters of a drawing are separate texts without spaces or commas between them, so this rule cannot match
  // them with the name; that each name begins with its visible title is held below instead.
  const drawn = (id: string, html: string): boolean =>
    id === 'label-content-name-mismatch' && /data-(member|part)=/.test(html);
  return found.flatMap(({ id, nodes }) =>
    nodes
      .filter((node) => !drawn(id, node.html))
      .map((node) => `${id}: ${node.html} ${node.failureSummary ?? ''}`),
  );
}

export interface Small {
  readonly what: string;
  readonly width: number;
  readonly height: number;
}

/** Visible controls under their least size: 64 px high, keys 80 px both ways. */
export function tooSmall(page: Page): Promise<Small[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('button, a, input, textarea')]
      .filter((control) => control.checkVisibility() && !control.classList.contains('skip'))
      .flatMap((control) => {
        const { width, height } = control.getBoundingClientRect();
        const key = control.classList.contains('key');
        const least = key ? 79.5 : 63.5;
        const small = height < least || (key && width < least);
        return small ? [{ what: control.outerHTML.slice(0, 120), width, height }] : [];
      }),
  );
}

/** How much wider than its window the page is, px; 0 for none. */
export function sideways(page: Page): Promise<number> {
  return page.evaluate(() => {
    const root = document.documentElement;
    return Math.max(0, root.scrollWidth - root.clientWidth);
  });
}
