/** Turns the vectors of a simulated netlist into the figures that the meters would show. */

/** Named vectors over uneven time steps. */
export type Vectors = ReadonlyMap<string, ArrayLike<number>>;

/** What is compared with the project's own solver. Volts V, amps A; names as in OperatingPoint. */
export interface Measured {
  readonly batteryVolts: number;
  readonly regulatorVolts: number;
  readonly alternatorAmps: number;
  readonly batteryAmps: number;
  readonly phaseAmps: readonly [number, number, number];
  readonly rippleRms: number;
  readonly rippleMeter: number;
  readonly dropPositive: number;
  readonly dropNegative: number;
  readonly dropBreaker: number;
  readonly dropOutputJoint: number;
  readonly pinVolts: readonly [number, number, number];
}

/** Measures the last `seconds` of the run. `pins` is 3, or 2 on a single-phase machine. */
export function measureVectors(vectors: Vectors, seconds: number, pins: number): Measured {
  const time = vector(vectors, 'time');
  const end = time[time.length - 1]!;
  const from = end - seconds;
  const of = (name: string) => vector(vectors, name);
  const mean = (name: string) => integrate(time, of(name), from, same);
  const battery = of('v(battery_volts)');
  const phaseAmps: [number, number, number] = [0, 0, 0];
  const pinVolts: [number, number, number] = [0, 0, 0];
  for (let k = 0; k < pins; k++) {
    phaseAmps[k] = integrate(time, of(`i(vm${k})`), from, square) ** 0.5;
    pinVolts[k] = integrate(time, of(`v(pin_${k})`), from, square) ** 0.5;
  }
  const batteryVolts = integrate(time, battery, from, same);
  return {
    batteryVolts,
    regulatorVolts: mean('v(regulator_volts)'),
    alternatorAmps: mean('i(vout)'),
    batteryAmps: mean('i(vbat)'),
    phaseAmps,
    rippleRms: integrate(time, battery, from, (v) => (v - batteryVolts) ** 2) ** 0.5,
    rippleMeter: 1.11 * integrate(time, battery, from, (v) => Math.abs(v - batteryVolts)),
    dropPositive: mean('v(drop_positive)'),
    dropNegative: mean('v(drop_negative)'),
    dropBreaker: mean('v(drop_breaker)'),
    dropOutputJoint: mean('v(drop_output_joint)'),
    pinVolts,
  };
}

function vector(vectors: Vectors, name: string): ArrayLike<number> {
  const found = vectors.get(name);
  if (!found)
    throw new Error(
      `the simulator returned no vector ${name}; it returned ${[...vectors.keys()].join(', ')}`,
    );
  return found;
}

const same = (v: number) => v;
const square = (v: number) => v * v;

/** Mean of f(value) by the trapezoidal rule from `from` to the end. */
function integrate(
  time: ArrayLike<number>,
  values: ArrayLike<number>,
  from: number,
  f: (v: number) => number,
): number {
  let sum = 0;
  const last = time.length - 1;
  for (let i = last; i > 0; i--) {
    const t1 = time[i]!;
    const v1 = values[i]!;
    let t0 = time[i - 1]!;
    let v0 = values[i - 1]!;
    const cut = t0 < from;
    if (cut) {
      v0 += ((v1 - v0) * (from - t0)) / (t1 - t0);
      t0 = from;
    }
    sum += 0.5 * (f(v0) + f(v1)) * (t1 - t0);
    if (cut) break;
  }
  return sum / (time[last]! - from);
}
