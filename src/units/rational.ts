/** Exact fractions: unit factors and entered figures stay exact until the one rounding to a double at the end. */

export interface Rational {
  readonly num: bigint;
  /** Always positive; num and den share no factor. */
  readonly den: bigint;
}

/** The fraction num/den in lowest terms. Throws RangeError when den is 0. */
export function rational(num: bigint, den: bigint = 1n): Rational {
  if (den === 0n) throw new RangeError('den must not be 0, got 0');
  let a = num < 0n ? -num : num;
  let b = den < 0n ? -den : den;
  while (b !== 0n) [a, b] = [b, a % b];
  const divisor = den < 0n ? -a : a;
  return { num: num / divisor, den: den / divisor };
}

/** A plain decimal such as "-0.0254" or "1.5e-3" as an exact fraction. Throws RangeError on anything else. */
export function decimal(text: string): Rational {
  const match = /^(-?)(\d*)(?:\.(\d*))?(?:e([+-]?\d{1,4}))?$/i.exec(text);
  const whole = match?.[2] ?? '';
  const part = match?.[3] ?? '';
  if (!match || whole + part === '') throw new RangeError(`text must be a decimal number, got "${text}"`);
  const digits = BigInt(whole + part) * (match[1] === '-' ? -1n : 1n);
  const exponent = Number(match[4] ?? 0) - part.length;
  return exponent < 0
    ? rational(digits, 10n ** BigInt(-exponent))
    : rational(digits * 10n ** BigInt(exponent));
}

export function times(a: Rational, b: Rational): Rational {
  return rational(a.num * b.num, a.den * b.den);
}

/** a/b. Throws RangeError when b is 0. */
export function over(a: Rational, b: Rational): Rational {
  return rational(a.num * b.den, a.den * b.num);
}

export function plus(a: Rational, b: Rational): Rational {
  return rational(a.num * b.den + b.num * a.den, a.den * b.den);
}

export function negate(a: Rational): Rational {
  return { num: -a.num, den: a.den };
}

export function minus(a: Rational, b: Rational): Rational {
  return plus(a, negate(b));
}

/** Sign of a − b: −1, 0 or 1, dimensionless. */
export function compare(a: Rational, b: Rational): number {
  const left = a.num * b.den;
  const right = b.num * a.den;
  return left < right ? -1 : left > right ? 1 : 0;
}

/** The double nearest to the fraction (half to even; ±Infinity past the largest double), dimensionless. */
export function toNumber(a: Rational): number {
  if (a.num === 0n) return 0;
  const size = a.num < 0n ? -a.num : a.num;
  // Scale by a power of two so that the quotient has at least 64 bits, then let a sticky last bit stand for the
  // remainder: BigInt → double rounds half to even, and the sticky bit keeps a near-tie from looking like a tie.
  const shift = 66 - (size.toString(2).length - a.den.toString(2).length);
  const top = shift > 0 ? size << BigInt(shift) : size;
  const bottom = shift < 0 ? a.den << BigInt(-shift) : a.den;
  const quotient = top / bottom;
  const rounded = Number(top % bottom === 0n ? quotient : quotient | 1n);
  // Two steps: 2^-shift alone can leave the range of a double although the product does not.
  const half = Math.trunc(-shift / 2);
  const value = rounded * 2 ** half * 2 ** (-shift - half);
  return a.num < 0n ? -value : value;
}

/** The exact fraction a double stands for. Throws RangeError unless it is finite. */
export function fromNumber(value: number): Rational {
  if (!Number.isFinite(value)) throw new RangeError(`value must be finite, got ${value}`);
  let exponent = 0;
  let scaled = value;
  while (!Number.isInteger(scaled)) {
    scaled *= 2;
    exponent += 1;
  }
  return rational(BigInt(scaled), 1n << BigInt(exponent));
}
