/** The ride balance beside the world outside it: published figures of the two wells, tables, and a fine integration. */
import { describe, expect, it } from 'vitest';
import { rowAmps } from '../../src/circuit/alternator-output.ts';
import {
  AGES,
  chargedTo,
  crankAmps,
  fullness,
  leakPerDay,
  lineOf,
  type RideBattery,
  rideBattery,
  wellsOf,
} from '../../src/circuit/charge-state.ts';
import { hotState, solvePoint } from '../../src/circuit/point.ts';
import { monthOf, rideMachine } from '../../src/circuit/ride-balance.ts';
import type { RideLife } from '../../src/circuit/ride-legs.ts';
import { legSiemens } from '../../src/circuit/ride-month.ts';
import { ridePoint } from '../../src/circuit/ride-point.ts';
import { bikeOf, MIDDLING, restVoltsAt } from '../../src/circuit/sound.ts';
import { capacityAt, mostAmps, runWells, wellsFrom } from '../../src/circuit/two-wells.ts';
import { SHIPPED, specOf } from '../machine/shipped.ts';

describe('two wells of charge', () => {
  // The lead-acid tests of NREL's system simulation core (github.com/NREL/ssc, lib_battery_capacity_test): a battery of
  // 100 Ah in 20 h, 93 Ah in 10 h and 60 Ah in 1 h, half full, then an hour each at 1.5 A, at 3 A and at all it can give.
  it('are fitted and emptied as a published implementation does', () => {
    const wells = wellsFrom([
      { hours: 1, ampHours: 60 },
      { hours: 10, ampHours: 93 },
      { hours: 20, ampHours: 100 },
    ])!;
    expect(wells.ampHours).toBeCloseTo(108.16, 2);
    const charge = {
      available: (wells.share * wells.ampHours) / 2,
      bound: ((1 - wells.share) * wells.ampHours) / 2,
    };
    expect(charge.available).toBeCloseTo(25.6938, 3);
    runWells(wells, charge, 1.5, 1);
    expect(charge.available + charge.bound).toBeCloseTo(52.58, 2);
    runWells(wells, charge, 3, 1);
    expect(charge.available + charge.bound).toBeCloseTo(49.58, 2);
    const most = mostAmps(wells, charge, 1);
    expect(most).toBeCloseTo(26.65, 2);
    runWells(wells, charge, most, 1);
    expect(charge.available).toBeCloseTo(0, 9);
    expect(charge.available + charge.bound).toBeCloseTo(22.927, 2);
    expect(mostAmps(wells, charge, 1)).toBeCloseTo(6.25, 1);
    runWells(wells, charge, mostAmps(wells, charge, 1), 1);
    expect(charge.available + charge.bound).toBeCloseTo(16.67, 2);
  });

  // The same tests' sequence: 30 A out for an hour leave 24.07 Ah of 54.07 Ah, 30 A in for an hour give them back.
  it('give back what was put in', () => {
    const wells = wellsFrom([
      { hours: 1, ampHours: 60 },
      { hours: 10, ampHours: 93 },
      { hours: 20, ampHours: 100 },
    ])!;
    const charge = { available: wells.share * 54.07, bound: (1 - wells.share) * 54.07 };
    runWells(wells, charge, 30, 1);
    expect(charge.available + charge.bound).toBeCloseTo(24.07, 2);
    // It was all the available well could give in an hour, to the last of the two decimals printed.
    expect(Math.abs(charge.available)).toBeLessThan(0.01);
    runWells(wells, charge, -30, 1);
    expect(charge.available + charge.bound).toBeCloseTo(54.07, 2);
  });

  // Peukert's law with the exponents of the trade's tables, 1.2–1.3 flooded and 1.05–1.15 AGM.
  it.each([
    ['flooded', 1.2, 1.3],
    ['agm', 1.05, 1.15],
  ] as const)('(%s) follow Peukert’s law between 1 and 10 hours', (chemistry, least, most) => {
    const wells = wellsOf(chemistry, 18);
    expect(capacityAt(wells, 10)).toBeCloseTo(18, 6);
    for (const hours of [1, 2, 5]) {
      const amps = capacityAt(wells, hours) / hours;
      const exponent = Math.log(10 / hours) / Math.log(amps / 1.8);
      expect(exponent).toBeGreaterThan(least);
      expect(exponent).toBeLessThan(most);
    }
  });
});

describe('a battery that stands', () => {
  // US Army TM 9-6140-200-14: 0.0025, 0.001 and 0.0003 SG a day at 38, 27 and 10 °C; full to empty is 0.145 SG.
  it.each([
    [38, 0.0025],
    [27, 0.001],
    [10, 0.0003],
  ])('loses at %d °C what the manual says', (celsius, sg) => {
    expect(leakPerDay('flooded', celsius)).toBeCloseTo(sg / 0.145, 9);
  });

  // The trade's sum: days to half charge = 500·Ah/(24·mA), 19 Ah at 50 mA gives 7.9 days.
  it('is emptied by a drain as the trade reckons', () => {
    const spec = { ...specOf(SHIPPED[0]), restDrainAmps: 0.05 };
    const life: RideLife = {
      legs: [{ name: 'moved', rpm: 1800, minutes: 1, lights: 'off' }],
      loads: [],
      celsius: 15,
      days: 9,
      everyDays: 60,
      startCharge: 0.9,
    };
    const { books } = monthOf(rideMachine(spec), life, 'likely');
    const perDay = (books.drained / (9 * 24 - 1 / 60)) * 24;
    expect(19 / 2 / perDay).toBeCloseTo(7.9, 1);
  });
});

describe('the point on the road', () => {
  // The stepped circuit, itself held against ngspice (circuit.test.ts), with the same battery.
  it.each(SHIPPED)('is the one of the full circuit: %s', (machine) => {
    const spec = specOf(machine);
    const alternator = rideMachine(spec).likely;
    const point = { volts: 0, alternatorAmps: 0, plates: 0, gas: 0, regulating: false };
    const line = { restVolts: 0, ohm: 0, chargeOhm: 0, dischargeOhm: 0 };
    const age = { ...AGES.fresh, acceptance: 1 };
    const battery = rideBattery(spec.battery, age, 25);
    for (const charge of [0.5, 0.75, 0.9])
      for (const rpm of [900, 1200, 2000, 3500, 6000]) {
        lineOf(battery, chargedTo(battery, charge), line);
        const bike = bikeOf(spec, { ...MIDDLING, charge });
        const full = solvePoint(bike, hotState(rpm));
        const siemens = bike.ignitionSiemens + bike.lowSiemens + bike.tailSiemens + bike.accessorySiemens;
        ridePoint(alternator, alternator.row(rpm), battery, line, siemens, point);
        const at = `${charge} at ${rpm} rpm`;
        // Where the regulator chops, the ceiling is one for all speeds; below it the closed form is the circuit.
        expect(Math.abs(point.volts - full.batteryVolts), at).toBeLessThan(point.regulating ? 0.25 : 0.02);
        if (!point.regulating)
          expect(Math.abs(point.plates + point.gas - full.batteryAmps), at).toBeLessThan(0.08);
      }
  });
});

/** Days of the month as plain differential equations, integrated by Runge and Kutta's fourth order in small steps. */
function integrate(
  spec: ReturnType<typeof specOf>,
  life: RideLife,
  battery: RideBattery,
  rowOf: (rpm: number) => Float64Array,
  ceiling: { readonly tripVolts: number; readonly tripOhm: number },
): { readonly full: number; readonly lowest: number } {
  const { ampHours, share, perHour } = battery.wells;
  const k = perHour * share * (1 - share);
  type State = readonly [available: number, bound: number];
  /** Current into the plates at a terminal voltage, by bisection over the inner volts. */
  const taken = ([available, bound]: State, volts: number): { plates: number; gas: number } => {
    const level = available / (share * ampHours);
    const rest = restVoltsAt(battery.chemistry, level);
    const empty = Math.min(1, Math.max(0.015, 1 - (available + bound) / ampHours));
    const ohm = battery.fullOhm * (1 + 0.8 * empty ** 1.7);
    const parts = (inner: number) => ({
      plates:
        inner > rest ? ((inner - rest) * (1 - level)) / battery.acceptOhm : (inner - rest) / (1.2 * ohm),
      gas: Math.max(0, inner - Math.max(battery.gasVolts, rest)) / battery.gasOhm,
    });
    let [low, high] = [Math.min(rest, volts), Math.max(rest, volts)];
    for (let n = 0; n < 60; n++) {
      const inner = (low + high) / 2;
      const { plates, gas } = parts(inner);
      if ((volts - inner) / ohm > plates + gas) low = inner;
      else high = inner;
    }
    return parts((low + high) / 2);
  };
  const plates = (state: State, row: Float64Array, siemens: number): number => {
    let [low, high] = [5, 17];
    for (let n = 0; n < 60; n++) {
      const volts = (low + high) / 2;
      const into = taken(state, volts);
      const total = into.plates + into.gas + siemens * volts;
      const limit =
        ceiling.tripOhm > 0
          ? (ceiling.tripVolts - volts) / ceiling.tripOhm
          : volts < ceiling.tripVolts
            ? 1e9
            : -1e9;
      if (Math.min(rowAmps(row, volts), limit) > total) low = volts;
      else high = volts;
    }
    return taken(state, (low + high) / 2).plates;
  };
  let state: State = [share * ampHours * life.startCharge, (1 - share) * ampHours * life.startCharge];
  let lowest = life.startCharge;
  const run = (row: Float64Array, siemens: number, drain: number, hours: number, most: number) => {
    const count = Math.ceil(hours / most);
    const h = hours / count;
    const slope = (s: State): State => {
      const amps = plates(s, row, siemens) - drain;
      const flow = k * (s[1] / (1 - share) - s[0] / share);
      return [
        (amps > 0 ? amps * battery.stored : amps) + flow - battery.leakPerHour * s[0],
        -flow - battery.leakPerHour * s[1],
      ];
    };
    const along = (s: State, d: State, by: number): State => [s[0] + d[0] * by, s[1] + d[1] * by];
    for (let n = 0; n < count; n++) {
      const a = slope(state);
      const b = slope(along(state, a, h / 2));
      const c = slope(along(state, b, h / 2));
      const d = slope(along(state, c, h));
      state = [0, 1].map(
        (i) => state[i]! + (h / 6) * (a[i]! + 2 * b[i]! + 2 * c[i]! + d[i]!),
      ) as unknown as State;
      lowest = Math.min(lowest, (state[0] + state[1]) / ampHours);
    }
  };
  for (let day = 0; day < life.days; day++) {
    let running = false;
    let gone = 0;
    for (const leg of life.legs) {
      if (leg.rpm > 0 && !running) {
        const charge = { available: state[0], bound: state[1] };
        const taken = (crankAmps(battery, charge) * battery.starterSeconds) / 3600;
        const left = 1 - taken / (state[0] + state[1]);
        state = [state[0] * left, state[1] * left];
        lowest = Math.min(lowest, (state[0] + state[1]) / ampHours);
      }
      running = leg.rpm > 0;
      gone += leg.minutes / 60;
      run(
        rowOf(leg.rpm),
        legSiemens(spec, life, leg),
        running ? 0 : spec.restDrainAmps,
        leg.minutes / 60,
        4 / 3600,
      );
    }
    run(rowOf(0), 0, spec.restDrainAmps, 24 - gone, 1 / 30);
  }
  return { full: (state[0] + state[1]) / ampHours, lowest };
}

describe('days on the road', () => {
  it.each([
    ['slow and cold', 1000, -5, 0.9],
    ['at speed, nearly full', 4000, 20, 0.97],
    ['from low', 2500, 5, 0.4],
  ] as const)(
    'end where a fine integration of the same equations ends: %s',
    (_, rpm, celsius, startCharge) => {
      for (const name of [SHIPPED[0], SHIPPED[2]] as const) {
        const spec = specOf(name);
        const machine = rideMachine(spec);
        const life: RideLife = {
          legs: [
            { name: 'out', rpm, minutes: 25, lights: 'high' },
            { name: 'stop', rpm: 0, minutes: 30, lights: 'park' },
            { name: 'back', rpm, minutes: 25, lights: 'low' },
          ],
          loads: [{ name: 'jacket', watts: 60, when: 'riding' }],
          celsius,
          days: 2,
          everyDays: 1,
          startCharge,
        };
        const battery = rideBattery(spec.battery, AGES.likely, celsius);
        const fine = integrate(spec, life, battery, machine.likely.row, machine.likely);
        const month = monthOf(machine, life, 'likely');
        expect(Math.abs(month.days.at(-1)!.last - fine.full), name).toBeLessThan(3e-4);
        expect(Math.abs(month.lowest - fine.lowest), name).toBeLessThan(3e-4);
        expect(fullness(battery, chargedTo(battery, startCharge))).toBeCloseTo(startCharge, 12);
      }
    },
  );
});
