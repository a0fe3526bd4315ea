/** What every screen and paper says once: whose figures count. */
export const BOOK_FIRST =
  'The bike’s own book, local rules and licensed practice come first: where they differ from this page, they count.';
