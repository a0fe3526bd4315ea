import { describe, expect, test } from 'vitest';
import type { Kind } from '../../src/units/kind.ts';
import { parseQuantity, parseRange } from '../../src/units/parse.ts';
import { inUnit } from '../../src/units/quantity.ts';

/** NIST SP 811, Appendix B; more digits than a double holds. */
const LBF_FT = Number('1.3558179483314004');

function good(text: string, kind: Kind, options: object = {}) {
  const parsed = parseQuantity(text, kind, options);
  if (!parsed.ok) throw new Error(parsed.why);
  return parsed;
}

function goodRange(text: string, kind: Kind, options: object = {}) {
  const parsed = parseRange(text, kind, options);
  if (!parsed.ok) throw new Error(parsed.why);
  return parsed;
}

describe('one quantity, the way people write it', () => {
  test.each([
    // Fractions: the inch is exact, so the SI value is compared exactly.
    ['5/8 in', 'length', 0.015875, '5/8 in = 15.875 mm'],
    ['5/8"', 'length', 0.015875, '5/8 in = 15.875 mm'],
    ['5/8”', 'length', 0.015875, '5/8 in = 15.875 mm'],
    ["5/8''", 'length', 0.015875, '5/8 in = 15.875 mm'],
    ['5/8 in.', 'length', 0.015875, '5/8 in = 15.875 mm'],
    ['5 / 8 inch', 'length', 0.015875, '5/8 in = 15.875 mm'],
    ['5⁄8 inches', 'length', 0.015875, '5/8 in = 15.875 mm'],
    ['⅝ in', 'length', 0.015875, '5/8 in = 15.875 mm'],
    ['⅝"', 'length', 0.015875, '5/8 in = 15.875 mm'],
    ['1-5/8"', 'length', 0.041275, '1 5/8 in = 41.275 mm'],
    ['1 5/8 in', 'length', 0.041275, '1 5/8 in = 41.275 mm'],
    ['1⅝ in', 'length', 0.041275, '1 5/8 in = 41.275 mm'],
    ['1-⅝ in', 'length', 0.041275, '1 5/8 in = 41.275 mm'],
    ['1 ⅝ in', 'length', 0.041275, '1 5/8 in = 41.275 mm'],
    ['-1 5/8 in', 'length', -0.041275, '−1 5/8 in = −41.275 mm'],
    ['−5/8 in', 'length', -0.015875, '−5/8 in = −15.875 mm'],
    ['+5/8 in', 'length', 0.015875, '5/8 in = 15.875 mm'],
    ['5/8IN', 'length', 0.015875, '5/8 in = 15.875 mm'],
    ['5 thou', 'length', 0.000127, '5 thou = 0.127 mm'],
    ['.005 in', 'length', 0.000127, '0.005 in = 0.127 mm'],
    ['5 ft 3 in', 'length', 1.6002, '5 ft 3 in = 1.6002 m'],
    ['5\' 3 1/2"', 'length', 1.6129, '5 ft 3 1/2 in = 1.6129 m'],
    // Decimal comma and point, thousands.
    ['14,2 V', 'voltage', 14.2, '14.2 V'],
    ['0,375 A', 'current', 0.375, '0.375 A'],
    ['1,2345 V', 'voltage', 1.2345, '1.2345 V'],
    ['1.234 V', 'voltage', 1.234, '1.234 V'],
    [',5 V', 'voltage', 0.5, '0.5 V'],
    ['5. V', 'voltage', 5, '5 V'],
    ['1,234.5 W', 'power', 1234.5, '1234.5 W'],
    ['1.234,5 W', 'power', 1234.5, '1234.5 W'],
    ['1,234,567 Ω', 'resistance', 1234567, '1234567 Ω'],
    ['1.234.567 Ω', 'resistance', 1234567, '1234567 Ω'],
    ['1 234 W', 'power', 1234, '1234 W'],
    ['1\u202f234,567 W', 'power', 1234.567, '1234.567 W'],
    ['12 345,6 W', 'power', 12345.6, '12345.6 W'],
    ['1234,567 W', 'power', 1234.567, '1234.567 W'],
    ['2.5e-3 H', 'inductance', 0.0025, '2.5e-3 H'],
    // Units and their many names.
    ['8 ft-lb', 'torque', 8 * LBF_FT, '8 lbf·ft = 10.85 N·m'],
    ['8 ft lbs', 'torque', 8 * LBF_FT, '8 lbf·ft = 10.85 N·m'],
    ['8 FT-LBS', 'torque', 8 * LBF_FT, '8 lbf·ft = 10.85 N·m'],
    ['8 lbf-ft', 'torque', 8 * LBF_FT, '8 lbf·ft = 10.85 N·m'],
    ['8 foot-pounds', 'torque', 8 * LBF_FT, '8 lbf·ft = 10.85 N·m'],
    ['8 ft-lb', 'energy', 8 * LBF_FT, '8 ft·lbf = 10.85 J'],
    ['20Nm', 'torque', 20, '20 N·m = 14.75 lbf·ft'],
    ['20 N.m', 'torque', 20, '20 N·m = 14.75 lbf·ft'],
    ['20 N⋅m', 'torque', 20, '20 N·m = 14.75 lbf·ft'],
    ['20 newton metres', 'torque', 20, '20 N·m = 14.75 lbf·ft'],
    ['2 kg·m', 'torque', 19.6133, '2 kgf·m = 19.6133 N·m = 14.47 lbf·ft'],
    ['38 fl oz', 'volume', 0.001123794123375, '38 US fl oz = 1124 ml'],
    ['38 fl. oz.', 'volume', 0.001123794123375, '38 US fl oz = 1124 ml'],
    ['38 oz', 'volume', 0.001123794123375, '38 US fl oz = 1124 ml'],
    ['1 imp pt', 'volume', 0.00056826125, '1 imp pt = 568.3 ml = 19.22 US fl oz'],
    ['1 pint (UK)', 'volume', 0.00056826125, '1 imp pt = 568.3 ml = 19.22 US fl oz'],
    ['1.2 L', 'volume', 0.0012, '1.2 l = 40.58 US fl oz'],
    ['650 cc', 'volume', 0.00065, '650 cm³ = 650 ml = 21.98 US fl oz'],
    ['5 lbs', 'force', 22.2411080763025, '5 lbf = 22.24 N'],
    ['5 lbs', 'mass', 2.26796185, '5 lb = 2.268 kg'],
    ['36 PSI', 'pressure', 36 * 6894.757293168361, '36 psi = 248.2 kPa'],
    ['2.5 mm²', 'area', 2.5e-6, '2.5 mm² = 0.003875 in²'],
    ['2.5 mm^2', 'area', 2.5e-6, '2.5 mm² = 0.003875 in²'],
    ['2.5 sq mm', 'area', 2.5e-6, '2.5 mm² = 0.003875 in²'],
    ['25 °C', 'temperature', 298.15, '25 °C = 77 °F'],
    ['25℃', 'temperature', 298.15, '25 °C = 77 °F'],
    ['25 deg. C', 'temperature', 298.15, '25 °C = 77 °F'],
    ['–5 °C', 'temperature', 268.15, '−5 °C = 23 °F'],
    ['68 F', 'temperature', 293.15, '68 °F = 20 °C'],
    ['18 °F', 'temperature-difference', 10, '18 °F = 10 K'],
    ['10 °C', 'temperature-difference', 10, '10 K = 18 °F'],
    ['0.2 ohms', 'resistance', 0.2, '0.2 Ω'],
    ['0.2 Ω', 'resistance', 0.2, '0.2 Ω'],
    ['4.7k', 'resistance', 4700, '4.7 kΩ'],
    ['5 mohm', 'resistance', 0.005, '5 mΩ'],
    ['5 Mohm', 'resistance', 5e6, '5 MΩ'],
    ['330 μH', 'inductance', 0.00033, '330 µH'],
    ['12 amp hours', 'charge', 43200, '12 Ah'],
    ['12AH', 'charge', 43200, '12 Ah'],
    ['3000 r/min', 'rotation', 50, '3000 rpm'],
    ['3000 1/min', 'rotation', 50, '3000 rpm'],
    ['3000 min⁻¹', 'rotation', 50, '3000 rpm'],
    ['14.4 volts DC', 'voltage', 14.4, '14.4 V'],
    ['1 h 30 min', 'time', 5400, '1 h 30 min'],
    ['24 hrs', 'time', 86400, '24 h'],
    ['5 %', 'ratio', 0.05, '5 %'],
    ['45°', 'angle', Math.PI / 4, '45°'],
    ['1.27 g/cc', 'density', 1270, '1.27 g/cm³'],
    ['60 mph', 'speed', 26.8224, '60 mph = 96.56 km/h'],
  ] as const)('%s as %s', (text, kind, si, echo) => {
    const parsed = good(text, kind);
    expect(parsed.value.kind).toBe(kind);
    expect(Math.abs(parsed.value.si - si)).toBeLessThanOrEqual(Math.abs(si) * 2e-16);
    expect(parsed.echo).toBe(echo);
  });

  test('a bare figure takes the default unit, a unit of its own wins', () => {
    expect(good('⅝', 'length', { defaultUnit: 'in' }).value.si).toBe(0.015875);
    expect(good('14,2', 'voltage', { defaultUnit: 'V' }).value.si).toBe(14.2);
    expect(good('5 mm', 'length', { defaultUnit: 'in' }).value.si).toBe(0.005);
    expect(good('0.05', 'ratio', { defaultUnit: '1' }).value.si).toBe(0.05);
  });
});

describe('ranges and tolerances', () => {
  test.each([
    ['7–9 lbf·ft', 'torque', 'lbf·ft', 7, 9, '7–9 lbf·ft = 9.491–12.2 N·m'],
    ['7-9 ft-lb', 'torque', 'lbf·ft', 7, 9, '7–9 lbf·ft = 9.491–12.2 N·m'],
    ['7 to 9 ft lbs', 'torque', 'lbf·ft', 7, 9, '7–9 lbf·ft = 9.491–12.2 N·m'],
    ['7..9 lbf·ft', 'torque', 'lbf·ft', 7, 9, '7–9 lbf·ft = 9.491–12.2 N·m'],
    ['7…9 lbf·ft', 'torque', 'lbf·ft', 7, 9, '7–9 lbf·ft = 9.491–12.2 N·m'],
    ['7 lbf·ft — 9 lbf·ft', 'torque', 'lbf·ft', 7, 9, '7–9 lbf·ft = 9.491–12.2 N·m'],
    ['30–40 lbf·in', 'torque', 'lbf·in', 30, 40, '30–40 lbf·in = 3.39–4.519 N·m'],
    ['5/8-7/8 in', 'length', 'in', 0.625, 0.875, '5/8–7/8 in = 15.875–22.225 mm'],
    ['5/8"-7/8"', 'length', 'in', 0.625, 0.875, '5/8–7/8 in = 15.875–22.225 mm'],
    ['⅝–⅞ in', 'length', 'in', 0.625, 0.875, '5/8–7/8 in = 15.875–22.225 mm'],
    ['1-5/8-1-7/8 in', 'length', 'in', 1.625, 1.875, '1 5/8–1 7/8 in = 41.275–47.625 mm'],
    ['1 5/8 to 1 7/8 in', 'length', 'in', 1.625, 1.875, '1 5/8–1 7/8 in = 41.275–47.625 mm'],
    ['0-5/8 in', 'length', 'in', 0, 0.625, '0–5/8 in = 0–15.875 mm'],
    ['1-3/2 in', 'length', 'in', 1, 1.5, '1–3/2 in = 25.4–38.1 mm'],
    ['500 mA–1 A', 'current', 'A', 0.5, 1, '500 mA–1 A'],
    ['13,8–14,4 V', 'voltage', 'V', 13.8, 14.4, '13.8–14.4 V'],
    ['-5 to -3 °C', 'temperature', '°C', -5, -3, '−5 to −3 °C = 23–26.6 °F'],
    ['-5--3 °C', 'temperature', '°C', -5, -3, '−5 to −3 °C = 23–26.6 °F'],
    ['38–44 fl oz', 'volume', 'US fl oz', 38, 44, '38–44 US fl oz = 1124–1301 ml'],
    ['1.2 ± 0.1 mm', 'length', 'mm', 1.1, 1.3, '1.2 ± 0.1 mm = 1.1–1.3 mm = 43.31–51.18 thou'],
    ['1.2 +/- 0.1 mm', 'length', 'mm', 1.1, 1.3, '1.2 ± 0.1 mm = 1.1–1.3 mm = 43.31–51.18 thou'],
    ['12 V ± 5 %', 'voltage', 'V', 11.4, 12.6, '12 V ± 5 % = 11.4–12.6 V'],
    ['12V±5%', 'voltage', 'V', 11.4, 12.6, '12 V ± 5 % = 11.4–12.6 V'],
    ['12 V ± 500 mV', 'voltage', 'V', 11.5, 12.5, '12 V ± 500 mV = 11.5–12.5 V'],
    ['-12 V ± 5 %', 'voltage', 'V', -12.6, -11.4, '−12 V ± 5 % = −12.6 to −11.4 V'],
    ['20 °C ± 5 °C', 'temperature', '°C', 15, 25, '20 ± 5 °C = 15–25 °C = 59–77 °F'],
    ['68 °F ± 9 °F', 'temperature', '°C', 15, 25, '68 ± 9 °F = 15–25 °C = 59–77 °F'],
    ['50 % ± 5 %', 'ratio', '%', 45, 55, '50 ± 5 % = 45–55 %'],
    ['8 N·m', 'torque', 'N·m', 8, 8, '8 N·m = 5.9 lbf·ft'],
  ] as const)('%s as %s', (text, kind, unit, low, high, echo) => {
    const { value, echo: shown } = goodRange(text, kind);
    const size = kind === 'temperature' ? 500 : 1;
    expect(Math.abs(inUnit(value.low, unit as never) - low)).toBeLessThan(
      1e-14 * Math.max(size, Math.abs(low)),
    );
    expect(Math.abs(inUnit(value.high, unit as never) - high)).toBeLessThan(
      1e-14 * Math.max(size, Math.abs(high)),
    );
    expect(shown).toBe(echo);
  });

  test('a default unit serves both ends', () => {
    const { value } = goodRange('0,2–0,4', 'resistance', { defaultUnit: 'Ω' });
    expect([value.low.si, value.high.si]).toEqual([0.2, 0.4]);
    const within = goodRange('12 ± 5 %', 'voltage', { defaultUnit: 'V' }).value;
    expect([within.low.si, within.high.si]).toEqual([11.4, 12.6]);
  });
});
