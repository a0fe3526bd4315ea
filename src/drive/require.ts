/** What a caller must pass: each check throws RangeError with the name, the rule and the value. */

/** Two ends of a figure that is not known exactly, both in the unit the owner of the field names. */
export interface Interval {
  readonly low: number;
  /** Never below low. */
  readonly high: number;
}

/** A domain outcome that is no result: one sentence that says what, where and what to do. */
export interface Refusal {
  readonly ok: false;
  readonly why: string;
}

export function refuse(why: string): Refusal {
  return { ok: false, why };
}

/** Largest figure taken, in SI units: nothing on a bike comes near, and no sum of them overflows. */
const MOST = 1e4;

function requireAtMost(name: string, value: number): void {
  if (Math.abs(value) > MOST) throw new RangeError(`${name} must be at most ${MOST}, got ${value}`);
}

export function requireFinite(name: string, value: number): void {
  if (!Number.isFinite(value)) throw new RangeError(`${name} must be a finite number, got ${value}`);
  requireAtMost(name, value);
}

export function requirePositive(name: string, value: number): void {
  // A length under a picometre is a nought with a rounding error.
  if (!Number.isFinite(value) || value < 1e-12)
    throw new RangeError(`${name} must be a finite number above 0, got ${value}`);
  requireAtMost(name, value);
}

export function requireNotNegative(name: string, value: number): void {
  if (!Number.isFinite(value) || value < 0)
    throw new RangeError(`${name} must be a finite number from 0, got ${value}`);
  requireAtMost(name, value);
}

export function requireWithin(name: string, value: number, low: number, high: number): void {
  if (!Number.isFinite(value) || value < low || value > high)
    throw new RangeError(`${name} must be from ${low} to ${high}, got ${value}`);
}

export function requireWhole(name: string, value: number, low: number, high: number): void {
  if (!Number.isInteger(value) || value < low || value > high)
    throw new RangeError(`${name} must be a whole number from ${low} to ${high}, got ${value}`);
}

export function requireInterval(name: string, value: Interval): void {
  requireFinite(`${name}.low`, value.low);
  requireFinite(`${name}.high`, value.high);
  if (value.low > value.high)
    throw new RangeError(`${name}.low must not be above ${name}.high, got ${value.low} and ${value.high}`);
}
