/** Checks of single fields of a JSON line. Each failure is a RangeError whose message is one sentence: where, what, what to do. */

/** A JSON object, checked to be one. */
export type Fields = Readonly<Record<string, unknown>>;

/** How a value is called in a sentence; long ones are cut. */
export function shown(value: unknown): string {
  const text = value === undefined ? 'nothing' : JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/** The object at `path`. */
export function objectAt(value: unknown, path: string): Fields {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw new RangeError(`${path} must be an object, got ${shown(value)}.`);
  }
  return value as Fields;
}

/** A number from `low` to `high`, in the unit named. */
export function numberAt(value: unknown, path: string, low: number, high: number, unit: string): number {
  if (typeof value !== 'number' || !(value >= low && value <= high)) {
    throw new RangeError(
      `${path} must be a number from ${low} to ${high}${unit && ` ${unit}`}, got ${shown(value)}.`,
    );
  }
  return value;
}

/** A rising pair of numbers from `low` to `high`, in the unit named. */
export function rangeAt(
  value: unknown,
  path: string,
  low: number,
  high: number,
  unit: string,
): [number, number] {
  if (!Array.isArray(value) || value.length !== 2) {
    throw new RangeError(
      `${path} must be two numbers [low, high]${unit && ` in ${unit}`}, got ${shown(value)}.`,
    );
  }
  const from = numberAt(value[0], `${path}[0]`, low, high, unit);
  const to = numberAt(value[1], `${path}[1]`, low, high, unit);
  if (from > to) throw new RangeError(`${path} must have its smaller number first, got ${shown(value)}.`);
  return [from, to];
}

/** One of the listed values. */
export function choiceAt<T extends string | number>(value: unknown, path: string, choices: readonly T[]): T {
  const found = choices.find((choice) => choice === value);
  if (found === undefined) {
    throw new RangeError(`${path} must be ${choices.map(shown).join(' or ')}, got ${shown(value)}.`);
  }
  return found;
}

/** True or false; `otherwise` when the field is left out. */
export function flagAt(value: unknown, path: string, otherwise: boolean): boolean {
  if (value === undefined) return otherwise;
  if (typeof value !== 'boolean') throw new RangeError(`${path} must be true or false, got ${shown(value)}.`);
  return value;
}

/** A list of words; empty when the field is left out. */
export function wordsAt(value: unknown, path: string): string[] {
  if (value === undefined) return [];
  if (!Array.isArray(value)) throw new RangeError(`${path} must be a list of texts, got ${shown(value)}.`);
  return value.map((item, index) => {
    if (typeof item !== 'string')
      throw new RangeError(`${path}[${index}] must be a text, got ${shown(item)}.`);
    return item;
  });
}
