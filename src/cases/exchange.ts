/**
 * Room `cases`: practice cases and how they are played. Its exchange format (one JSON object a line) has names of its
 * own for faults, repairs, readings and the owner's book; this room translates between them and the product's words,
 * answers lines, hands out a case's readings one by one as a bike would, slips included, and scores the verdicts.
 * It is pure: files, processes and clocks are the caller's.
 *
 * This file: the names of faults and repairs.
 */
import type { FaultId, RepairId } from '../fault/catalogue.ts';

/** Exchange name of each fault. */
const FAULT_NAMES: Readonly<Record<FaultId, string>> = {
  'battery-flat': 'batt_discharged',
  'battery-sulphated': 'batt_sulphated',
  'battery-shorted-cell': 'batt_shorted_cell',
  'battery-worn': 'batt_low_capacity',
  'positive-post-joint': 'term_pos',
  'negative-post-joint': 'term_neg',
  'output-joint': 'dc_pos_lead',
  'ground-joint': 'reg_ground',
  'breaker-joint': 'breaker',
  'plug-pin': 'plug_one_pin',
  'plug-pins': 'plug_multi',
  'stator-open': 'stator_open',
  'stator-core-terminal': 'stator_gnd_end',
  'stator-core-midway': 'stator_gnd_mid',
  'stator-shorted-turns': 'stator_turns',
  'stator-hot-short': 'stator_hot',
  'rotor-weak': 'rotor_weak',
  'diode-open': 'reg_diode_open',
  'diode-shorted': 'reg_diode_short',
  'regulator-dead': 'reg_no_output',
  'regulator-runaway': 'reg_no_regulation',
  'regulator-set-low': 'reg_low_setpoint',
  'sense-drop': 'sense_drop',
  drain: 'parasitic',
  overload: 'acc_overload',
  'thin-wire': 'undersized_wire',
};

/** Exchange name of each repair. */
const REPAIR_NAMES: Readonly<Record<RepairId, string>> = {
  'charge-battery': 'charge_battery',
  'replace-battery': 'battery',
  'remake-positive-post': 'terminal_pos',
  'remake-negative-post': 'terminal_neg',
  'remake-output-joint': 'dc_plug',
  'remake-ground': 'regulator_ground',
  'remake-breaker': 'breaker',
  'replace-stator-plug': 'stator_plug',
  'replace-stator': 'stator',
  'replace-rotor': 'rotor',
  'replace-regulator': 'regulator',
  'remake-sense-wire': 'sense_wire',
  'find-drain': 'parasitic_draw',
  'reduce-load': 'reduce_load',
  'replace-output-wire': 'dc_wire',
};

const FAULT_BY_NAME = reversed(FAULT_NAMES);
const REPAIR_BY_NAME = reversed(REPAIR_NAMES);

function reversed<Id extends string>(names: Readonly<Record<Id, string>>): ReadonlyMap<string, Id> {
  return new Map((Object.entries(names) as [Id, string][]).map(([id, name]) => [name, id]));
}

/** Exchange name of a fault. */
export function faultName(id: FaultId): string {
  return FAULT_NAMES[id];
}

/** Exchange name of a repair. */
export function repairName(id: RepairId): string {
  return REPAIR_NAMES[id];
}

/** The fault an exchange name stands for; null when there is none of that name. */
export function faultOfName(name: string): FaultId | null {
  return FAULT_BY_NAME.get(name) ?? null;
}

/** The repair an exchange name stands for; null when there is none of that name. */
export function repairOfName(name: string): RepairId | null {
  return REPAIR_BY_NAME.get(name) ?? null;
}

/** All exchange names of faults and of repairs. */
export const FAULT_EXCHANGE_NAMES: readonly string[] = [...FAULT_BY_NAME.keys()];
export const REPAIR_EXCHANGE_NAMES: readonly string[] = [...REPAIR_BY_NAME.keys()];
