import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type EntryKey, readEntry, typeKey } from '../../src/web/entry.ts';

const typeAll = (keys: readonly EntryKey[], from = ''): string => keys.reduce(typeKey, from);

describe('the big keys', () => {
  test('figures, one point, a sign that goes and comes', () => {
    expect(typeAll(['1', '4', 'point', '2', 'point', '5'])).toBe('14.25');
    expect(typeAll(['point', '3'])).toBe('0.3');
    expect(typeAll(['sign', '7', 'sign'])).toBe('7');
    expect(typeAll(['7', 'sign'])).toBe('-7');
    expect(typeAll(['1', '2', 'rub', '3'])).toBe('13');
    expect(typeKey('12.6', 'clear')).toBe('');
  });

  test('a figure after OL begins anew', () => {
    expect(typeKey('OL', '5')).toBe('5');
  });

  test('whatever is pressed reads as a number, or as nothing yet', () => {
    const keys: EntryKey[] = ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9', 'point', 'sign', 'rub'];
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...keys), { maxLength: 30 }), (pressed) => {
        const text = typeAll(pressed);
        expect(text.length).toBeLessThanOrEqual(13);
        const read = readEntry(text, 'V');
        if (text === '' || text === '-') expect(read.ok).toBe(false);
        else if (read.ok) expect(Number.isFinite(read.value)).toBe(true);
        else expect(text).toMatch(/^-?0?\.?$/);
      }),
    );
  });
});

describe('reading an entry', () => {
  test.each([
    ['12.61', 12.61],
    ['12,61', 12.61],
    ['−0.4', -0.4],
    ['+3', 3],
    ['.5', 0.5],
    ['330 mV', 0.33],
    ['12.6V', 12.6],
    ['0.012 kV', 12],
    ['OL', null],
    ['o.l.', null],
  ])('%s in volts', (text, value) => {
    expect(readEntry(text, 'V')).toEqual({ ok: true, value });
  });

  test.each([
    ['0.3 ohm', 'Ω', 0.3],
    ['4.7k', 'Ω', 4700],
    ['1.2 MΩ', 'Ω', 1_200_000],
    ['0.0123 A', 'mA', 12.3],
    ['1 h', 'min', 60],
    ['1.265', 'SG', 1.265],
  ] as const)('%s in %s', (text, unit, value) => {
    expect(readEntry(text, unit)).toEqual({ ok: true, value });
  });

  test('a figure that can be two is refused with both', () => {
    expect(readEntry('1,234', 'V')).toMatchObject({ ok: false, instead: ['1.234', '1234'] });
    // With a nought in front, or other than three figures behind, it can only be a decimal comma.
    expect(readEntry('0,234', 'V')).toEqual({ ok: true, value: 0.234 });
    expect(readEntry('12,34', 'V')).toEqual({ ok: true, value: 12.34 });
  });

  test.each([
    ['', 'V', 'Nothing is typed yet'],
    ['twelve', 'V', 'is not a number'],
    ['12 14', 'V', 'is not a number'],
    ['12 A', 'V', 'measures amps, but this reading is volts, in V'],
    ['12 furlongs', 'V', 'is not a unit known here'],
    ['1.265 V', 'SG', 'has no unit'],
    ['perhaps', 'seen', 'yes or no'],
  ] as const)('%j in %s: %s', (text, unit, said) => {
    const read = readEntry(text, unit);
    expect(read.ok).toBe(false);
    expect(!read.ok && read.why).toContain(said);
  });

  test('seen or not', () => {
    expect(readEntry('yes', 'seen')).toEqual({ ok: true, value: true });
    expect(readEntry('n', 'seen')).toEqual({ ok: true, value: false });
  });
});
