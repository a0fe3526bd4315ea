/** The catalogue of readings: every offered key stands, has words, probes, minutes and a way to take it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FAULT_IDS } from '../../src/fault/faults.ts';
import { checkKey, completeKey, KINDS, SEEN, SET_UP_MINUTES, setUpsOf } from '../../src/reading/catalogue.ts';
import { describeReading } from '../../src/reading/describe.ts';
import { readKey, writeKey } from '../../src/reading/key.ts';
import { MISTAKES, mistakesFor } from '../../src/reading/mistakes.ts';
import { meterScatter } from '../../src/reading/noise.ts';
import { offeredKeys } from '../../src/reading/offers.ts';
import { probesFor } from '../../src/reading/probes.ts';
import { chanceSeen } from '../../src/reading/seen.ts';
import { howTo, STEPS } from '../../src/reading/steps.ts';

const BUILDS = ([1, 3] as const).flatMap((phases) =>
  (['output', 'wire'] as const).flatMap((senses) =>
    [true, false].map((flooded) => ({ phases, senses, flooded })),
  ),
);
const ALL = [...new Set(BUILDS.flatMap((build) => offeredKeys(build)))];

describe('offered readings', () => {
  for (const build of BUILDS) {
    const name = `${build.phases} phase${build.phases === 3 ? 's' : ''}, ${build.senses}, ${build.flooded ? 'flooded' : 'agm'}`;
    it(`${name}: pass the check, are canonical, and are offered once`, () => {
      const keys = offeredKeys(build);
      expect(new Set(keys).size).toBe(keys.length);
      for (const text of keys) {
        const checked = checkKey(text);
        expect(checked.ok ? writeKey(checked.key) : checked.why).toBe(text);
      }
    });

    it(`${name}: have words of their own`, () => {
      const keys = offeredKeys(build);
      const words = keys.map((text) => describeReading(readKey(text)!));
      for (const text of words) expect(text.length).toBeGreaterThan(3);
      const twice = keys.filter((_, n) => words.indexOf(words[n]!) !== n);
      expect(twice).toEqual([]);
      for (const text of words) expect(text).not.toMatch(/undefined|null|_|=/);
    });

    it(`${name}: ask for nothing that the build does not have`, () => {
      const keys = offeredKeys(build).map((text) => readKey(text)!);
      const pins = new Set(keys.flatMap((key) => [key.state.pin, key.state.red, key.state.black]));
      expect(pins.has('c')).toBe(build.phases === 3);
      expect(keys.some((key) => key.kind === 'sg')).toBe(build.flooded);
      expect(keys.some((key) => key.kind === 'drop_sense')).toBe(build.senses === 'wire');
      const asked = new Set(keys.map((key) => key.kind));
      const missing = Object.keys(KINDS).filter((kind) => !asked.has(kind));
      expect(missing.filter((kind) => !['sg', 'drop_sense'].includes(kind))).toEqual([]);
    });
  }

  it('have probes where a meter is used, and a clamp where amps are', () => {
    for (const text of ALL) {
      const key = readKey(text)!;
      const { red, black, around } = probesFor(key);
      const tool = KINDS[key.kind]!.tool;
      if (tool === 'eyes' || tool === 'hydrometer') expect([red, black, around]).toEqual([null, null, null]);
      else if (tool === 'clamp-meter') {
        expect([red, black]).toEqual([null, null]);
        expect(around).toMatch(/^around-/);
      } else {
        expect(around).toBeNull();
        expect(red).not.toBeNull();
        expect(black).not.toBeNull();
        // Both tips sit on one drawn point only where the reading is across one mated pin.
        expect(red === black).toBe(key.kind === 'plug_drop_ac');
      }
    }
  });

  it('put the tips on the pins that the words name', () => {
    expect(probesFor(readKey('stator_ac pair=bc')!)).toMatchObject({ red: 'pin-b', black: 'pin-c' });
    expect(probesFor(readKey('diode black=pos red=neg')!)).toMatchObject({
      red: 'regulator-negative',
      black: 'regulator-positive',
    });
    expect(probesFor(readKey('ohms_case pin=b')!)).toMatchObject({ red: 'pin-b', black: 'frame' });
    expect(probesFor(readKey('crank_volts probe=clamp')!)).toMatchObject({ red: 'clamp-positive' });
    expect(probesFor(readKey('phase_amps pin=c')!)).toMatchObject({ around: 'around-phase-c' });
  });

  it('say how they are taken, with a caution first wherever the engine runs or acid is about', () => {
    for (const kind of Object.values(KINDS)) {
      expect(howTo(kind)).toEqual(expect.arrayContaining([...STEPS[kind.id]!]));
      expect(howTo(kind).length).toBeGreaterThan(0);
      expect(kind.minutes).toBeGreaterThan(0);
      expect(kind.about.length).toBeGreaterThan(0);
      if (kind.engine === 'running') expect(howTo(kind)[0]).toMatch(/carbon monoxide/);
    }
    expect(howTo(KINDS.sg!)[0]).toMatch(/goggles/);
    expect(howTo(KINDS.load_test_volts!)[0]).toMatch(/no flame/);
  });

  it('pay for their set-up', () => {
    expect(setUpsOf(readKey('batt_volts')!)).toEqual([]);
    expect(setUpsOf(readKey('ohms_case pin=a temp=hot')!).toSorted()).toEqual([
      'engine-hot',
      'unplug-stator',
    ]);
    expect(setUpsOf(readKey('capacity_minutes')!)).toEqual(['battery-charged']);
    expect(setUpsOf(readKey('batt_volts charged=True')!)).toEqual(['battery-charged']);
    for (const minutes of Object.values(SET_UP_MINUTES)) expect(minutes).toBeGreaterThan(0);
  });
});

describe('keys', () => {
  it('come back from their text, in whatever order it was typed', () => {
    fc.assert(
      fc.property(fc.constantFrom(...ALL), fc.integer({ min: 0, max: 6 }), (text, turn) => {
        const [kind, ...words] = text.split(' ');
        const typed = ` ${kind}  ${[...words.slice(turn % (words.length || 1)), ...words.slice(0, turn % (words.length || 1))].join('   ')} `;
        expect(writeKey(readKey(typed)!)).toBe(text);
        const full = completeKey(readKey(text)!);
        expect(completeKey(readKey(writeKey(full))!)).toEqual(full);
        expect(describeReading(full)).toBe(describeReading(readKey(text)!));
      }),
    );
  });

  it('are null where they are no key, and never throw', () => {
    for (const text of ['', '  ', 'batt_volts rpm', 'batt_volts =3', 'batt_volts rpm='])
      expect(readKey(text)).toBeNull();
    fc.assert(
      fc.property(fc.string(), (text) => {
        const checked = checkKey(text);
        expect(checked.ok || checked.why.length > 10).toBe(true);
      }),
    );
  });

  it('are refused with one sentence that says what to do', () => {
    const tries: [string, RegExp][] = [
      ['batt_volt', /no kind of reading is called "batt_volt"; the kinds are rest_volts/],
      ['rest_volts rpm=3000', /takes no "rpm"; it takes charged/],
      ['keyoff_mA pin=a', /it takes no state words/],
      ['batt_volts lights=on', /lights is low, off, high|lights is off, low, high/],
      ['batt_volts rpm=99999', /idle or a number from 300 to 15000/],
      ['diode red=a black=a', /two different terminals/],
      ['diode red=a', /two different terminals/],
    ];
    for (const [text, sentence] of tries) {
      const checked = checkKey(text);
      expect(checked.ok).toBe(false);
      if (!checked.ok) expect(checked.why).toMatch(sentence);
    }
    expect(checkKey('batt_volts rpm=3456').ok).toBe(true);
    expect(checkKey('constructor').ok).toBe(false);
    expect(checkKey('batt_volts toString=3').ok).toBe(false);
    expect(completeKey({ kind: 'toString', state: {} })).toEqual({ kind: 'toString', state: {} });
  });
});

describe('errors', () => {
  it('scatter more, the larger the figure, and always some', () => {
    for (const kind of Object.keys(KINDS)) {
      if (kind === 'visual') continue;
      const key = { kind, state: {} };
      expect(meterScatter(key, 0)).toBeGreaterThan(0);
      expect(meterScatter(key, -50)).toBe(meterScatter(key, 50));
      expect(meterScatter(key, 50)).toBeGreaterThanOrEqual(meterScatter(key, 5));
    }
  });

  it('give back the value that was meant', () => {
    expect(MISTAKES.tenTimes.undo(126)).toBeCloseTo(12.6, 12);
    expect(MISTAKES.aTenth.undo(1.26)).toBeCloseTo(12.6, 12);
    expect(MISTAKES.thousand.undo(12600)).toBeCloseTo(12.6, 12);
    expect(MISTAKES.reversed.undo(-12.6)).toBe(12.6);
    expect(MISTAKES.contact.undo(0.7 * 12.6)).toBeCloseTo(12.6, 12);
    expect(MISTAKES.contactOhms.undo(3.4)).toBeCloseTo(0.4, 12);
    expect(MISTAKES.contactOhms.undo(0.4)).toBeNull();
    expect(MISTAKES.anything.undo(5)).toBeNull();
    // The density of a stretched value: |d meant / d noted| by a difference.
    for (const mistake of Object.values(MISTAKES)) {
      const [low, high] = [mistake.undo(12.6), mistake.undo(12.7)];
      if (low === null || high === null) continue;
      expect(mistake.stretch(12.6)).toBeCloseTo(Math.abs(high - low) / 0.1, 9);
    }
  });

  it('can happen to the kind of reading: amps and DC volts have a sign, ohms none', () => {
    const ids = (kind: string) => mistakesFor(kind, 5).map((mistake) => mistake.id);
    expect(ids('batt_amps')).toContain('reversed');
    expect(ids('stator_ac')).not.toContain('reversed');
    expect(ids('ohms_pair')).toContain('contact-ohms');
    expect(ids('ohms_pair')).not.toContain('contact');
    expect(ids('batt_volts')).toContain('contact');
  });
});

describe('things seen', () => {
  it('are seen more often with a fault that shows them, never surely and never impossibly', () => {
    for (const what of Object.keys(SEEN)) {
      const without = chanceSeen(what, [], false);
      expect(without > 0 && without < 0.5).toBe(true);
      for (const id of FAULT_IDS) {
        const chance = chanceSeen(what, [id], false);
        expect(chance).toBeGreaterThanOrEqual(without);
        expect(chance).toBeLessThan(1);
        expect(chanceSeen(what, [id, 'drain'], false)).toBeGreaterThanOrEqual(chance);
      }
    }
    // A scorched plug is seen about nine times in ten, one sound plug in twenty looks scorched (common practice).
    expect(chanceSeen('plug_burnt', ['plug-pin'], false)).toBeGreaterThan(0.85);
    expect(chanceSeen('plug_burnt', [], false)).toBeLessThan(0.08);
    expect(chanceSeen('fuse_blown', [], true)).toBeGreaterThan(0.9);
  });
});
