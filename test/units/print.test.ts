import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { KINDS, type Kind } from '../../src/units/kind.ts';
import { parseQuantity, parseRange } from '../../src/units/parse.ts';
import {
  inchFraction,
  printBoth,
  printIn,
  printNumber,
  printQuantity,
  printRange,
  printRangeBoth,
} from '../../src/units/print.ts';
import { inUnit, type Quantity, quantity, type Range } from '../../src/units/quantity.ts';
import { unitsOf } from '../../src/units/table.ts';

describe('digits', () => {
  test.each([
    [0, '0'],
    [-0, '0'],
    [15.875, '15.875'],
    [47.45362819, '47.45'],
    [0.1 + 0.2, '0.3'],
    [123456.78, '123457'],
    [-12.5, '−12.5'],
    [1000, '1000'],
    [0.000012345678, '0.00001235'],
    [123456789012, '123456789012'],
    [1.5e20, '1.5e20'],
    [1.5e-12, '1.5e-12'],
    [99.99999, '100'],
  ])('%d is printed as %s', (value, text) => {
    expect(printNumber(value)).toBe(text);
  });

  test('no figure is printed that is none', () => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => printNumber(value)).toThrow(RangeError);
  });
});

describe('fractions of an inch', () => {
  test.each([
    [0.625, '5/8'],
    [1.625, '1 5/8'],
    [-1.625, '−1 5/8'],
    [1 / 64, '1/64'],
    [63 / 64, '63/64'],
    [2, '2'],
    [0.63, null],
    [1 / 128, null],
    [0, null],
  ])('%d in', (inches, text) => {
    expect(inchFraction(inches)).toBe(text);
  });
});

describe('both systems', () => {
  test.each([
    ['length', 5 / 8, 'in', '15.875 mm (5/8 in)'],
    ['length', 1.2, 'mm', '1.2 mm (47.24 thou)'],
    ['length', 0, 'mm', '0 mm (0 thou)'],
    ['length', 2, 'm', '2 m (6.562 ft)'],
    ['torque', 35, 'lbf·in', '3.954 N·m (35 lbf·in)'],
    ['torque', 165, 'lbf·ft', '223.7 N·m (165 lbf·ft)'],
    ['volume', 38, 'US fl oz', '1124 ml (38 US fl oz)'],
    ['volume', 4, 'l', '4 l (4.227 US qt)'],
    ['mass', 250, 'kg', '250 kg (551.2 lb)'],
    ['pressure', 36, 'psi', '248.2 kPa (36 psi)'],
    ['temperature', 25, '°C', '25 °C (77 °F)'],
    ['temperature-difference', 10, 'K', '10 K (18 °F)'],
    ['voltage', 14.2, 'V', '14.2 V'],
    ['voltage', 0.02, 'V', '20 mV'],
    ['voltage', 0, 'V', '0 V'],
    ['current', -3, 'mA', '−3 mA'],
    ['resistance', 0.2, 'Ω', '0.2 Ω'],
    ['resistance', 4700, 'Ω', '4.7 kΩ'],
    ['inductance', 0.00033, 'H', '0.33 mH'],
    ['charge', 12, 'Ah', '12 Ah'],
    ['rotation', 3000, 'rpm', '3000 rpm'],
    ['time', 90, 's', '90 s'],
    ['time', 45, 'min', '45 min'],
    ['time', 24, 'h', '24 h'],
    ['angle', 45, '°', '45°'],
    ['ratio', 5, '%', '5 %'],
    ['energy', 8, 'ft·lbf', '10.85 J (8 ft·lbf)'],
  ] as const)('%s of %d %s', (kind, value, unit, text) => {
    expect(printBoth(quantity(kind, value, unit as never))).toBe(text);
  });

  test('a range takes the unit of its larger end, in each system', () => {
    const range: Range<'torque'> = {
      low: quantity('torque', 7, 'lbf·ft'),
      high: quantity('torque', 9, 'lbf·ft'),
    };
    expect(printRange(range, 'inch')).toBe('7–9 lbf·ft');
    expect(printRangeBoth(range)).toBe('9.491–12.2 N·m (7–9 lbf·ft)');
    const same: Range<'voltage'> = { low: quantity('voltage', 5, 'V'), high: quantity('voltage', 5, 'V') };
    expect(printRangeBoth(same)).toBe('5 V');
  });

  test("a unit of one's choice", () => {
    expect(printIn(quantity('torque', 10, 'N·m'), 'lbf·in')).toBe('88.51 lbf·in');
  });
});

const kinds = Object.keys(KINDS) as Kind[];
/** A kind, a value and one of its units. */
const anyQuantity = fc
  .constantFrom(...kinds)
  .chain((kind) =>
    fc.tuple(
      fc.constant(kind),
      fc.constantFrom(...unitsOf(kind).map((unit) => unit.id)),
      fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
    ),
  )
  .map(([kind, unit, value]) => quantity(kind, value, unit as never) as Quantity<Kind>);

describe('round trips', () => {
  test('print then parse gives the quantity back, to the digits printed, in both systems', () => {
    fc.assert(
      fc.property(anyQuantity, fc.constantFrom('metric' as const, 'inch' as const), (of, system) => {
        // Rounded to four digits, a hair above absolute zero is printed below it.
        fc.pre(of.kind !== 'temperature' || of.si > 1);
        const text = printQuantity(of, system);
        const back = parseQuantity(text, of.kind);
        if (!back.ok) throw new Error(`${text}: ${back.why}`);
        // Half of the fourth digit, of the figure printed: for °C and °F that is not the SI figure.
        const printed = of.kind === 'temperature' ? Math.abs(of.si) + 460 : Math.abs(of.si);
        expect(Math.abs(back.value.si - of.si)).toBeLessThanOrEqual(5.001e-4 * printed);
      }),
      { numRuns: 3000, seed: 1 },
    );
  });

  test('every unit of every kind is read back as itself, exactly', () => {
    for (const kind of kinds) {
      for (const { id } of unitsOf(kind)) {
        if (id === '1') continue;
        const of = quantity(kind, 12.5, id as never) as Quantity<Kind>;
        const back = parseQuantity(printIn(of, id as never), kind);
        expect(back.ok ? back.value.si : back.why, `${kind} ${id}`).toBe(of.si);
      }
    }
  });

  test('a figure of up to six digits survives the trip through SI and back, in every unit', () => {
    const figure = fc.tuple(fc.integer({ min: 1, max: 999_999 }), fc.integer({ min: 0, max: 5 }));
    fc.assert(
      fc.property(fc.constantFrom(...kinds), fc.nat(), figure, (kind, pick, [digits, places]) => {
        const units = unitsOf(kind);
        const { id } = units[pick % units.length]!;
        const value = digits / 10 ** places;
        const back = inUnit(quantity(kind, value, id as never) as Quantity<Kind>, id as never);
        const size = kind === 'temperature' ? value + 460 : value;
        expect(Math.abs(back - value)).toBeLessThanOrEqual(2.3e-16 * size);
      }),
      { numRuns: 3000, seed: 2 },
    );
  });

  test('every 64th of an inch up to a foot keeps its fraction', () => {
    for (let parts = 1; parts < 64 * 12; parts++) {
      const of = quantity('length', parts / 64, 'in');
      const text = printQuantity(of, 'inch');
      expect(text).toBe(`${inchFraction(parts / 64)} in`);
      const back = parseQuantity(text, 'length');
      expect(back.ok ? back.value.si : back.why).toBe(of.si);
    }
  });

  test('a printed range is read back as a range, in order', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -5e8, max: 5e8 }),
        fc.integer({ min: 0, max: 5e8 }),
        (lowMicro, widthMicro) => {
          const [low, width] = [lowMicro / 1e6, widthMicro / 1e6];
          const range: Range<'torque'> = {
            low: quantity('torque', low, 'N·m'),
            high: quantity('torque', low + width, 'N·m'),
          };
          for (const system of ['metric', 'inch'] as const) {
            const back = parseRange(printRange(range, system), 'torque');
            if (!back.ok) throw new Error(`${printRange(range, system)}: ${back.why}`);
            expect(back.value.low.si).toBeLessThanOrEqual(back.value.high.si);
            expect(Math.abs(back.value.high.si - range.high.si)).toBeLessThanOrEqual(
              5.001e-4 * Math.abs(range.high.si),
            );
            expect(Math.abs(back.value.low.si - range.low.si)).toBeLessThanOrEqual(
              5.001e-4 * Math.abs(range.low.si),
            );
          }
        },
      ),
      { numRuns: 1000, seed: 3 },
    );
  });

  test('a range is never turned round: high before low is refused', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1000 }), fc.integer({ min: 1, max: 1000 }), (low, more) => {
        expect(parseRange(`${low + more} to ${low} V`, 'voltage').ok).toBe(false);
        expect(parseRange(`${low} to ${low + more} V`, 'voltage').ok).toBe(true);
      }),
      { numRuns: 300, seed: 4 },
    );
  });
});
