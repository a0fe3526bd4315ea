/** Tables as text: aligned for people, comma-separated for programs. */

/** A column: its heading, its unit (empty for none) and how many decimals its numbers get. */
export interface Column {
  readonly name: string;
  readonly unit: string;
  readonly decimals: number;
}

/** A number at a column's decimals with a true minus sign; never "-0". */
export function figure(value: number, decimals: number, minus = '−'): string {
  const text = value.toFixed(decimals);
  const zero = Number(text) === 0;
  return zero ? text.replace('-', '') : text.replace('-', minus);
}

/** A table for people: two heading lines, figures right-aligned. */
export function writeTable(columns: readonly Column[], rows: readonly (readonly number[])[]): string {
  const cells = [
    columns.map((column) => column.name),
    columns.map((column) => column.unit),
    ...rows.map((row) => row.map((value, n) => figure(value, columns[n]!.decimals))),
  ];
  const widths = columns.map((_, n) => Math.max(...cells.map((row) => [...row[n]!].length)));
  return `${cells
    .map((row) =>
      row
        .map((cell, n) => cell.padStart(widths[n]!))
        .join('  ')
        .trimEnd(),
    )
    .join('\n')}\n`;
}

/** The same as comma-separated values (RFC 4180): one heading line with units, plain minus signs, CRLF. */
export function writeCsv(columns: readonly Column[], rows: readonly (readonly number[])[]): string {
  const heading = columns.map(({ name, unit }) => csvCell(unit === '' ? name : `${name} ${unit}`));
  const lines = rows.map((row) => row.map((value, n) => figure(value, columns[n]!.decimals, '-')).join(','));
  return [heading.join(','), ...lines].map((line) => `${line}\r\n`).join('');
}

/** One cell, quoted where RFC 4180 wants it. */
export function csvCell(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Wraps a paragraph at a width, every line indented. */
export function wrap(text: string, indent: number, width = 92): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && [...line].length + 1 + [...word].length > width - indent) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  lines.push(line);
  return lines.map((one) => `${' '.repeat(indent)}${one}`).join('\n');
}
