import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Kind } from '../../src/units/kind.ts';
import { LONGEST_ENTRY, parseAnyQuantity, parseQuantity, parseRange } from '../../src/units/parse.ts';

function why(parsed: { ok: true; echo: string } | { ok: false; why: string }): string {
  return parsed.ok ? `was read as ${parsed.echo}` : parsed.why;
}

describe('refused, with a sentence that helps', () => {
  test.each([
    ['', 'torque', 'Nothing is entered where a torque is wanted: write e.g. 8 lbf·ft.'],
    [' \u00a0\n', 'torque', 'Nothing is entered where a torque is wanted: write e.g. 8 lbf·ft.'],
    ['7', 'torque', '"7" has no unit, and a torque is wanted here: write e.g. 8 lbf·ft.'],
    [
      '1,234 mm',
      'length',
      '"1,234" in "1,234 mm" can be 1.234 or 1234: write the one you mean without the comma.',
    ],
    [
      '-12,345 mm',
      'length',
      '"12,345" in "-12,345 mm" can be 12.345 or 12345: write the one you mean without the comma.',
    ],
    ['7 lbf·ft', 'length', '"7 lbf·ft": lbf·ft is a torque, a length is wanted here: write e.g. 5/8 in.'],
    [
      '7 ft lbs',
      'length',
      '"7 ft lbs": "ft lbs" (lbf·ft) is a torque, a length is wanted here: write e.g. 5/8 in.',
    ],
    ['8 lbf·ft', 'energy', '"8 lbf·ft": lbf·ft is a torque, an energy is wanted here: write e.g. 50 J.'],
    ['8 Nm', 'energy', '"8 Nm": "Nm" (N·m) is a torque, an energy is wanted here: write e.g. 50 J.'],
    ['8 J', 'torque', '"8 J": J is an energy, a torque is wanted here: write e.g. 8 lbf·ft.'],
    ['5 mm', 'voltage', '"5 mm": mm is a length, a voltage is wanted here: write e.g. 14.2 V.'],
    ['5 °', 'temperature', '"5 °": ° is an angle, a temperature is wanted here: write e.g. 25 °C.'],
    ['5 mmm', 'length', '"5 mmm" has the unknown unit "mmm", and a length is wanted here: did you mean mm?'],
    [
      '8 lbf·tf',
      'torque',
      '"8 lbf·tf" has the unknown unit "lbf·tf", and a torque is wanted here: did you mean lbf·ft?',
    ],
    [
      '5 zorkmids',
      'length',
      '"5 zorkmids" has the unknown unit "zorkmids", and a length is wanted here: write e.g. 5/8 in.',
    ],
    ['5 MV', 'voltage', '"5 MV" has the unknown unit "MV", and a voltage is wanted here: did you mean mV?'],
    [
      '5 mpa',
      'pressure',
      '"5 mpa" has the unknown unit "mpa", and a pressure is wanted here: did you mean MPa?',
    ],
    [
      '12 AWG',
      'area',
      '"AWG" in "12 AWG" is a wire gauge, not a unit: write the area of the copper, e.g. 2.5 mm².',
    ],
    ['AWG 12', 'area', '"AWG 12" is a wire gauge, not a unit: write the area of the copper, e.g. 2.5 mm².'],
    ['abc', 'length', '"abc" is not a number, and a length is wanted here: write e.g. 5/8 in.'],
    ['OL', 'resistance', '"OL" is not a number, and a resistance is wanted here: write e.g. 0.2 Ω.'],
    ['mm', 'length', '"mm" is not a number, and a length is wanted here: write e.g. 5/8 in.'],
    ['NaN V', 'voltage', '"NaN V" is not a number, and a voltage is wanted here: write e.g. 14.2 V.'],
    [
      'Infinity V',
      'voltage',
      '"Infinity V" is not a number, and a voltage is wanted here: write e.g. 14.2 V.',
    ],
    ['∞ V', 'voltage', '"∞ V" is not a number, and a voltage is wanted here: write e.g. 14.2 V.'],
    ['1e999 V', 'voltage', '"1e999 V" is too large to be computed with: check the figure and its exponent.'],
    ['10/0 in', 'length', 'The fraction "10/0" divides by nought: write a fraction such as 5/8.'],
    ['1 5/0 in', 'length', 'The fraction "1 5/0" divides by nought: write a fraction such as 5/8.'],
    [
      '1,23,456 mm',
      'length',
      '"1,23,456" in "1,23,456 mm" is not a number that can be read: write e.g. 5/8 in.',
    ],
    ['1.2.3 mm', 'length', '"1.2.3" in "1.2.3 mm" is not a number that can be read: write e.g. 5/8 in.'],
    ['1 5/3 in', 'length', '"1 5/3" in "1 5/3 in" is not a number that can be read: write e.g. 5/8 in.'],
    [
      '3/8/16 in',
      'length',
      '"/16 in" in "3/8/16 in" cannot be read: write only the figure and its unit, e.g. 5/8 in.',
    ],
    [
      '5 5 mm',
      'length',
      '"5 mm" in "5 5 mm" cannot be read: write only the figure and its unit, e.g. 5/8 in.',
    ],
    ['5² mm', 'length', '"² mm" in "5² mm" cannot be read: write only the figure and its unit, e.g. 5/8 in.'],
    [
      '5 mm; drop',
      'length',
      '"; drop" in "5 mm; drop" cannot be read: write only the figure and its unit, e.g. 5/8 in.',
    ],
    ['7–9 lbf·ft', 'torque', '"7–9 lbf·ft" is a range, and one figure is wanted here: write e.g. 8 lbf·ft.'],
    ['12 V ± 5 %', 'voltage', '"12 V ± 5 %" is a range, and one figure is wanted here: write e.g. 14.2 V.'],
    [
      '-300 °C',
      'temperature',
      '"-300 °C" is below absolute zero (−273.15 °C): check the figure and its unit.',
    ],
    [
      '-1 Ω',
      'resistance',
      '"-1 Ω" is below nought, and a resistance never is: leave out the minus or check the figure.',
    ],
    [
      '5 ft 13 in',
      'length',
      '"5 ft 13 in" joins two figures that do not belong together: write one figure and one unit, or e.g. 5 ft 3 in, 1 h 30 min, 2 lb 4 oz.',
    ],
    [
      '5 ft 3',
      'length',
      '"5 ft 3" joins two figures that do not belong together: write one figure and one unit, or e.g. 5 ft 3 in, 1 h 30 min, 2 lb 4 oz.',
    ],
    [
      '5 mm 3 in',
      'length',
      '"5 mm 3 in" joins two figures that do not belong together: write one figure and one unit, or e.g. 5 ft 3 in, 1 h 30 min, 2 lb 4 oz.',
    ],
  ] as const)('%j as one %s', (text, kind, sentence) => {
    expect(why(parseQuantity(text, kind))).toBe(sentence);
  });

  test.each([
    [
      '9–7 lbf·ft',
      'torque',
      '"9–7 lbf·ft" falls from 9 to 7 lbf·ft: write the low end first, as in 7–9 lbf·ft.',
    ],
    [
      '1 A–500 mA',
      'current',
      '"1 A–500 mA" falls from 1 A to 500 mA: write the low end first, as in 500 mA to 1 A.',
    ],
    [
      '1–5/8 in',
      'length',
      '"1–5/8 in" can be read as 1 5/8 or as a range from 1 down to 5/8: write 1 5/8 in, or the low end first.',
    ],
    [
      '7 lbf·ft to 9',
      'torque',
      '"7 lbf·ft to 9" has a unit on its first figure only: write the unit behind the second figure, as in 7–9 lbf·ft.',
    ],
    ['7–9', 'torque', '"7–9" has no unit, and a torque is wanted here: write e.g. 8 lbf·ft.'],
    [
      '3/8-16',
      'length',
      '"3/8-16" looks like a thread, not like a range of lengths: write both ends with their unit, e.g. 5/8 in to 7/8 in.',
    ],
    [
      '8 Nm ± 1',
      'torque',
      '"8 Nm ± 1" has a tolerance that cannot be used: it can be ±1 N·m or ±1 %; write which.',
    ],
    [
      '8 Nm ± -1 Nm',
      'torque',
      '"8 Nm ± -1 Nm" has a tolerance that cannot be used: it is below nought; write it without a minus.',
    ],
    [
      '20 °C ± 5 %',
      'temperature',
      '"20 °C ± 5 %" has a tolerance that cannot be used: write it in degrees, as in 20 °C ± 5 °C.',
    ],
    ['8 Nm ± 1 V', 'torque', '"8 Nm ± 1 V": V is a voltage, a torque is wanted here: write e.g. 8 lbf·ft.'],
    [
      '10 ± 20 Ω',
      'resistance',
      '"10 ± 20 Ω" is below nought, and a resistance never is: leave out the minus or check the figure.',
    ],
    [
      '1,234–1,300 mm',
      'length',
      '"1,234" in "1,234–1,300 mm" can be 1.234 or 1234: write the one you mean without the comma.',
    ],
    [
      '7–9–11 mm',
      'length',
      '"–11 mm" in "7–9–11 mm" cannot be read: write only the figure and its unit, e.g. 5/8 in.',
    ],
    ['7– mm', 'length', '"– mm" in "7– mm" cannot be read: write only the figure and its unit, e.g. 5/8 in.'],
  ] as const)('%j as a range of %s', (text, kind, sentence) => {
    expect(why(parseRange(text, kind))).toBe(sentence);
  });

  test('1,2xx with a leading nought or four digits has only one reading', () => {
    expect(parseQuantity('0,234 mm', 'length')).toMatchObject({ value: { si: 0.000234 } });
    expect(parseQuantity('1234,567 mm', 'length')).toMatchObject({ value: { si: 1.234567 } });
  });

  test('longer than is read', () => {
    const at = `${'1'.repeat(LONGEST_ENTRY - 2)} V`;
    expect(parseQuantity(at, 'voltage').ok).toBe(true);
    expect(why(parseQuantity(`1${at}`, 'voltage'))).toBe(
      'The entry is 201 characters long and at most 200 are read: write only the figure and its unit, e.g. 14.2 V.',
    );
  });

  test('every refusal is one line, ends as a sentence and stays short, whatever is typed', () => {
    const signs = fc.constantFrom(...'0123456789.,-–−±/⅝ "\'°%²inftlbmVΩto()^e\n\u0000😀'.split(''));
    const typed = fc.oneof(
      fc.string({ maxLength: 250, unit: 'binary' }),
      fc.array(signs, { maxLength: 30 }).map((all) => all.join('')),
    );
    const kinds = fc.constantFrom<Kind>(
      'length',
      'torque',
      'voltage',
      'temperature',
      'resistance',
      'ratio',
      'time',
    );
    fc.assert(
      fc.property(typed, kinds, (text, kind) => {
        for (const parsed of [parseQuantity(text, kind), parseRange(text, kind), parseAnyQuantity(text)]) {
          if (parsed.ok) {
            const ends =
              'si' in parsed.value ? [parsed.value.si] : [parsed.value.low.si, parsed.value.high.si];
            for (const end of ends) expect(Number.isFinite(end)).toBe(true);
            expect(ends.at(0)).toBeLessThanOrEqual(ends.at(-1)!);
          } else {
            expect(parsed.why).toMatch(/^[^\n\r\0]+[.?]$/);
            expect(parsed.why.length).toBeLessThan(260);
          }
        }
      }),
      { numRuns: 3000, seed: 7 },
    );
  });

  test('a caller who asks for nonsense is told so', () => {
    expect(() => parseQuantity('5 V', 'volts' as Kind)).toThrow(
      new RangeError('kind must be a kind of quantity, got "volts"'),
    );
    expect(() => parseQuantity('5', 'length', { defaultUnit: 'V' as 'm' })).toThrow(RangeError);
  });
});

describe('with no kind wanted', () => {
  test.each([
    ['5 V', 'voltage'],
    ['20 Nm', 'torque'],
    ['8 lbf·ft', 'torque'],
    ['8 lb-ft', 'torque'],
    ['5 °C', 'temperature'],
    ['5 lb', 'mass'],
    ['5 fl oz', 'volume'],
    ['3000 rpm', 'rotation'],
    ['5 H', 'inductance'],
    ['5 h', 'time'],
    ['5 min', 'time'],
    ['5 s', 'time'],
    ['5 S', 'conductance'],
    ['5 %', 'ratio'],
  ] as const)('%s is a %s', (text, kind) => {
    const parsed = parseAnyQuantity(text);
    expect(parsed.ok ? parsed.value.kind : parsed.why).toBe(kind);
  });

  test.each([
    [
      '8 ft-lb',
      '"ft-lb" in "8 ft-lb" can be a torque in lbf·ft or an energy in ft·lbf: say which of them is meant.',
    ],
    ['8', '"8" has no unit, and a figure with a unit is wanted here: write e.g. 14.2 V.'],
    ['', 'Nothing is entered where a figure with a unit is wanted: write e.g. 14.2 V.'],
    [
      '8 zorkmids',
      '"8 zorkmids" has the unknown unit "zorkmids", and a figure with a unit is wanted here: write e.g. 14.2 V.',
    ],
  ])('%j is refused', (text, sentence) => {
    expect(why(parseAnyQuantity(text))).toBe(sentence);
  });
});
