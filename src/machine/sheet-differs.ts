/** Where the sheet of a new part counts and others say something else: both are told, wherever its figures are used. */
import { type AnyFigure, counting, eachFigure, sameValue, writeSaid } from './counts.ts';
import type { Fastener, Machine, Part } from './definition.ts';

export interface SheetDiffers {
  /** "regulator, charge volts"; "stator screws: torque". */
  readonly name: string;
  readonly of: 'charging' | 'fastener';
  /** What counts: "14.2–14.8 V". */
  readonly counts: string;
  /** The sheet that says so. */
  readonly from: string;
  /** What others say: "14.1–14.9 V (Owner's book)". */
  readonly others: readonly string[];
}

const OF_FASTENER = ['torque', 'locker', 'condition', 'reuse'] as const satisfies readonly (keyof Fastener)[];

/** Every such figure, with these parts new; empty where no sheet counts or all say the same. */
export function sheetDiffers(machine: Machine, newParts: readonly Part[]): readonly SheetDiffers[] {
  const fasteners = Object.values(machine.fasteners ?? {}).flatMap((fastener) =>
    OF_FASTENER.flatMap((member) => {
      const figure = fastener[member] as AnyFigure | null;
      const name = `${fastener.name}: ${member === 'condition' ? 'threads' : member}`;
      return figure === null ? [] : [{ name, of: 'fastener' as const, figure }];
    }),
  );
  const charging = eachFigure(machine).map(({ path, figure }) => ({
    name: pathWords(path),
    of: 'charging' as const,
    figure,
  }));
  const titleOf = (from: string) => machine.sources[from]?.title ?? from;
  return [...charging, ...fasteners].flatMap(({ name, of, figure }) => {
    const counts = counting(machine, figure, newParts);
    if (machine.sources[counts.from]?.kind !== 'part-sheet') return [];
    const others = [figure, ...figure.also]
      .filter((one) => one !== counts && !sameValue(one, counts))
      .map((one) => `${writeSaid(one)} (${titleOf(one.from)})`);
    return others.length === 0
      ? []
      : [{ name, of, counts: writeSaid(counts), from: titleOf(counts.from), others }];
  });
}

/** Paths of the machine file as people would say them: "$.charging.alternator.pairOhms" is "alternator, pair ohms". */
function pathWords(path: string): string {
  return path
    .replace(/^\$\.charging\./, '')
    .split('.')
    .map((word) => word.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase())
    .join(', ');
}
