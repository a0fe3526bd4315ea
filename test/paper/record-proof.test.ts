/** The record and the owner's page: everything the log has is told, and what is missing is said. */
import { describe, expect, it } from 'vitest';
import { usualLife } from '../../src/circuit/ride-legs.ts';
import { checkEvent } from '../../src/job/check.ts';
import type { JobEvent } from '../../src/job/event.ts';
import { foldJob } from '../../src/job/fold.ts';
import { chargingSpec } from '../../src/machine/charging-spec.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { DEFERENCE } from '../../src/paper/deference.ts';
import type { Block, PaperDocument } from '../../src/paper/document.ts';
import { ownerSheet } from '../../src/paper/owner-sheet.ts';
import { jobRecord } from '../../src/paper/record.ts';
import { proveJob } from '../../src/proof/prove-job.ts';
import { filmedJob, MACHINE, machineText } from './filmed-job.ts';

const read = readMachine(machineText(), `${MACHINE}.json`);
if (!read.ok) throw new Error('the machine file must read');
const { machine } = read;
const AT = '2026-01-18T09:00:00.000Z';
const WITH = { machine, here: () => true, at: AT, east: 60, proved: null };

function textOf(block: Block): string {
  switch (block.kind) {
    case 'rows':
      return [block.caption, ...block.head, ...block.rows.flat()].join('\n');
    case 'list':
      return block.items.join('\n');
    case 'photos':
      return block.photos.map(({ about }) => about).join('\n');
    case 'drawing':
      return block.caption;
    case 'page':
      return '';
    default:
      return block.text;
  }
}
const textsOf = ({ title, under, blocks }: PaperDocument): string =>
  [title, under, ...blocks.map(textOf)].join('\n');
const headings = ({ blocks }: PaperDocument): readonly string[] =>
  blocks.flatMap((block) => (block.kind === 'heading' ? [block.text] : []));

describe('the record', () => {
  const events = filmedJob();
  const record = jobRecord({ events, ...WITH });
  const text = textsOf(record);

  it('goes from the complaint to the proof, says once whose figures count, and that it is invented', () => {
    expect(headings(record)).toEqual(
      expect.arrayContaining(['Complaint', 'Evidence', 'As found, as built', 'Torques', 'Proof']),
    );
    expect(text.split(DEFERENCE)).toHaveLength(2);
    expect(text).toContain('Everything here is invented for a demonstration');
    expect(text).toContain('Quillfeather says it fades');
  });

  it('tells every record, deviation, override, note and photograph of the log', () => {
    const { bench, notes } = foldJob(events);
    expect(bench.records.length + notes.length + bench.photos.length).toBeGreaterThanOrEqual(5);
    for (const { words } of bench.records)
      for (const said of Object.values(words)) expect(text).toContain(said);
    for (const { text: note } of notes) expect(text).toContain(note);
    const photos = record.blocks.flatMap((block) => (block.kind === 'photos' ? block.photos : []));
    expect(new Set(photos.map(({ photo }) => photo))).toEqual(
      new Set(bench.photos.map(({ photo }) => photo)),
    );
    for (const { about } of photos) expect(about).not.toBe('');
  });

  it('every row of every table is as long as its head', () => {
    for (const block of record.blocks)
      if (block.kind === 'rows') for (const row of block.rows) expect(row).toHaveLength(block.head.length);
  });

  it('says what is missing: no proof, no machine file, no verdict', () => {
    expect(text).toContain('Not proved: nothing was read after the repair.');
    const bare = textsOf(jobRecord({ events: events.slice(0, 1), ...WITH, machine: null }));
    expect(bare).toContain('The machine file of this bike is not here');
    expect(bare).toContain('No complaint was written down.');
    expect(textsOf(jobRecord({ events: [], ...WITH }))).toContain(
      'The entry that opened this job has not arrived here',
    );
  });

  it('counts the entries that this version does not know', () => {
    const strange = {
      ...events.at(-1)!,
      id: `${events.at(-1)!.id}`,
      type: 'batteryScented',
    } as unknown as JobEvent;
    const told = textsOf(jobRecord({ events: [...events.slice(0, -1), strange], ...WITH }));
    expect(told).toContain('batteryScented (unknown): 1');
  });

  it('tells times by the garage’s own clock', () => {
    const { at } = events[0]!;
    expect(textsOf(jobRecord({ events, ...WITH, east: 0 }))).toContain(at.slice(0, 16).replace('T', ' '));
    expect(text).not.toContain(at.slice(0, 16).replace('T', ' '));
  });

  it('the same log gives the same record', () => {
    expect(JSON.stringify(jobRecord({ events, ...WITH }))).toBe(JSON.stringify(record));
  });
});

describe('with a proof', () => {
  it('readings stand beside what they should be, looks beside what was found, the chart beside both', () => {
    const events = [...filmedJob()];
    const last = events.at(-1)!;
    const add = (n: number, body: object): JobEvent => {
      const event = {
        ...last,
        id: last.id.replace(/-\d{4}-/, `-${String(9000 + n)}-`),
        ...body,
      } as unknown as JobEvent;
      for (const key of ['step', 'what', 'number', 'seen', 'text'])
        if (!(key in body)) delete (event as unknown as Record<string, unknown>)[key];
      return event;
    };
    const made = add(1, {
      type: 'repairsMade',
      repairs: ['replace-stator'],
      left: [{ fault: 'battery-worn', chance: 0.02 }],
      noneOfThese: 0.005,
    });
    const all = [
      ...events,
      made,
      add(2, {
        type: 'readingTaken',
        key: 'batt_volts charged=True lights=low rpm=3000',
        value: 14.4,
        entered: '14.4',
        after: made.id,
      }),
      add(3, { type: 'proofLooked', after: made.id, check: 'lamps', ok: true, words: 'all bright' }),
      add(4, { type: 'proofLooked', after: made.id, check: 'scent', ok: false, words: 'of a later version' }),
    ];
    const proved = proveJob(foldJob(all), machine);
    const record = jobRecord({ events: all, ...WITH, proved });
    const text = textsOf(record);
    expect(text).toMatch(/14\.4 V/);
    expect(text).toMatch(/1[34]\.\d+ to 1[45]\.\d+ V/);
    expect(text).toContain('All work: all bright');
    expect(text).toContain('not as it should be: of a later version');
    expect(
      record.blocks.some((block) => block.kind === 'drawing' && /Battery volts/.test(block.caption)),
    ).toBe(true);
    const sheet = textsOf(ownerSheet({ events: all, ...WITH, proved }));
    expect(sheet).toContain('It was measured in part.');
    expect(sheet).toContain('What was done');
  });
});

describe('with a ride', () => {
  it('tells how the owner rides and whether the battery stays charged, as an estimate', () => {
    const events = filmedJob();
    const last = events.at(-1)!;
    const read = readMachine(machineText(), `${MACHINE}.json`);
    if (!read.ok) throw new Error('the machine file must read');
    const life = { ...usualLife(chargingSpec(read.machine)), celsius: -5 };
    const { job, at, who, device } = last;
    const told = {
      id: last.id.replace(/-\d{4}-/, '-9009-'),
      job,
      at,
      who,
      device,
      type: 'lifeTold',
      life,
    } as JobEvent;
    expect(checkEvent(told)).toMatchObject({ ok: true });
    const text = textsOf(jobRecord({ events: [...events, told], ...WITH }));
    expect(text).toMatch(/It (may not stay|stays|does not stay) charged/);
    expect(text).toContain('town 1800 rpm 20 min low beam');
    expect(text).toContain('An estimate');
    const wrong = checkEvent({ ...told, life: { ...life, celsius: 400 } });
    expect(wrong).toMatchObject({ ok: false, field: 'life.celsius' });
    const stray = { ...life, loads: [{ name: 'lamp', watts: 20, when: ['nowhere'] }] };
    expect(
      textsOf(jobRecord({ events: [...events, { ...told, life: stray } as JobEvent], ...WITH })),
    ).toContain('What was told of it cannot be ridden');
  });
});

describe('the owner’s page', () => {
  const sheet = ownerSheet({ events: filmedJob(), ...WITH });
  const text = textsOf(sheet);

  it('is short, in plain words, with what to look at again by day', () => {
    expect(headings(sheet)).toEqual(
      expect.arrayContaining([
        'What was wrong',
        'What was done',
        'Does it charge again?',
        'What to have looked at again',
        'What to watch and listen for',
      ]),
    );
    expect(text).toMatch(/2026-\d\d-\d\d/);
    expect(text).not.toMatch(/EMF|hypothes|posterior|probabilit|[a-z]+-[a-z]+-midway/);
    expect(text.length).toBeLessThan(6000);
  });
});
