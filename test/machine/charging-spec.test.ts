import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { coldState, solvePoint } from '../../src/circuit/point.ts';
import { bikeOf, MIDDLING, soundBike } from '../../src/circuit/sound.ts';
import { chargingSpec } from '../../src/machine/charging-spec.ts';
import { eachFigure } from '../../src/machine/counts.ts';
import { type Machine, PARTS } from '../../src/machine/definition.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { wiringOhms } from '../../src/machine/wiring.ts';
import { spoil } from './spoil.ts';

const folder = new URL('../../machines/', import.meta.url);
const files = readdirSync(folder).filter((name) => name.endsWith('.json'));

function open(name: string): Machine {
  const read = readMachine(readFileSync(new URL(name, folder), 'utf8'), name);
  if (!read.ok) throw new Error(JSON.stringify(read.problems, null, 1));
  return read.machine;
}

const ardmoor = open('ardmoor-650-pathway.json');
const pemburrow = open('pemburrow-900-carillon.json');
const oskerlund = open('oskerlund-420-fellgate.json');

describe('the shipped machines', () => {
  it('are three, all invented, and say so in every book', () => {
    expect(files).toHaveLength(3);
    for (const name of files) {
      const machine = open(name);
      expect(machine.about.invented).toBe(true);
      expect(machine.about.note).toMatch(/^Invented: no such maker, model or figure exists/);
      expect(name).toBe(
        `${machine.about.maker} ${machine.about.model}.json`.toLowerCase().replaceAll(' ', '-'),
      );
      for (const source of Object.values(machine.sources)) {
        if (source.kind !== 'common-practice' && source.kind !== 'guess')
          expect(source.title).toMatch(/invented/);
      }
    }
  });

  it('name a source for every figure', () => {
    for (const name of files) {
      const machine = open(name);
      const figures = eachFigure(machine);
      expect(figures.length).toBeGreaterThan(20);
      for (const { figure } of figures) expect(Object.keys(machine.sources)).toContain(figure.from);
    }
  });

  it('are the three kinds that were wanted', () => {
    expect(chargingSpec(ardmoor)).toMatchObject({ alternator: { phases: 3 }, regulator: { kind: 'shunt' } });
    expect(chargingSpec(pemburrow)).toMatchObject({
      alternator: { phases: 3 },
      regulator: { kind: 'series', senses: 'wire' },
    });
    expect(chargingSpec(oskerlund)).toMatchObject({
      alternator: { phases: 1 },
      regulator: { kind: 'shunt' },
    });
  });
});

describe('chargingSpec', () => {
  it('turns the texts of the Ardmoor into SI figures', () => {
    const spec = chargingSpec(ardmoor);
    expect(spec.name).toBe('Ardmoor 650 Pathway');
    expect(spec.alternator).toEqual({
      phases: 3,
      poles: 12,
      openVolts: { rpm: 1000, volts: 17, tolerance: 0.1 },
      ratedAmps: { rpm: 5000, amps: 34, tolerance: 0.08 },
      pairOhms: [0.18, 0.24],
    });
    expect(spec.regulator).toEqual({ kind: 'shunt', chargeVolts: [14.1, 14.9], senses: 'output' });
    expect(spec.battery).toEqual({ chemistry: 'flooded', ampHours: 18, crankAmps: 270 });
    expect(spec.fuseAmps).toBe(40);
    expect(spec.restDrainAmps).toBe(0.003);
  });

  it('takes the watts on a label as amps at 13.5 V', () => {
    const { loads } = chargingSpec(ardmoor);
    expect(loads.low).toBeCloseTo(55 / 13.5, 6);
    expect(loads.ignition).toBe(3.2);
    expect(loads.ignition + loads.low + loads.tail + loads.accessories).toBeCloseTo(11.4, 1);
  });

  it("lets the part's own sheet count once the part is fitted, or to be", () => {
    expect(chargingSpec(ardmoor).regulator.chargeVolts).toEqual([14.1, 14.9]);
    expect(chargingSpec(ardmoor, ['regulator']).regulator.chargeVolts).toEqual([14.2, 14.8]);
    expect(chargingSpec(ardmoor, ['regulator']).alternator.pairOhms).toEqual([0.18, 0.24]);
    expect(chargingSpec(ardmoor, [...PARTS]).alternator.pairOhms).toEqual([0.19, 0.22]);
    // The Pemburrow's book still describes the shunt regulator that its series one replaced.
    expect(chargingSpec(pemburrow).regulator).toMatchObject({ kind: 'series', chargeVolts: [14.1, 14.7] });
  });

  it('reports where the sources differ, and which one counts', () => {
    const { read } = spoil();
    if (!read.ok) throw new Error('refused');
    const said = read.notes.join('\n');
    expect(said).toMatch(/is invented/);
    expect(said).toMatch(
      /chargeVolts: "Sheet packed.*says 14\.2–14\.8 V, .*says 14\.1–14\.9 V; the latter counts, because the other regulator is not fitted yet/,
    );
    const fitted = spoil(['"fitted": false,\n      "note"', '"fitted": true,\n      "note"']).read;
    if (!fitted.ok) throw new Error('refused');
    expect(fitted.notes.join('\n')).toMatch(
      /chargeVolts: .*says 14\.1–14\.9 V, .*says 14\.2–14\.8 V; the latter counts, because that regulator is fitted/,
    );
    expect(chargingSpec(fitted.machine).regulator.chargeVolts).toEqual([14.2, 14.8]);
  });

  it('notes loads that the alternator cannot carry', () => {
    const { read } = spoil(['"34 A ± 8 %"', '"10–12 A"']);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    expect(read.notes.join('\n')).toMatch(/draws 11\.7 A, more than the 11 A/);
  });
});

describe('wiringOhms', () => {
  it('adds wires by ASTM B258 and joints as written', () => {
    const ohms = wiringOhms(ardmoor);
    // 8.286 mΩ/m for AWG 14 at 20 °C: NBS Handbook 100.
    expect(ohms.outputWire).toBeCloseTo(0.45 * 8.286e-3, 6);
    expect(ohms.groundWire).toBeCloseTo(0.3048 * 8.286e-3, 6);
    expect(ohms.breaker).toBe(0.002);
    expect(ohms.statorPlug).toBe(0.005);
    expect(ohms.senseWire).toBeNull();
    expect(wiringOhms(pemburrow).outputWire).toBeCloseTo((0.017241e-6 * 0.8) / 3e-6, 12);
  });

  it('is null throughout where the file describes no wiring', () => {
    const bare = { ...oskerlund, charging: { ...oskerlund.charging, wiring: null } };
    expect(new Set(Object.values(wiringOhms(bare)))).toEqual(new Set([null]));
  });

  it('adds joints of one place in series', () => {
    const { read } = spoil(['"at": "breaker"', '"at": "output-joint"']);
    if (!read.ok) throw new Error('refused');
    expect(wiringOhms(read.machine).outputJoint).toBeCloseTo(0.004, 12);
    expect(wiringOhms(read.machine).breaker).toBeNull();
  });
});

describe('the circuit behind a machine file', () => {
  // The reference machines: 12 poles, 17.0 V at 1000 rpm, 0.60 mH and 0.10 Ω a phase; 18 poles, 20.0 V, 0.80 mH, 0.25 Ω.
  it.each([
    ['Ardmoor', ardmoor, 0.6e-3, 0.1, (17 * Math.SQRT2) / Math.sqrt(3) / 1000],
    ['Oskerlund', oskerlund, 0.8e-3, 0.25, (20 * Math.SQRT2) / 1000],
  ] as const)(
    'of the %s is the reference machine it was invented after',
    (_name, machine, henry, ohm, emf) => {
      const bike = soundBike(chargingSpec(machine));
      expect(Math.abs(bike.henry[0] / henry - 1)).toBeLessThan(0.1);
      expect(Math.abs(bike.ohm[0] / ohm - 1)).toBeLessThan(0.1);
      expect(bike.emfPerRpm[0]).toBeCloseTo(emf, 6);
    },
  );

  it.each([
    ['Ardmoor', ardmoor],
    ['Pemburrow', pemburrow],
    ['Oskerlund', oskerlund],
  ] as const)(
    'of the %s charges: inside the book at 5000 rpm with the battery charged, hardly at idle',
    (_name, machine) => {
      const spec = chargingSpec(machine);
      const charged = bikeOf(spec, { ...MIDDLING, charge: 0.95 });
      const fast = solvePoint(charged, { ...coldState(5000, 'off'), accessories: false });
      expect(fast.batteryVolts).toBeGreaterThan(spec.regulator.chargeVolts[0] - 0.1);
      expect(fast.batteryVolts).toBeLessThan(spec.regulator.chargeVolts[1] + 0.1);
      const idle = solvePoint(soundBike(spec), coldState(900, 'low'));
      expect(idle.batteryVolts).toBeGreaterThan(12);
      expect(idle.batteryVolts).toBeLessThan(spec.regulator.chargeVolts[1]);
      expect(solvePoint(soundBike(spec), coldState(3000, 'low')).batteryAmps).toBeGreaterThan(2);
    },
  );
});
