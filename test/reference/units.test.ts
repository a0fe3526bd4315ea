/**
 * The unit table against the world outside: the factors of NIST SP 811 (2008), Appendix B, and the UCUM library
 * `@lhncbc/ucum-lhc` on 10,000 seeded values. Where UCUM itself carries a rounded factor the size of its error is
 * stated and tested, so that neither side's error hides in a loose tolerance.
 */
import ucumPackage from '@lhncbc/ucum-lhc';
import { describe, expect, test } from 'vitest';
import { KINDS, type Kind } from '../../src/units/kind.ts';
import { parseQuantity } from '../../src/units/parse.ts';
import { inUnit, type Quantity, quantity } from '../../src/units/quantity.ts';
import { decimal, over, type Rational, rational, times, toNumber } from '../../src/units/rational.ts';
import { UNITS, unitNamed, unitsOf } from '../../src/units/table.ts';

const ucum = ucumPackage.UcumLhcUtils.getInstance();

function convertByUcum(from: string, value: number, to: string): number {
  const result = ucum.convertUnitTo(from, value, to);
  if (result.status !== 'succeeded') throw new Error(`UCUM refuses ${from} → ${to}: ${result.msg.join(' ')}`);
  return result.toVal;
}

/** Exact factor from one unit to another, for units with a common nought. */
function exactFactor(kind: Kind, from: string, to: string): Rational {
  return over(unitNamed(kind, from).factor, unitNamed(kind, to).factor);
}

// NIST SP 811 (2008), Appendix B.8 and B.9; "exact" rows are exact by definition, the others have 16 digits
// computed from the same definitions.
const TABLE: readonly (readonly [Kind, string, string, string, 'exact' | number])[] = [
  ['torque', 'lbf·in', 'N·m', '0.1129848290276167', 1e-16],
  ['torque', 'lbf·ft', 'N·m', '1.3558179483314004', 1e-15],
  ['torque', 'kgf·m', 'N·m', '9.80665', 'exact'],
  ['length', 'in', 'mm', '25.4', 'exact'],
  ['mass', 'lb', 'kg', '0.45359237', 'exact'],
  ['force', 'lbf', 'N', '4.4482216152605', 'exact'],
  ['pressure', 'psi', 'kPa', '6.894757293168', 1e-12],
  ['volume', 'US fl oz', 'ml', '29.5735295625', 'exact'],
  ['volume', 'imp fl oz', 'ml', '28.4130625', 'exact'],
  // Further rows of the same appendix.
  ['length', 'ft', 'm', '0.3048', 'exact'],
  ['length', 'mi', 'm', '1609.344', 'exact'],
  ['volume', 'US gal', 'l', '3.785411784', 'exact'],
  ['volume', 'imp gal', 'l', '4.54609', 'exact'],
  ['volume', 'in³', 'ml', '16.387064', 'exact'],
  ['mass', 'oz', 'g', '28.349523125', 'exact'],
  ['force', 'kgf', 'N', '9.80665', 'exact'],
  ['pressure', 'kgf/cm²', 'kPa', '98.0665', 'exact'],
  ['pressure', 'bar', 'kPa', '100', 'exact'],
  ['pressure', 'mmHg', 'Pa', '133.322387415', 'exact'],
  ['charge', 'Ah', 'C', '3600', 'exact'],
  ['power', 'PS', 'W', '735.49875', 'exact'],
  ['power', 'hp', 'W', '745.6998715822702', 1e-13],
  ['energy', 'ft·lbf', 'J', '1.3558179483314004', 1e-15],
];

describe('NIST SP 811, Appendix B', () => {
  test.each(TABLE)('%s: %s → %s is %s', (kind, from, to, printed, rule) => {
    const factor = exactFactor(kind, from, to);
    if (rule === 'exact') expect(factor).toEqual(decimal(printed));
    else expect(Math.abs(toNumber(factor) - Number(printed))).toBeLessThanOrEqual(rule);
  });

  test('°F → °C is (F − 32)/1.8', () => {
    for (const [fahrenheit, celsius] of [
      [32, 0],
      [212, 100],
      [-40, -40],
      [98.6, 37],
      [0, -160 / 9],
    ] as const) {
      expect(inUnit(quantity('temperature', fahrenheit, '°F'), '°C')).toBeCloseTo(celsius, 12);
    }
  });

  test('a difference of 1 °F is 5/9 K', () => {
    expect(exactFactor('temperature-difference', '°F', 'K')).toEqual(rational(5n, 9n));
  });

  // Computed from the factors above.
  test.each([
    ['35 lbf·in', 'torque', 'N·m', 3.95447, 5e-6],
    ['35 lbf·ft', 'torque', 'N·m', 47.4536, 5e-5],
    ['15 kgf·m', 'torque', 'lbf·ft', 108.495, 5e-4],
    ['5/8 in', 'length', 'mm', 15.875, 0],
    ['38 US fl oz', 'volume', 'ml', 1123.794, 5e-4],
  ] as const)('%s as %s in %s is %f', (text, kind, unit, value, tolerance) => {
    const parsed = parseQuantity(text, kind);
    if (!parsed.ok) throw new Error(parsed.why);
    expect(Math.abs(inUnit(parsed.value as Quantity<Kind>, unit) - value)).toBeLessThanOrEqual(tolerance);
  });

  test('a pound-inch taken for a pound-foot is an error of exactly twelve', () => {
    expect(exactFactor('torque', 'lbf·ft', 'lbf·in')).toEqual(rational(12n));
  });

  test('only angles, which hold π, are not exact', () => {
    const inexact = Object.values(UNITS).flatMap((units) => units.filter((unit) => !unit.exact));
    expect(inexact.map((unit) => unit.id)).toEqual(['°']);
    expect(toNumber(times(unitNamed('angle', '°').factor, rational(180n)))).toBe(Math.PI);
  });
});

/**
 * UCUM's own rounding, relative: it holds the metre of mercury as 133.322 0 kPa, where the conventional one is
 * 133.322 387 415 kPa (13 595.1 kg/m³ × 9.806 65 m/s², exact).
 */
const MERCURY_ERROR = 387.415e-6 / 133.322387415;
const ROUNDED_BY_UCUM = new Set(['mmHg', 'cmHg', 'inHg']);

/** Doubles multiplied a few times over, as UCUM does: some tens of units in the last place. */
const DOUBLES = 2e-14;

/** Seeded stream of doubles in [0, 1): mulberry32. */
function stream(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

describe('UCUM (ucum-lhc)', () => {
  const kinds = Object.keys(KINDS) as Kind[];

  test('knows the code of every unit, and agrees with its dimension', () => {
    for (const kind of kinds) {
      for (const unit of unitsOf(kind))
        expect(() => convertByUcum(unit.ucum, 1, KINDS[kind].si), unit.id).not.toThrow();
    }
  });

  test('agrees on 10,000 seeded values', () => {
    const next = stream(20260730);
    const pick = <T>(from: readonly T[]): T => from[Math.floor(next() * from.length)]!;
    let compared = 0;
    let worst = 0;
    const seen = new Set<string>();
    while (compared < 10_000) {
      const kind = pick(kinds);
      const from = pick(unitsOf(kind));
      const to = pick(unitsOf(kind));
      const value = (next() < 0.2 ? -1 : 1) * 10 ** (next() * 12 - 6);
      // A bare "[degF]" is a point on a scale for UCUM, so it cannot speak of differences (checked above as 5/9).
      if (kind === 'temperature-difference' && (from.id === '°F' || to.id === '°F')) continue;
      const ours = inUnit(quantity(kind, value, from.id as never), to.id as never);
      const theirs = convertByUcum(from.ucum, value, to.ucum);
      // Temperatures pass through kelvins: the rounding there is of the size of the largest number on the way.
      const size = kind === 'temperature' ? Math.max(Math.abs(ours), Math.abs(value), 460) : Math.abs(ours);
      const mercury = ROUNDED_BY_UCUM.has(from.id) !== ROUNDED_BY_UCUM.has(to.id);
      const error = Math.abs(ours - theirs) / size;
      if (mercury) {
        expect(Math.abs(error - MERCURY_ERROR), `${value} ${from.id} → ${to.id}`).toBeLessThan(
          MERCURY_ERROR * 1e-4,
        );
      } else {
        expect(error, `${value} ${from.id} → ${to.id}: ${ours}, UCUM ${theirs}`).toBeLessThanOrEqual(DOUBLES);
        worst = Math.max(worst, error);
      }
      seen.add(`${kind} ${from.id}`);
      compared += 1;
    }
    expect(compared).toBe(10_000);
    // Every unit but that one was met at least once, and the agreement is not a matter of a loose bound.
    expect(seen.size).toBe(kinds.reduce((sum, kind) => sum + unitsOf(kind).length, 0) - 1);
    expect(worst).toBeGreaterThan(0);
  });

  test('does not tell a torque from an energy, which is why kinds are ours', () => {
    expect(convertByUcum('[lbf_av].[ft_i]', 1, 'J')).toBeCloseTo(1.3558179483314, 12);
  });
});
