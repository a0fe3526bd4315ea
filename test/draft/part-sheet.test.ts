/** The sheet of a new part, entered once: where it may speak, what becomes of its figures, and that the job goes by them. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { judge } from '../../src/bench/asks-of.ts';
import { change, openDraft } from '../../src/draft/draft.ts';
import { putSheet, type Sheet } from '../../src/draft/part-sheet.ts';
import { sheetPlaces } from '../../src/draft/sheet-places.ts';
import { takeOffer } from '../../src/draft/take-offer.ts';
import { chargingSpec } from '../../src/machine/charging-spec.ts';
import { PARTS } from '../../src/machine/definition.ts';
import {
  getAt,
  type Json,
  type JsonObject,
  pathText,
  putAt,
  writeJson,
} from '../../src/machine/json-value.ts';
import { judgeFile } from '../../src/machine/judge-file.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { sayFastener } from '../../src/machine/say-fastener.ts';
import { sheetDiffers } from '../../src/machine/sheet-differs.ts';
import { benchJob } from '../bench/bench-job.ts';
import { SHIPPED } from '../machine/shipped.ts';

const fileOf = (id: string) => JSON.parse(readFileSync(`machines/${id}.json`, 'utf8')) as Json;
const FILE = fileOf('ardmoor-650-pathway');
function read(file: Json) {
  const answer = readMachine(writeJson(file), 'test.json');
  if (!answer.ok) throw new Error(JSON.stringify(answer.problems));
  return answer.machine;
}
const entered = (file: Json, sheet: Sheet): Json => change(openDraft(file), putSheet(file, sheet)).value;
const texts = (part: (typeof PARTS)[number], file = FILE) =>
  sheetPlaces(file, part).map(({ path }) => pathText(path).replace('$.', ''));

const STATOR: Sheet = {
  part: 'alternator',
  title: 'Sheet of a second stator (invented)',
  date: '2026-03',
  fitted: false,
  figures: [
    { path: ['charging', 'alternator', 'openVolts'], is: { is: '18–20 V AC', at: '1000 rpm' }, page: '1' },
    { path: ['fasteners', 'stator-screws', 'torque'], is: { is: '5.2–5.8 N·m' } },
    { path: ['fasteners', 'stator-screws', 'condition'], is: { is: 'low locker, wet' } },
    { path: ['fasteners', 'stator-screws', 'reuse'], is: { is: 'reuse' } },
  ],
};

describe('where a sheet may speak', () => {
  it('is found from the file: figures of the part, and the fasteners that hold what its repair gets to', () => {
    expect(texts('alternator')).toContain('charging.alternator.openVolts');
    expect(texts('alternator')).toContain('fasteners["stator-screws"].torque');
    expect(texts('alternator')).not.toContain('fasteners["cover-screws"].torque');
    expect(texts('regulator')).toEqual(
      expect.arrayContaining(['charging.regulator.chargeVolts', 'fasteners["regulator-bolts"].locker']),
    );
    expect(texts('battery').slice(0, 3)).toEqual([
      'charging.battery.chemistry',
      'charging.battery.capacity',
      'charging.battery.crankAmps',
    ]);
    expect(texts('fuse')).toEqual(['charging.fuse']);
    expect(texts('wiring')).toEqual(
      ['stator', 'output', 'ground'].map((run) => `charging.wiring.${run}.gauge`),
    );
  });
  it('without a way in, by the names of the parts', () => {
    const bare = putAt(FILE, ['work'], undefined)!;
    expect(texts('alternator', bare)).toContain('fasteners["stator-screws"].torque');
    expect(texts('regulator', bare)).toContain('fasteners["regulator-bolts"].torque');
  });
  it('an entry of each example reads, on every shipped machine', () => {
    for (const id of SHIPPED)
      for (const part of PARTS) {
        const file = fileOf(id);
        const figures = sheetPlaces(file, part).map(({ path, example, at, words }) => {
          const is = words?.find((word) => String(word) === example) ?? example;
          return { path, is: at === null ? { is } : { is, at } };
        });
        const { problems } = judgeFile(
          writeJson(entered(file, { part, title: 'All of it (invented)', fitted: false, figures })),
          id,
        );
        expect(
          problems.map(({ path, what }) => `${path} ${what}`),
          `${id} ${part}`,
        ).toEqual([]);
      }
  });
});

describe('a sheet', () => {
  it('stands beside the book, counts in a job that brings the part, and the step shows where they differ', () => {
    const file = entered(FILE, STATOR);
    expect((getAt(file, ['fasteners', 'stator-screws', 'torque']) as JsonObject).is).toBe('30–40 lbf·in');
    const machine = read(file);
    expect(chargingSpec(machine).alternator.openVolts.volts).toBe(17);
    // Two sheets of one part in their boxes: the first entered counts, as before.
    const fresh = read(entered(FILE, { ...STATOR, fitted: true }));
    expect(chargingSpec(fresh).alternator.openVolts.volts).toBe(19);
    const said = sayFastener(fresh, 'stator-screws')!;
    expect(said.torque).toContain('5.2–5.8 N·m');
    expect(said.mind).toContain('Threads: low locker, wet');
    expect(said.differs).toEqual([
      'Ardmoor 650 Pathway, workshop book (invented) says 30–40 lbf·in',
      'Sheet packed with the rewound stator (invented) says 40–45 lbf·in',
      'Ardmoor 650 Pathway, workshop book (invented) says threads medium locker, wet',
      'Sheet packed with the rewound stator (invented) says low-strength thread locker',
      'Ardmoor 650 Pathway, workshop book (invented) says new each time',
      'Sheet packed with the rewound stator (invented) says new each time',
    ]);
  });
  it('the charging figures of a new regulator are those of the proof', () => {
    const machine = read(FILE);
    expect(chargingSpec(machine).regulator.chargeVolts).toEqual([14.1, 14.9]);
    expect(chargingSpec(machine, ['regulator']).regulator.chargeVolts).toEqual([14.2, 14.8]);
    expect(sheetDiffers(machine, [])).toEqual([]);
    const differs = sheetDiffers(machine, ['regulator']);
    expect(differs.filter(({ of }) => of === 'charging')).toEqual([
      {
        name: 'regulator, charge volts',
        of: 'charging',
        counts: '14.2–14.8 V',
        from: 'Sheet packed with the replacement regulator (invented)',
        others: ['14.1–14.9 V (Ardmoor 650 Pathway, workshop book (invented))'],
      },
    ]);
    expect(differs.map(({ name }) => name)).toContain('regulator bolts: torque');
  });
  it('at the bench its threads are those the torque is meant for, and what it lets be used again is not asked for new', () => {
    const sheet: Sheet = {
      part: 'alternator',
      title: 'Sheet packed with the rewound stator (invented)',
      fitted: false,
      figures: [
        { path: ['fasteners', 'stator-screws', 'condition'], is: { is: 'oiled' } },
        { path: ['fasteners', 'stator-screws', 'reuse'], is: { is: 'reuse' } },
      ],
    };
    const job = benchJob(read(entered(FILE, sheet)));
    const asking = job.asking('stator-stage-2');
    expect(asking.fastener!.friction.id).toBe('oiled');
    const before = benchJob().asking('stator-stage-2');
    expect(before.fastener!.friction.id).not.toBe('oiled');
    const threads = (threads: string) => {
      const judged = judge(asking, 'torque', { full: '10 N·m', threads, set: '4.8 N·m' }, ['all', 'clicked']);
      return judged.ok ? judged.stops.filter((stop) => stop.includes('meant for')) : null;
    };
    expect(threads('oiled')).toEqual([]);
    expect(threads('dry')).toHaveLength(1);
  });
  it('entered again under its title takes the place of what it said', () => {
    const once = entered(FILE, STATOR);
    const twice = entered(once, {
      ...STATOR,
      figures: [{ path: ['fasteners', 'stator-screws', 'torque'], is: { is: '6 N·m' } }],
    });
    const torque = getAt(twice, ['fasteners', 'stator-screws', 'torque']) as { also: readonly JsonObject[] };
    expect(torque.also.map(({ is }) => is)).toEqual(['40–45 lbf·in', '6 N·m']);
    expect(getAt(twice, ['sources', 'alternator-sheet-2'])).toBeUndefined();
    expect(entered(twice, { ...STATOR, title: 'Third (invented)', figures: [] })).toMatchObject({
      sources: { 'alternator-sheet-2': { title: 'Third (invented)' } },
    });
  });
  it('fitted, those of the part before it no longer count', () => {
    const old = putAt(FILE, ['sources', 'stator-sheet', 'fitted'], true)!;
    const file = entered(old, { ...STATOR, fitted: true });
    expect(getAt(file, ['sources', 'stator-sheet', 'fitted'])).toBe(false);
    expect(chargingSpec(read(file)).alternator.openVolts.volts).toBe(19);
  });
  it('cannot speak of what is not its part’s', () => {
    expect(() =>
      putSheet(FILE, { ...STATOR, figures: [{ path: ['charging', 'fuse'], is: { is: '30 A' } }] }),
    ).toThrow(RangeError);
  });
});

describe('a measurement taken into the file', () => {
  const path = ['charging', 'alternator', 'pairOhms'];
  const taken = (file: Json, is: string, date = '2026-11-17') =>
    change(openDraft(file), takeOffer(file, { path, is: { is }, puts: [], date })).value;
  it('stands before an older measurement; in one month the newer word counts', () => {
    const file = putAt(FILE, path, { is: '0.21–0.23 Ω', from: 'tape' })!;
    const once = getAt(taken(file, '0.2–0.21 Ω'), path) as JsonObject;
    expect(once).toMatchObject({
      is: '0.2–0.21 Ω',
      from: 'bench-2026-11',
      also: [{ is: '0.21–0.23 Ω', from: 'tape' }],
    });
    const twice = getAt(taken(taken(file, '0.2–0.21 Ω'), '0.22–0.23 Ω', '2026-11-20'), path) as JsonObject;
    expect(twice).toMatchObject({ is: '0.22–0.23 Ω', also: [{ from: 'tape' }] });
    expect((twice.also as readonly Json[]).length).toBe(1);
  });
  it('a file of version 1 becomes one of version 2, for it now says a day', () => {
    const old = putAt(FILE, ['version'], 1)!;
    expect(getAt(taken(old, '0.2–0.21 Ω'), ['version'])).toBe(2);
    expect(getAt(taken(FILE, '0.2–0.21 Ω'), ['version'])).toBe(2);
  });
  it('another source of that id is left alone', () => {
    const file = putAt(FILE, ['sources', 'bench-2026-11'], { kind: 'guess', title: 'Mine' })!;
    expect(getAt(taken(file, '0.2–0.21 Ω'), ['sources', 'bench-2026-11-2', 'kind'])).toBe('measured');
    expect(getAt(taken(file, '0.2–0.21 Ω'), ['sources', 'bench-2026-11', 'title'])).toBe('Mine');
  });
});
