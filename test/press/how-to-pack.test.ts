/** The how-to pack: what is in it, that the same job makes the same bytes, and that nobody finds the owner in it. */
import { unzipSync } from 'fflate';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { demoJob } from '../../src/job/demo.ts';
import type { HowToMay } from '../../src/paper/how-to.ts';
import { type HowToContent, packHowTo } from '../../src/press/how-to-pack.ts';
import { checkSums } from '../../src/press/sums.ts';
import { sumOf } from '../job/pictures.ts';
import { filmedJob, machineText, NEVER, OWNERS, SHOTS } from '../paper/filmed-job.ts';
import { readFfmetadata } from '../paper/read-ffmetadata.ts';
import { readPng } from './read-png.ts';

const NOTHING: HowToMay = { owner: false, photos: false, notes: false };
const content = (may: HowToMay = NOTHING, change: Partial<HowToContent> = {}): HowToContent => ({
  events: filmedJob(),
  machine: machineText(),
  may,
  at: '2026-01-20T10:00:00.000Z',
  east: 60,
  photo: async (photo) => SHOTS.find((shot) => sumOf(shot) === photo) ?? null,
  ...change,
});

async function packed(of: HowToContent) {
  const made = await packHowTo(of);
  if (!made.ok) throw new Error(made.why);
  const files = unzipSync(made.bytes);
  const text = (name: string) => new TextDecoder().decode(files[name]);
  return { ...made, files: new Map(Object.entries(files)), text };
}

describe('the pack', async () => {
  const pack = await packed(content());

  it('holds the how-to, the drawings, the chapters of both clips and the calendar, and says what each is', () => {
    const names = [...pack.files.keys()].sort();
    expect(names).toEqual([
      'SHA256SUMS',
      'chapters/clip-01.ffmetadata',
      'chapters/clip-01.txt',
      'chapters/clip-01.vtt',
      'chapters/clip-02.ffmetadata',
      'chapters/clip-02.txt',
      'chapters/clip-02.vtt',
      'contents.json',
      'dip.png',
      'dip.svg',
      'how-to.html',
      'how-to.md',
      'loop.png',
      'loop.svg',
      'reminders.ics',
    ]);
    expect(checkSums(pack.files)).toBeNull();
    const contents = JSON.parse(pack.text('contents.json'));
    expect(contents).toMatchObject({
      format: 'chargewright-how-to',
      version: 1,
      invented: true,
      holds: NOTHING,
    });
    expect(contents.files.map(({ name }: { name: string }) => name)).toEqual(
      names.filter((name) => name !== 'SHA256SUMS' && name !== 'contents.json'),
    );
    expect(contents.clips).toEqual([
      { number: 1, name: 'clip-01', lengthMs: 3_800_000, open: false, claps: [{ number: 1, atMs: 12_000 }] },
      { number: 2, name: 'clip-02', lengthMs: 700_000, open: true, claps: [{ number: 2, atMs: 160_000 }] },
    ]);
    expect(contents.says.join()).toMatch(/Clip 2 was never stopped/);
  });

  it('is the same bytes for the same job, in whatever order its log comes', async () => {
    expect((await packed(content())).bytes).toEqual(pack.bytes);
    expect((await packed(content(NOTHING, { events: filmedJob().toReversed() }))).bytes).toEqual(pack.bytes);
  });

  it('has a page that stands alone: no script, and no address outside of it', () => {
    const html = pack.text('how-to.html');
    expect(html).not.toMatch(/<script|<link|@import|<iframe/i);
    const outside = [...html.matchAll(/(?:src|href|url)\s*[=(]\s*["']?([^"')\s>]+)/g)].map(([, to]) => to!);
    expect(outside.length).toBeGreaterThan(3);
    for (const to of outside) expect(to).toMatch(/^data:/);
    // The name space of SVG is no address that anybody asks.
    expect(html.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:/);
    // Nobody can press what is only drawn.
    expect(html).not.toContain('role="button"');
  });

  it('has drawings in plain colours and pictures of the same', () => {
    for (const name of ['loop', 'dip']) {
      const svg = pack.text(`${name}.svg`);
      expect(svg).not.toMatch(/(?:fill|stroke)="var\(/);
      const [, width, height] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)!.map(Number) as [
        number,
        number,
        number,
      ];
      const png = readPng(pack.files.get(`${name}.png`)!);
      expect(Math.abs(png.width - 2 * width)).toBeLessThanOrEqual(1);
      expect(Math.abs(png.height - 2 * height)).toBeLessThanOrEqual(1);
    }
    expect(pack.text('how-to.md')).toMatch(/!\[.*\]\(loop\.png\)[\s\S]*!\[.*\]\(dip\.png\)/);
  });

  it('has chapters that agree in all three forms', () => {
    for (const clip of ['clip-01', 'clip-02']) {
      const { chapters } = readFfmetadata(pack.text(`chapters/${clip}.ffmetadata`));
      expect(pack.text(`chapters/${clip}.vtt`).match(/-->/g)).toHaveLength(chapters.length);
      expect(pack.text(`chapters/${clip}.txt`).trimEnd().split('\n')).toHaveLength(chapters.length);
      expect(chapters[0]!.start).toBe(0);
    }
  });

  it('has a calendar that names the bike and not the job', () => {
    const events = new ICAL.Component(ICAL.parse(pack.text('reminders.ics'))).getAllSubcomponents('vevent');
    expect(events.length).toBeGreaterThan(3);
    for (const event of events)
      expect(event.getFirstPropertyValue('summary')).toMatch(/: Ardmoor 650 Pathway \(invented\)$/);
  });
});

describe('what is the owner’s', () => {
  const found = async (may: HowToMay) => {
    const { files } = await packed(content(may));
    const texts = [...files].map(([name, bytes]) => `${name}\n${Buffer.from(bytes).toString('latin1')}`);
    const all = texts.join('\n');
    const count = (words: readonly string[]) => words.filter((word) => all.includes(word)).length;
    const photos = SHOTS.filter((shot) => [...files.values()].some((bytes) => sumOf(bytes) === sumOf(shot)));
    return [count(OWNERS.owner), count(OWNERS.notes), count(OWNERS.shots), count(NEVER), photos.length];
  };

  it('is in no file of the pack unless ticked', async () => {
    expect(await found(NOTHING)).toEqual([0, 0, 0, 0, 0]);
  });

  it('comes in with its own tick', async () => {
    expect(await found({ ...NOTHING, owner: true })).toEqual([3, 0, 0, 0, 0]);
    expect(await found({ ...NOTHING, notes: true })).toEqual([0, 3, 0, 0, 0]);
    expect(await found({ ...NOTHING, photos: true })).toEqual([0, 0, 0, 0, 2]);
    expect(await found({ owner: true, photos: true, notes: true })).toEqual([3, 3, 1, 0, 2]);
  });

  it('is not even fetched unless ticked', async () => {
    const asked: string[] = [];
    const photo = async (name: string) => {
      asked.push(name);
      return null;
    };
    await packed(content(NOTHING, { photo }));
    expect(asked).toEqual([]);
    const { says } = await packed(content({ ...NOTHING, photos: true }, { photo }));
    expect(asked).toHaveLength(3);
    expect(says.filter((one) => /photograph that the log names is not here/.test(one))).toHaveLength(3);
  });
});

describe('a pack with less to tell', () => {
  it('of the demo job says what it lacks', async () => {
    const { files, says } = await packed(content(NOTHING, { events: demoJob() }));
    expect([...files.keys()].some((name) => /chapters|dip|ics/.test(name))).toBe(false);
    expect(says.join('\n')).toMatch(
      /no plan of the way in[\s\S]*no clip[\s\S]*No step of this job is ticked/,
    );
  });

  it('of a job whose machine file is lost, or cannot be read, still has its chapters', async () => {
    for (const machine of [null, '{ "a": 1 }']) {
      const { files, says, text } = await packed(content(NOTHING, { machine }));
      expect(says.join('\n')).toMatch(/machine file is not here or cannot be read/);
      expect(files.has('loop.svg')).toBe(false);
      expect(text('chapters/clip-01.txt')).toMatch(/^0:00 raise-alone\n/);
    }
  });

  it('is none without an opening event', async () => {
    const [, ...rest] = filmedJob();
    expect(await packHowTo(content(NOTHING, { events: rest }))).toEqual({
      ok: false,
      why: expect.stringContaining('no opening event'),
    });
  });
});
