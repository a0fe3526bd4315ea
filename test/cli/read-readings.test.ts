import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readOptions } from '../../src/cli/options.ts';
import { noReadings, readReadings } from '../../src/cli/read-readings.ts';
import { readValue } from '../../src/cli/read-value.ts';
import { Refusal } from '../../src/cli/refusal.ts';
import { verdict } from '../../src/cli/verdict.ts';
import { chargingSpec } from '../../src/machine/charging-spec.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { KINDS } from '../../src/reading/catalogue.ts';

const machine = readMachine(
  readFileSync(new URL('../../machines/ardmoor-650-pathway.json', import.meta.url), 'utf8'),
  'ardmoor',
);
if (!machine.ok) throw new Error('the Ardmoor is refused');
const spec = chargingSpec(machine.machine);

function read(text: string) {
  const readings = noReadings();
  readReadings(text, 'r.txt', spec, readings);
  return {
    values: Object.fromEntries(readings.values),
    again: [...readings.again],
    symptoms: [...readings.symptoms],
  };
}

describe('readReadings', () => {
  it('takes a line written twice as a reading taken twice, and knows OL, yes and no', () => {
    const text = [
      '\ufeff# the first look',
      'rest_volts : 1.26 V   # a slip',
      'rest_volts : 12.6 V',
      '',
      'ohms_case pin=a : OL',
      'visual what=plug_burnt : no',
      'sg cell=1 : 1265',
      'symptom : slow_crank',
    ].join('\r\n');
    expect(read(text)).toEqual({
      values: {
        rest_volts: 12.6,
        'ohms_case pin=a': null,
        'visual what=plug_burnt': false,
        'sg cell=1': 1.265,
      },
      again: ['rest_volts'],
      symptoms: ['slow_crank'],
    });
  });

  it('writes keys in their one form, whatever the order and however yes is written', () => {
    expect(Object.keys(read('batt_volts rpm=idle lights=low charged=yes : 12.6 V').values)).toEqual([
      'batt_volts charged=True lights=low rpm=idle',
    ]);
  });

  it('reads the same from a JSON object, where a bare number is in the kind’s own unit', () => {
    const json =
      '{ "keyoff_mA": 2.5, "mv_pair pair=ab": "0.2 V", "ohms_case pin=a": null, "visual what=plug_burnt": true, "sg cell=2": 1.25 }';
    expect(read(json).values).toEqual({
      keyoff_mA: 2.5,
      'mv_pair pair=ab': 200,
      'ohms_case pin=a': null,
      'visual what=plug_burnt': true,
      'sg cell=2': 1.25,
    });
  });

  it('refuses a whole text or takes it whole, and only ever with a Refusal', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: 'grapheme' }), { maxLength: 5 }), (lines) => {
        try {
          read(lines.join('\n'));
        } catch (error) {
          expect(error).toBeInstanceOf(Refusal);
          for (const sentence of (error as Refusal).sentences) expect(sentence).toMatch(/^r\.txt, line \d+/);
        }
      }),
      { numRuns: 400, seed: 7 },
    );
  });
});

describe('readValue', () => {
  const of = (id: string, text: string) => {
    const value = readValue(text, KINDS[id]!);
    return value.ok ? value.value : value.why;
  };

  it.each([
    ['batt_volts', '12,6 V', 12.6],
    ['batt_volts', '12600 mV', 12.6],
    ['batt_volts', '-12.6 V', -12.6],
    ['batt_amps', '−3.5 A', -3.5],
    ['keyoff_mA', '0.03 A', 30],
    ['mv_pair', '30 mV', 30],
    ['ohms_pair', '0.5 ohm', 0.5],
    ['ohms_case', '2.1 MΩ', 2.1e6],
    ['ohms_case', 'ol', null],
    ['capacity_minutes', '1 h 30 min', 90],
    ['sg', '1,265', 1.265],
    ['visual', 'Yes', true],
  ])('%s: %s is %s', (id, text, value) => {
    expect(of(id, text)).toBe(value);
  });

  it('reads its own print back for every electrical unit', () => {
    for (const kind of Object.values(KINDS)) {
      if (kind.unit === 'seen' || kind.unit === 'SG') continue;
      for (const value of [0, 0.001, 0.35, 12.6, 470])
        expect(of(kind.id, `${value} ${kind.unit}`)).toBe(value);
    }
  });

  it.each([
    ['ohms_pair', '-3 Ω', /below|negative|less than|cannot/],
    ['batt_volts', '5 lbf·ft', /torque/],
    ['capacity_minutes', '25', /has no unit/],
    ['batt_volts', '', /missing/],
  ])('%s: %s is refused', (id, text, why) => {
    expect(of(id, text)).toMatch(why);
  });
});

describe('readOptions', () => {
  it('takes options in any place, with a space or =, and words after --', () => {
    const given = readOptions(verdict, [
      '--reading',
      'a : 1 V',
      'm.json',
      '--reading=b : 2 V',
      '--json',
      '--',
      '--odd',
    ]);
    expect(given.words).toEqual(['m.json', '--odd']);
    expect(given.all('--reading')).toEqual(['a : 1 V', 'b : 2 V']);
    expect(given.has('--json')).toBe(true);
    expect(given.one('--symptom')).toBeNull();
  });
});
