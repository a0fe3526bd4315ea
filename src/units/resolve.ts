/** Gives an entry its units and turns it into exact SI ends, or says why it cannot be. */
import type { Entry, Piece } from './entry.ts';
import { unitsWanted } from './find-unit.ts';
import type { Kind } from './kind.ts';
import { squeeze } from './normalise.ts';
import { withUnit } from './print.ts';
import { exactSi } from './quantity.ts';
import { compare, minus, negate, over, plus, type Rational, rational, times } from './rational.ts';
import * as say from './refuse.ts';
import { unitNamed } from './table.ts';
import type { Unit } from './unit.ts';

export type No = { readonly ok: false; readonly why: string };
/** An end of a reading: its exact SI value, as understood in words, and the unit it was given in. */
export interface End {
  readonly si: Rational;
  readonly text: string;
  readonly unit: Unit;
}
export interface Reading {
  readonly low: End;
  readonly high: End;
  readonly text: string;
  readonly joint: Entry['joint'];
}

const NOUGHT = rational(0n);
const PERCENT = /^(%|percent|pct)$/i;
/** Pairs that are written one after the other. */
const COMPOUNDS: Readonly<Record<string, string>> = { ft: 'in', h: 'min', min: 's', lb: 'oz', days: 'h' };

export function no(why: string): No {
  return { ok: false, why };
}

function findUnit(text: string, written: string, kind: Kind, fallback: string | undefined): Unit | No {
  if (written === '')
    return fallback === undefined ? no(say.missingUnit(text, kind)) : unitNamed(kind, fallback);
  const found = unitsWanted(kind, written);
  if (found.length === 1) return found[0]!;
  if (found.length > 1)
    return no(
      say.ambiguousSymbol(
        text,
        written,
        found.map((unit) => unit.id),
      ),
    );
  return no(say.unknownUnit(text, written, kind));
}

function endOf(piece: Piece, unit: Unit): End {
  return { si: exactSi(piece.figure.value, unit), text: withUnit(piece.figure.text, unit.id), unit };
}

function readCompound(
  text: string,
  first: Piece,
  second: Piece,
  kind: Kind,
  fallback: string | undefined,
): Reading | No {
  const major = findUnit(text, first.unit, kind, undefined);
  if ('ok' in major) return major;
  const minor = second.unit === '' ? no(say.badCompound(text)) : findUnit(text, second.unit, kind, fallback);
  if ('ok' in minor) return minor;
  const { figure } = second;
  const whole = first.figure.form === 'decimal' && first.figure.value.den === 1n;
  const fits =
    compare(figure.value, over(major.factor, minor.factor)) < 0 && compare(figure.value, NOUGHT) >= 0;
  if (COMPOUNDS[major.id] !== minor.id || !whole || !fits) return no(say.badCompound(text));
  const small = times(figure.value, minor.factor);
  const large = times(first.figure.value, major.factor);
  const negative = first.figure.text.startsWith('−');
  const both = `${withUnit(first.figure.text, major.id)} ${withUnit(figure.text, minor.id)}`;
  const end = { si: plus(large, negative ? negate(small) : small), text: both, unit: major };
  return { low: end, high: end, text: both, joint: 'compound' };
}

function readTolerance(
  text: string,
  first: Piece,
  second: Piece,
  kind: Kind,
  fallback: string | undefined,
): Reading | No {
  const percent = PERCENT.test(squeeze(second.unit)) && kind !== 'ratio';
  // "1.2 ± 0.1 mm": the unit behind the tolerance serves both. "12 ± 5 %" still needs one for the 12.
  const shared = first.unit === '' && !percent ? second.unit : first.unit;
  const unit = findUnit(text, shared, kind, fallback);
  if ('ok' in unit) return unit;
  const amount = second.figure.value;
  if (compare(amount, NOUGHT) < 0)
    return no(say.badTolerance(text, 'it is below nought; write it without a minus'));
  const nominal = endOf(first, unit);
  let size: Rational;
  let spread: string;
  if (percent) {
    if (kind === 'temperature') return no(say.badTolerance(text, 'write it in degrees, as in 20 °C ± 5 °C'));
    const share = times(nominal.si, times(amount, rational(1n, 100n)));
    size = compare(share, NOUGHT) < 0 ? negate(share) : share;
    spread = `${nominal.text} ± ${withUnit(second.figure.text, '%')}`;
  } else {
    if (first.unit !== '' && second.unit === '') {
      const figure = second.figure.text;
      return no(
        say.badTolerance(text, `it can be ±${withUnit(figure, unit.id)} or ±${figure} %; write which`),
      );
    }
    // Between temperatures only a difference makes sense: ± 5 °C is ± 5 K, wherever nought lies.
    const own = second.unit === '' ? unit : findUnit(text, second.unit, kind, fallback);
    if ('ok' in own) return own;
    size = times(amount, own.factor);
    const tail = withUnit(second.figure.text, own.id);
    spread = own === unit ? `${first.figure.text} ± ${tail}` : `${nominal.text} ± ${tail}`;
  }
  const low = { ...nominal, si: minus(nominal.si, size) };
  return { low, high: { ...nominal, si: plus(nominal.si, size) }, text: spread, joint: 'tolerance' };
}

function readRange(
  text: string,
  entry: Entry,
  second: Piece,
  kind: Kind,
  fallback: string | undefined,
): Reading | No {
  const { first } = entry;
  const threadPitch =
    second.figure.form === 'decimal' && second.unit === '' && compare(second.figure.value, rational(4n)) >= 0;
  if (
    kind === 'length' &&
    first.figure.form === 'fraction' &&
    first.unit === '' &&
    threadPitch &&
    !entry.dashed
  ) {
    return no(say.threadLike(text));
  }
  const highUnit = findUnit(text, second.unit, kind, first.unit === '' ? fallback : undefined);
  if ('ok' in highUnit) {
    if (first.unit === '' || second.unit !== '') return highUnit;
    const firstUnit = findUnit(text, first.unit, kind, undefined);
    return 'ok' in firstUnit ? firstUnit : no(say.unitOnLowOnly(text, firstUnit.id));
  }
  const lowUnit = first.unit === '' ? highUnit : findUnit(text, first.unit, kind, undefined);
  if ('ok' in lowUnit) return lowUnit;
  const low = endOf(first, lowUnit);
  const high = endOf(second, highUnit);
  const same = lowUnit === highUnit;
  if (compare(low.si, high.si) > 0) {
    const mixable = second.figure.form === 'fraction' && compare(second.figure.value, rational(1n)) < 0;
    if (first.unit === '' && first.figure.form === 'decimal' && mixable) {
      return no(say.mixedOrRange(text, first.figure.text, second.figure.text, highUnit.id));
    }
    const turned = same
      ? withUnit(`${second.figure.text}–${first.figure.text}`, highUnit.id)
      : `${high.text} to ${low.text}`;
    return no(say.falling(text, same ? first.figure.text : low.text, high.text, turned));
  }
  const dash = first.figure.text.startsWith('−') || second.figure.text.startsWith('−') ? ' to ' : '–';
  const written = same
    ? withUnit(first.figure.text + dash + second.figure.text, highUnit.id)
    : low.text + dash + high.text;
  return { low, high, text: written, joint: 'range' };
}

/** Reads an entry as a quantity or range of a kind; `fallback` is the unit of a bare figure. */
export function resolve(text: string, entry: Entry, kind: Kind, fallback: string | undefined): Reading | No {
  const { first, second, joint } = entry;
  if (!second) {
    const unit = findUnit(text, first.unit, kind, fallback);
    if ('ok' in unit) return unit;
    const end = endOf(first, unit);
    return { low: end, high: end, text: end.text, joint: null };
  }
  if (joint === 'compound') return readCompound(text, first, second, kind, fallback);
  if (joint === 'tolerance') return readTolerance(text, first, second, kind, fallback);
  return readRange(text, entry, second, kind, fallback);
}
