/**
 * A disk that is full, and one that turns read-only under the program: one sentence to whoever asked, nothing that was
 * answered lost, nothing damaged, and all is taken once there is room again (SPEC 4, 5, 11).
 */
import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { StoreFault } from '../../src/disk/fault.ts';
import { openSqliteStore } from '../../src/disk/sqlite-store.ts';
import type { JobEvent } from '../../src/job/event.ts';
import { openDevices } from '../../src/serve/devices.ts';
import { SQUARE } from '../job/pictures.ts';
import { opening, story, take } from '../job/stories.ts';
import { type Garage, openGarage } from '../serve/garage.ts';
import { openFailingDisk, openSmallDisk, roomOn } from './small-disk.ts';

const log = story([opening, ...Array.from({ length: 60 }, (_, n) => take('rest_volts', 12 + n / 100, 'x'))]);
const photo = createHash('sha256').update(SQUARE).digest('hex');
const FULL = /^There is (?:no|too little) room left on the disk that holds \S+; .*Free some space/;
const READ_ONLY = /read-only; .*(?:Allow writing|Make it writable)/;

/** All that the laptop may be asked to keep, at once: what it answers. */
async function keepAll(garage: Garage, events: readonly JobEvent[]) {
  const answers = [
    await garage.post('/api/jobs', events),
    await garage.ask(`/api/photos/${photo}`, {
      method: 'PUT',
      headers: { 'content-type': 'image/jpeg' },
      body: Buffer.from(SQUARE),
    }),
    await garage.post('/api/machines/my-twin', { text: `{ "half": "${'x'.repeat(9000)}` }),
  ];
  return answers.map(({ status, text }) => ({ status, said: JSON.parse(text).error as string | undefined }));
}

/** Opening looks the whole file over, and throws where it is damaged. */
async function idsIn(file: string): Promise<readonly string[]> {
  const store = openSqliteStore(file);
  const rows = await store.since(log[0]!.job, 0);
  await store.close();
  return rows.map(({ event }) => event.id);
}

const small = openSmallDisk(4);
afterAll(() => small?.end());

describe.skipIf(small === null)('a full disk, a real one', () => {
  it('is told at each door in one sentence, keeps what was answered, and takes all of it once there is room', async () => {
    const garage = await openGarage((store) => store, { on: small!.folder, room: 1e12 });
    const file = join(garage.folder, 'garage.sqlite');
    expect((await garage.post('/api/jobs', log.slice(0, 3))).status).toBe(201);
    small!.fill();
    const answered = new Set(log.slice(0, 3).map(({ id }) => id));
    // What the journal still has room for is kept; then it is full, and stays so for every further entry.
    let refused = 0;
    for (const event of log.slice(3)) {
      const answer = await garage.post('/api/jobs/j1/events', [event]);
      if (answer.status === 200) answered.add(event.id);
      else {
        refused += 1;
        expect(answer.status).toBe(503);
        expect(answer.json().error).toMatch(FULL);
      }
    }
    expect(refused).toBeGreaterThan(10);
    for (const { status, said } of await keepAll(garage, log)) {
      expect(status).toBe(503);
      expect(said).toMatch(FULL);
    }
    // What is there can be read meanwhile.
    const read = (await garage.ask('/api/jobs/j1')).json().events as { event: JobEvent }[];
    expect(new Set(read.map(({ event }) => event.id))).toEqual(answered);
    // Nothing half is left: no draft of a machine file, none of a photograph.
    const left = readdirSync(garage.folder, { recursive: true, encoding: 'utf8' });
    expect(left.filter((name) => /draft|\.part$|my-twin\//.test(name))).toEqual([]);
    expect(garage.faults.every((fault) => fault instanceof StoreFault)).toBe(true);

    small!.free();
    const taken = await keepAll(garage, log);
    expect(taken.map(({ status }) => status)).toEqual([201, 201, 201]);
    await garage.store.close();
    expect([...(await idsIn(file))].sort()).toEqual(log.map(({ id }) => id).sort());
    await garage.close();
  });

  it('a store on it says why it will not open, and opens untouched once there is room', async () => {
    const file = join(small!.folder, 'opened', 'garage.sqlite');
    const store = openSqliteStore(file);
    await store.append(log.slice(0, 5));
    await store.close();
    small!.fill();
    expect(roomOn(small!)).toBe(0);
    expect(() => openSqliteStore(file)).toThrow(
      /^There is no room left .* the store cannot be opened\. Free some space: then start again\.$/,
    );
    expect(() => openSqliteStore(join(small!.folder, 'new', 'garage.sqlite'))).toThrow(/no room left/);
    small!.free();
    expect(await idsIn(file)).toHaveLength(5);
  });
});

describe.skipIf(small === null)('letting devices in and out on it', () => {
  it('lets nobody in whom it cannot remember, and shuts out at once whom it cannot forget', async () => {
    const home = mkdtempSync(join(small!.folder, 'home-'));
    const devices = await openDevices(join(home, 'devices.json'), Date.now);
    const { secret } = devices.invite();
    small!.fill();
    await expect(devices.letIn(secret, 'phone', 'here')).rejects.toThrow(/the device was not let in\. Free/);
    expect(devices.list()).toEqual([]);
    small!.free();
    const letIn = await devices.letIn(secret, 'phone', 'here');
    if (!letIn.ok) throw new Error(letIn.why);
    small!.fill();
    await expect(devices.revoke(letIn.device.id)).rejects.toThrow(
      /shut out only until .* started anew\. Free/,
    );
    expect(devices.of(letIn.token)).toBeNull();
    small!.free();
    expect(await devices.revoke(letIn.device.id)).toBe(true);
    expect((await openDevices(join(home, 'devices.json'), Date.now)).list()).toEqual([]);
    expect(readdirSync(home)).toEqual(['devices.json']);
  });
});

const failing = openFailingDisk(12);
describe.skipIf(failing === null)('a disk that turns read-only while the program runs', () => {
  afterAll(() => failing?.end());

  it('is told in one sentence, can be read, and has all that was answered when it is sound again', async () => {
    const garage = await openGarage((store) => store, { on: failing!.folder, room: 1e12 });
    const file = join(garage.folder, 'garage.sqlite');
    expect((await garage.post('/api/jobs', log.slice(0, 20))).status).toBe(201);
    failing!.fail();
    for (const { status, said } of await keepAll(garage, log)) {
      expect(status).toBe(503);
      expect(said).toMatch(READ_ONLY);
    }
    expect((await garage.ask('/api/jobs/j1')).json().count).toBe(20);
    await garage.store.close();
    // A start on such a disk ends with the reason.
    expect(() => openSqliteStore(file)).toThrow(READ_ONLY);
    failing!.mend();
    expect([...(await idsIn(file))].sort()).toEqual(log.slice(0, 20).map(({ id }) => id));
    await garage.close();
  });
});
