/** From a machine file to what the sciences take. */
import type { AlternatorSpec, ChargingSpec, RegulatorSpec, UnsureSpec } from '../circuit/spec.ts';
import { counting } from './counts.ts';
import type { Charging, Machine, Part } from './definition.ts';
import { middle, type Quantity } from './figure.ts';
import { wiringSpec } from './wiring.ts';

/** Relative tolerance of a figure, 1: half its width over its middle. */
export function tolerance(quantity: Quantity): number {
  // Nine digits: "17.0 V ± 10 %" gives 0.1 and not 0.09999999999999996.
  return Number(((quantity.high - quantity.low) / 2 / middle(quantity)).toPrecision(9));
}

/**
 * What the book, and the sheets of the parts that are fitted, say of this bike's charging circuit. `newParts`
 * are taken as fitted too: the circuit as it will be after they are replaced.
 */
export function chargingSpec(machine: Machine, newParts: readonly Part[] = []): ChargingSpec {
  const { about, charging } = machine;
  const pick = <F extends Parameters<typeof counting>[1]>(figure: F) =>
    counting(machine, figure, newParts) as F;
  const load = (name: keyof Charging['loads']) => middle(pick(charging.loads[name]).is);
  return {
    name: `${about.maker} ${about.model}`,
    alternator: alternatorSpec(charging.alternator, pick),
    regulator: regulatorSpec(charging.regulator, pick),
    battery: {
      chemistry: pick(charging.battery.chemistry).is,
      ampHours: middle(pick(charging.battery.capacity).is) / 3600,
      crankAmps: middle(pick(charging.battery.crankAmps).is),
    },
    loads: {
      ignition: load('ignition'),
      low: load('low'),
      high: load('high'),
      tail: load('tail'),
      accessories: load('accessories'),
    },
    loadsFedFrom: pick(charging.loadsFedFrom).is,
    fuseAmps: middle(pick(charging.fuse).is),
    restDrainAmps: middle(pick(charging.restDrain).is),
    wiring: wiringSpec(machine, newParts),
    tachometer: pick(charging.tachometer).is,
    ...unsure(machine, pick),
  };
}

/** A label that nobody has read may be this far off, 1: a guess, no source. */
const GUESSED_LABEL = 0.4;

/** Ranges of the loads, and a battery's label that is only guessed. Absent where nothing of that kind is in the file. */
function unsure({ charging, sources }: Machine, pick: Pick): { readonly unsure?: UnsureSpec } {
  const { loads: all, battery } = charging;
  let square = 0;
  let sum = 0;
  for (const { is } of [pick(all.ignition), pick(all.low), pick(all.tail), pick(all.accessories)]) {
    square += ((is.high - is.low) / 2) ** 2;
    sum += middle(is);
  }
  const guessed = (figure: Parameters<Pick>[0]) =>
    sources[pick(figure).from]?.kind === 'guess' ? GUESSED_LABEL : 0;
  const found = {
    loads: sum > 0 ? Math.sqrt(square) / sum : 0,
    ampHours: guessed(battery.capacity),
    crankAmps: guessed(battery.crankAmps),
  };
  return Object.values(found).some((one) => one > 0) ? { unsure: found } : {};
}

type Pick = <F extends Parameters<typeof counting>[1]>(figure: F) => F;

function alternatorSpec(alternator: Charging['alternator'], pick: Pick): AlternatorSpec {
  const open = pick(alternator.openVolts);
  const rated = pick(alternator.ratedAmps);
  const ohms = pick(alternator.pairOhms).is;
  return {
    phases: pick(alternator.phases).is,
    poles: alternator.poles === null ? null : pick(alternator.poles).is,
    openVolts: { rpm: middle(open.at), volts: middle(open.is), tolerance: tolerance(open.is) },
    ratedAmps: { rpm: middle(rated.at), amps: middle(rated.is), tolerance: tolerance(rated.is) },
    pairOhms: [ohms.low, ohms.high],
  };
}

function regulatorSpec(regulator: Charging['regulator'], pick: Pick): RegulatorSpec {
  const volts = pick(regulator.chargeVolts).is;
  return {
    kind: pick(regulator.type).is,
    chargeVolts: [volts.low, volts.high],
    senses: pick(regulator.senses).is,
  };
}
