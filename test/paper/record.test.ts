/** What the record and the owner's page say of a job, and what they say where something is missing. Jobs are invented. */
import { describe, expect, it } from 'vitest';
import { demoJob } from '../../src/job/demo.ts';
import type { JobEvent } from '../../src/job/event.ts';
import { DEFERENCE } from '../../src/paper/deference.ts';
import type { Block, PaperDocument } from '../../src/paper/document.ts';
import { ownerSheet } from '../../src/paper/owner-sheet.ts';
import { jobRecord, type RecordAsk } from '../../src/paper/record.ts';
import { machineOf } from '../../src/press/how-to-pack.ts';
import { machineText } from './filmed-job.ts';
import { GONE, recordedJob } from './recorded-job.ts';

const machine = machineOf(machineText())!;
const ask = (events: readonly JobEvent[], more: Partial<RecordAsk> = {}): RecordAsk => ({
  events,
  machine,
  here: (photo) => photo !== GONE,
  proved: null,
  at: '2026-01-20T10:00:00.000Z',
  east: 60,
  ...more,
});
const wordsOf = (block: Block): string => {
  switch (block.kind) {
    case 'heading':
    case 'words':
    case 'caution':
      return block.text;
    case 'list':
      return block.items.join('\n');
    case 'rows':
      return [block.caption, block.head.join(' | '), ...block.rows.map((row) => row.join(' | '))].join('\n');
    case 'drawing':
      return block.caption;
    case 'photos':
      return block.photos.map(({ about }) => about).join('\n');
    case 'page':
      return '';
  }
};
const all = ({ title, under, blocks }: PaperDocument): string =>
  [title, under, ...blocks.map(wordsOf)].join('\n');
/** The words of one chapter. */
const chapter = ({ blocks }: PaperDocument, name: string): string => {
  const from = blocks.findIndex((one) => one.kind === 'heading' && one.level === 1 && one.text === name);
  expect(from, name).toBeGreaterThanOrEqual(0);
  const to = blocks.findIndex((one, n) => n > from && one.kind === 'heading' && one.level === 1);
  return blocks
    .slice(from + 1, to < 0 ? undefined : to)
    .map(wordsOf)
    .join('\n');
};

describe('the record', () => {
  const record = jobRecord(ask(recordedJob(true)));

  it('begins with what is invented and who is right, each once', () => {
    expect(record.blocks[0]).toMatchObject({ kind: 'caution', text: expect.stringContaining('invented') });
    expect(all(record).split(DEFERENCE)).toHaveLength(2);
  });

  it('is built as a document must be: levels in turn, rows as long as their head, captions that say something', () => {
    let level = 0;
    for (const block of record.blocks) {
      if (block.kind === 'heading') {
        expect(block.level).toBeLessThanOrEqual(level + 1);
        level = block.level;
      }
      if (block.kind === 'rows') {
        expect(block.caption).not.toBe('');
        for (const row of block.rows) expect(row, block.caption).toHaveLength(block.head.length);
      }
      if (block.kind === 'photos') for (const { about } of block.photos) expect(about).not.toBe('');
    }
  });

  it('has the complaint in the owner’s words, by the clock of the garage', () => {
    expect(chapter(record, 'Complaint')).toContain(
      '“Dies on the road; the plug by the battery smells burnt.”',
    );
    expect(chapter(record, 'Complaint')).toContain('the mechanic, 2026-01-17 19:03');
  });

  it('has every reading that counts, and the withdrawn one with its reason', () => {
    const text = chapter(record, 'Evidence');
    for (const value of ['12.2 V', '12.61 V', '0.21 Ω', '1.4 Ω', 'yes, seen']) expect(text).toContain(value);
    expect(text).toMatch(/1\.24 V \| .* \| The tip slipped off the post/);
  });

  it('has the verdict with its certainty at the time, and the chance set by hand', () => {
    const text = chapter(record, 'Verdict');
    expect(text).toMatch(/Held for dead: .*89\u00a0in\u00a0100/);
    expect(text).toMatch(/None of the faults known here \| 1\u00a0in\u00a0100/);
    expect(text).toContain('while it is open anyway');
    expect(text).toContain('Seen it on three of these');
  });

  it('has parts with their sheets, and what the book says otherwise', () => {
    expect(chapter(record, 'Parts')).toMatch(
      /stator screws: torque \| 40–45 lbf·in \| Sheet .* \| 30–40 lbf·in/,
    );
  });

  it('has as found beside as built, torques, holds, deviations with what follows', () => {
    expect(chapter(record, 'As found, as built')).toMatch(/30, 60 thou.* \| not back on yet/);
    expect(chapter(record, 'Torques')).toMatch(
      /stator screws \| 2\.26 N·m .* stage 1 of 2 \| 10 N·m wrench set to 42 lbf·in/,
    );
    expect(chapter(record, 'Holds passed over')).toMatch(/insulation.*The tester is lent out/);
    const otherwise = chapter(record, 'Done otherwise');
    expect(otherwise).toContain('it may break off in the aluminium');
    expect(otherwise).toContain('It is meant to be used once');
    expect(otherwise).toContain('Nothing else at hand (the mechanic');
  });

  it('names photographs by step, each once, and those that are missing', () => {
    const text = chapter(record, 'Photographs');
    expect(text.split('How the wire ran')).toHaveLength(2);
    expect(text).not.toContain('The same again');
    expect(text).toMatch(/pictures are not here[\s\S]*Inside the cover/);
  });

  it('counts what it does not know, and does not tell what was taken back', () => {
    expect(chapter(record, 'About this log')).toContain('cupOfTeaDrunk (unknown): 1');
    expect(all(record)).not.toContain('Typed into the wrong job');
    expect(chapter(record, 'About this log')).toContain('One entry was taken back');
  });

  it('repeats the cautions it met, each once', () => {
    const cautions = chapter(record, 'Cautions').split('\n');
    expect(cautions.join()).toMatch(/carbon monoxide/);
    expect(cautions.join()).toMatch(/Magnets pull hard/);
    expect(new Set(cautions).size).toBe(cautions.length);
  });

  it('says how the proof stands from the log alone, with who said so', () => {
    expect(chapter(record, 'Proof')).toMatch(/Written down as proven .*3\u00a0in\u00a0100/);
    expect(chapter(record, 'Proof')).toContain('not as it should be: ticks when cold');
    const open = jobRecord(ask(recordedJob(false)));
    expect(chapter(open, 'Proof')).toContain('Not proved: nothing was read after the repair.');
  });

  it('is the same whatever order the log comes in', () => {
    expect(jobRecord(ask([...recordedJob(true)].reverse()))).toEqual(record);
  });

  it('stands without the machine file, without the opening entry, and with nothing done', () => {
    expect(all(jobRecord(ask(recordedJob(true), { machine: null })))).toContain('30, 60 thou');
    expect(all(jobRecord(ask(recordedJob(true).slice(1))))).toContain('has not arrived here');
    expect(all(jobRecord(ask([])))).toContain('No complaint was written down');
    expect(chapter(jobRecord(ask(demoJob())), 'Verdict')).toBe('No verdict was accepted.');
  });
});

describe('the page for the owner', () => {
  it('says in plain words what was dead, done, and whether it charges', () => {
    const sheet = ownerSheet(ask(recordedJob(true)));
    expect(chapter(sheet, 'What was wrong')).toMatch(/copper windings.*as good as certain.*Pins were burnt/);
    expect(chapter(sheet, 'What was done')).toContain('do not ride it');
    expect(chapter(sheet, 'Does it charge again?')).toMatch(/^Yes\. .*97 times in 100/);
    expect(chapter(sheet, 'What was done in another way than the book says')).toContain('another glue');
    expect(chapter(sheet, 'What to have looked at again')).toMatch(
      /Fasteners: first recheck \| 2026-02-14 \| 500 km/,
    );
    expect(all(sheet).split(DEFERENCE)).toHaveLength(2);
    expect(sheet.blocks[0]).toMatchObject({ kind: 'caution', text: expect.stringContaining('invented') });
  });

  it('has no words of the workshop', () => {
    // The title of the job is whatever the mechanic wrote.
    for (const events of [recordedJob(true), recordedJob(false), demoJob()])
      expect(all({ ...ownerSheet(ask(events)), under: '' })).not.toMatch(
        /N·m|Ω|stator winding|verdict|deviation|rpm|undefined|NaN/i,
      );
  });

  it('promises nothing that was not measured', () => {
    expect(chapter(ownerSheet(ask(recordedJob(false))), 'Does it charge again?')).toMatch(/not measured/);
    expect(chapter(ownerSheet(ask(demoJob())), 'What was done')).toBe('Nothing was repaired yet.');
  });
});
