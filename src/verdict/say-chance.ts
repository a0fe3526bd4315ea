/** How a chance is said to a person. */
/** So many of a hundred, never broken at the end of a line: `62 in 100`. */
export function ofHundred(figure: string | number): string {
  return `${figure}\u00a0in\u00a0100`;
}

/** A probability as a mechanic would say it: `62 in 100`. */
export function inHundred(probability: number): string {
  if (probability < 0.005) return `less than ${ofHundred(1)}`;
  if (probability > 0.995) return `more than ${ofHundred(99)}`;
  return ofHundred(Math.round(probability * 100));
}
