/** A job goes out and comes back as it was, and goes out again as the same bytes. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { unzipSync } from 'fflate';
import { afterAll, describe, expect, it, test } from 'vitest';
import { demoJob } from '../../src/job/demo.ts';
import { canonical, inOrder } from '../../src/job/stamp.ts';
import { packJob } from '../../src/press/job-file.ts';
import { sha256 } from '../../src/press/sums.ts';
import { picture } from '../job/pictures.ts';
import { opening, shuffled, story } from '../job/stories.ts';
import { content, has, openedLogs, PICTURES, packed, readBack, SHOT, SMALL } from './samples.ts';

const folder = mkdtempSync(join(tmpdir(), 'press-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const GOLDEN = fileURLToPath(new URL('./demo-ferry-run.zip', import.meta.url));

describe('a job', () => {
  it('comes back event for event, and goes out again as the same bytes, whatever the order', () => {
    fc.assert(
      fc.property(openedLogs, fc.array(fc.nat(99), { minLength: 1 }), (log, seed) => {
        const bytes = packed(content(log));
        const { jobs } = readBack(bytes);
        const back = jobs[0]!.content;
        expect(back.events.map(canonical)).toEqual(inOrder(log).map(canonical));
        expect(back.machine).toBe('{ "a": 1 }\n');
        expect(Buffer.from(packed(back)).equals(bytes)).toBe(true);
        expect(Buffer.from(packed(content(shuffled(log, seed)))).equals(bytes)).toBe(true);
      }),
      { seed: 11, numRuns: 60 },
    );
  });

  it('makes the same bytes in every time zone', () => {
    const zone = process.env.TZ;
    const made = ['UTC', 'Pacific/Kiritimati', 'Pacific/Pago_Pago', 'Asia/Kathmandu'].map((name) => {
      process.env.TZ = name;
      return sha256(packed(content(SMALL)));
    });
    if (zone === undefined) delete process.env.TZ;
    else process.env.TZ = zone;
    expect(new Set(made).size).toBe(1);
  });

  it('holds what docs/files.md says, in order of names', () => {
    const files = unzipSync(packed({ ...content(SHOT), photos: PICTURES.slice(0, 1) }));
    const photo = `photos/${sha256(PICTURES[0]!)}.jpg`;
    expect(Object.keys(files)).toEqual([
      'SHA256SUMS',
      'events.ndjson',
      'job.json',
      'machine.json',
      photo,
      'readings.csv',
      'readings.schema.json',
    ]);
    const text = (name: string) => Buffer.from(files[name]!).toString('utf8');
    expect(JSON.parse(text('job.json'))).toEqual({
      format: 'chargewright-job',
      version: 1,
      job: 'j1',
      title: 'Fades',
      machine: 'm1',
      invented: true,
    });
    expect(text('events.ndjson')).toBe(SHOT.map((event) => `${canonical(event)}\n`).join(''));
  });

  it('carries photos, named by their sum', () => {
    const bytes = packed({ ...content(SHOT), photos: PICTURES });
    const back = readBack(bytes).jobs[0]!.content;
    expect(back.photos.map(sha256)).toEqual(PICTURES.map(sha256).sort());
    expect(Buffer.from(packed(back)).equals(bytes)).toBe(true);
    // Stored as they are, whichever way they were handed over: to pack a JPEG gains nothing.
    expect(Buffer.from(packed({ ...content(SHOT), photos: PICTURES.toReversed() })).equals(bytes)).toBe(true);
    const methods = new Map<string, number>();
    unzipSync(bytes, { filter: ({ name, compression }) => methods.set(name, compression).size > 0 });
    expect([methods.get(`photos/${sha256(PICTURES[0]!)}.jpg`), methods.get('events.ndjson')]).toEqual([0, 8]);
  });

  it('carries no picture that its events do not name, and nothing that is none', () => {
    expect(() => packJob({ ...content(SMALL), photos: PICTURES })).toThrow(RangeError);
    expect(() => packJob({ ...content(SHOT), photos: [Uint8Array.of(1)] })).toThrow(RangeError);
  });

  it('goes without a machine file where there is none', () => {
    const bytes = packed(content(SMALL, null));
    expect(readBack(bytes).jobs[0]!.content.machine).toBeNull();
  });

  it('keeps a machine file letter for letter, a broken one, an empty one and one with CRLF too', () => {
    for (const text of ['', '\r\n{ "half', '\ufeff{}', '{"Ω": "⅝"}'])
      expect(readBack(packed(content(SMALL, text))).jobs[0]!.content.machine).toBe(text);
  });

  it('is not written when it could not be read back', () => {
    const why = (made: ReturnType<typeof packJob>) => (made.ok ? '' : made.why);
    expect(why(packJob(content(SMALL.slice(1))))).toMatch(/no opening event/);
    expect(why(packJob(content(SMALL, 'x'.repeat(1_000_001))))).toMatch(/larger than 1 MB/);
    const large = Array.from({ length: 101 }, (_, number) => picture(number, 2_000_000));
    const named = story([
      opening,
      ...large.map((bytes) => ({ type: 'photoAdded' as const, photo: sha256(bytes), step: '', about: '' })),
    ]);
    const made = packJob({ ...content(named), photos: large });
    expect(why(made)).toMatch(/larger than an export may be \(200 MB\)/);
    expect(packJob({ ...content(named), photos: large.slice(0, 99) }).ok).toBe(true);
  });
});

describe('the golden file', () => {
  const golden = readFileSync(GOLDEN);

  it('is the demo job, and is written again byte for byte', () => {
    const { jobs } = readBack(golden);
    expect(jobs[0]!.content.events.map(canonical)).toEqual(demoJob().map(canonical));
    // With the machine file it carries: the shipped one may be mended since.
    expect(Buffer.from(packed(jobs[0]!.content)).equals(golden)).toBe(true);
  });
});

describe('the tools of the system agree', () => {
  const file = join(folder, 'job.zip');
  writeFileSync(file, packed({ ...content(SHOT), photos: PICTURES.slice(0, 1) }));

  test.skipIf(!has('unzip'))('unzip finds it in order', () => {
    expect(execFileSync('unzip', ['-t', file], { encoding: 'utf8' })).toMatch(/No errors detected/);
  });

  test.skipIf(!has('unzip') || !has('sha256sum'))('sha256sum finds every file as listed', () => {
    const out = join(folder, 'out');
    execFileSync('unzip', ['-q', file, '-d', out]);
    const said = execFileSync('sha256sum', ['--strict', '-c', 'SHA256SUMS'], { cwd: out, encoding: 'utf8' });
    expect(said.trim().split('\n')).toHaveLength(6);
    expect(said).not.toMatch(/FAILED/);
    writeFileSync(join(out, 'events.ndjson'), 'other');
    expect(() => execFileSync('sha256sum', ['-c', 'SHA256SUMS'], { cwd: out, stdio: 'pipe' })).toThrow();
  });

  test.skipIf(!has('zip'))('one packed anew by zip, with folders in it, is taken', () => {
    const again = join(folder, 'again');
    execFileSync('unzip', ['-q', file, '-d', again]);
    execFileSync('zip', ['-q', '-r', join(folder, 'again.zip'), '.'], { cwd: again });
    expect(readBack(readFileSync(join(folder, 'again.zip'))).jobs[0]!.head.title).toBe('Fades');
  });
});

describe('a long job', () => {
  it('of 20,000 readings is written and read', () => {
    const bodies = Array.from({ length: 20_000 }, (_, n) => ({
      type: 'readingTaken' as const,
      key: 'rest_volts',
      value: n / 100,
      entered: `${n / 100} V`,
    }));
    const events = story([{ type: 'jobOpened', machine: 'm1', title: 'Long', invented: true }, ...bodies]);
    const bytes = packed(content(events));
    expect(bytes.length).toBeLessThan(2_000_000);
    expect(readBack(bytes).jobs[0]!.content.events).toHaveLength(20_001);
  });
});
