import { describe, expect, it } from 'vitest';
import { awgDiameter, awgSection, wireOhms } from '../../src/circuit/wire.ts';
import { nearest } from '../../src/machine/nearest.ts';
import { readGauge } from '../../src/machine/wire.ts';

/** Bare copper at 20 °C, mm and mΩ/m: ASTM B258 (diameters), NBS Handbook 100 (resistances). */
const TABLE = [
  [10, 2.588, 3.277],
  [12, 2.053, 5.211],
  [14, 1.628, 8.286],
  [16, 1.291, 13.17],
  [18, 1.024, 20.95],
] as const;

describe('wire', () => {
  it.each(TABLE)('AWG %i is %f mm thick and has %f mΩ/m', (awg, millimetres, milliohms) => {
    expect(awgDiameter(awg) * 1000).toBeCloseTo(millimetres, 3);
    const metre = wireOhms(awgSection(awg), 1) * 1000;
    expect(Math.abs(metre / milliohms - 1)).toBeLessThan(5e-4);
  });

  it.each(['AWG 14', 'awg14', '14 AWG', '14 ga', ' 14 gauge '])('reads %j as AWG 14', (text) => {
    const read = readGauge(text);
    expect(read.ok && read.gauge.section).toBe(awgSection(14));
  });

  it.each([
    ['2.5 mm²', 2.5e-6],
    ['2,5 mm2', 2.5e-6],
    ['0.75 mm^2', 0.75e-6],
  ])('reads %j', (text, section) => {
    const read = readGauge(text);
    expect(read.ok && read.gauge.section).toBeCloseTo(section, 12);
  });

  it.each([
    ['AWG 2', /outside/],
    ['AWG 30', /outside/],
    ['0.1 mm²', /outside/],
    ['thick', /no wire size/],
    ['2.5 mm', /no wire size/],
    ['14', /no wire size/],
  ])('refuses %j', (text, why) => {
    const read = readGauge(text);
    expect(read.ok ? '' : read.why).toMatch(why);
  });

  it('refuses what no wire has', () => {
    expect(() => wireOhms(0, 1)).toThrow(RangeError);
    expect(() => wireOhms(1e-6, -1)).toThrow(RangeError);
    expect(() => awgDiameter(60)).toThrow(RangeError);
  });
});

describe('nearest', () => {
  it('finds the word that was meant, and none where none is near', () => {
    const words = ['chargeVolts', 'senses', 'type', 'crankAmps'];
    expect(nearest('chargevolt', words)).toBe('chargeVolts');
    expect(nearest('charge_volts', words)).toBe('chargeVolts');
    expect(nearest('tpye', words)).toBe('type');
    expect(nearest('cranckamps', words)).toBe('crankAmps');
    expect(nearest('colour', words)).toBeNull();
    expect(nearest('', words)).toBeNull();
  });
});
