/** Builds one concrete bike, sound or faulty, from the book, its wear and a list of faults. */
import type { Bike } from '../circuit/bike.ts';
import { bikeOf, type Wear } from '../circuit/sound.ts';
import type { ChargingSpec } from '../circuit/spec.ts';
import { applyFault, type Condition, type Place, soundCondition } from './apply.ts';
import type { FaultId } from './catalogue.ts';
import { grade } from './grades.ts';

/** One fault with how bad and where. `severity` and `second` are shares 0–1. */
export interface Instance {
  readonly id: FaultId;
  readonly severity: number;
  readonly second: number;
  readonly place: Place;
}

export interface Built {
  /** The battery as it came. */
  readonly asCame: Bike;
  /** After charging on the bench. */
  readonly charged: Bike;
  readonly condition: Condition;
}

/** Builds both states of the battery. `chargeTop` is the state of charge the bench charger reaches, 0–1. */
export function buildBike(
  spec: ChargingSpec,
  wear: Wear,
  chargeTop: number,
  faults: readonly Instance[],
): Built {
  const condition = soundCondition(wear.charge, chargeTop);
  for (const fault of faults) {
    if (fault.id === 'battery-flat') condition.charge = grade('battery-flat', fault.severity);
    if (fault.id === 'battery-sulphated')
      condition.chargeTop = Math.min(chargeTop, 0.55 + 0.3 * fault.second);
  }
  condition.charge = Math.min(condition.charge, condition.chargeTop);
  let asCame = bikeOf(spec, { ...wear, charge: condition.charge });
  let charged = bikeOf(spec, { ...wear, charge: condition.chargeTop });
  const twice: Condition = { ...condition };
  for (const fault of faults) {
    asCame = applyFault(asCame, condition, fault.id, fault.severity, fault.second, fault.place);
    charged = applyFault(charged, twice, fault.id, fault.severity, fault.second, fault.place);
  }
  return { asCame, charged, condition };
}

/** The hot circuit: a short that shows only hot touches now. */
export function heated(bike: Bike, condition: Condition): Bike {
  return condition.hotShort && !bike.coreShort ? { ...bike, coreShort: condition.hotShort } : bike;
}

/** The circuit with somebody moving the harness: a loose joint lets go. */
export function shaken(bike: Bike, condition: Condition): Bike {
  const { loose } = condition;
  return loose ? { ...bike, [loose.joint]: bike[loose.joint] + loose.ohm } : bike;
}
