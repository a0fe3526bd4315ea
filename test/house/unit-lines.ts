/**
 * The rule about units, exact enough for a machine:
 * an exported quantity is an exported function declared to return `number` (alone, or with null or undefined), an
 * exported arrow function declared so, or an exported const that is annotated `number` or starts with a figure.
 * The first line of its doc comment holds a comma and then its unit, ended by the line or by one of . : ; , ( –:
 * "Load conductance in a state, S." A unit is a symbol or word of the list below, or such joined by · / "per" or
 * a space; a figure without unit says so ("dimensionless", "1", "no unit"); a range of pure numbers ("0–1") counts
 * as one; where the caller chooses the unit the line says which ("in that unit", "in the kind's unit").
 */
import { KINDS } from '../../src/units/kind.ts';
import { unitsOf } from '../../src/units/table.ts';
import { lineAt, mask } from './source-files.ts';

const SYMBOLS = Object.keys(KINDS).flatMap((kind) =>
  unitsOf(kind as keyof typeof KINDS).map((unit) => unit.id),
);
const WORDS = [
  'dimensionless',
  'no unit',
  'relative',
  'rms',
  'peak',
  'bytes',
  'characters',
  'lines',
  'px',
  'pt',
  'rem',
  'bits',
  'nats',
  'index',
  'SG',
  'count',
  'minutes',
  'hours',
  'seconds',
  'degrees',
  'decades',
  'Wb',
  'T',
  'Ah',
  'VA',
  'Np',
  'dB',
];
const escaped = [...SYMBOLS, ...WORDS]
  .sort((a, b) => b.length - a.length)
  .map((word) => word.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
const ONE = `(?:(?:${escaped.join('|')})[²³⁻¹]*)`;
const RANGE = '[−-]?\\d+(?:\\.\\d+)?\\s?(?:–|to)\\s?[−-]?\\d+(?:\\.\\d+)?';
const CHOSEN = 'in (?:that|its|the|each)\\b[^.,;:]*\\bunits?\\b[^.,;:]*|in the unit\\b[^.,;:]*';
const UNIT_IN_LINE = new RegExp(
  `, (?:${ONE}(?:(?:·|\\/| per | )${ONE})*|${RANGE}|${CHOSEN})(?=$|[.:;,]| [(–]| or )`,
  'u',
);

/** Whether a doc line carries a unit. */
export function carriesUnit(line: string): boolean {
  return UNIT_IN_LINE.test(line);
}

export interface ExportedQuantity {
  readonly name: string;
  readonly line: number;
  /** First line of its doc comment; null without one. */
  readonly doc: string | null;
}

/** Index just past the bracket that closes the one at `open`. */
function past(masked: string, open: number): number {
  const pairs: Readonly<Record<string, string>> = { '(': ')', '<': '>' };
  const [left, right] = [masked[open]!, pairs[masked[open]!]!];
  let depth = 0;
  for (let i = open; i < masked.length; i++) {
    if (masked[i] === left) depth += 1;
    // The ">" of an arrow closes nothing.
    else if (masked[i] === right && !(right === '>' && masked[i - 1] === '=')) depth -= 1;
    if (depth === 0) return i + 1;
  }
  return masked.length;
}

/** Declared return type after the parameters that start at `at`; '' when none is declared. */
function returned(masked: string, at: number): string {
  let next = at;
  while (masked[next] === ' ') next += 1;
  if (masked[next] === '<') next = past(masked, next);
  if (masked[next] !== '(') return '';
  const after = masked.slice(past(masked, next));
  return /^\s*:\s*([^{=;]+?)\s*(?:\{|=>|;)/.exec(after)?.[1] ?? '';
}

const NUMBER = /^(?:number|number\s*\|\s*(?:null|undefined)|(?:null|undefined)\s*\|\s*number)$/;
const FIGURE = /^[-+]?\s*\(?\s*(?:\d|\.\d|Math\s*\.)/;

function firstDocLine(source: string, before: number): string | null {
  const head = source.slice(0, before).trimEnd();
  if (!head.endsWith('*/')) return null;
  const open = head.lastIndexOf('/*');
  if (!head.startsWith('/**', open)) return null;
  const lines = head
    .slice(open + 3, -2)
    .split('\n')
    .map((line) => line.replace(/^\s*\*?\s?/, '').trim());
  return lines.find((line) => line !== '') ?? '';
}

/** Every exported quantity of a source file. */
export function exportedQuantities(source: string): readonly ExportedQuantity[] {
  const masked = mask(source);
  const found: ExportedQuantity[] = [];
  const add = (name: string, index: number) =>
    found.push({ name, line: lineAt(source, index), doc: firstDocLine(source, index) });
  for (const match of masked.matchAll(/^export\s+(?:async\s+)?function\s+(\w+)/gm)) {
    if (NUMBER.test(returned(masked, match.index + match[0].length))) add(match[1]!, match.index);
  }
  for (const match of masked.matchAll(/^export\s+const\s+(\w+)\s*(?::\s*([^=]+?))?\s*=(?!>)\s*/gm)) {
    const rest = masked.slice(match.index + match[0].length);
    const arrow =
      /^(?:async\s+)?[(<]/.test(rest) && NUMBER.test(returned(rest, 0)) && !/^\([^)]*\)\s*[-+*/;]/.test(rest);
    if (NUMBER.test(match[2] ?? '') || arrow || (match[2] === undefined && FIGURE.test(rest)))
      add(match[1]!, match.index);
  }
  return found.sort((a, b) => a.line - b.line);
}

/** What breaks the rule in a file: one sentence each. */
export function withoutUnit(path: string, source: string): readonly string[] {
  return exportedQuantities(source)
    .filter(({ doc }) => doc === null || !carriesUnit(doc))
    .map(
      ({ name, line, doc }) =>
        `${path}:${line} ${name} ${doc === null ? 'has no doc comment' : `has no unit in "${doc}"`}`,
    );
}
