import { describe, expect, it } from 'vitest';
import { shorten, textWidth, wrap } from '../../src/draw/measure.ts';
import {
  contrast,
  LETTER_COLOURS,
  standalone,
  standaloneStyle,
  THEMES,
  themeVariables,
} from '../../src/draw/palette.ts';
import { el, letter, num, sheet, svgText } from '../../src/draw/svg.ts';
import { textBoxes } from './sheet-geometry.ts';

describe('svg text', () => {
  it('escapes text and attributes, and replaces what XML forbids', () => {
    const node = el('text', { 'aria-label': 'a "b" <c> & d\n', x: 1 }, ['<script> & "quotes"\u0000\ud800']);
    expect(svgText(node)).toBe(
      '<text aria-label="a &quot;b&quot; &lt;c&gt; &amp; d&#10;" x="1">&lt;script&gt; &amp; "quotes"\ufffd\ufffd</text>',
    );
  });
  it('writes short, exact numbers and refuses what is not a number', () => {
    expect([num(1 / 3), num(-0.001), num(100), num(1e-9), num(123456.789)]).toEqual([
      '0.33',
      '0',
      '100',
      '0',
      '123456.79',
    ]);
    expect(() => num(Number.NaN)).toThrow(/finite, got NaN/);
    expect(() => svgText(el('circle', { r: Number.POSITIVE_INFINITY }))).toThrow(RangeError);
  });
  it('keeps letters on one line, so that no stray space is drawn', () => {
    expect(svgText(el('g', {}, [letter(1, 2, 'a b', { size: 16 })]))).toBe(
      '<g>\n<text x="1" y="2" font-size="16" fill="var(--ink)">a b</text>\n</g>',
    );
  });
  it('carries title and description first, also when written to a file', () => {
    const drawing = sheet('x', 10, 20, 'T', 'D', [el('g')]);
    const file = svgText(standalone(drawing, 'slate'));
    expect(file).toMatch(
      /^<svg [^>]*viewBox="0 0 10 20"[^>]*>\n<title>T<\/title>\n<desc>D<\/desc>\n<style>:root\{--ink:#efe9da/,
    );
    expect(file).not.toContain('var(');
  });
});

describe('themes', () => {
  // WCAG 2.2, 1.4.6: 7:1 for text. Black on white is 21:1 by definition.
  it('measures contrast as WCAG does', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
    expect(contrast('#777777', '#ffffff')).toBeCloseTo(4.478, 2);
    expect(() => contrast('red', '#ffffff')).toThrow(/#rrggbb, got "red"/);
  });
  for (const [name, theme] of Object.entries(THEMES)) {
    it(`${name}: letters stand at 7:1, brass at 4.5:1, and tags the other way round`, () => {
      for (const colour of LETTER_COLOURS)
        expect(contrast(theme[colour], theme.paper), colour).toBeGreaterThanOrEqual(7);
      expect(contrast(theme.brass, theme.paper)).toBeGreaterThanOrEqual(4.5);
    });
  }
  it('writes every colour as a custom property', () => {
    expect(themeVariables('paper')).toBe(
      `--ink:${THEMES.paper.ink};--paper:#f6f1e4;--brass:${THEMES.paper.brass};--teal:${THEMES.paper.teal};--danger:${THEMES.paper.danger};--quiet:${THEMES.paper.quiet}`,
    );
    expect(svgText(standaloneStyle('glare'))).toContain('--ink:#000000');
  });
});

describe('measuring text', () => {
  it('knows wide letters from narrow ones, bold from regular, and the fixed pitch of figures', () => {
    expect(textWidth('mmmm', { size: 10 })).toBeGreaterThan(3 * textWidth('llll', { size: 10 }));
    expect(textWidth('regulator', { size: 10, bold: true })).toBeGreaterThan(
      textWidth('regulator', { size: 10 }),
    );
    expect(textWidth('12610 rpm', { size: 20, figure: true })).toBeCloseTo((9 * 0.65 - 0.2) * 20, 9);
  });
  it('counts the pulled-in point and unit of a figure exactly as they are drawn', () => {
    // Tables: the fixed pitch is 0.65 em; 0.13 + 0.19 em go at the point and 0.2 em before the unit.
    expect(textWidth('12.61 V', { size: 20, figure: true })).toBeCloseTo((7 * 0.65 - 0.52) * 20, 9);
    for (const words of ['12.61 V', '−0.5 mV', '<1\u00a0%', '0.05–0.22 V', 'OL', '5000'])
      for (const size of [16, 20]) {
        const how = { size, figure: true } as const;
        const drawn = el('svg', {}, [letter(0, 0, words, how)]);
        const [box] = textBoxes(drawn);
        expect(box?.what).toBe(words);
        expect(box?.x1, words).toBeCloseTo(textWidth(words, how), 1);
      }
    expect(svgText(letter(0, 0, '12.61 V', { size: 20, figure: true }))).toMatch(
      />12<tspan dx="-2.6">\.<\/tspan><tspan dx="-3.8">61 <\/tspan><tspan dx="-4">V<\/tspan><\/text>$/,
    );
  });
  it('shortens only what does not fit', () => {
    expect(shorten('12.61 V', 100, { size: 10 })).toBe('12.61 V');
    const cut = shorten('a very long reading indeed', 60, { size: 10 });
    expect(cut).toMatch(/^a very.*…$/);
    expect(textWidth(cut, { size: 10 })).toBeLessThanOrEqual(60);
  });
  it('wraps at spaces, keeps a figure with its unit, loses nothing that fits', () => {
    const lines = wrap('a sound bike: 14.1–16.3 V', 110, { size: 10 }, 3);
    expect(lines.join(' ').replaceAll('\u00a0', ' ')).toBe('a sound bike: 14.1–16.3 V');
    expect(lines.at(-1)).toMatch(/16\.3\u00a0V$/);
    for (const line of lines) expect(textWidth(line, { size: 10 })).toBeLessThanOrEqual(110);
    expect(wrap('one two three four five six', 40, { size: 10 }, 2)).toHaveLength(2);
  });
});
