/** Said once on every page and in every document: who is right where they differ. */
export const DEFERENCE =
  'The bike’s own book, local rules and licensed practice come first; where they differ from this page, they are right.';
