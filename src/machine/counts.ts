/**
 * Which of several figures counts. The first one named counts, unless another comes from the sheet of a part that
 * is fitted (or about to be): a new part brings its own figures. The sheet of a part that is not on the bike
 * never counts. Every difference is kept, to be reported.
 */
import type { Machine, Part } from './definition.ts';
import type { Quantity } from './figure.ts';

/** The least that a figure holds. */
export interface AnySaid {
  readonly is: unknown;
  readonly from: string;
}
export interface AnyFigure extends AnySaid {
  readonly also: readonly AnySaid[];
}

/** The figure that counts on this bike; `newParts` are parts to be taken as replaced. */
export function counting<F extends AnyFigure>(
  machine: Pick<Machine, 'sources'>,
  figure: F,
  newParts: readonly Part[] = [],
): F | F['also'][number] {
  const applies = (said: AnySaid): boolean | null => {
    const source = machine.sources[said.from];
    if (source?.kind !== 'part-sheet') return null;
    return source.fitted || newParts.includes(source.for);
  };
  const said = [figure, ...figure.also];
  return said.find((one) => applies(one) === true) ?? said.find((one) => applies(one) === null) ?? figure;
}

/** A figure's value as text, for people. */
export function writeSaid(said: AnySaid): string {
  const is = said.is;
  if (typeof is === 'object' && is !== null && 'text' in is) return (is as Quantity).text;
  return String(is);
}

/** Whether two values are the same: quantities by what they mean, not by how they are written. */
export function sameValue(a: AnySaid, b: AnySaid): boolean {
  return JSON.stringify(a, skipWords) === JSON.stringify(b, skipWords);
}

function skipWords(key: string, value: unknown): unknown {
  return key === 'text' ||
    key === 'from' ||
    key === 'page' ||
    key === 'date' ||
    key === 'note' ||
    key === 'also'
    ? undefined
    : value;
}

/** Every figure of the charging section with its path. */
export function eachFigure(
  machine: Machine,
): readonly { readonly path: string; readonly figure: AnyFigure }[] {
  const out: { path: string; figure: AnyFigure }[] = [];
  const walk = (value: unknown, path: string): void => {
    if (typeof value !== 'object' || value === null) return;
    if (Array.isArray(value)) {
      for (const [n, item] of value.entries()) walk(item, `${path}[${n}]`);
      return;
    }
    if ('is' in value && 'from' in value && 'also' in value) {
      out.push({ path, figure: value as unknown as AnyFigure });
      return;
    }
    for (const [key, inner] of Object.entries(value)) walk(inner, `${path}.${key}`);
  };
  walk(machine.charging, '$.charging');
  return out;
}
