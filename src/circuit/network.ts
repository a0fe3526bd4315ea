/** The DC side folded into one source and one resistance as the regulator sees it. */
import type { Bike, RunState } from './bike.ts';
import { loadSiemens } from './bike.ts';

/**
 * The DC side seen from the regulator's + terminal and the frame, for a battery whose inner volts are E:
 * volts = E·sourceShare + ohm·I, and battery amps = I·ampShare − E·siemensShare. Linear, because loads are
 * resistances and the battery's slow part is folded into E.
 */
export interface DcSide {
  /** Share of the battery's inner volts that the regulator sees at no current, 1. */
  sourceShare: number;
  /** Resistance from regulator + through battery and loads to the frame, Ω. */
  ohm: number;
  /** Regulator negative to frame, Ω. */
  groundOhm: number;
  /** Battery amps per alternator amp, 1. */
  ampShare: number;
  /** Battery amps drawn per inner volt, S. */
  siemensShare: number;
  /** Load conductance, S. */
  load: number;
  /** Everything between the node where the loads hang and the battery's inner volts, Ω. */
  batteryBranchOhm: number;
  /** Everything between regulator + and the node where the loads hang, Ω. */
  outputBranchOhm: number;
}

export function newDcSide(): DcSide {
  return {
    sourceShare: 1,
    ohm: 0,
    groundOhm: 0,
    ampShare: 1,
    siemensShare: 0,
    load: 0,
    batteryBranchOhm: 0,
    outputBranchOhm: 0,
  };
}

/** Folds the wiring of a bike in a state into `side`. */
export function foldDcSide(bike: Bike, state: RunState, side: DcSide): void {
  const atBattery = bike.loadsFedFrom === 'battery';
  const branch =
    bike.batteryOhm + bike.positivePostOhm + bike.negativePostOhm + (atBattery ? 0 : bike.breakerOhm);
  const output = bike.outputJointOhm + bike.outputWireOhm + (atBattery ? bike.breakerOhm : 0);
  const load = loadSiemens(bike, state);
  const divide = 1 + branch * load;
  side.sourceShare = 1 / divide;
  side.ohm = output + branch / divide;
  side.groundOhm = bike.groundOhm;
  side.ampShare = 1 / divide;
  side.siemensShare = load / divide;
  side.load = load;
  side.batteryBranchOhm = branch;
  side.outputBranchOhm = output;
}

/** Battery amps, A, + charging, when the regulator gives `amps` and the battery's inner volts are `inner`. */
export function batteryAmps(side: DcSide, amps: number, inner: number): number {
  return amps * side.ampShare - inner * side.siemensShare;
}

/**
 * Inner volts a battery settles at for a mean current, V: rest volts plus slow resistance, which falls to the
 * gassing line above `gasVolts` (charging only).
 */
export function innerVolts(bike: Bike, amps: number): number {
  if (amps <= 0) return bike.restVolts + bike.dischargeOhm * amps;
  const straight = bike.restVolts + bike.chargeOhm * amps;
  if (straight <= bike.gasVolts) return straight;
  const atGas = Math.max(0, (bike.gasVolts - bike.restVolts) / bike.chargeOhm);
  return Math.max(bike.gasVolts, bike.restVolts) + bike.gasOhm * (amps - atGas);
}

/** The slow resistance that applies at inner volts `inner`, Ω. */
export function slowOhm(bike: Bike, inner: number): number {
  if (inner <= bike.restVolts) return bike.dischargeOhm;
  return inner > bike.gasVolts ? bike.gasOhm : bike.chargeOhm;
}

/** Mean battery current that holds the inner volts at `inner`, A: the inverse of `innerVolts`. */
export function ampsFor(bike: Bike, inner: number): number {
  if (inner <= bike.restVolts) return (inner - bike.restVolts) / bike.dischargeOhm;
  const top = Math.max(bike.gasVolts, bike.restVolts);
  if (inner <= top) return (inner - bike.restVolts) / bike.chargeOhm;
  return Math.max(0, (bike.gasVolts - bike.restVolts) / bike.chargeOhm) + (inner - top) / bike.gasOhm;
}
