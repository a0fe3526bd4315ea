import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { StoreFault } from '../../src/disk/fault.ts';
import { canonical } from '../../src/job/stamp.ts';
import { opening, story, take } from '../job/stories.ts';
import { type Garage, openGarage } from './garage.ts';

const log = story([opening, take('rest_volts', 12.4), take('batt_volts lights=low rpm=3000', 12.9)]);
const ids = log.map((event) => event.id);

let garage: Garage;
beforeEach(async () => {
  garage = await openGarage();
});
afterEach(() => garage.close());

const kept = async (job = 'j1') => (await garage.store.since(job, 0)).map((row) => row.event);

describe('jobs over HTTP', () => {
  it('opens a job by its first event alone, and by a list', async () => {
    const alone = await garage.post('/api/jobs', log[0]);
    expect(alone.status).toBe(201);
    expect(alone.json()).toEqual({ job: 'j1', accepted: [ids[0]], duplicate: [], last: 1 });
    const other = story([opening, take('rest_volts', 12)], { job: 'j2', device: 'phone' });
    expect((await garage.post('/api/jobs', other)).json()).toMatchObject({ job: 'j2', last: 3 });
  });

  it('takes events once, however often they are sent', async () => {
    await garage.post('/api/jobs', log[0]);
    expect((await garage.post('/api/jobs/j1/events', log)).json()).toEqual({
      job: 'j1',
      accepted: ids.slice(1),
      duplicate: ids.slice(0, 1),
      last: 3,
    });
    const again = await garage.post('/api/jobs/j1/events', log);
    expect(again.status).toBe(200);
    expect(again.json()).toEqual({ job: 'j1', accepted: [], duplicate: ids, last: 3 });
    expect((await kept()).map(canonical)).toEqual(log.map(canonical));
  });

  it('gives the events after a place, and the place to ask from next', async () => {
    await garage.post('/api/jobs', log);
    const all = (await garage.ask('/api/jobs/j1')).json();
    expect(all.events.map((row: { event: unknown }) => row.event)).toEqual(log);
    expect((await garage.ask('/api/jobs/j1?since=2')).json()).toEqual({
      job: 'j1',
      count: 3,
      events: [all.events[2]],
      last: 3,
    });
    expect((await garage.ask('/api/jobs/j1?since=3')).json()).toEqual({
      job: 'j1',
      count: 3,
      events: [],
      last: 3,
    });
    for (const since of ['-1', 'x', '1.5', '', '99999999999999999999']) {
      const answer = await garage.ask(`/api/jobs/j1?since=${since}`);
      expect(answer.status, since).toBe(400);
      expect(answer.json()).toMatchObject({ field: 'since', error: expect.stringMatching(/whole number/) });
    }
  });

  it('lists jobs with what a list needs, and after a withdrawal what still counts', async () => {
    expect((await garage.ask('/api/jobs')).json()).toEqual({ jobs: [] });
    await garage.post('/api/jobs', log);
    const [withdrawal] = story([{ type: 'readingWithdrawn', event: ids[1]!, why: 'slip' }], {
      device: 'phone',
    });
    await garage.post('/api/jobs/j1/events', [withdrawal]);
    expect((await garage.ask('/api/jobs')).json()).toEqual({
      jobs: [
        {
          job: 'j1',
          title: 'Fades',
          machine: 'm1',
          invented: true,
          openedAt: log[0]!.at,
          lastAt: log[2]!.at,
          readings: 1,
          accepted: false,
          last: 4,
        },
      ],
    });
  });
});

describe('bad input: one sentence, and nothing of it kept', () => {
  const refused = async (
    answer: Awaited<ReturnType<Garage['post']>>,
    status: number,
    why: RegExp,
    field?: string,
  ) => {
    expect(answer.status).toBe(status);
    const body = answer.json();
    expect(body.error).toMatch(/^[A-Z][^\n]*\.$/);
    expect(body.error).toMatch(why);
    expect(body.field).toBe(field);
    expect(await kept()).toEqual([log[0]]);
  };
  beforeEach(() => garage.store.append(log.slice(0, 1)));
  const events = '/api/jobs/j1/events';
  const json = { 'content-type': 'application/json' };

  it('a body that is not JSON, cut off, or not UTF-8', async () => {
    for (const body of ['{"id": ', '', 'hello', Buffer.from([0x5b, 0x22, 0xff, 0x22, 0x5d])]) {
      await refused(await garage.ask(events, { method: 'POST', headers: json, body }), 400, /not JSON/);
    }
  });

  it('a body over 1 MB, with and without its length said', async () => {
    const body = JSON.stringify([{ ...log[1], entered: 'x'.repeat(1_000_000) }]);
    await refused(await garage.ask(events, { method: 'POST', headers: json, body }), 413, /over 1 MB/);
    await refused(
      await garage.ask(events, { method: 'POST', headers: json, body, chunked: true }),
      413,
      /over 1 MB/,
    );
    await refused(
      await garage.ask(events, { method: 'POST', headers: json, body: 'x'.repeat(20_000_000) }),
      413,
      /over 1 MB/,
    );
  });

  it('takes a body just under 1 MB', async () => {
    const many = story(
      Array.from({ length: 4000 }, (_, n) => take('rest_volts', n, '')),
      { device: 'phone' },
    );
    const list = [];
    let bytes = 2;
    for (const event of many) {
      bytes += JSON.stringify(event).length + 1;
      if (bytes >= 1_000_000) break;
      list.push(event);
    }
    expect(JSON.stringify(list).length).toBeGreaterThan(500_000);
    expect((await garage.post(events, list)).json().accepted).toHaveLength(list.length);
  });

  it('a body not declared as JSON', async () => {
    const body = JSON.stringify([log[1]]);
    for (const type of ['text/plain', 'application/x-www-form-urlencoded', 'application/jsonp', '']) {
      await refused(
        await garage.ask(events, { method: 'POST', headers: { 'content-type': type }, body }),
        415,
        /content-type/,
      );
    }
  });

  it('a body that is no list, or holds something that is no event', async () => {
    await refused(await garage.post(events, { id: 1 }), 400, /must be a list/);
    await refused(
      await garage.post(events, [log[1], { ...log[2], value: '12,9' }]),
      400,
      /In readingTaken the field value/,
      '[1].value',
    );
    await refused(await garage.post(events, [null]), 400, /must be a JSON object/, '[0]');
  });

  it('events of another job, or of a job nobody opened', async () => {
    await refused(await garage.post(events, [{ ...log[1], job: 'j2' }]), 400, /of the job j2/, '[0].job');
    await refused(await garage.post('/api/jobs/j9/events', [{ ...log[1], job: 'j9' }]), 404, /no job "j9"/);
    await refused(await garage.ask('/api/jobs/j9'), 404, /no job "j9"/);
    await refused(await garage.post('/api/jobs', [log[1]]), 400, /needs an event of type jobOpened/, 'type');
    await refused(
      await garage.post('/api/jobs', [log[0], { ...log[1], job: 'j2' }]),
      400,
      /must be of that job/,
      '[1].job',
    );
  });

  it('other content under a known id', async () => {
    await refused(
      await garage.post(events, [log[1], { ...log[0], who: 'somebody' }]),
      409,
      /other content/,
      'id',
    );
  });
});

describe('faults of the store', () => {
  it('are told in words, reported once, and answered so that the entry is sent again', async () => {
    const broken = await openGarage((store) => ({
      ...store,
      append: async () => {
        throw new StoreFault('garage.sqlite', 'There is no room left on the disk.');
      },
      jobs: async () => {
        throw new TypeError('secret detail');
      },
    }));
    const full = await broken.post('/api/jobs', log[0]);
    expect(full.status).toBe(503);
    expect(full.json()).toEqual({ error: 'There is no room left on the disk.' });
    const bug = await broken.ask('/api/jobs');
    expect(bug.status).toBe(500);
    expect(bug.text).not.toContain('secret detail');
    expect(bug.json().error).toMatch(/went wrong/);
    expect(broken.faults).toHaveLength(2);
    await broken.close();
  });
});
