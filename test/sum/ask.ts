/** Asks a sum and takes its answer apart, for the tests of the sums. */
import { expect } from 'vitest';
import { SUMS } from '../../src/sum/catalogue.ts';
import type { Line, Reckoned, Texts } from '../../src/sum/sum.ts';

export function answer(id: string, texts: Texts): Reckoned {
  const found = SUMS.find((sum) => sum.id === id)!.reckon(texts);
  if (!found.ok) throw new Error(found.faults.map(({ why }) => why).join(' '));
  return found;
}

export function lineOf(found: Reckoned, id: string): Line {
  const hit = found.lines.find((each) => each.id === id);
  if (!hit) throw new Error(`no line ${id}`);
  return hit;
}

/** Figures of a line in one system. */
export function figures(found: Reckoned, id: string, system: 'metric' | 'inch' = 'metric'): number[] {
  return (lineOf(found, id)[system].match(/\d+(\.\d+)?/g) ?? []).map(Number);
}

/** The one sentence a sum is refused with, and the field it stands in. */
export function refusal(id: string, texts: Texts): { readonly field: string | null; readonly why: string } {
  const found = SUMS.find((sum) => sum.id === id)!.reckon(texts);
  if (found.ok) throw new Error('not refused');
  expect(found.faults).toHaveLength(1);
  const [fault] = found.faults;
  expect(fault!.why).toMatch(/[.?]$/);
  return fault!;
}
