/**
 * Type-checked, never run: each marked line must be an error. kind-types.test.ts compiles this file as it is, and
 * again without the marks, and counts the errors.
 */
import { parseQuantity } from '../../../src/units/parse.ts';
import { printRange } from '../../../src/units/print.ts';
import { inUnit, type Quantity, quantity } from '../../../src/units/quantity.ts';

const torque: Quantity<'torque'> = quantity('torque', 8, 'lbf·ft');
const energy: Quantity<'energy'> = quantity('energy', 8, 'ft·lbf');

// @ts-expect-error a torque is not an energy
export const asEnergy: Quantity<'energy'> = torque;
// @ts-expect-error an energy is not a torque
export const asTorque: Quantity<'torque'> = energy;
// @ts-expect-error lbf·ft is no unit of energy
export const joules = inUnit(energy, 'lbf·ft');
// @ts-expect-error ft·lbf is no unit of torque
export const footPounds = quantity('torque', 8, 'ft·lbf');
// @ts-expect-error a difference of temperatures is not a temperature
export const warm: Quantity<'temperature'> = quantity('temperature-difference', 10, 'K');
// @ts-expect-error a default unit must be of the kind wanted
export const parsed = parseQuantity('8', 'length', { defaultUnit: 'V' });
// @ts-expect-error both ends of a range are of one kind
export const printed = printRange<'torque'>({ low: torque, high: energy }, 'metric');
// @ts-expect-error a bare number is no quantity
export const bare: Quantity<'torque'> = 8;

const result = parseQuantity('8 lbf·ft', 'torque');
// @ts-expect-error the value is only there once `ok` was asked
export const unasked = result.value;
export const asked: Quantity<'torque'> | string = result.ok ? result.value : result.why;
