/** The word that was probably meant. */

/** Edits between two words, count. Insert, delete, change, swap of neighbours (optimal string alignment). */
export function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const cost = a[i - 1] === b[j - 1] ? 0 : 1;
      let best = Math.min(row[j - 1]! + 1, last[j]! + 1, last[j - 1]! + cost);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, before[j - 2]! + 1);
      row.push(best);
    }
    before = last;
    last = row;
  }
  return last[b.length]!;
}

/** The nearest of `words` to `word`, or null when none is near (more than a third of its letters differ). */
export function nearest(word: string, words: readonly string[]): string | null {
  const plain = (text: string) => text.toLowerCase().replace(/[\s_-]/g, '');
  const wanted = plain(word.slice(0, 60));
  let best: string | null = null;
  let bestDistance = Number.POSITIVE_INFINITY;
  for (const candidate of words) {
    const distance = editDistance(wanted, plain(candidate));
    if (distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best !== null && bestDistance <= Math.max(1, Math.floor(plain(best).length / 3)) ? best : null;
}
