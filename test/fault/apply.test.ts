/** Every fault changes the circuit in the way its words say, and nothing else. */
import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/circuit/bike.ts';
import type { Condition } from '../../src/fault/apply.ts';
import type { FaultId } from '../../src/fault/catalogue.ts';
import { FAULT_IDS, FAULTS } from '../../src/fault/faults.ts';
import { GRADES, grade } from '../../src/fault/grades.ts';
import { built, instance, REFERENCE, SINGLE } from './three-machines.ts';

const sound = built(REFERENCE);
const SPEC_WIRE = { ...REFERENCE, regulator: { ...REFERENCE.regulator, senses: 'wire' as const } };

/** Fields of the circuit that a fault changes, and of the condition. */
function changed(id: FaultId, variant = 0, spec = REFERENCE): { bike: string[]; condition: string[] } {
  const [was, is] = [built(spec), built(spec, instance(id, 0.5, 1, variant))];
  const differs = <T extends object>(a: T, b: T) =>
    (Object.keys(a) as (keyof T & string)[])
      .filter(
        (field) =>
          JSON.stringify(a[field]) !== JSON.stringify(b[field]) ||
          (a[field] !== b[field] && typeof a[field] === 'number'),
      )
      .sort();
  return { bike: differs(was.asCame, is.asCame), condition: differs(was.condition, is.condition) };
}

/** What each fault may touch. Whatever is not named here must stay as it was. */
const TOUCHES: Readonly<Record<FaultId, readonly [bike: (keyof Bike)[], condition: (keyof Condition)[]]>> = {
  'battery-flat': [['batteryOhm', 'chargeOhm', 'dischargeOhm', 'restVolts'], ['charge']],
  'battery-sulphated': [
    ['batteryOhm', 'chargeOhm', 'dischargeOhm', 'restVolts'],
    ['capacity', 'charge', 'chargeTop', 'sulphation'],
  ],
  'battery-shorted-cell': [
    ['batteryOhm', 'gasVolts', 'restVolts'],
    ['capacity', 'cellVolts'],
  ],
  'battery-worn': [['batteryOhm', 'dischargeOhm'], ['capacity']],
  'positive-post-joint': [['positivePostOhm'], []],
  'negative-post-joint': [['negativePostOhm'], []],
  'output-joint': [['outputJointOhm'], ['loose']],
  'ground-joint': [['groundOhm'], ['loose']],
  'breaker-joint': [['breakerOhm'], ['loose']],
  'plug-pin': [['pinOhm'], []],
  'plug-pins': [['pinOhm'], []],
  'stator-open': [['ohm'], ['openShows']],
  'stator-core-terminal': [['coreShort'], []],
  'stator-core-midway': [['coreShort'], []],
  'stator-shorted-turns': [['emfPerRpm', 'henry', 'ohm'], []],
  'stator-hot-short': [[], ['hotShort']],
  'rotor-weak': [['emfPerRpm'], []],
  'diode-open': [['lower', 'upper'], []],
  'diode-shorted': [['lower', 'upper'], ['fuseBlown']],
  'regulator-dead': [['gate'], ['deadShows']],
  'regulator-runaway': [['setVolts'], []],
  'regulator-set-low': [['setVolts'], []],
  'sense-drop': [['senseLossVolts'], []],
  drain: [[], ['drainAmps']],
  overload: [['accessorySiemens'], ['overloadAmps']],
  'thin-wire': [['outputWireOhm'], []],
};

describe('a fault', () => {
  for (const id of FAULT_IDS) {
    it(`${FAULTS[id].title}: touches what it is about and nothing else`, () => {
      const spec = id === 'sense-drop' ? SPEC_WIRE : REFERENCE;
      const all = [0, 1, 2].map((variant) => changed(id, variant, spec));
      for (const { bike, condition } of all) {
        expect(bike.filter((field) => !TOUCHES[id][0].includes(field as keyof Bike))).toEqual([]);
        expect(condition.filter((field) => !TOUCHES[id][1].includes(field as keyof Condition))).toEqual([]);
      }
      expect(new Set(all.flatMap((one) => [...one.bike, ...one.condition])).size).toBeGreaterThan(0);
    });
  }
});

const bikeWith = (...args: Parameters<typeof instance>) => built(REFERENCE, instance(...args)).asCame;

describe('severity', () => {
  const GRADED = Object.keys(GRADES) as FaultId[];

  it('runs from mild to bad, one way, within the range of its grade', () => {
    for (const id of GRADED) {
      const { mild, bad } = GRADES[id]!;
      const steps = Array.from({ length: 21 }, (_, n) => grade(id, n / 20));
      expect(steps[0]).toBeCloseTo(mild, 12);
      expect(steps[20]).toBeCloseTo(bad, 12);
      for (let n = 1; n < steps.length; n++)
        expect((steps[n]! - steps[n - 1]!) * Math.sign(bad - mild)).toBeGreaterThan(0);
      expect(grade(id, -1)).toBe(grade(id, 0));
      expect(grade(id, 2)).toBe(grade(id, 1));
    }
  });

  it('is refused for a fault that has none', () => {
    expect(() => grade('stator-open', 0.5)).toThrow(/no severity/);
    expect(() => grade('regulator-dead', 0.5)).toThrow(RangeError);
  });

  it('adds its ohms to the joint, and nothing to the others', () => {
    for (const [id, field] of [
      ['positive-post-joint', 'positivePostOhm'],
      ['negative-post-joint', 'negativePostOhm'],
      ['output-joint', 'outputJointOhm'],
      ['ground-joint', 'groundOhm'],
      ['breaker-joint', 'breakerOhm'],
      ['thin-wire', 'outputWireOhm'],
    ] as const) {
      for (const severity of [0, 0.3, 1]) {
        const added = bikeWith(id, severity)[field] - sound.asCame[field];
        expect(added).toBeCloseTo(grade(id, severity), 12);
      }
    }
  });

  it('makes a worse fault worse', () => {
    const worse: [FaultId, (bike: Bike) => number][] = [
      ['battery-sulphated', (bike) => bike.batteryOhm],
      ['plug-pin', (bike) => bike.pinOhm[0]],
      ['stator-core-terminal', (bike) => -bike.coreShort!.ohm],
      ['stator-core-midway', (bike) => -bike.coreShort!.ohm],
      ['stator-shorted-turns', (bike) => -bike.emfPerRpm[0]],
      ['rotor-weak', (bike) => -bike.emfPerRpm[0]],
      ['regulator-set-low', (bike) => -bike.setVolts],
      ['overload', (bike) => bike.accessorySiemens],
      ['battery-flat', (bike) => -bike.restVolts],
      ['sense-drop', (bike) => bike.senseLossVolts],
    ];
    for (const [id, measure] of worse) {
      const steps = [0, 0.25, 0.5, 0.75, 1].map((severity) => measure(bikeWith(id, severity)));
      for (let n = 1; n < steps.length; n++) expect(steps[n]).toBeGreaterThan(steps[n - 1]!);
    }
    const minutes = [0, 0.5, 1].map((s) => built(REFERENCE, instance('battery-worn', s)).condition.capacity);
    expect(minutes[0]).toBeGreaterThan(minutes[1]!);
    expect(minutes[1]).toBeGreaterThan(minutes[2]!);
    const drains = [0, 0.5, 1].map((s) => built(REFERENCE, instance('drain', s)).condition.drainAmps);
    expect(drains).toEqual([0, 0.5, 1].map((s) => grade('drain', s)));
  });
});

describe('where it sits', () => {
  it('is the phase it was put in', () => {
    for (const phase of [0, 1, 2] as const) {
      const others = [0, 1, 2].filter((n) => n !== phase);
      const [pin, open, turns] = [
        bikeWith('plug-pin', 0.5, phase).pinOhm,
        bikeWith('stator-open', 0.5, phase).ohm,
        bikeWith('stator-shorted-turns', 0.5, phase).emfPerRpm,
      ];
      expect(open[phase]).toBe(1e6);
      for (const n of others) {
        expect(pin[n]).toBe(sound.asCame.pinOhm[n]);
        expect(open[n]).toBe(sound.asCame.ohm[n]);
        expect(turns[n]).toBe(sound.asCame.emfPerRpm[n]);
      }
      expect(bikeWith('stator-core-terminal', 0.5, phase).coreShort).toMatchObject({ phase, fraction: 1 });
      expect(bikeWith('diode-open', 0.5, phase, 0).lower[phase]).toBe('open');
      expect(bikeWith('diode-open', 0.5, phase, 1).upper[phase]).toBe('open');
      expect(bikeWith('diode-shorted', 0.5, phase, 0).lower[phase]).toBe('shorted');
    }
  });

  it('several burnt pins: all but the one named, on two wires both', () => {
    const burnt = (spec: typeof REFERENCE, phase: 0 | 1 | 2) => {
      const pins = built(spec, instance('plug-pins', 0.5, phase)).asCame.pinOhm;
      return [0, 1, 2].filter((n) => pins[n]! > 0.05);
    };
    expect(burnt(REFERENCE, 0)).toEqual([1, 2]);
    expect(burnt(REFERENCE, 2)).toEqual([0, 1]);
    expect(burnt(SINGLE, 0)).toEqual([0, 1]);
    const through = built(REFERENCE, instance('plug-pins', 0.5, 0, 2)).asCame.pinOhm;
    expect(through[2]).toBe(1e6);
    expect(through[1]).toBeLessThan(3);
  });

  it('an upper device shorted in a shunt regulator blows the fuse, a lower one and a series regulator do not', () => {
    const series = { ...REFERENCE, regulator: { ...REFERENCE.regulator, kind: 'series' as const } };
    expect(built(REFERENCE, instance('diode-shorted', 0.5, 0, 1)).condition.fuseBlown).toBe(true);
    expect(built(REFERENCE, instance('diode-shorted', 0.5, 0, 0)).condition.fuseBlown).toBe(false);
    expect(built(series, instance('diode-shorted', 0.5, 0, 1)).condition.fuseBlown).toBe(false);
  });

  it('a regulator that does not limit has no set point', () => {
    expect(bikeWith('regulator-runaway').setVolts).toBe(Number.POSITIVE_INFINITY);
    expect(bikeWith('regulator-dead').gate).toBe('dead');
  });
});
