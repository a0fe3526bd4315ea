/** The table of readings, read back by a reader that is not ours. */
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { safeText, typedText, writeRows } from '../../src/press/csv.ts';
import { writeReadings, writeReadingsSchema } from '../../src/press/readings-table.ts';
import { KINDS } from '../../src/reading/catalogue.ts';
import { opening, story, take } from '../job/stories.ts';
import { openedLogs } from './samples.ts';

interface Field {
  readonly name: string;
  readonly type: string;
  readonly missingValues?: readonly string[];
}
const schema = JSON.parse(writeReadingsSchema()) as { $schema: string; fields: Field[] };
const COLUMNS = ['kind', 'key', 'value', 'unit', 'entered', 'at', 'who', 'withdrawn', 'why', 'repaired'];

const rows = (text: string): Record<string, string>[] =>
  parse(text, { columns: true, record_delimiter: '\r\n' });

/** Whether a cell is of the type that the schema gives its column. */
function fits({ type, missingValues = [''] }: Field, cell: string): boolean {
  if (missingValues.includes(cell) || type === 'string') return true;
  if (type === 'number') return /^-?\d+(\.\d+)?(e[+-]?\d+)?$/.test(cell);
  if (type === 'boolean') return cell === 'true' || cell === 'false';
  return /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/.test(cell) && Number.isFinite(Date.parse(cell));
}

describe('the table', () => {
  it('has the columns that the schema names', () => {
    const [heading] = parse(writeReadings([])) as string[][];
    expect(heading).toEqual(COLUMNS);
    expect(schema.fields.map(({ name }) => name)).toEqual(COLUMNS);
    expect(schema.$schema).toBe('https://datapackage.org/profiles/2.0/tableschema.json');
  });

  it('holds a row for each reading taken, as the schema says, on any log', () => {
    fc.assert(
      fc.property(openedLogs, (log) => {
        const taken = log.filter((event) => event.type === 'readingTaken');
        const back = rows(writeReadings(log));
        expect(back).toHaveLength(taken.length);
        for (const row of back)
          for (const field of schema.fields)
            if (!fits(field, row[field.name]!)) throw new Error(`${field.name}: ${row[field.name]}`);
        const byPlace = new Map(back.map((row, n) => [n, row]));
        const ordered = [...taken].sort((a, b) => (a.id < b.id ? -1 : 1));
        for (const [n, event] of ordered.entries()) {
          const row = byPlace.get(n)!;
          expect(typedText(row.entered!)).toBe(event.entered);
          expect(row.key).toBe(event.key);
          if (typeof event.value === 'number') expect(Number(row.value)).toBe(event.value);
        }
      }),
      { seed: 12, numRuns: 80 },
    );
  });

  it('says OL, yes and no, the unit, and what was withdrawn and why', () => {
    const events = story([
      opening,
      take('ohms_case pin=a', null, 'OL'),
      take('visual what=plug_burnt', true, 'yes'),
      take('visual what=plug_burnt', false, 'no'),
      take('batt_volts lights=low rpm=3000', -12.5, '-12,5'),
    ]);
    const gone = story(
      ['=slip', 'once more'].map((why) => ({ type: 'readingWithdrawn' as const, event: events[1]!.id, why })),
      {
        device: 'phone',
        start: Date.UTC(2027, 0, 1),
      },
    );
    expect(
      rows(writeReadings([...gone, ...events])).map((row) => [
        row.value,
        row.unit,
        row.entered,
        row.withdrawn,
        row.why,
      ]),
    ).toEqual([
      ['OL', KINDS.ohms_case!.unit, 'OL', 'true', "'=slip"],
      ['1', 'seen', 'yes', 'false', ''],
      ['0', 'seen', 'no', 'false', ''],
      ['-12.5', 'V', '-12,5', 'false', ''],
    ]);
  });
});

describe('a cell that a spreadsheet could run', () => {
  test.each([
    '=1+1',
    '+1+1',
    '-1+1',
    '@SUM(A1)',
    ' =1',
    '\t=1',
    '\n=1',
    '\tx',
    '＝1',
    '＋1',
    '－1',
    '＠x',
    '\u00a0=1',
    '-0.5 V',
    "'x",
    '+',
    '-2+3|cmd',
    '=cmd|"/C x"!A0',
  ])('%j gets an apostrophe, and gives back what was typed', (text) => {
    expect(safeText(text)).toBe(`'${text}`);
    expect(typedText(safeText(text))).toBe(text);
  });

  test.each(['-12.5', '+5', '-12,5', '12.4 V', 'OL', '', 'a=b', '⅝ in', 'the mechanic'])(
    '%j stays',
    (text) => {
      expect(safeText(text)).toBe(text);
    },
  );

  it('never begins a cell, also where a spreadsheet splits at semicolons or tabs', () => {
    const hard = fc.string({
      unit: fc.constantFrom('=', '-', '@', "'", '"', ',', ';', '\t', '\n', '\r', '1', 'a'),
    });
    fc.assert(
      fc.property(fc.array(fc.array(hard, { minLength: 2, maxLength: 2 }), { minLength: 1 }), (typed) => {
        const text = writeRows(typed.map((row) => row.map(safeText)));
        const back = parse(text, { record_delimiter: '\r\n' }) as string[][];
        expect(back.map((row) => row.map(typedText))).toEqual(typed);
        for (const cell of back.flat()) expect(cell).toMatch(/^$|^[^=+\-@\t\r\n]|^[+-]?\d+([.,]\d+)?$/);
        // Outside quotes no semicolon and no tab is left to split at.
        expect(text.replace(/"(?:[^"]|"")*"/g, '')).not.toMatch(/[;\t]/);
      }),
      { seed: 13, numRuns: 300 },
    );
  });
});
