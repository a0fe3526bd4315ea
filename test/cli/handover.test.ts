/** `chapters`, `reminders` and `how-to` as a person calls them, and what they refuse. */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import ICAL from 'ical.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPhotoShelf } from '../../src/disk/photo-shelf.ts';
import { openSqliteStore } from '../../src/disk/sqlite-store.ts';
import type { EventBody, JobEvent } from '../../src/job/event.ts';
import { writeEvent } from '../../src/job/stamp.ts';
import { PROOF_TALE } from '../e2e/proof-story.ts';
import { BEGIN, filmedJob, NEVER, OWNERS, SHOTS } from '../paper/filmed-job.ts';
import { readFfmetadata } from '../paper/read-ffmetadata.ts';
import { readPdf } from '../press/read-pdf.ts';
import { build, type Ran, run as runCall, runProcess } from './run.ts';

const folder = mkdtempSync(join(tmpdir(), 'cli-handover-'));
const at = (name: string) => join(folder, name);
const JOB = NEVER[0];
const PROVED = 'proved-job';

/** A repaired bike that nobody has read since. */
function proofJob(): readonly JobEvent[] {
  const events: JobEvent[] = [];
  const made: EventBody = {
    type: 'repairsMade',
    repairs: ['replace-stator', 'replace-stator-plug'],
    left: [{ fault: 'battery-worn', chance: 0.03 }],
    noneOfThese: 0.01,
  };
  for (const body of [...PROOF_TALE, made])
    events.push(
      writeEvent({ job: PROVED, who: '', device: 'prove' }, body, events.at(-1)?.id ?? null, BEGIN),
    );
  return events;
}

const run = (home: string, ...args: readonly string[]): Promise<Ran> =>
  runCall(args, '', { CHARGEWRIGHT_HOME: at(home) });

beforeAll(async () => {
  build();
  const store = openSqliteStore(join(at('full'), 'garage.sqlite'));
  await store.append(filmedJob());
  await store.append(proofJob());
  await store.close();
  const photos = await openPhotoShelf(join(at('full'), 'garage.sqlite.photos'));
  for (const shot of SHOTS) await photos.put(shot);
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('chapters', () => {
  it('of every clip, with what is uncertain', async () => {
    const { code, out, err } = await runProcess(['chapters', JOB], '', { CHARGEWRIGHT_HOME: at('full') });
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^Clip 1, 1:03:20\n0:00 Roll the bike into/);
    expect(out).toMatch(/\n\nClip 2, 11:40\n0:00 Take the seat off · /);
    expect(out).toMatch(/Clip 2 was never stopped/);
  });

  it('of one clip, in each form', async () => {
    const plain = await run('full', 'chapters', JOB, '--clip', '2');
    expect(plain.out).toMatch(/^0:00 Take the seat off/);
    const vtt = await run('full', 'chapters', JOB, '--clip', '2', '--as', 'vtt');
    expect(vtt.out).toMatch(/^WEBVTT\n\nNOTE Clap 2 at 00:02:40\.000\n/);
    const meta = await run('full', 'chapters', JOB, '--clip=2', '--as=ffmetadata');
    expect(readFfmetadata(meta.out).chapters).toHaveLength(plain.out.trimEnd().split('\n').length);
  });
});

describe('record', () => {
  it('as a PDF with its photographs, and says which are missing', async () => {
    const { code, out, err } = await run('full', 'record', JOB, '--pdf', at('record.pdf'));
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^Wrote .*record\.pdf: \d+ kB\.\nNot in it: 1 photograph/);
    const read = await readPdf(new Uint8Array(readFileSync(at('record.pdf'))));
    expect(read.title).toBe('Record: Zebulonia’s bike, fades; again, at the ferry');
    expect(read.pages.reduce((sum, { images }) => sum + images, 0)).toBe(2);
    const again = await run('full', 'record', JOB, '--pdf', at('record.pdf'));
    expect([again.code, again.err]).toEqual([2, expect.stringContaining('record.pdf')]);
  });

  it('for the owner, and as text', async () => {
    const made = await run('full', 'record', JOB, '--owner', '--pdf', at('owner.pdf'));
    expect([made.code, made.err]).toEqual([0, '']);
    const read = await readPdf(new Uint8Array(readFileSync(at('owner.pdf'))));
    expect(read.title).toBe('What was done on your motorcycle');
    const text = await run('full', 'record', JOB, '--text');
    expect(text.out).toMatch(/^# Record: Zebulonia’s bike/);
    expect(text.out).toContain('## Torques');
  });

  it('refuses in one sentence', async () => {
    const bare = await run('full', 'record', JOB);
    expect([bare.code, bare.out]).toEqual([2, '']);
    expect(bare.err).toMatch(/^"record" wants --pdf FILE or --text/);
    const nobody = await run('full', 'record', 'zebulonias-bik', '--text');
    expect(nobody.err).toMatch(/write zebulonias-bike if that is meant/);
  });
});

describe('reminders', () => {
  it('as a list, and as a calendar that a parser reads', async () => {
    const list = await run('full', 'reminders', JOB);
    expect(list).toMatchObject({ code: 0, err: '' });
    expect(list.out).toMatch(/^2026-01-24 {2}Look again: done otherwise\n/);
    const file = at('job.ics');
    const { code, out } = await run('full', 'reminders', JOB, '--ics', file);
    expect(code).toBe(0);
    const count = new ICAL.Component(ICAL.parse(readFileSync(file, 'utf8'))).getAllSubcomponents(
      'vevent',
    ).length;
    expect(out).toContain(`Wrote ${file}: ${count} reminders.`);
    const text = readFileSync(file, 'utf8').replaceAll('\r\n ', '');
    expect(text).toContain('Zebulonia’s bike\\, fades\\; again\\, at the ferry');
    for (const word of ['Quillfeather', 'Xanthippia', ...OWNERS.notes, ...NEVER])
      expect(text).not.toContain(word);
  });
});

describe('proof', () => {
  it('of a job that nobody called repaired is none, in words and as JSON', async () => {
    expect((await run('full', 'proof', JOB)).out).toMatch(/^Nothing was said to be repaired in this job yet/);
    expect((await run('full', 'proof', JOB, '--json')).out).toBe('null\n');
  });

  it('says how it stands, what is still to be read, and what may be left', async () => {
    const { out, code } = await run('full', 'proof', PROVED);
    expect(code).toBe(0);
    expect(out).toMatch(
      /^Not proven yet: that a fault is left, \d+ in 100 \(before any reading \d+ in 100\)/,
    );
    expect(out).toMatch(/Still to read\n {2}Battery volts, engine running: at idle.*sound: 1[34]/);
    const proved = JSON.parse((await run('full', 'proof', PROVED, '--json')).out);
    expect(proved.standing.is).toBe('open');
    expect(proved.proof.plan.length).toBeGreaterThan(3);
  });
});

describe('how-to', () => {
  it('as a zip, with nothing of the owner but what is said', async () => {
    const [bare, full] = [at('bare.zip'), at('full.zip')];
    const ran = await run('full', 'how-to', JOB, '--zip', bare);
    expect(ran).toMatchObject({ code: 0, err: '' });
    expect(ran.out).toMatch(/^Wrote \S+bare\.zip: 14 files, \d+ kB\.\n/);
    const read = (file: string) =>
      Object.values(unzipSync(readFileSync(file)))
        .map((bytes) => Buffer.from(bytes).toString('latin1'))
        .join('\n');
    for (const word of Object.values(OWNERS).flat()) expect(read(bare)).not.toContain(word);
    await run('full', 'how-to', JOB, '--zip', full, '--owner', '--photos', '--notes');
    for (const word of Object.values(OWNERS).flat()) expect(read(full)).toContain(word);
    for (const word of NEVER) expect(read(full)).not.toContain(word);
  });

  it('as text', async () => {
    const { code, out } = await run('full', 'how-to', JOB, '--text');
    expect(code).toBe(0);
    expect(out).toMatch(/^# Ardmoor 650 Pathway: stator, step by step\n/);
    expect(out).not.toContain('](');
  });
});

it.each(['chapters', 'reminders', 'how-to'])('the example of %s runs in a fresh clone', async (name) => {
  const help = (await run('nowhere', name, '--help')).out;
  const example = /Example:\n {2}chargewright (.*)\n {2}shows \S/.exec(help)?.[1];
  const ran = await run('nowhere', ...example!.split(' '));
  expect(ran).toMatchObject({ code: 0, err: '' });
  expect(ran.out.length).toBeGreaterThan(20);
  expect(existsSync(at('nowhere'))).toBe(false);
});

describe('refused in one sentence, exit 2, nothing on standard output', () => {
  const cases: readonly [string, readonly string[], RegExp][] = [
    [
      'a job that is not there',
      ['chapters', 'zebulonia-bike'],
      /no job "zebulonia-bike".*write zebulonias-bike/,
    ],
    ['a clip that is not there', ['chapters', JOB, '--clip', '9'], /no clip 9 in this job: /],
    [
      'a form that is none',
      ['chapters', JOB, '--as', 'srt'],
      /--as may be vtt, ffmetadata, plain, not "srt"/,
    ],
    [
      'two clips in one file',
      ['chapters', JOB, '--as', 'vtt'],
      /holds one clip: say which with --clip, 1, 2/,
    ],
    ['a how-to without a place', ['how-to', JOB], /wants --zip FILE or --text/],
    ['a how-to to two places', ['how-to', JOB, '--text', '--zip', 'x.zip'], /cannot go together/],
    [
      'reminders of nothing',
      ['reminders', 'demo-ferry-run', '--ics', 'x.ics'],
      /No step of this job is ticked|no job/,
    ],
  ];
  it.each(cases)('%s', async (_name, args, why) => {
    const { code, out, err } = await run('full', ...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(why);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
  });

  it('a file that is there already, which stays as it is', async () => {
    const file = at('mine.zip');
    writeFileSync(file, 'mine');
    for (const args of [
      ['how-to', JOB, '--zip', file],
      ['reminders', JOB, '--ics', file],
    ])
      expect(await run('full', ...args)).toMatchObject({
        code: 2,
        out: '',
        err: expect.stringContaining('is there already'),
      });
    expect(readFileSync(file, 'utf8')).toBe('mine');
  });
});
