/**
 * Reads a thread the way people write it: "1/4-20", "1/4-20 UNC-2A", `1/4"-28`, "#10-24", "No. 8-32", "1-1/8-12",
 * "M8", "M8x1,25", "M10 × 1 LH", "M10-1.5". What is not in the table is refused with the way out: a pitch and a
 * diameter. What could be two threads is refused with both named.
 */
import { printNumber } from '../units/print.ts';
import { type Refusal, refuse } from './require.ts';
import { INCH, type Thread } from './thread.ts';
import { inchSize, THREADS, threadsOfDiameter } from './thread-table.ts';

export interface ThreadRead {
  readonly ok: true;
  readonly thread: Thread;
  /** Whether "LH" was written with it. */
  readonly leftHand: boolean;
}

function quoted(text: string): string {
  const tidy = text.replace(/[\p{Cc}\s]+/gu, ' ').trim();
  const short = tidy.length > 40 ? `${tidy.slice(0, 39)}…` : tidy;
  return short.includes('"') ? `'${short}'` : `"${short}"`;
}

function names(threads: readonly Thread[], joint: string): string {
  return threads.map(({ name }) => name).join(joint);
}

const ASK = 'give its diameter and its pitch (or threads an inch) instead';

/** One spelling: no quotes, one kind of dash and cross, decimal point, single spaces, upper case. */
function normalise(text: string): string {
  return text
    .normalize('NFKC')
    .replaceAll('\u2044', '/')
    .replace(/[‐-―−]/g, '-')
    .replace(/(\d),(\d)/g, '$1.$2')
    .replace(/["”″]|''/g, ' ')
    .replace(/\b(?:inch|inches|in)\b\.?/gi, ' ')
    .replace(/(?<=[\dcfnab])\s*(?:[×*]|x|by)\s*(?=[\d.])/gi, 'X')
    .toUpperCase()
    .replace(/\s*-\s*/g, '-')
    .replace(/\s+/g, ' ')
    .trim();
}

const LEFT = /[ ,-]*\b(?:LH|L\.H\.?|LEFT[ -]?HAND(?:ED)?)\s*(?:THREAD)?$/;
const RIGHT = /[ ,-]*\b(?:RH|R\.H\.?|RIGHT[ -]?HAND(?:ED)?)\s*(?:THREAD)?$/;
const METRIC =
  /^M ?(\d+(?:\.\d+)?)(?:(X|-)(\d*\.?\d+))?(?: ?MM)?(?: ?PITCH)?(?: ?(COARSE|FINE))?(?:[ -]\d[A-H](?:\d[A-H])?)*$/;
const INCH_THREAD =
  /^(#|NO\.? ?|NR\.? ?|NUMBER )?(\d+[- ]\d+\/\d+|\d+\/\d+|\d*\.\d+|\d+)(?:-(\d+))?(?: ?TPI)?(?:[ -]?(UN[CFS]?|UNEF|UNR[CFS]?|N[CF]))?(?:[ -]?[123][AB])*$/;
const OTHER = /(?:\b|\d)(?:BSW|BSF|BSP[PT]?|BSC|BA|WHIT\w*|NPTF?|CEI)\b|^G ?\d|^RP? ?\d/;

function readMetric(text: string, found: RegExpExecArray): Thread | Refusal {
  const [, size = '', sign, second, word] = found;
  const diameter = Number(size) / 1e3;
  const known = threadsOfDiameter(diameter, 'metric');
  if (second !== undefined) {
    const pitch = Number(second) / 1e3;
    const hit = known.find((thread) => Math.abs(thread.pitch - pitch) < 1e-6);
    if (hit) return hit;
    if (pitch > diameter / 3)
      return refuse(
        `${quoted(text)} names a length of ${second} mm behind the thread: write the thread alone, e.g. ${known[0]?.name ?? 'M8 × 1.25'}.`,
      );
    const near = known.length > 0 ? ` (M${size} is known as ${names(known, ', ')})` : '';
    return refuse(
      `${quoted(text)} is not in the table of threads${near}: correct it, or ${ASK}${sign === undefined ? '' : `, e.g. ${printNumber(Number(size))} mm and ${printNumber(Number(second))} mm`}.`,
    );
  }
  if (known.length === 0)
    return refuse(`${quoted(text)} is not in the table of threads: correct the size, or ${ASK}.`);
  const fine = known.filter(({ series }) => series === 'fine');
  const wanted = word === 'FINE' ? fine : known.filter(({ series }) => series === 'coarse');
  if (wanted.length === 1) return wanted[0]!;
  return refuse(
    `${quoted(text)} can be ${names(wanted.length > 0 ? wanted : fine, ' or ')}: write the pitch with it.`,
  );
}

/** The size in one spelling and its diameter, m. Decimal sizes are looked up by diameter. */
function inchDiameter(numbered: boolean, size: string): number | null {
  const spelt = size.replace(' ', '-');
  if (spelt.includes('.')) return Number(spelt) * INCH;
  if (numbered && spelt.includes('/')) return null;
  // "#1" is a number size, which the table does not hold; "1" is one inch.
  if (numbered && spelt === '1') return null;
  return inchSize(spelt);
}

function readInch(text: string, found: RegExpExecArray): Thread | Refusal {
  const [, sign, size = '', count, series] = found;
  const diameter = inchDiameter(sign !== undefined, size);
  const known = diameter === null ? [] : threadsOfDiameter(diameter, 'inch');
  if (diameter === null || known.length === 0)
    return refuse(`${quoted(text)} is not in the table of threads: correct the size, or ${ASK}.`);
  const letter = series?.replace('R', '');
  const ofSeries = known.filter(
    (thread) =>
      letter === undefined || letter === 'UN' || thread.series === letter || `U${letter}` === thread.series,
  );
  if (count === undefined) {
    if (letter !== undefined && letter !== 'UN' && ofSeries.length === 1) return ofSeries[0]!;
    const usual = known.filter((thread) => thread.series === 'UNC' || thread.series === 'UNF');
    const metric = size.includes('/') || size.includes('.') || sign !== undefined ? '' : ` or M${size}`;
    return refuse(
      `${quoted(text)} names no pitch and can be ${names(usual.length > 0 ? usual : known, ' or ')}${metric}: write the threads an inch with it.`,
    );
  }
  const pitch = INCH / Number(count);
  const hit = known.find((thread) => Math.abs(thread.pitch / pitch - 1) < 1e-9);
  if (!hit)
    return refuse(
      `${quoted(text)} is not in the table of threads (this size is known as ${names(known, ', ')}): correct it, or ${ASK}, e.g. ${printNumber(diameter * 1e3)} mm and ${count} threads an inch.`,
    );
  // UNS is what a book may call any special one, and 1-14 is widely written UNF: the figures decide, except that
  // coarse and fine must not be swapped.
  if ((letter === 'UNC' || letter === 'NC') && hit.series !== 'UNC')
    return refuse(
      `${quoted(text)} contradicts itself, ${hit.name} is not coarse: correct the one or the other.`,
    );
  if ((letter === 'UNF' || letter === 'NF') && hit.series === 'UNC')
    return refuse(
      `${quoted(text)} contradicts itself, ${hit.name} is not fine: correct the one or the other.`,
    );
  return hit;
}

/** A thread with something behind it that can only be the length of the screw. */
const LENGTH_BEHIND =
  /^(.+?[\dA-Z]) ?(?:X|-)(?:\d+(?:[ -]\d+\/\d+|\/\d+)?|\d*\.\d+) ?(?:MM)?(?: (?:LG|LONG))?$/;

function isMetric(thread: Thread, [, diameter, pitch]: RegExpExecArray): boolean {
  const near = (metres: number, millimetres?: string) => Math.abs(metres * 1e3 - Number(millimetres)) < 1e-6;
  return thread.system === 'metric' && near(thread.diameter, diameter) && near(thread.pitch, pitch);
}

/** Reads a thread; refuses with one sentence what is no thread, not in the table, or two of them. */
export function readThread(text: string): ThreadRead | Refusal {
  if (text.length > 100)
    return refuse(
      `The thread is ${text.length} characters long: write only the thread, e.g. 1/4-20 or M8 × 1.25.`,
    );
  const tidy = normalise(text);
  if (tidy === '') return refuse('No thread is entered: write e.g. 1/4-20 UNC or M8 × 1.25.');
  const leftHand = LEFT.test(tidy);
  const bare = tidy
    .replace(LEFT, '')
    .replace(RIGHT, '')
    // "3/8 x 24" is said for 3/8-24; "10 x 32" could as well be an M10 screw of 32 mm.
    .replace(/^((?:\d+[- ])?\d+\/\d+)X(\d{1,2})(?=$| ?U?N)/, '$1-$2')
    .trim();
  if (OTHER.test(bare))
    return refuse(
      `${quoted(text)} is a pipe or Whitworth thread, whose profile is not the 60° one that is reckoned here: take its torque from the book.`,
    );
  const metric = METRIC.exec(bare);
  if (metric) {
    const thread = readMetric(text, metric);
    return 'ok' in thread ? thread : { ok: true, thread, leftHand };
  }
  const inch = INCH_THREAD.exec(bare);
  if (inch) {
    const thread = readInch(text, inch);
    return 'ok' in thread ? thread : { ok: true, thread, leftHand };
  }
  const pair = /^(\d+(?:\.\d+)?)(?:X|-)(\d*\.?\d+)$/.exec(bare);
  const millimetres = pair ? THREADS.find((thread) => isMetric(thread, pair)) : undefined;
  if (millimetres)
    return refuse(`${quoted(text)} is no inch thread: write ${millimetres.name} if that is meant.`);
  const cut = LENGTH_BEHIND.exec(bare);
  const front = cut ? readThread(cut[1]!) : null;
  if (front?.ok)
    return refuse(
      `${quoted(text)} names a length behind the thread: write the thread alone, e.g. ${front.thread.name}.`,
    );
  return refuse(`${quoted(text)} cannot be read as a thread: write e.g. 1/4-20 UNC or M8 × 1.25, or ${ASK}.`);
}
