/**
 * What a hypothesis expects of all readings on offer, on one sheet, line after line in the memory. Looked up reading by
 * reading in tables, 230 readings of twenty hypotheses waited longer for their lines, scattered as they lie, than was then
 * done with them.
 */
import type { Asked } from './asked.ts';
import { facing, fitOf, type Member } from './field.ts';
import { UNKNOWNS } from './latent.ts';
import type { Fit } from './line.ts';
import type { Offer } from './outlook.ts';

/** A set, turned to one place, by its own physics or by its faults' put together. */
export interface Speaker {
  readonly member: Member;
  readonly turn: number;
  readonly computed: boolean;
}

/** Packed lines of one hypothesis. */
export interface Sheet {
  /** Where each reading's line begins; −1 before it is written. */
  readonly start: Int32Array;
  /** Whether it was written in full, or at a glance. */
  readonly whole: Uint8Array;
  lines: Float64Array;
  used: number;
}

/** Place of the residual in a packed line, dimensionless; its middle stands first. */
export const RESIDUAL = 1;
/** Place of the chance of "OL" in a packed line, dimensionless. */
export const OPEN = 2;
/** Place of the number of unknowns in a packed line, dimensionless. */
export const COUNT = 3;
/** Place of the first unknown in a packed line, dimensionless: place and slope of each follow each other. */
export const HEAD = 4;
/** Numbers of a packed line at the most, dimensionless. */
export const LONGEST = HEAD + 2 * UNKNOWNS;

/** The place after a line that is packed into `lines` from place `from` on, dimensionless. */
export function pack(
  { middle, residual, open, places, slope }: Fit,
  lines: Float64Array,
  from: number,
): number {
  lines[from] = middle;
  lines[from + RESIDUAL] = residual;
  lines[from + OPEN] = open;
  lines[from + COUNT] = places.length;
  let at = from + HEAD;
  for (const place of places) {
    lines[at++] = place;
    lines[at++] = slope[place]!;
  }
  return at;
}

/** Numbers of a line, as a rule. */
const USUAL = 48;
/** Sheets kept, dimensionless: some 90 kB each. */
const MOST = 160;

export interface Sheets {
  /** The sheet of a hypothesis with the lines of these readings on it; `familiar` says which of them are judged in full. */
  readonly write: (speaker: Speaker, which: readonly number[], familiar: Uint8Array) => Sheet;
}

/** The line of a hypothesis for a reading that may come: in engine states that are not `familiar`, as it looks at a glance. */
export function lineOf({ member, computed }: Speaker, faced: Asked, familiar: boolean): Fit {
  return familiar ? fitOf(member, faced, computed) : member.rough.glance(faced).fit;
}

export function openSheets(offers: readonly Offer[]): Sheets {
  const kept = new Map<Member, Sheet[]>();
  const sheetOf = ({ member, turn, computed }: Speaker): Sheet => {
    let sheets = kept.get(member);
    if (sheets) kept.delete(member);
    else sheets = [];
    // The one used last stands last; the first makes room.
    kept.set(member, sheets);
    if (kept.size > MOST) for (const first of kept.keys()) if (kept.delete(first)) break;
    const at = 2 * turn + (computed ? 1 : 0);
    sheets[at] ??= {
      start: new Int32Array(offers.length).fill(-1),
      whole: new Uint8Array(offers.length),
      lines: new Float64Array(offers.length * USUAL),
      used: 0,
    };
    return sheets[at]!;
  };
  return {
    write: (speaker, which, familiar) => {
      const sheet = sheetOf(speaker);
      for (const n of which) {
        if (sheet.start[n]! >= 0 && sheet.whole[n] === familiar[n]) continue;
        const { asked, phases, key } = offers[n]!;
        if (key.kind === 'visual') continue;
        const faced = facing(speaker.member, speaker.turn, asked, phases);
        const fit = lineOf(speaker, faced, familiar[n] === 1);
        if (sheet.used + LONGEST > sheet.lines.length) {
          const longer = new Float64Array(2 * sheet.lines.length);
          longer.set(sheet.lines);
          sheet.lines = longer;
        }
        sheet.start[n] = sheet.used;
        sheet.whole[n] = familiar[n]!;
        sheet.used = pack(fit, sheet.lines, sheet.used);
      }
      return sheet;
    },
  };
}
