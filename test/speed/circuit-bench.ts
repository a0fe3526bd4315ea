/**
 * `npm run bench`: what an operating point costs, beside ngspice in the same run. Processor time of this process on one core
 * (the wall clock lies where others share the machine); each row is the median of several batches.
 */
import type { Bike, RunState } from '../../src/circuit/bike.ts';
import { balancedPoint, bridgeAmps, continuousAmps } from '../../src/circuit/closed-form.ts';
import { writeNetlist } from '../../src/circuit/netlist.ts';
import { solvePoint } from '../../src/circuit/point.ts';
import { COARSE, FINE, stepPoint } from '../../src/circuit/stepper.ts';
import { unbalancedAmps } from '../../src/circuit/unbalanced.ts';
import { openNgspice } from '../reference/ngspice-engine.ts';
import { FAULTS } from '../reference/ngspice-faults.ts';
import { running, SWEPT } from '../reference/ngspice-machines.ts';

const A = SWEPT['a-shunt']!;
const B = SWEPT['b-shunt']!;
const SPEEDS = [900, 2000, 3000, 5000];

/** Kept so that nothing is optimised away. */
let sink = 0;

/** Microseconds of processor time of one call. `work` gets a running number. */
function microseconds(work: (n: number) => number, calls: number, batches = 7): number {
  for (let n = 0; n < calls; n++) sink += work(n);
  const times: number[] = [];
  for (let batch = 0; batch < batches; batch++) {
    const before = process.cpuUsage();
    for (let n = 0; n < calls; n++) sink += work(n);
    const { user, system } = process.cpuUsage(before);
    times.push((user + system) / calls);
  }
  return times.sort((a, b) => a - b)[batches >> 1]!;
}

interface Row {
  readonly name: string;
  readonly micro: number;
  /** µs asked for; null where nothing is asked. */
  readonly target: number | null;
  /** Speeds and bikes that ngspice runs for the ratio. */
  readonly spice: readonly (readonly [Bike, RunState])[];
}

function unregulated(bike: Bike): Bike {
  return { ...bike, setVolts: Number.POSITIVE_INFINITY };
}

const omega = (2 * Math.PI * 6 * 3000) / 60;
const peak = A.emfPerRpm[0] * 3000;
const faulty = Object.entries(FAULTS).filter(([name]) => name !== 'sound');
const points = [A, B].flatMap((bike) =>
  faulty.flatMap(([, change]) => SPEEDS.map((rpm) => [change(bike), running(rpm)] as const)),
);
const free = unregulated(A);
const states = Array.from({ length: 64 }, (_, n) => running(1500 + 50 * n));
const idle = Array.from({ length: 64 }, (_, n) => running(750 + 3 * n));
const burnt = (n: number) => ({ emf: peak + (n & 15) * 0.01, reactance: omega * 0.6e-3, ohm: 0.6 });
const whole = { emf: peak, reactance: omega * 0.6e-3, ohm: 0.107 };
const point = (bike: Bike, state: RunState) => {
  const p = balancedPoint(bike, state);
  return p.ok ? p.batteryVolts : 0;
};

const rows: Row[] = [
  {
    name: 'balanced, fixed DC volts, continuous',
    micro: microseconds(
      (n) => continuousAmps(3, peak + (n & 7) * 0.1, omega * 0.6e-3, 0.107, 15.48),
      300_000,
    ),
    target: 1,
    spice: [[free, running(3000)]],
  },
  {
    name: 'balanced, fixed DC volts, pulses at idle',
    micro: microseconds((n) => bridgeAmps(3, 12.4 + (n & 7) * 0.01, 0.339, 0.107, 15.48), 100_000),
    target: null,
    spice: [[free, running(900)]],
  },
  {
    name: 'balanced operating point, continuous',
    micro: microseconds((n) => point(free, states[n & 63]!), 200_000),
    target: 1,
    spice: [[free, running(3000)]],
  },
  {
    name: 'balanced operating point, pulses at idle',
    micro: microseconds((n) => point(free, idle[n & 63]!), 50_000),
    target: 1,
    spice: [[free, running(900)]],
  },
  {
    name: 'unbalanced, fixed DC volts, continuous',
    micro: microseconds((n) => unbalancedAmps(burnt(n), whole, whole, 15.48).amps, 50_000),
    target: 5,
    spice: [[unregulated(FAULTS['pin-0.5']!(A)), running(3000)]],
  },
  {
    name: 'general faulty point, coarse (inference)',
    micro: microseconds(
      (n) => stepPoint(...points[n % points.length]!, COARSE).batteryVolts,
      points.length * 2,
    ),
    target: 150,
    spice: [],
  },
  {
    name: 'general faulty point, fine (shown)',
    micro: microseconds((n) => solvePoint(...points[n % points.length]!).batteryVolts, points.length, 3),
    target: 150,
    spice: [],
  },
];

/** ngspice on a spread of the same faulty points. */
const spread = points.filter((_, n) => n % 19 === 0);
const ngspice = await openNgspice();
async function spiceMicroseconds(circuits: readonly (readonly [Bike, RunState])[]): Promise<number> {
  const before = process.cpuUsage();
  for (const [bike, state] of circuits) await ngspice.run(writeNetlist(bike, state));
  const { user, system } = process.cpuUsage(before);
  return (user + system) / circuits.length;
}

console.log(
  `Operating points, processor time on one core (node ${process.version}, ${ngspice.version}); fine = ${FINE.steps} steps × ${FINE.settle + FINE.measure} cycles, coarse = ${COARSE.steps} × ${COARSE.settle + COARSE.measure}`,
);
console.log(
  `${'point'.padEnd(44)}${'µs'.padStart(10)}${'asked'.padStart(8)}${'ngspice ms'.padStart(12)}${'ratio'.padStart(12)}`,
);
const general = await spiceMicroseconds(spread);
for (const { name, micro, target, spice } of rows) {
  const theirs = spice.length > 0 ? await spiceMicroseconds(spice) : general;
  const mark = target === null ? '' : `≤ ${target}${micro > target ? ' !' : ''}`;
  console.log(
    `${name.padEnd(44)}${micro.toFixed(micro < 10 ? 2 : 0).padStart(10)}${mark.padStart(8)}${(theirs / 1000).toFixed(0).padStart(12)}${Math.round(
      theirs / micro,
    )
      .toLocaleString('en')
      .padStart(12)}`,
  );
}
if (!Number.isFinite(sink)) throw new Error('a point without a figure');
