/** The routes of what is handed over: who gets them, and what they say where there is nothing to give. */
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import ICAL from 'ical.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPhotoShelf } from '../../src/disk/photo-shelf.ts';
import { demoJob } from '../../src/job/demo.ts';
import { filmedJob, NEVER, OWNERS, SHOTS } from '../paper/filmed-job.ts';
import { readFfmetadata } from '../paper/read-ffmetadata.ts';
import { readPdf } from '../press/read-pdf.ts';
import { type Answer, type Garage, openGarage } from './garage.ts';

const JOB = NEVER[0];
let garage: Garage;
beforeAll(async () => {
  garage = await openGarage();
  await garage.store.append([...filmedJob(), ...demoJob()]);
  const photos = await openPhotoShelf(join(garage.folder, 'garage.sqlite.photos'));
  for (const shot of SHOTS) await photos.put(shot);
});
afterAll(() => garage.close());
const get = (path: string, headers: Readonly<Record<string, string>> = {}) =>
  garage.ask(`/api/jobs/${path}`, { headers });
const PATHS = [
  'record.pdf',
  'owner.pdf',
  'how-to.zip',
  'reminders.ics',
  'chapters.vtt',
  'chapters.ffmetadata',
  'chapters.txt',
] as const;

describe('what is handed over', () => {
  it.each(PATHS)('%s is a file that no browser opens by itself, and that nothing keeps', async (path) => {
    const { status, headers } = await get(`${JOB}/${path}`);
    expect(status).toBe(200);
    expect(headers['content-disposition']).toMatch(/^attachment; filename="[a-z0-9.-]+"$/);
    expect(headers['content-disposition']).not.toContain(JOB);
    expect(headers['cache-control']).toBe('no-store');
    expect(headers['x-content-type-options']).toBe('nosniff');
  });

  it('record.pdf and owner.pdf are papers of this job, the record with its photographs', async () => {
    const record = await get(`${JOB}/record.pdf`);
    expect(record.headers['content-type']).toBe('application/pdf');
    const read = await readPdf(new Uint8Array(record.bytes));
    expect(read.title).toBe('Record: Zebulonia’s bike, fades; again, at the ferry');
    expect(read.pages.reduce((sum, { images }) => sum + images, 0)).toBe(2);
    const owner = await readPdf(new Uint8Array((await get(`${JOB}/owner.pdf`)).bytes));
    expect(owner.title).toBe('What was done on your motorcycle');
    expect(owner.pages).toHaveLength(1);
  });

  it('papers are made one at a time, and who comes to a full bench is told to wait', async () => {
    const answers = await Promise.all(Array.from({ length: 12 }, () => get(`${JOB}/owner.pdf`)));
    const served = answers.filter(({ status }) => status === 200);
    const told = answers.filter(({ status }) => status === 503);
    expect(served.length).toBeGreaterThanOrEqual(4);
    expect(served.length + told.length).toBe(12);
    for (const { json, headers } of told) {
      expect(json().error).toMatch(/ask again in a few seconds/);
      expect(headers['retry-after']).toBe('5');
    }
    expect((await get(`${JOB}/owner.pdf`)).status).toBe(200);
  });

  it('how-to.zip holds of the owner what the query says', async () => {
    const read = ({ bytes }: Answer) =>
      Object.values(unzipSync(bytes))
        .map((file) => Buffer.from(file).toString('latin1'))
        .join('\n');
    const bare = read(await get(`${JOB}/how-to.zip?owner=false`));
    for (const word of Object.values(OWNERS).flat()) expect(bare).not.toContain(word);
    const full = read(await get(`${JOB}/how-to.zip?owner=true&photos=true&notes=true`));
    for (const word of Object.values(OWNERS).flat()) expect(full).toContain(word);
  });

  it('reminders.ics is a calendar with the title of the job', async () => {
    const { text, headers } = await get(`${JOB}/reminders.ics`);
    expect(headers['content-type']).toBe('text/calendar; charset=utf-8');
    const [event] = new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent');
    expect(event!.getFirstPropertyValue('summary')).toMatch(/Zebulonia’s bike/);
  });

  it('chapters are those of the clip that is asked for, the first unless said', async () => {
    expect((await get(`${JOB}/chapters.txt`)).text).toMatch(/^0:00 Roll the bike/);
    expect((await get(`${JOB}/chapters.txt?clip=2`)).text).toMatch(/^0:00 Take the seat off/);
    const vtt = await get(`${JOB}/chapters.vtt?clip=clip-02`);
    expect(vtt.headers['content-type']).toBe('text/vtt; charset=utf-8');
    expect(vtt.text).toMatch(/^WEBVTT\n/);
    expect(
      readFfmetadata((await get(`${JOB}/chapters.ffmetadata?clip=2`)).text).chapters.length,
    ).toBeGreaterThan(3);
  });
});

describe('refused in one sentence', () => {
  it.each(PATHS)('%s of a job that is not here', async (path) => {
    const { status, json } = await get(`nobodys/${path}`);
    expect([status, json().error]).toEqual([404, expect.stringContaining('There is no job "nobodys" here')]);
  });

  it('what the query may not say', async () => {
    const yes = await get(`${JOB}/how-to.zip?notes=yes`);
    expect([yes.status, yes.json()]).toEqual([
      400,
      { error: expect.stringContaining('true or false'), field: 'notes' },
    ]);
    const clip = await get(`${JOB}/chapters.vtt?clip=7`);
    expect([clip.status, clip.json()]).toEqual([
      404,
      { error: 'There is no such clip: clip may be clip-01, clip-02.', field: 'clip' },
    ]);
  });

  it('a calendar before anything is done, and chapters of a job that was not filmed', async () => {
    expect((await get('demo-ferry-run/reminders.ics')).status).toBe(409);
    const chapters = await get('demo-ferry-run/chapters.txt');
    expect([chapters.status, chapters.json().error]).toEqual([
      404,
      expect.stringContaining('was not filmed'),
    ]);
    expect((await get('demo-ferry-run/how-to.zip')).status).toBe(200);
  });

  it.each(PATHS)('%s for a page from elsewhere, or by another verb', async (path) => {
    const foreign = await get(`${JOB}/${path}`, { 'sec-fetch-site': 'cross-site' });
    expect(foreign.status).toBe(403);
    const posted = await garage.ask(`/api/jobs/${JOB}/${path}`, { method: 'POST' });
    expect([posted.status, posted.headers.allow]).toEqual([405, 'GET, HEAD']);
  });

  it('without a fault on the laptop', () => {
    expect(garage.faults).toEqual([]);
  });
});
