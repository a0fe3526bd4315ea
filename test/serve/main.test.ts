import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { DEMO_JOB, demoJob } from '../../src/job/demo.ts';
import { readSettings } from '../../src/serve/settings.ts';
import { ensureBuilt } from '../crash/built.ts';
import { story, take } from '../job/stories.ts';
import { send } from './garage.ts';

const MAIN = fileURLToPath(new URL('../../dist/serve/main.js', import.meta.url));
beforeAll(() => ensureBuilt('serve', ['machine', 'job', 'log', 'disk']));

let home: string;
const children: ChildProcess[] = [];
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'chargewright-main-'));
});
afterEach(() => {
  for (const child of children.splice(0)) child.kill('SIGKILL');
  rmSync(home, { recursive: true, force: true });
});

interface Run {
  readonly child: ChildProcess;
  readonly said: () => string;
  readonly ended: Promise<{ code: number | null; out: string; err: string }>;
}

function start(env: Readonly<Record<string, string>>): Run {
  const child = spawn(process.execPath, [MAIN], {
    env: { ...process.env, CHARGEWRIGHT_HOME: home, PORT: '0', ...env },
    cwd: home,
  });
  children.push(child);
  let [out, err] = ['', ''];
  child.stdout.setEncoding('utf8').on('data', (part: string) => (out += part));
  child.stderr.setEncoding('utf8').on('data', (part: string) => (err += part));
  const ended = new Promise<{ code: number | null; out: string; err: string }>((done) => {
    child.on('close', (code) => done({ code, out, err }));
  });
  return { child, said: () => out + err, ended };
}

async function portOf(run: Run): Promise<number> {
  for (let wait = 0; wait < 400; wait += 1) {
    const found = /http:\/\/127\.0\.0\.1:(\d+)/.exec(run.said());
    if (found && run.said().includes('Ctrl+C')) return Number(found[1]);
    await new Promise((done) => setTimeout(done, 25));
  }
  throw new Error(`the server did not start: ${run.said()}`);
}

describe('the server as a program', () => {
  it('loads the demo into an empty store, says where it is and what is next, and stops on a signal with 0', async () => {
    const run = start({});
    const port = await portOf(run);
    const { jobs } = (await send(port, '/api/jobs', {})).json();
    expect(jobs).toMatchObject([{ job: DEMO_JOB, invented: true }]);
    run.child.kill('SIGTERM');
    const { code, out, err } = await run.ended;
    expect([code, err]).toEqual([0, '']);
    expect(out).toContain(join(home, 'garage.sqlite'));
    expect(out).toMatch(/Next: open that address .*Ardmoor/);
    expect(out).toMatch(/invented/);
  });

  it.each(['SIGINT', 'SIGKILL'] as const)(
    'has after %s and a restart what it answered, and loads no second demo',
    async (signal) => {
      const first = start({});
      const [event] = story([take('batt_volts lights=high rpm=5000', 13.1)], { job: DEMO_JOB });
      const body = JSON.stringify([event]);
      const answer = await send(await portOf(first), `/api/jobs/${DEMO_JOB}/events`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body,
      });
      expect(answer.status).toBe(200);
      first.child.kill(signal);
      await first.ended;
      const second = start({});
      const port = await portOf(second);
      const { events } = (await send(port, `/api/jobs/${DEMO_JOB}`, {})).json();
      expect(events.map((row: { event: unknown }) => row.event)).toEqual([...demoJob(), event]);
    },
  );

  it('names a port in use and the way out, with exit 2', async () => {
    const squatter = createServer();
    const port = await new Promise<number>((done) =>
      squatter.listen(0, '127.0.0.1', () => done((squatter.address() as { port: number }).port)),
    );
    const { code, out, err } = await start({ PORT: String(port) }).ended;
    squatter.close();
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(new RegExp(`^Port ${port} is in use by another program.*PORT=4280 npm start\n$`));
  });

  it('names a store it cannot read, leaves it alone, with exit 2', async () => {
    const file = join(home, 'garage.sqlite');
    writeFileSync(file, 'my notes\n'.repeat(50));
    const { code, out, err } = await start({}).ended;
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(/not a Chargewright store.*left exactly as it is.*\n$/);
    expect(err).toContain(file);
    expect(readFileSync(file, 'utf8')).toBe('my notes\n'.repeat(50));
  });

  it('names a wrong PORT, with exit 2', async () => {
    const { code, err } = await start({ PORT: 'eighty' }).ended;
    expect(code).toBe(2);
    expect(err).toMatch(/^PORT must be a whole number from 0 to 65535, but it is "eighty"\..*\n$/);
  });
});

describe('settings', () => {
  it('default to port 4280 and a folder beside the program', () => {
    expect(readSettings({}, '/garage')).toEqual({
      ok: true,
      settings: {
        port: 4280,
        storeFile: '/garage/.chargewright/garage.sqlite',
        databaseUrl: null,
        ownMachinesFolder: '/garage/.chargewright/machines',
        photosFolder: '/garage/.chargewright/garage.sqlite.photos',
        devicesFile: '/garage/.chargewright/devices.json',
        certificatesFolder: '/garage/.chargewright/certificates',
        sharePort: 4281,
        offline: true,
      },
    });
    expect(readSettings({ CHARGEWRIGHT_HOME: 'x', PORT: ' 80 ' }, '/garage')).toEqual({
      ok: true,
      settings: {
        port: 80,
        storeFile: '/garage/x/garage.sqlite',
        databaseUrl: null,
        ownMachinesFolder: '/garage/x/machines',
        photosFolder: '/garage/x/garage.sqlite.photos',
        devicesFile: '/garage/x/devices.json',
        certificatesFolder: '/garage/x/certificates',
        sharePort: 81,
        offline: true,
      },
    });
  });

  it('take a PostgreSQL address, and never repeat a wrong one, which may hold a password', () => {
    expect(readSettings({ DATABASE_URL: 'postgres://a@b/c' }, '/garage')).toMatchObject({
      settings: { databaseUrl: 'postgres://a@b/c', photosFolder: '/garage/.chargewright/photos' },
    });
    expect(readSettings({ CHARGEWRIGHT_PHOTOS: ' pictures ' }, '/garage')).toMatchObject({
      settings: { photosFolder: '/garage/pictures' },
    });
    const wrong = readSettings({ DATABASE_URL: 'mysql://me:secret@b/c' }, '/garage');
    expect(wrong.ok).toBe(false);
    expect(JSON.stringify(wrong)).not.toContain('secret');
  });

  it('hear whether browsers may keep the app', () => {
    expect(readSettings({ CHARGEWRIGHT_OFFLINE: 'off' }, '/garage')).toMatchObject({
      settings: { offline: false },
    });
    expect(readSettings({ CHARGEWRIGHT_OFFLINE: 'no' }, '/garage')).toMatchObject({
      ok: false,
      why: expect.stringContaining('must be on or off'),
    });
  });

  it.each(['65536', '-1', '1e3', '0x50', '80.5', '99999999999999999999'])('refuse PORT=%s', (PORT) => {
    expect(readSettings({ PORT }, '/garage')).toMatchObject({
      ok: false,
      why: expect.stringMatching(/^PORT must be/),
    });
  });
});
