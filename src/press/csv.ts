/**
 * Comma-separated values as RFC 4180 has them, safe to open in a spreadsheet: one that finds `=`, `+`, `-` or `@` at
 * the beginning of a cell takes the cell for a formula and runs it. What people typed gets an apostrophe before such
 * a beginning, and before an apostrophe, so that taking off one apostrophe always gives back what was typed. A plain
 * number such as −12.5 is no formula and stays a number. Quotes alone would not do: a spreadsheet takes them off
 * first. Semicolons and tabs are quoted too, since some spreadsheets split at them.
 */

/** Also the wide forms of the four signs, with any white space before them, and a tab or a new line, which some drop. */
const FORMULA = /^(?:\s*[=+\-@＝＋－＠]|[\t\r\n'])/u;
const NUMBER = /^[+-]?\d+(?:[.,]\d+)?$/;

/** What a person typed, as a cell that no spreadsheet runs. */
export function safeText(text: string): string {
  return FORMULA.test(text) && !NUMBER.test(text) ? `'${text}` : text;
}

/** What was typed, from a cell that `safeText` made. */
export function typedText(cell: string): string {
  return cell.startsWith("'") ? cell.slice(1) : cell;
}

/** A table with its heading: every line ends with CRLF. */
export function writeRows(rows: readonly (readonly string[])[]): string {
  return rows.map((row) => `${row.map(cell).join(',')}\r\n`).join('');
}

function cell(text: string): string {
  return /[",;\t\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
