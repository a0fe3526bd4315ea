const FIGURE = /^[<>]?[−-]?\d[\d.,]*[\u00a0 ]?[\p{L}·°%/]{0,6}$/u;

/** Whether a cell is one figure with its unit, no more: it stands in the face of figures and is never broken. */
export function isFigure(text: string): boolean {
  return FIGURE.test(text.trim());
}
