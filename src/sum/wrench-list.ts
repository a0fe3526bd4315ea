/** Reads the torque wrenches at hand: one a line, its name, its range, its length, and what its sheet says of its error. */

import type { Wrench } from '../joint/wrench-plan.ts';
import type { Scale } from '../joint/wrench-scale.ts';
import { parseQuantity, parseRange } from '../units/parse.ts';
import { inUnit } from '../units/quantity.ts';
import { type Entries, withExample } from './entries.ts';

export const WRENCH_EXAMPLE = 'small: 20–200 lbf·in, 9 in, 4 %; large: 40–200 N·m, 450 mm';
const MOST_WRENCHES = 12;
const MOST_TORQUE = 5000;
/** Marks closer than this share of full scale are no marks of a hand tool. */
const LEAST_STEP = 1e-4;
const UNITS = ['mN·m', 'N·m', 'lbf·ft', 'lbf·in', 'kgf·m', 'kgf·cm'] as const;

type Part =
  | { readonly is: 'range'; readonly low: number; readonly high: number }
  | { readonly is: 'length'; readonly value: number }
  | { readonly is: 'accuracy'; readonly value: number }
  | { readonly is: 'step'; readonly value: number; readonly unit: Scale['unit'] }
  | { readonly is: 'wrong'; readonly why: string };

function readPart(text: string): Part {
  const step = /^(?:steps?|marks?)(?:\s+(?:of|every))?\s+(.*)$/i.exec(text);
  if (step) {
    const found = parseQuantity(step[1]!, 'torque');
    if (!found.ok) return { is: 'wrong', why: withExample(found.why, 'step 1 lbf·in') };
    const written = found.echo.split(' = ')[0]!;
    const unit = UNITS.find((each) => written.endsWith(` ${each}`)) ?? 'N·m';
    return found.value.si > 0
      ? { is: 'step', value: found.value.si, unit }
      : { is: 'wrong', why: `"${text}" is no step: it must be above 0.` };
  }
  if (/%$/.test(text)) {
    const found = parseQuantity(text.replace(/^(?:±|\+\/?-)\s*/, ''), 'ratio');
    if (!found.ok) return { is: 'wrong', why: withExample(found.why, '4 %') };
    return found.value.si >= 0.001 && found.value.si <= 0.25
      ? { is: 'accuracy', value: found.value.si }
      : { is: 'wrong', why: `"${text}" is no error of a torque wrench: 0.1 % to 25 % is read, either way.` };
  }
  const torque = parseRange(text, 'torque');
  if (torque.ok) {
    const [low, high] = [torque.value.low.si, torque.value.high.si];
    if (high > MOST_TORQUE || high <= 0)
      return {
        is: 'wrong',
        why: `"${text}" is no range of a torque wrench: check the figure and its unit.`,
      };
    return { is: 'range', low: low === high ? 0 : low, high };
  }
  const length = parseQuantity(text, 'length');
  if (length.ok)
    return length.value.si >= 0.02 && length.value.si <= 5
      ? { is: 'length', value: length.value.si }
      : {
          is: 'wrong',
          why: `"${text}" is no length of a wrench: measure from the middle of the grip to the drive.`,
        };
  if (/^[\d\s.,/–-]+$/.test(text))
    return {
      is: 'wrong',
      why: `"${text}" has no unit: write e.g. 20–200 lbf·in for its range or 9 in for its length.`,
    };
  return {
    is: 'wrong',
    why: `"${text.slice(0, 40)}" is neither a range with its unit, a length, an error in % nor a step: write e.g. small: 20–200 lbf·in, 9 in, 4 %.`,
  };
}

function readWrench(text: string, index: number): Wrench | string {
  const named = /^([^:]*):(.*)$/s.exec(text);
  const name = named?.[1]?.trim().slice(0, 30) || `wrench ${index + 1}`;
  const parts = (named?.[2] ?? text)
    .split(/,(?=\s|$)|(?<=[^\d\s.]),/)
    .map((part) => part.trim())
    .filter(Boolean)
    .map(readPart);
  const wrong = parts.find((part) => part.is === 'wrong');
  if (wrong?.is === 'wrong') return `${name}: ${wrong.why}`;
  const [ranges, lengths, errors, steps] = [
    parts.filter((part) => part.is === 'range'),
    parts.filter((part) => part.is === 'length'),
    parts.filter((part) => part.is === 'accuracy'),
    parts.filter((part) => part.is === 'step'),
  ];
  if (ranges.length === 0)
    return `${name} has no range: write the first and last figure of its scale, e.g. 20–200 lbf·in.`;
  if (parts.length !== new Set(parts.map(({ is }) => is)).size)
    return `${name} has one entry twice: give its range, its length, its error and its step once each, and start a new line for another wrench.`;
  const { low, high } = ranges[0]!;
  const [step] = steps;
  if (step && (step.value > high - low || step.value < high * LEAST_STEP))
    return `${name}: a step of that size does not go with its range: check both.`;
  return {
    name,
    fullScale: high,
    lowest: low,
    ...(lengths[0] ? { length: lengths[0].value } : {}),
    ...(errors[0] ? { accuracy: errors[0].value } : {}),
    ...(step ? { scales: [scaleOf(low, high, step)] } : {}),
  };
}

function scaleOf(low: number, high: number, step: { value: number; unit: Scale['unit'] }): Scale {
  const figure = (si: number) => Number(inUnit({ kind: 'torque', si }, step.unit).toPrecision(9));
  return { unit: step.unit, low: figure(low), high: figure(high), step: figure(step.value) };
}

/** The wrenches in a field; null where it is empty or refused. */
export function readWrenches(read: Entries, id: string): readonly Wrench[] | null {
  if (read.empty(id)) return null;
  const rows = read
    .text(id)
    .split(/[;\n]/)
    .map((row) => row.trim())
    .filter(Boolean);
  if (rows.length > MOST_WRENCHES)
    return read.blame(id, `these are ${rows.length} wrenches, and at most ${MOST_WRENCHES} are read.`);
  const wrenches: Wrench[] = [];
  for (const [index, row] of rows.entries()) {
    const found = readWrench(row, index);
    if (typeof found === 'string') return read.blame(id, found);
    if (wrenches.some(({ name }) => name === found.name))
      return read.blame(id, `two wrenches are called ${found.name}: give each its own name.`);
    wrenches.push(found);
  }
  return wrenches.length > 0
    ? wrenches
    : read.blame(id, `it holds no wrench: write one a line, e.g. ${WRENCH_EXAMPLE}.`);
}
