import { describe, expect, test } from 'vitest';
import type { ChargingSpec } from '../../src/circuit/spec.ts';
import { KINDS } from '../../src/reading/catalogue.ts';
import { sayHow } from '../../src/reading/cautions.ts';
import { offeredKeys } from '../../src/reading/offers.ts';
import { showFigure, showValue } from '../../src/reading/say-value.ts';
import { howTo } from '../../src/reading/steps.ts';
import { inHundred } from '../../src/verdict/say-chance.ts';
import { bandWords } from '../../src/verdict/say-sound.ts';
import { chooseKey, completeText, offerFor, sameReading, withState } from '../../src/web/keys.ts';
import { checkSane } from '../../src/web/sane.ts';
import { listWords } from '../../src/web/show.ts';
import { bandScale } from '../../src/web/sound.ts';
import { answerOf, askOf } from '../../src/web/words/states.ts';

const spec = {
  alternator: { phases: 3 },
  regulator: { senses: 'wire' },
  battery: { chemistry: 'flooded' },
} as unknown as ChargingSpec;

describe('numbers and words', () => {
  test('figures have a true minus and no more digits than a meter', () => {
    expect(showFigure(-12.3456)).toBe('−12.35');
    expect(showFigure(0.30000000000000004)).toBe('0.3');
    expect(showFigure(104.26)).toBe('104.3');
    expect(showValue(1.26, 'SG')).toBe('1.260');
    expect(showValue(null, 'Ω')).toBe('OL');
    expect(showValue(false, 'seen')).toBe('no, not seen');
  });

  test('a chance is never nought and never certain', () => {
    expect(inHundred(0)).toBe('less than 1\u00a0in\u00a0100');
    expect(inHundred(0.625)).toBe('63\u00a0in\u00a0100');
    expect(inHundred(1)).toBe('more than 99\u00a0in\u00a0100');
  });

  test('lists read as a sentence', () => {
    expect(listWords([])).toBe('');
    expect(listWords(['a', 'b', 'c'])).toBe('a, b and c');
  });

  test('what a sound bike shows', () => {
    expect(bandWords({ band: { low: 12.5, high: 12.8 }, openShare: 0 }, 'V')).toBe(
      'a sound bike: 12.5 to 12.8 V',
    );
    expect(bandWords({ band: null, openShare: 1 }, 'Ω')).toBe('a sound bike: OL');
    expect(bandWords(null, 'V')).toBe('a sound bike: …');
  });

  test.each([
    { low: 0.002, high: 0.03 },
    { low: 12.5, high: 12.8 },
    { low: -0.2, high: 3 },
    { low: 14, high: 14 },
  ])('the scale has room on both sides of %o', (band) => {
    const { min, max } = bandScale(band);
    expect(min).toBeLessThanOrEqual(band.low);
    expect(max).toBeGreaterThan(band.high);
    if (band.low >= 0) expect(min).toBeGreaterThanOrEqual(0);
  });
});

describe('reading keys on screen', () => {
  const offer = offerFor(spec);

  test('a state chosen by hand gives the key that would be proposed, so that it is one reading and not two', () => {
    let reached = 0;
    for (const key of offer.keys) {
      const chosen = chooseKey(key);
      expect(chosen, key).not.toBeNull();
      if (!chosen) continue;
      for (const [name, values] of Object.entries(chosen.kind.states)) {
        for (const value of values) {
          const next = withState(chosen, name, value, offer);
          expect(chooseKey(next), `${key} with ${name}=${value}`).not.toBeNull();
          const offered = offer.byComplete.get(completeText(next));
          if (offered === undefined) continue;
          expect(next).toBe(offered);
          reached += 1;
        }
      }
    }
    expect(reached).toBeGreaterThan(300);
  });

  test('what is left out is what is usual', () => {
    expect(sameReading('batt_volts', 'batt_volts lights=low rpm=3000')).toBe(true);
    expect(sameReading('batt_volts', 'batt_volts lights=off')).toBe(false);
  });

  test('two tips never land on one terminal', () => {
    const chosen = chooseKey('diode black=pos red=a');
    expect(chosen && withState(chosen, 'red', 'pos', offer)).toBe('diode black=a red=pos');
  });

  test('every state word and every value of the catalogue has words', () => {
    for (const kind of Object.values(KINDS)) {
      for (const [name, values] of Object.entries(kind.states)) {
        expect(askOf(name)).not.toBe(name);
        for (const value of values) expect(answerOf(name, value)).not.toMatch(/^(True|False)$/);
      }
    }
  });

  test('a key of another version is not taken for one of this', () => {
    expect(chooseKey('moon_phase')).toBeNull();
    // A bike of one winding has no pin c, and a key is kept in its one written form, as the laptop wants it.
    expect(chooseKey('stator_ac pair=bc rpm=3000', 1)).toBeNull();
    expect(chooseKey('diode black=c red=pos', 1)).toBeNull();
    expect(chooseKey('stator_ac pair=ab rpm=3000', 1)).not.toBeNull();
    expect(chooseKey('diode red=a black=pos')?.key).toBe('diode black=pos red=a');
    expect(chooseKey('batt_volts lights=purple')).toBeNull();
    expect(chooseKey('')).toBeNull();
  });
});

describe('cautions', () => {
  test('carbon monoxide, a secured bike and moving parts before every reading with the engine running', () => {
    const running = Object.values(KINDS).filter((kind) => kind.engine === 'running');
    expect(running.length).toBeGreaterThan(5);
    for (const kind of running) {
      const { cautions, steps } = sayHow(kind, {});
      expect(cautions.join(' ')).toMatch(/carbon monoxide/i);
      expect(cautions.join(' ')).toMatch(/secured/);
      expect(cautions.join(' ')).toMatch(/chain/);
      expect(steps.length).toBeGreaterThan(0);
    }
  });

  test('acid or gas at the battery, a starter that turns the wheel, a hot engine', () => {
    expect(sayHow(KINDS.sg!, {}).cautions.join(' ')).toMatch(/acid/i);
    expect(sayHow(KINDS.rest_volts!, {}).cautions.join(' ')).toMatch(/gas/i);
    expect(sayHow(KINDS.crank_volts!, {}).cautions.join(' ')).toMatch(/neutral/);
    expect(sayHow(KINDS.ohms_case!, { temp: 'hot' }).cautions.join(' ')).toMatch(/hot/i);
  });

  test('a reading with the harness moved says to move it', () => {
    expect(sayHow(KINDS.batt_volts!, { wiggle: 'True' }).steps.at(-1)).toMatch(/^Move the harness/);
    expect(sayHow(KINDS.batt_volts!, { wiggle: 'False' }).steps.join(' ')).not.toMatch(/harness/);
  });

  test('nothing is said twice and no step is lost', () => {
    for (const kind of Object.values(KINDS)) {
      const { cautions, steps } = sayHow(kind, {});
      const all = [...cautions, ...steps];
      expect(new Set(all).size).toBe(all.length);
      for (const line of howTo(kind)) expect(all).toContain(line);
    }
  });
});

describe('what can be at all', () => {
  test.each([
    ['batt_volts', 14.2, 'fine', undefined],
    ['batt_volts', 142, 'impossible', 14.2],
    ['batt_volts', -14.2, 'surprising', 14.2],
    ['rest_volts', 28, 'surprising', null],
    ['stator_ac', 52, 'fine', undefined],
    ['stator_ac', -52, 'impossible', 52],
    ['ohms_pair', -0.2, 'impossible', 0.2],
    ['sg', 1265, 'impossible', 1.265],
    ['drop_pos', 0.2, 'fine', undefined],
    ['keyoff_mA', 3, 'fine', undefined],
  ] as const)('%s %s is %s', (id, value, verdict, meant) => {
    const found = checkSane(KINDS[id]!, value);
    expect(found.verdict).toBe(verdict);
    if (found.verdict !== 'fine') expect(found.meant).toBe(meant);
  });

  test('OL and things seen are always fine', () => {
    for (const kind of Object.values(KINDS)) expect(checkSane(kind, null).verdict).toBe('fine');
    expect(checkSane(KINDS.visual!, true).verdict).toBe('fine');
  });

  test('the catalogue is what this looks at', () => {
    expect(offeredKeys({ phases: 3, senses: 'wire', flooded: true }).length).toBeGreaterThan(100);
  });
});
