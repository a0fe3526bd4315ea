/**
 * Sweeps two machines through every fault and four speeds with ngspice, and writes what it said to
 * `test/fixtures/ngspice/<machine>.json`, with this generator and the tolerances beside the figures.
 *
 * `npm run reference` runs all of it (about ten minutes); arguments are regular expressions that pick machines and faults,
 * then nothing is written and only the comparison is shown: `npm run reference -- a-shunt 'core|pin'`.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Bike, RunState } from '../../src/circuit/bike.ts';
import { electricalHertz, writeNetlist } from '../../src/circuit/netlist.ts';
import { solvePoint } from '../../src/circuit/point.ts';
import type { Ngspice } from './ngspice-engine.ts';
import { openNgspice } from './ngspice-engine.ts';
import { FAULTS } from './ngspice-faults.ts';
import { running, SWEPT } from './ngspice-machines.ts';
import type { Measured } from './ngspice-measure.ts';
import { measureVectors } from './ngspice-measure.ts';
import type { Fixture, FixturePoint } from './ngspice-tolerance.ts';
import { isRegulating, misses, OTHER_CYCLE, TOLERANCE } from './ngspice-tolerance.ts';

const SPEEDS = [900, 2000, 3000, 5000];
const CYCLES = 36;
/** Further starts of the regulator's filter, V under the set point. */
const STARTS = [0.1, 3.6, 6.6, 1.3, 2.4, 0.6, 1.9, 5];

async function simulate(
  ngspice: Ngspice,
  bike: Bike,
  state: RunState,
  senseStart: number,
): Promise<Measured> {
  const netlist = writeNetlist(bike, state, { cycles: CYCLES, senseStart });
  const measured = measureVectors(
    await ngspice.run(netlist),
    CYCLES / electricalHertz(bike, state),
    bike.phases === 3 ? 3 : 2,
  );
  return rounded(measured);
}

/** Six decimals: finer than any tolerance, and fixtures stay readable. */
function rounded<T>(value: T): T {
  return JSON.parse(JSON.stringify(value, (_, v) => (typeof v === 'number' ? Number(v.toFixed(6)) : v))) as T;
}

async function sweepPoint(ngspice: Ngspice, fault: string, bike: Bike, rpm: number): Promise<FixturePoint> {
  const state = running(rpm);
  const ours = solvePoint(bike, state);
  const first = Math.min(bike.restVolts, bike.setVolts);
  const measured = await simulate(ngspice, bike, state, first);
  const regulating = isRegulating(bike, measured);
  const states = [{ senseStart: first, measured }];
  if (regulating && Number.isFinite(bike.setVolts)) {
    for (const under of STARTS) {
      if (states.some((s) => misses(ours, s.measured, true).length === 0)) break;
      const senseStart = bike.setVolts - under;
      const other = await simulate(ngspice, bike, state, senseStart);
      const known = states.some((s) => Math.abs(s.measured.alternatorAmps - other.alternatorAmps) < 0.15);
      if (!known) states.push({ senseStart, measured: other });
    }
  }
  return { fault, rpm, regulating, states };
}

async function main(): Promise<void> {
  const [machines, faults] = process.argv.slice(2).map((text) => new RegExp(text));
  const folder = resolve('test/fixtures/ngspice');
  const began = performance.now();
  let bad = 0;
  for (const [machine, sound] of Object.entries(SWEPT)) {
    if (machines && !machines.test(machine)) continue;
    // One instance a machine, the old one left to the garbage collector: memory stays flat.
    const ngspice = await openNgspice();
    const points: FixturePoint[] = [];
    for (const [fault, change] of Object.entries(FAULTS)) {
      if (faults && !faults.test(fault)) continue;
      for (const rpm of SPEEDS) {
        const bike = change(sound);
        const point = await sweepPoint(ngspice, fault, bike, rpm);
        points.push(point);
        const ours = solvePoint(bike, running(rpm));
        const best = point.states
          .map((s) => misses(ours, s.measured, point.regulating))
          .sort((a, b) => a.length - b.length)[0]!;
        const other = `${machine} ${fault} ${rpm}` in OTHER_CYCLE;
        if (best.length > 0 && !other) bad++;
        console.log(line(machine, point, ours), best.join('; '), other ? '(another limit cycle, known)' : '');
      }
    }
    if (faults) continue;
    const fixture: Fixture = {
      generator: 'test/reference/ngspice-sweep.ts (npm run reference)',
      simulator: `${ngspice.version} (npm eecircuit-engine)`,
      tolerance: TOLERANCE,
      machine,
      bike: sound,
      points,
    };
    mkdirSync(folder, { recursive: true });
    writeFileSync(resolve(folder, `${machine}.json`), `${JSON.stringify(fixture, null, 1)}\n`);
  }
  const minutes = (performance.now() - began) / 60_000;
  console.log(
    `${bad} points outside the tolerances, ${minutes.toFixed(1)} min, ${Math.round(process.memoryUsage().rss / 1e6)} MB`,
  );
  process.exitCode = bad > 0 ? 1 : 0;
}

function line(
  machine: string,
  point: FixturePoint,
  ours: { batteryVolts: number; alternatorAmps: number },
): string {
  const theirs = point.states
    .map(({ measured: m }) => `${m.batteryVolts.toFixed(3)} V ${m.alternatorAmps.toFixed(2)} A`)
    .join(' or ');
  return `${machine} ${point.fault} ${point.rpm} rpm: ngspice ${theirs}, ours ${ours.batteryVolts.toFixed(3)} V ${ours.alternatorAmps.toFixed(2)} A`;
}

await main();
