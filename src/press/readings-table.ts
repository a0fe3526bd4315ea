/**
 * The readings of a job as a table, one row for each that was taken, withdrawn ones and earlier takes included, and
 * the Table Schema (Data Package 2.0) that says what its columns are. It is written for other programs and never read
 * back: the events are the job.
 */
import type { EventOf, JobEvent } from '../job/event.ts';
import { inOrder } from '../job/stamp.ts';
import { KINDS } from '../reading/catalogue.ts';
import { readKey, type Value } from '../reading/key.ts';
import { safeText, writeRows } from './csv.ts';

interface Field {
  readonly name: string;
  readonly type: 'string' | 'number' | 'boolean' | 'datetime';
  readonly title: string;
  readonly description: string;
  readonly missingValues?: readonly string[];
  readonly constraints?: { readonly required: true };
}

const TYPED =
  'An apostrophe before = + - @ or an apostrophe keeps a spreadsheet from running it: take off one.';

const FIELDS: readonly Field[] = [
  {
    name: 'kind',
    type: 'string',
    title: 'Kind of reading',
    description: 'First word of the key.',
    constraints: { required: true },
  },
  {
    name: 'key',
    type: 'string',
    title: 'Reading',
    description: 'The kind with the state of the bike, e.g. "batt_volts lights=low rpm=3000"; rpm in 1/min.',
    constraints: { required: true },
  },
  {
    name: 'value',
    type: 'number',
    title: 'Value',
    description:
      'In the unit of the row. OL where the meter showed none; for a thing seen 1 is yes and 0 is no.',
    missingValues: ['OL'],
  },
  {
    name: 'unit',
    type: 'string',
    title: 'Unit of the value',
    description: `${[...new Set(Object.values(KINDS).map(({ unit }) => unit))].join(', ')}: SG is specific gravity, "seen" a thing seen. Empty for a kind that this version does not know.`,
  },
  { name: 'entered', type: 'string', title: 'Entered', description: `As it was typed. ${TYPED}` },
  {
    name: 'at',
    type: 'datetime',
    title: 'Taken at',
    description: 'In UTC, by the clock of the device.',
    constraints: { required: true },
  },
  { name: 'who', type: 'string', title: 'Taken by', description: `May be empty. ${TYPED}` },
  {
    name: 'withdrawn',
    type: 'boolean',
    title: 'Withdrawn',
    description: 'Whether it was taken back later and no longer counts.',
    constraints: { required: true },
  },
  { name: 'why', type: 'string', title: 'Why it was withdrawn', description: `May be empty. ${TYPED}` },
  {
    name: 'repaired',
    type: 'boolean',
    title: 'Of the repaired bike',
    description: 'Whether it was taken after repairs were written down: false for the bike as it came.',
    constraints: { required: true },
  },
];

/** The readings as comma-separated values. */
export function writeReadings(events: readonly JobEvent[]): string {
  const ordered = inOrder(events);
  const withdrawals = new Map<string, EventOf<'readingWithdrawn'>>();
  for (const event of ordered) {
    // The first one gives the reason, as in the job's fold.
    if (event.type === 'readingWithdrawn' && !withdrawals.has(event.event))
      withdrawals.set(event.event, event);
  }
  const rows = ordered.flatMap((event) => {
    if (event.type !== 'readingTaken') return [];
    const kind = readKey(event.key)?.kind ?? '';
    const withdrawal = withdrawals.get(event.id);
    return [
      [
        kind,
        event.key,
        valueText(event.value),
        Object.hasOwn(KINDS, kind) ? KINDS[kind]!.unit : '',
        safeText(event.entered),
        event.at,
        safeText(event.who),
        String(withdrawal !== undefined),
        safeText(withdrawal?.why ?? ''),
        String((event.after ?? null) !== null),
      ],
    ];
  });
  return writeRows([FIELDS.map(({ name }) => name), ...rows]);
}

/** A number with a point and a plain minus. */
function valueText(value: Value): string {
  if (value === null) return 'OL';
  return typeof value === 'boolean' ? (value ? '1' : '0') : String(value);
}

/** The schema of that table, as text. */
export function writeReadingsSchema(): string {
  const schema = { $schema: 'https://datapackage.org/profiles/2.0/tableschema.json', fields: FIELDS };
  return `${JSON.stringify(schema, null, 2)}\n`;
}
