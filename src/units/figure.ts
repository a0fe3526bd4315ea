/** Reads one figure: 5/8, 1-5/8, 1 5/8, 14.2, 14,2, 1,234.5, 1.234,5, 12 345, .5, 2.5e-3. */
import { compare, decimal, negate, plus, type Rational, rational } from './rational.ts';

export interface Figure {
  readonly value: Rational;
  /** As understood, in one spelling: decimal point, no grouping, minus sign proper. */
  readonly text: string;
  /** Where the text goes on after the figure, index. */
  readonly end: number;
  readonly form: 'decimal' | 'fraction' | 'mixed';
}

/** Why a figure was not read: nothing like one, two readings, a broken one, or a division by nought. */
export type NoFigure =
  | { readonly fault: 'none' }
  | { readonly fault: 'two-readings'; readonly written: string; readonly readings: readonly [string, string] }
  | { readonly fault: 'broken'; readonly written: string }
  | { readonly fault: 'nought-below'; readonly written: string };

const SIGN = /[+-]?/y;
const MIXED = /(\d+)(-| )(\d+) ?\/ ?(\d+)(?![\d.,]*\d)/y;
const FRACTION = /(\d+) ?\/ ?(\d+)(?![\d.,]*\d)/y;
const SPACED = /\d{1,3}(?: \d{3})+(?:[.,]\d+)?(?! ?\/|[\d.,]*\d)/y;
const PLAIN = /(?:\d+(?:[.,]\d+)*|[.,]\d+)/y;
const TRAILING_POINT = /\.(?![.\d])/y;
const EXPONENT = /[eE]([+-]?\d{1,3})(?!\d)/y;

function match(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
  pattern.lastIndex = at;
  return pattern.exec(text);
}

/** The digits between separators, checked as groups of thousands. */
function grouped(groups: readonly string[]): boolean {
  const [first = '', ...rest] = groups;
  return /^[1-9]\d{0,2}$/.test(first) && rest.length > 0 && rest.every((group) => group.length === 3);
}

/** Decimal text of a figure with points and commas, or what stands in the way. */
function settle(written: string): string | NoFigure {
  const commas = written.split(',').length - 1;
  const points = written.split('.').length - 1;
  if (commas === 0 && points <= 1) return written;
  if (commas === 1 && points === 0) {
    const [before = '', after = ''] = written.split(',');
    if (grouped([before, after])) {
      return { fault: 'two-readings', written, readings: [`${before}.${after}`, before + after] };
    }
    return `${before}.${after}`;
  }
  if (commas === 0 || points === 0) {
    const groups = written.split(/[.,]/);
    return grouped(groups) ? groups.join('') : { fault: 'broken', written };
  }
  // Both signs: the last one is the decimal sign and stands once, the other groups thousands.
  const last = Math.max(written.lastIndexOf(','), written.lastIndexOf('.'));
  const whole = written.slice(0, last);
  const groups = whole.split(written[last] === ',' ? '.' : ',');
  return grouped(groups) ? `${groups.join('')}.${written.slice(last + 1)}` : { fault: 'broken', written };
}

function signed(negative: boolean, figure: Figure): Figure {
  return negative ? { ...figure, value: negate(figure.value), text: `−${figure.text}` } : figure;
}

function readDecimal(text: string, at: number): Figure | NoFigure {
  const spaced = match(SPACED, text, at);
  const plain = spaced ?? match(PLAIN, text, at);
  if (!plain) return { fault: 'none' };
  let end = at + plain[0].length;
  // With thousands already grouped by spaces, a comma can only be the decimal sign.
  const settled = spaced ? plain[0].replaceAll(' ', '').replace(',', '.') : settle(plain[0]);
  if (typeof settled !== 'string') return settled;
  if (/^\d+$/.test(settled) && match(TRAILING_POINT, text, end)) end += 1;
  const exponent = match(EXPONENT, text, end);
  if (exponent) end += exponent[0].length;
  const canonical =
    (settled.startsWith('.') ? `0${settled}` : settled) + (exponent ? `e${Number(exponent[1])}` : '');
  return { value: decimal(canonical), text: canonical, end, form: 'decimal' };
}

/** Reads the figure that starts at `at` of a normalised text. */
export function readFigure(text: string, at: number): Figure | NoFigure {
  const sign = match(SIGN, text, at)?.[0] ?? '';
  // "–5 °C" and "- 5": some keyboards make a leading hyphen a dash, some people put a space behind it.
  const lead = sign === '' && text[at] === '–' ? '–' : sign;
  let start = at + lead.length;
  if (lead !== '' && text[start] === ' ') start += 1;
  const negative = lead === '-' || lead === '–';

  const mixed = match(MIXED, text, start);
  if (mixed) {
    const [written, whole = '', joint, top = '', bottom = ''] = mixed;
    const end = start + written.length;
    if (BigInt(bottom) === 0n) return { fault: 'nought-below', written };
    const part = rational(BigInt(top), BigInt(bottom));
    const proper = compare(part, rational(1n)) < 0;
    // "1-5/8" is one and five eighths: as a range it would fall. "0-5/8" and "1-3/2" can only be ranges.
    if (joint === ' ' && !proper) return { fault: 'broken', written };
    if (joint === ' ' || (proper && BigInt(whole) > 0n)) {
      const value = plus(rational(BigInt(whole)), part);
      return signed(negative, {
        value,
        text: `${BigInt(whole)} ${BigInt(top)}/${BigInt(bottom)}`,
        end,
        form: 'mixed',
      });
    }
  }
  const fraction = match(FRACTION, text, start);
  if (fraction) {
    const [written, top = '', bottom = ''] = fraction;
    if (BigInt(bottom) === 0n) return { fault: 'nought-below', written };
    const value = rational(BigInt(top), BigInt(bottom));
    const text = `${BigInt(top)}/${BigInt(bottom)}`;
    return signed(negative, { value, text, end: start + written.length, form: 'fraction' });
  }
  const figure = readDecimal(text, start);
  return 'fault' in figure ? figure : signed(negative, figure);
}
