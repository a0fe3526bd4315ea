/** Machine files written here: kept as typed, every version, whatever the check says, and nothing outside their folder. */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoJob } from '../../src/job/demo.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { openOwnMachines } from '../../src/serve/own-machines.ts';
import { type Garage, openGarage } from './garage.ts';

describe('the folder', () => {
  const folder = mkdtempSync(join(tmpdir(), 'chargewright-own-'));
  const own = openOwnMachines(join(folder, 'machines'));
  afterAll(() => rmSync(folder, { recursive: true }));

  it('keeps every version as it was typed, and no draft', async () => {
    expect(await own.ids()).toEqual([]);
    expect(await own.save('my-bike', '{ "a": 1 }\n')).toEqual({ ok: true, version: 1 });
    expect(await own.save('my-bike', 'not even JSON')).toEqual({ ok: true, version: 2 });
    expect(await own.text('my-bike')).toBe('not even JSON');
    expect(await own.text('my-bike', 1)).toBe('{ "a": 1 }\n');
    expect(await own.text('my-bike', 3)).toBeNull();
    expect(readdirSync(join(folder, 'machines', 'my-bike')).sort()).toEqual(['0001.json', '0002.json']);
  });

  it('loses neither of two who save at once', async () => {
    const saved = await Promise.all(Array.from({ length: 20 }, (_, n) => own.save('busy', `text ${n}`)));
    const versions = saved.map((each) => (each.ok ? each.version : 0)).sort((a, b) => a - b);
    expect(versions).toEqual(Array.from({ length: 20 }, (_, n) => n + 1));
    const texts = await Promise.all(versions.map((version) => own.text('busy', version)));
    expect(new Set(texts).size).toBe(20);
  });

  it.each(['../away', 'a/b', '..', '', 'A', '-a', 'x'.repeat(80)])('refuses the name %j', async (id) => {
    expect((await own.save(id, 'x')).ok).toBe(false);
    expect(await own.text(id)).toBeNull();
  });
});

describe('over HTTP', () => {
  let garage: Garage;
  beforeAll(async () => {
    garage = await openGarage();
  });
  afterAll(() => garage.close());
  const shipped = readFileSync(new URL('../../machines/ardmoor-650-pathway.json', import.meta.url), 'utf8');

  it('saves a sound file and a broken one, marks both, and lists them', async () => {
    const first = await garage.post('/api/machines/my-twin', { text: shipped });
    expect(first.status).toBe(201);
    expect(JSON.parse(first.text)).toEqual({ id: 'my-twin', version: 1, mark: 'clean' });
    const second = await garage.post('/api/machines/my-twin', { text: shipped.slice(0, 900) });
    expect(JSON.parse(second.text)).toEqual({ id: 'my-twin', version: 2, mark: 'broken' });
    expect((await garage.ask('/api/machines/my-twin')).text).toBe(shipped.slice(0, 900));
    expect((await garage.ask('/api/machines/my-twin?version=1')).text).toBe(shipped);
    expect((await garage.ask('/api/machines/my-twin?version=abc')).status).toBe(400);
    // Read on the laptop: a file that changed is read anew, and what is wrong with it comes line by line.
    const read = JSON.parse((await garage.ask('/api/machines/my-twin/read')).text);
    expect(read).toEqual({ id: 'my-twin', read: readMachine(shipped.slice(0, 900), 'my-twin.json') });
    expect(read.read.ok).toBe(false);
    const { machines } = JSON.parse((await garage.ask('/api/machines')).text) as {
      machines: { id: string; versions: number; mark: string }[];
    };
    expect(machines.find(({ id }) => id === 'my-twin')).toMatchObject({ versions: 2, mark: 'broken' });
    expect(machines.filter(({ versions }) => versions === 0)).toHaveLength(3);
  });

  it('gives a machine as it reads, and that of a job, as plain data', async () => {
    const read = readMachine(shipped, 'ardmoor-650-pathway.json');
    const whole = { id: 'ardmoor-650-pathway', read: JSON.parse(JSON.stringify(read)) };
    expect(whole.read).toStrictEqual(read);
    expect((await garage.ask('/api/machines/ardmoor-650-pathway/read')).json()).toEqual(whole);
    expect((await garage.ask('/api/machines/nothing/read')).status).toBe(404);
    expect((await garage.ask('/api/jobs/nothing/machine')).status).toBe(404);
    const opening = demoJob().slice(0, 1);
    expect((await garage.post('/api/jobs', opening)).status).toBe(201);
    expect((await garage.ask(`/api/jobs/${opening[0]!.job}/machine`)).json()).toEqual(whole);
  });

  it.each([
    ['/api/machines/ardmoor-650-pathway', { text: 'x' }, /shipped machine stays/],
    ['/api/machines/My_Bike', { text: 'x' }, /small letters/],
    ['/api/machines/mine', { text: '' }, /no text to keep/],
    ['/api/machines/mine', { text: 5 }, /no text to keep/],
  ])('refuses %s %j', async (path, body, why) => {
    const answer = await garage.post(path, body);
    expect(answer.status).toBe(400);
    expect(answer.text).toMatch(why);
  });

  it('tells when each version was saved', async () => {
    const before = Date.now();
    await garage.post('/api/machines/dated', { text: shipped });
    await garage.post('/api/machines/dated', { text: `${shipped}\n` });
    const { versions, saved } = (await garage.ask('/api/machines/dated/versions')).json();
    expect(versions).toEqual([1, 2]);
    expect(saved.map(({ version }: { version: number }) => version)).toEqual([1, 2]);
    for (const { savedAt } of saved) expect(Math.abs(Date.parse(savedAt) - before)).toBeLessThan(60_000);
  });

  it('gives the pack of a machine, says what one from outside is, and keeps nothing by saying so', async () => {
    await garage.post('/api/machines/twin', { text: shipped });
    const pack = await garage.ask('/api/machines/twin/pack.zip');
    expect(pack.status).toBe(200);
    expect(pack.headers['content-type']).toBe('application/zip');
    const other = shipped.replace('"fuse": { "is": "40 A"', '"fuse": { "is": "30 A"');
    await garage.post('/api/machines/twin', { text: other });
    const look = await garage.ask('/api/machines?as=twin', {
      method: 'POST',
      headers: { 'content-type': 'application/zip' },
      body: pack.bytes,
    });
    expect(look.status).toBe(200);
    expect(look.json()).toMatchObject({
      id: 'twin',
      is: 'same',
      differences: 1,
      versions: 2,
      name: 'Ardmoor 650 Pathway',
      mark: 'clean',
      problems: [],
    });
    expect(look.json().text).toContain('"fuse"');
    const json = await garage.ask('/api/machines', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: other,
    });
    expect(json.json()).toMatchObject({ id: 'ardmoor-650-pathway-2', is: 'new', differences: 1 });
    expect((await garage.ask('/api/machines/twin/versions')).json().versions).toEqual([1, 2]);
    expect((await garage.ask('/api/machines/ardmoor-650-pathway-2')).status).toBe(404);
  });

  it('refuses in one sentence what is no machine file, too large, or not declared', async () => {
    const look = (body: string | Buffer, type = 'application/json', query = '') =>
      garage.ask(`/api/machines${query}`, { method: 'POST', headers: { 'content-type': type }, body });
    expect((await look('[1]')).text).toMatch(/no machine file/);
    expect((await look(Buffer.from('PK\u0003\u0004 and no more'), 'application/zip')).status).toBe(400);
    expect((await look('{}', 'text/plain')).status).toBe(415);
    expect((await look(Buffer.alloc(8_000_001), 'application/zip')).status).toBe(413);
    expect((await look(shipped, 'application/json', '?as=My_Bike')).json()).toMatchObject({ field: 'as' });
    expect((await garage.ask('/api/machines/none/pack.zip')).status).toBe(404);
    await garage.post('/api/machines/broken', { text: shipped.slice(0, 900) });
    const broken = await garage.ask('/api/machines/broken/pack.zip');
    expect(broken.status).toBe(409);
    expect(broken.json().error).toMatch(/Mend it first/);
    expect(garage.faults).toEqual([]);
  });
});
