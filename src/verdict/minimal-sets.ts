/**
 * Minimal sets of faults that are consistent with what was observed: no member can be left out. After de Kleer &
 * Williams, "Diagnosing multiple faults", Artificial Intelligence 32 (1987).
 */

/**
 * Subset-minimal consistent fault sets, smallest first, each a rising list of indices 0 … count − 1. Returns `[[]]`
 * when no fault at all is consistent. `consistent` is asked about each set at most once and never about a superset
 * of one already found. Sets larger than `maxSize` (0–8) are not looked at: an empty result means "none so small".
 */
export function minimalSets(
  count: number,
  consistent: (faults: readonly number[]) => boolean,
  maxSize = 3,
): number[][] {
  if (!Number.isInteger(count) || count < 0)
    throw new RangeError(`count must be a whole number, 0 or more, got ${count}`);
  if (!Number.isInteger(maxSize) || maxSize < 0 || maxSize > 8) {
    throw new RangeError(`maxSize must be a whole number from 0 to 8, got ${maxSize}`);
  }
  const found: number[][] = [];
  const set: number[] = [];
  const covered = (): boolean => found.some((small) => small.every((member) => set.includes(member)));
  const extend = (first: number, left: number): void => {
    if (left === 0) {
      if (!covered() && consistent([...set])) found.push([...set]);
      return;
    }
    for (let next = first; next <= count - left; next++) {
      set.push(next);
      extend(next + 1, left - 1);
      set.pop();
    }
  };
  for (let size = 0; size <= Math.min(maxSize, count); size++) {
    extend(0, size);
    if (size === 0 && found.length > 0) break;
  }
  return found;
}
