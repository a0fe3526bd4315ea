/** Drawn cases: same for a seed, readable by the player, and spread as they claim to be. */
import { describe, expect, it } from 'vitest';
import { drawCase, drawSlip } from '../../src/cases/draw-case.ts';
import { drawFaults, drawSymptoms, FAULT_COUNTS, ownersWords } from '../../src/cases/draw-faults.ts';
import { drawPlate } from '../../src/cases/draw-plate.ts';
import { displayed, drawBike } from '../../src/cases/drawn-bike.ts';
import { faultOfName } from '../../src/cases/exchange.ts';
import { specOfNameplate } from '../../src/cases/nameplate.ts';
import { Player } from '../../src/cases/player.ts';
import { readCases } from '../../src/cases/read-cases.ts';
import { soundBike } from '../../src/circuit/sound.ts';
import { FAULT_IDS, FAULTS } from '../../src/fault/faults.ts';
import { meterScatter } from '../../src/reading/noise.ts';
import { offeredKeys } from '../../src/reading/offers.ts';

const THREE = { phases: 3, senses: 'wire' } as const;
const seeds = (count: number) => Array.from({ length: count }, (_, n) => n + 1);

describe('the book', () => {
  it('is read by the nameplate of the exchange format and makes a circuit, for a thousand bikes', () => {
    for (const seed of seeds(1000)) {
      const spec = specOfNameplate(drawPlate(seed));
      const bike = soundBike(spec);
      expect(spec.loads.ignition + spec.loads.low + spec.loads.tail).toBeLessThan(
        0.8 * spec.alternator.ratedAmps.amps,
      );
      for (const figure of [bike.henry[0], bike.ohm[0], bike.emfPerRpm[0], bike.batteryOhm, bike.chargeOhm])
        expect(figure > 0 && figure < 100).toBe(true);
    }
  });

  it('has every build: phases, regulators, sensing, batteries, poles known and not', () => {
    const builds = new Set(
      seeds(2000).map((seed) => {
        const plate = drawPlate(seed);
        return [
          plate.phases,
          plate.regulator,
          plate.voltage_sense,
          plate.battery_type,
          plate.poles === null,
        ].join();
      }),
    );
    expect(builds.size).toBe(32);
  });
});

describe('faults', () => {
  const drawn = seeds(4000).map((seed) => drawFaults(seed, THREE));

  it('are as many, and as often each, as said', () => {
    FAULT_COUNTS.forEach((share, many) => {
      const count = drawn.filter((list) => list.length === many).length;
      // Four deviations of a binomial.
      expect(Math.abs(count - 4000 * share)).toBeLessThan(4 * Math.sqrt(4000 * share * (1 - share)));
    });
    const singles = drawn.filter((list) => list.length === 1).map((list) => list[0]!.id);
    const all = FAULT_IDS.reduce((sum, id) => sum + FAULTS[id].prior, 0);
    for (const id of FAULT_IDS) {
      const share = FAULTS[id].prior / all;
      const count = singles.filter((one) => one === id).length;
      expect(Math.abs(count - singles.length * share)).toBeLessThan(
        4.5 * Math.sqrt(singles.length * share * (1 - share)),
      );
    }
  });

  it('never need one repair twice, are possible on the build, and sit where there is a place', () => {
    for (const list of drawn) {
      expect(new Set(list.map((one) => FAULTS[one.id].repair)).size).toBe(list.length);
      if (list.length > 1) expect(list.map((one) => one.id)).not.toContain('battery-flat');
    }
    for (const seed of seeds(500)) {
      for (const one of drawFaults(seed, { phases: 1, senses: 'output' }, 2)) {
        expect(one.id).not.toBe('sense-drop');
        expect(one.place.phase).toBeLessThan(one.id === 'plug-pin' || one.id.startsWith('diode') ? 2 : 1);
      }
    }
  });

  it('make the owner say what they do', () => {
    const share = (id: 'drain' | 'rotor-weak') =>
      seeds(600).filter((seed) => drawSymptoms(seed, [id]).includes('flat_after_standing')).length / 600;
    expect(share('drain')).toBeGreaterThan(share('rotor-weak') + 0.2);
    expect(ownersWords(['slow_crank'])).toBe('It cranks slowly.');
    for (const seed of seeds(50)) expect(drawSymptoms(seed, []).length).toBeGreaterThan(0);
  });
});

describe('a drawn bike', () => {
  it('shows the same whatever was asked before, and another seed shows another', () => {
    const keys = [
      'batt_volts lights=low rpm=3000',
      'stator_ac pair=bc rpm=3000',
      'visual what=plug_burnt',
      'keyoff_mA',
    ];
    const [one, two] = [drawBike(5), drawBike(5)];
    const forwards = keys.map((key) => one.read(key));
    const backwards = keys.toReversed().map((key) => two.read(key));
    expect(backwards.toReversed()).toEqual(forwards);
    expect(keys.map((key) => one.read(key))).toEqual(forwards);
    expect(drawBike(6).read(keys[0]!)).not.toBe(forwards[0]);
  });

  it('is read with the meter error that it should have', () => {
    const off: number[] = [];
    for (const seed of seeds(300)) {
      const bike = drawBike(seed, { count: 0 });
      const truth = bike.truly('ohms_pair pair=ab');
      const kind = { kind: 'ohms_pair', state: {} };
      off.push(((bike.read('ohms_pair pair=ab') as number) - truth) / meterScatter(kind, truth));
    }
    const spread = Math.sqrt(off.reduce((sum, one) => sum + one * one, 0) / off.length);
    // The last digit, 0.1 Ω, adds its own 0.03 Ω.
    expect(spread).toBeGreaterThan(0.9);
    expect(spread).toBeLessThan(1.2);
  });

  it('is read to the last digit of a cheap meter', () => {
    expect(displayed('batt_volts', 13.4567)).toBe(13.46);
    expect(displayed('drop_pos', 0.23456)).toBe(0.235);
    expect(displayed('drop_pos', 2.3456)).toBe(2.35);
    expect(displayed('stator_ac', 51.26)).toBe(51.3);
    expect(displayed('sg', 1.2531)).toBe(1.255);
    expect(displayed('plug_drop_ac', -0.3)).toBe(0);
    expect(displayed('batt_amps', -2.36)).toBe(-2.4);
    expect(displayed('capacity_minutes', 61.7)).toBe(62);
  });

  it('refuses a key that is none', () => {
    expect(() => drawBike(1).read('batt_volt')).toThrow(/no kind of reading/);
  });
});

describe('a drawn case', () => {
  it('is the same for the same two numbers and passes the reader of practice cases', () => {
    const cases = seeds(3).map((n) => drawCase(9, n));
    expect(drawCase(9, 2)).toEqual(cases[1]);
    const text = cases.map((one) => JSON.stringify(one)).join('\n');
    expect(readCases(text)).toEqual(JSON.parse(`[${cases.map((one) => JSON.stringify(one)).join(',')}]`));
    for (const one of cases) {
      const spec = specOfNameplate(one.nameplate);
      const keys = offeredKeys({
        phases: spec.alternator.phases,
        senses: spec.regulator.senses,
        flooded: spec.battery.chemistry === 'flooded',
      });
      expect(Object.keys(one.readings)).toEqual(keys);
      const player = new Player(one, false);
      player.ask('rest_volts');
      expect(player.have.get('rest_volts')).toBe(one.readings.rest_volts![0]);
    }
  });

  it('forgives a fault that no reading shows, and no other', () => {
    // Core short at a terminal with a burnt-through pin there is seen; a ground joint behind a dead regulator is not.
    const dead = {
      id: 'regulator-dead',
      severity: 0.5,
      second: 0.5,
      place: { phase: 0, variant: 0 },
    } as const;
    const ground = {
      id: 'ground-joint',
      severity: 0.1,
      second: 0.5,
      place: { phase: 0, variant: 0 },
    } as const;
    const masked = seeds(6).map((n) => drawCase(3, n, { faults: [dead, ground] }));
    const series = masked.filter((one) => specOfNameplate(one.nameplate).regulator.kind === 'series');
    expect(series.length).toBeGreaterThan(0);
    for (const one of series) expect(one.truth.masked).toEqual(['reg_ground']);
    for (const one of masked) expect(one.truth.masked).not.toContain('reg_no_output');
    const alone = drawCase(3, 1, { faults: [{ ...ground, severity: 0.6 }] });
    expect(alone.truth.masked).toEqual([]);
    expect(alone.truth.faults.map(faultOfName)).toEqual(['ground-joint']);
  });

  it('spoils a reading in a third of the cases, in every way', () => {
    const slips = seeds(60).map(drawSlip);
    const spoiled = slips.filter((slip) => slip !== null);
    expect(spoiled.length).toBeGreaterThan(10);
    expect(spoiled.length).toBeLessThan(32);
    expect(new Set(spoiled.map((slip) => slip[1])).size).toBe(5);
  });
});
