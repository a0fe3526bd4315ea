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

export function requireFinite(name: string, value: number): void {
  if (!Number.isFinite(value)) throw new RangeError(`${name} must be a finite number, got ${value}`);
}

export function requirePositive(name: string, value: number): void {
  if (!Number.isFinite(value) || value <= 0)
    throw new RangeError(`${name} must be a finite number above 0, got ${value}`);
}

export function requireNotNegative(name: string, value: number): void {
  if (!Number.isFinite(value) || value < 0)
    throw new RangeError(`${name} must be a finite number from 0, got ${value}`);
}

export function requireWithin(name: string, value: number, low: number, high: number): void {
  if (!Number.isFinite(value) || value < low || value > high)
    throw new RangeError(`${name} must be from ${low} to ${high}, got ${value}`);
}

/** Both ends finite and from 0, the low one not above the high one. */
export function requireInterval(name: string, value: Interval): void {
  requireNotNegative(`${name}.low`, value.low);
  requireNotNegative(`${name}.high`, value.high);
  if (value.low > value.high)
    throw new RangeError(`${name}.low must not be above ${name}.high, got ${value.low} and ${value.high}`);
}

/** As `requireInterval`, both ends above 0. */
export function requirePositiveInterval(name: string, value: Interval): void {
  requirePositive(`${name}.low`, value.low);
  requirePositive(`${name}.high`, value.high);
  requireInterval(name, value);
}
