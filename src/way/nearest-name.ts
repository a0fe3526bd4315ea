/**
 * The known name nearest to one that is not known, by single-letter edits (Levenshtein 1966).
 */

/** Edits from one word to another, count. */
function edits(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++)
      next.push(Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1)));
    row = next;
  }
  return row[b.length]!;
}

/** The nearest of the names, or null where there are none. */
export function nearestName(name: string, names: Iterable<string>): string | null {
  let best: string | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const each of names) {
    const far = edits(name.toLowerCase(), each.toLowerCase());
    if (far < least) {
      least = far;
      best = each;
    }
  }
  return best;
}

/** "There is no target "stator2"; the nearest is "stator"." */
export function noSuch(what: string, name: string, names: Iterable<string>): string {
  const near = nearestName(name, names);
  return `There is no ${what} "${name}"${near === null ? '' : `; the nearest is "${near}"`}.`;
}
