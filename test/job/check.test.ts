import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkEvent } from '../../src/job/check.ts';
import { DEMO_JOB, demoJob } from '../../src/job/demo.ts';
import { TEXT_LIMITS } from '../../src/job/event-rule.ts';
import { evidenceOf, foldJob } from '../../src/job/fold.ts';
import { logs, opening, story, take } from './stories.ts';

const [event] = story([take('batt_volts lights=low rpm=3000', 12.9)]);
const [accepted] = story([{ type: 'verdictAccepted', repairs: [], sets: [], noneOfThese: 0 }]);

describe('the door for events', () => {
  it('lets through whatever the program itself writes, unchanged, also after JSON', () => {
    fc.assert(
      fc.property(logs, (events) => {
        for (const one of events)
          expect(checkEvent(JSON.parse(JSON.stringify(one)))).toEqual({ ok: true, event: one });
      }),
    );
  });

  it('never throws, and answers with one sentence', () => {
    fc.assert(
      fc.property(fc.anything(), (value) => {
        const checked = checkEvent(value);
        if (!checked.ok) expect(checked.why).toMatch(/^[A-Z][^\n]*\.$/);
      }),
    );
  });

  it.each<[string, object, string, RegExp]>([
    ['not finite', { value: Number.POSITIVE_INFINITY }, 'value', /number within/],
    ['not a number', { value: Number.NaN }, 'value', /number within/],
    ['text for a number', { value: '12.9' }, 'value', /null for "OL"/],
    ['a key out of order', { key: 'batt_volts rpm=3000 lights=low' }, 'key', /alphabetical order/],
    ['a key that is no key', { key: 'batt_volts =3000' }, 'key', /reading key/],
    ['a key repeating a word', { key: 'batt_volts rpm=2000 rpm=3000' }, 'key', /reading key/],
    [
      'a long entry',
      { entered: 'x'.repeat(TEXT_LIMITS.entered + 1) },
      'entered',
      /at most 60 characters long \(it has 61\)/,
    ],
    ['a control character', { entered: '12\u0000' }, 'entered', /control characters/],
    ['half a surrogate pair', { entered: '\ud83d' }, 'entered', /plain text/],
    ['a field too many', { volts: 12 }, 'volts', /does not know it/],
    ['a field missing', { entered: undefined }, 'entered', /be text/],
    ['an unknown type', { type: 'readingGuessed' }, 'type', /one of jobOpened/],
    ['a type off the prototype', { type: 'constructor' }, 'type', /one of jobOpened/],
    ['an impossible date', { at: '2026-02-30T10:00:00.000Z' }, 'at', /UTC/],
    ['a local time', { at: '2026-02-03T10:00:00+01:00' }, 'at', /UTC/],
    ['an id of no kind', { id: '17' }, 'id', /event id/],
    ['a foreign device', { device: 'phone' }, 'device', /id ends with/],
    ['a job that is a path', { job: '../etc' }, 'job', /a–z/],
  ])('refuses %s', (_, change, field, why) => {
    const checked = checkEvent({ ...event, ...change });
    expect(checked).toMatchObject({ ok: false, field });
    expect(!checked.ok && checked.why).toMatch(why);
  });

  it('says which entry of a list is at fault', () => {
    const sets = [
      { faults: ['stator-open'], probability: 0.5 },
      { faults: ['drain'], probability: 1.5 },
    ];
    expect(checkEvent({ ...accepted, sets })).toMatchObject({
      ok: false,
      field: 'sets[1].probability',
      why: 'In verdictAccepted the field sets[1].probability must be a number from 0 to 1.',
    });
    expect(
      checkEvent({ ...accepted, repairs: [{ repair: 'replace-stator', probability: 1 }] }),
    ).toMatchObject({
      field: 'repairs[0].worthDoing',
    });
  });

  it('takes an acceptance with or without what later versions say of each line', () => {
    const line = { repair: 'replace-stator', probability: 1, worthDoing: true };
    const full = { ...line, whileOpen: false, saves: -12.5, turnsAt: 0.2 };
    expect(checkEvent({ ...accepted, repairs: [line, full] }).ok).toBe(true);
    for (const [field, value] of [
      ['turnsAt', 1.2],
      ['saves', Number.NaN],
      ['whileOpen', 'yes'],
      ['price', 12],
    ] as const)
      expect(checkEvent({ ...accepted, repairs: [{ ...full, [field]: value }] })).toMatchObject({
        field: `repairs[0].${field}`,
      });
  });

  it('takes chances within bounds, or none to go back to the catalogue', () => {
    const [set] = story([{ type: 'priorSet', fault: 'drain', chance: 0.2, why: '' }]);
    for (const chance of [0.001, 0.5, null]) expect(checkEvent({ ...set, chance }).ok).toBe(true);
    for (const chance of [0, 0.0009, 0.51, '0.2', Number.NaN])
      expect(checkEvent({ ...set, chance })).toMatchObject({ ok: false, field: 'chance' });
    const [reopened] = story([{ type: 'verdictReopened', why: '' }]);
    expect(checkEvent(reopened)).toEqual({ ok: true, event: reopened });
  });

  it('refuses what is no object, and a prototype smuggled in by JSON', () => {
    for (const value of [null, [], 'event', 7])
      expect(checkEvent(value)).toMatchObject({ ok: false, field: null });
    const text = JSON.stringify(event).replace('{', '{"__proto__":{"job":"j2"},');
    expect(checkEvent(JSON.parse(text))).toMatchObject({ ok: false, field: '__proto__' });
  });

  it('refuses an empty title, but takes an empty name', () => {
    const [opened] = story([opening]);
    expect(checkEvent({ ...opened, title: '  ' })).toMatchObject({ ok: false, field: 'title' });
    expect(checkEvent({ ...opened, who: '' }).ok).toBe(true);
  });
});

describe('the demo job', () => {
  it('passes the door, says that it is invented, and is the same at every call', () => {
    for (const one of demoJob()) expect(checkEvent(one)).toEqual({ ok: true, event: one });
    expect(demoJob()).toEqual(demoJob());
    const state = foldJob(demoJob());
    expect(state.job).toBe(DEMO_JOB);
    expect(state.opened).toMatchObject({ machine: 'ardmoor-650-pathway', invented: true });
    expect(Object.keys(evidenceOf(state).readings)).toHaveLength(6);
  });

  it('enters every number as its text says', () => {
    for (const reading of foldJob(demoJob()).readings) {
      expect(Number.parseFloat(reading.entered.replace(',', '.'))).toBe(reading.value);
    }
  });
});
