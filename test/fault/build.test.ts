/** Building a bike: both states of the battery, several faults together, and what heat adds. */
import { describe, expect, it } from 'vitest';
import { MIDDLING, restVoltsAt } from '../../src/circuit/sound.ts';
import { buildBike, heated } from '../../src/fault/build.ts';
import { MEMBERS } from '../../src/fault/catalogue.ts';
import { FAULT_IDS, FAULTS, faultPossible } from '../../src/fault/faults.ts';
import { grade } from '../../src/fault/grades.ts';
import { COVER_IDS, COVERS, coversOf, REPAIR_IDS, REPAIRS } from '../../src/fault/repairs.ts';
import { built, instance, REFERENCE, SHIPPED, SINGLE } from './three-machines.ts';

describe('the catalogue', () => {
  it('knows for every fault a member, a repair of that member or its part, a title and a weight', () => {
    for (const id of FAULT_IDS) {
      const fault = FAULTS[id];
      expect(fault.id).toBe(id);
      expect(MEMBERS).toContain(fault.member);
      expect(REPAIRS[fault.repair].member).toBe(fault.member);
      expect(fault.title).toMatch(/^\S.*[^.]$/);
      expect(fault.prior > 0 && fault.prior < 1).toBe(true);
      expect(fault.priorSource).not.toBe('');
    }
    expect(new Set(FAULT_IDS.map((id) => FAULTS[id].title)).size).toBe(FAULT_IDS.length);
  });

  it('has no repair that cures nothing, and prices that make sense', () => {
    for (const id of REPAIR_IDS) {
      expect(FAULT_IDS.some((fault) => FAULTS[fault].repair === id)).toBe(true);
      expect(REPAIRS[id].partCost).toBeGreaterThanOrEqual(0);
      expect(REPAIRS[id].minutes).toBeGreaterThan(0);
      expect(REPAIRS[id].title).toMatch(/^[A-Z].*[^.]$/);
      for (const cover of REPAIRS[id].covers) expect(COVERS[cover].minutes).toBeGreaterThan(0);
    }
    for (const cover of COVER_IDS)
      expect(REPAIR_IDS.some((id) => REPAIRS[id].covers.includes(cover))).toBe(true);
    expect(coversOf(['replace-rotor', 'replace-stator'])).toEqual(['side', 'alternator']);
    expect(coversOf(['reduce-load'])).toEqual([]);
  });

  it('knows which build can have which fault', () => {
    expect(faultPossible('sense-drop', { phases: 3, senses: 'output' })).toBe(false);
    expect(faultPossible('sense-drop', { phases: 1, senses: 'wire' })).toBe(true);
    for (const id of FAULT_IDS)
      if (id !== 'sense-drop') expect(faultPossible(id, { phases: 1, senses: 'output' })).toBe(true);
  });
});

describe('a built bike', () => {
  it('comes as it came and is charged on the bench, the rest the same', () => {
    const { asCame, charged, condition } = built(REFERENCE);
    expect(asCame.restVolts).toBeCloseTo(restVoltsAt('agm', 0.75), 12);
    expect(charged.restVolts).toBeCloseTo(restVoltsAt('agm', 0.95), 12);
    expect(charged.batteryOhm).toBeLessThan(asCame.batteryOhm);
    expect({ ...charged, restVolts: 0, batteryOhm: 0, chargeOhm: 0, dischargeOhm: 0 }).toEqual({
      ...asCame,
      restVolts: 0,
      batteryOhm: 0,
      chargeOhm: 0,
      dischargeOhm: 0,
    });
    expect(condition).toMatchObject({ charge: 0.75, chargeTop: 0.95, drainAmps: 0, hotShort: null });
  });

  it('is never fuller than the charger can make it', () => {
    const bike = buildBike(REFERENCE, { ...MIDDLING, charge: 0.9 }, 0.95, [
      instance('battery-sulphated', 0.5, 0, 0, 0),
    ]);
    expect(bike.condition.chargeTop).toBeCloseTo(0.55, 12);
    expect(bike.condition.charge).toBeCloseTo(0.55, 12);
    expect(bike.asCame.restVolts).toBeLessThanOrEqual(bike.charged.restVolts);
  });

  it('counts each fault once in its condition, though two states are built', () => {
    const bike = built(
      REFERENCE,
      instance('drain', 0.5),
      instance('battery-worn', 0),
      instance('overload', 0),
    );
    expect(bike.condition.capacity).toBeCloseTo(grade('battery-worn', 0), 12);
    expect(bike.condition.overloadAmps).toBeCloseTo(8, 12);
    expect(bike.asCame.accessorySiemens).toBe(bike.charged.accessorySiemens);
  });

  it('has all its faults, whatever order they are named in', () => {
    const faults = [
      instance('plug-pin', 0.4, 1),
      instance('rotor-weak', 0.3),
      instance('ground-joint', 0.7),
      instance('stator-shorted-turns', 0.2, 2),
    ];
    // To twelve digits: factors multiplied in another order round otherwise.
    const rounded = (bike: unknown) =>
      JSON.parse(JSON.stringify(bike, (_, v) => (typeof v === 'number' ? Number(v.toPrecision(12)) : v)));
    expect(rounded(built(REFERENCE, ...faults.toReversed()).asCame)).toEqual(
      rounded(built(REFERENCE, ...faults).asCame),
    );
    const bike = built(REFERENCE, ...faults).asCame;
    expect(bike.pinOhm[1]).toBeGreaterThan(0.1);
    expect(bike.groundOhm).toBeGreaterThan(0.04);
    expect(bike.emfPerRpm[2]).toBeLessThan(bike.emfPerRpm[0]);
  });

  it('is a possible circuit for every fault on every shipped machine', () => {
    for (const spec of [...SHIPPED, REFERENCE, SINGLE]) {
      for (const id of FAULT_IDS) {
        for (const severity of [0, 1]) {
          const { asCame, charged } = built(spec, instance(id, severity));
          for (const bike of [asCame, charged]) {
            for (const figure of [
              bike.batteryOhm,
              bike.chargeOhm,
              bike.dischargeOhm,
              bike.restVolts,
              bike.gasVolts,
            ])
              expect(figure > 0 && Number.isFinite(figure)).toBe(true);
            for (const figure of [...bike.pinOhm, ...bike.ohm, ...bike.henry, ...bike.emfPerRpm])
              expect(figure >= 0 && Number.isFinite(figure)).toBe(true);
            expect(bike.setVolts).toBeGreaterThan(11);
          }
        }
      }
    }
  });
});

describe('heat', () => {
  it('brings a short that shows only hot, and only that', () => {
    const { asCame, condition } = built(REFERENCE, instance('stator-hot-short', 0.5, 2));
    expect(asCame.coreShort).toBeNull();
    const hot = heated(asCame, condition);
    expect(hot.coreShort).toMatchObject({ phase: 2 });
    expect({ ...hot, coreShort: null }).toEqual(asCame);
  });

  it('changes nothing on a sound bike, and a short that is there stays where it is', () => {
    const sound = built(REFERENCE);
    expect(heated(sound.asCame, sound.condition)).toBe(sound.asCame);
    const both = built(
      REFERENCE,
      instance('stator-core-terminal', 0.5, 0),
      instance('stator-hot-short', 0.5, 2),
    );
    expect(heated(both.asCame, both.condition).coreShort).toMatchObject({ phase: 0, fraction: 1 });
  });
});
