import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evidenceOf, foldJob } from '../../src/job/fold.ts';
import { logs, opening, START, shuffled, story, take } from './stories.ts';

const LOW = 'batt_volts lights=low rpm=3000';

describe('the state of a job', () => {
  it('is the same whatever order the events arrive in and however often', () => {
    fc.assert(
      fc.property(logs, fc.array(fc.nat(1000), { minLength: 1 }), (events, seed) => {
        expect(foldJob(shuffled(events, seed))).toEqual(foldJob(events));
      }),
    );
  });

  it('counts every reading once: as the value that counts, an earlier one, or a withdrawn one', () => {
    fc.assert(
      fc.property(logs, (events) => {
        const state = foldJob(events);
        const kept = state.readings.flatMap((reading) => [reading, ...reading.earlier]);
        const ids = [...kept, ...state.withdrawn].map((taken) => taken.event).sort();
        expect(ids).toEqual(
          events
            .filter((e) => e.type === 'readingTaken')
            .map((e) => e.id)
            .sort(),
        );
      }),
    );
  });

  it('leaves the events it is given alone', () => {
    const events = Object.freeze(story([take(LOW, 12.8), opening]).reverse());
    expect(() => foldJob(events)).not.toThrow();
  });

  it('takes the latest value of a key and keeps the earlier ones', () => {
    const state = foldJob(story([opening, take(LOW, 1.42), take('rest_volts', 12.4), take(LOW, 14.2)]));
    expect(state.readings.map((r) => [r.key, r.value])).toEqual([
      ['rest_volts', 12.4],
      [LOW, 14.2],
    ]);
    expect(state.readings[1]?.earlier.map((r) => r.value)).toEqual([1.42]);
    expect(state.again).toEqual([LOW]);
  });

  it('knows one reading under every way to write its key', () => {
    const state = foldJob(story([opening, take('batt_volts', 12.1), take(LOW, 12.9)]));
    expect(state.readings).toMatchObject([{ key: LOW, value: 12.9, earlier: [{ value: 12.1 }] }]);
    expect(state.again).toEqual([LOW]);
  });

  it('lets an earlier value count again when the later one is withdrawn', () => {
    const events = story([opening, take(LOW, 14.2), take(LOW, 142)]);
    const [withdrawal] = story(
      [{ type: 'readingWithdrawn', event: events[2]!.id, why: 'typed ten times out' }],
      { start: START + 9e6 },
    );
    const state = foldJob([...events, withdrawal!]);
    expect(state.readings.map((r) => r.value)).toEqual([14.2]);
    expect(state.again).toEqual([]);
    expect(state.withdrawn).toMatchObject([
      { value: 142, why: 'typed ten times out', withdrawnAt: withdrawal!.at },
    ]);
  });

  it('withdraws a reading although the withdrawal sorts before it', () => {
    const [reading] = story([take(LOW, 142)], { start: START + 9e6 });
    const [early] = story([{ type: 'readingWithdrawn', event: reading!.id, why: 'slip' }], {
      device: 'phone',
    });
    expect(early!.id < reading!.id).toBe(true);
    expect(foldJob([early!, reading!]).readings).toEqual([]);
  });

  it('does not let a second opening swap the machine', () => {
    const state = foldJob(
      story([opening, { type: 'jobOpened', machine: 'm2', title: 'Other', invented: false }]),
    );
    expect(state.opened).toMatchObject({ machine: 'm1', title: 'Fades', invented: true });
  });

  it('says how much has changed since a verdict was accepted', () => {
    const accepted = {
      type: 'verdictAccepted' as const,
      repairs: [{ repair: 'replace-stator' as const, probability: 0.9, worthDoing: true }],
      sets: [{ faults: ['stator-open' as const], probability: 0.9 }],
      noneOfThese: 0.01,
    };
    expect(foldJob(story([opening, take(LOW, 12), accepted])).accepted).toMatchObject({
      changesSince: 0,
      noneOfThese: 0.01,
      repairs: accepted.repairs,
    });
    expect(
      foldJob(story([opening, take(LOW, 12), accepted, take(LOW, 13), { type: 'noteAdded', text: 'x' }]))
        .accepted?.changesSince,
    ).toBe(1);
  });

  it('reopens a verdict until it is accepted again, and the log keeps all of it', () => {
    const accepted = { type: 'verdictAccepted' as const, repairs: [], sets: [], noneOfThese: 0.01 };
    const reopened = { type: 'verdictReopened' as const, why: 'still dims' };
    expect(foldJob(story([opening, accepted])).reopened).toBeNull();
    expect(foldJob(story([opening, accepted, reopened]))).toMatchObject({
      accepted: null,
      reopened: { why: 'still dims' },
    });
    const again = foldJob(story([opening, accepted, reopened, accepted]));
    expect(again.accepted).not.toBeNull();
    expect(again.reopened).toBeNull();
    expect(foldJob(story([opening, reopened])).reopened).toBeNull();
  });

  it('takes the last chance set for a fault, forgets one put back, and counts it as a change of the verdict', () => {
    const set = (fault: string, chance: number | null) =>
      ({ type: 'priorSet', fault, chance, why: 'seen often' }) as const;
    const accepted = { type: 'verdictAccepted' as const, repairs: [], sets: [], noneOfThese: 0 };
    const state = foldJob(
      story([
        opening,
        set('drain', 0.2),
        set('plug-pin', 0.3),
        accepted,
        set('drain', 0.1),
        set('plug-pin', null),
      ]),
    );
    expect(state.priors).toMatchObject([{ fault: 'drain', chance: 0.1, why: 'seen often', who: 'A' }]);
    expect(state.accepted?.changesSince).toBe(2);
  });

  it('is empty without events, and refuses events of two jobs', () => {
    expect(foldJob([])).toMatchObject({ job: null, opened: null, complaint: null, readings: [], last: null });
    const two = [...story([opening], { job: 'j1' }), ...story([opening], { job: 'j2', device: 'phone' })];
    expect(() => foldJob(two)).toThrow(/one job, got j1 and j2/);
  });

  it('names the greatest id, so that the next event sorts after it', () => {
    const events = story([opening, take(LOW, 12)]);
    expect(foldJob([...events].reverse()).last).toBe(events[1]!.id);
  });
});

describe('the evidence', () => {
  it('holds symptoms, the values that count, keys taken again, and tools', () => {
    const state = foldJob(
      story([
        opening,
        { type: 'complaintHeard', words: 'fades', symptoms: ['weak_battery'] },
        { type: 'toolsDeclared', clamp: true, loadTester: false, hydrometer: false, supply: true },
        take(LOW, 12.1),
        take('diode black=a red=pos', null),
        take('visual what=plug_burnt', true),
        take(LOW, 12.9),
      ]),
    );
    expect(evidenceOf(state)).toEqual({
      symptoms: ['weak_battery'],
      readings: { [LOW]: 12.9, 'diode black=a red=pos': null, 'visual what=plug_burnt': true },
      again: [LOW],
      tools: { clamp: true, loadTester: false, hydrometer: false, supply: true },
    });
  });

  it('leaves out, but keeps in the state, what the catalogue does not know', () => {
    const state = foldJob(
      story([opening, take('later_kind x=1', 3), take('later_kind x=1', 4), take(LOW, 12.9)]),
    );
    expect(state.readings).toHaveLength(2);
    expect(evidenceOf(state)).toMatchObject({ readings: { [LOW]: 12.9 }, again: [] });
  });

  it('assumes a multimeter only where nobody has said', () => {
    expect(evidenceOf(foldJob([])).tools).toEqual({
      clamp: false,
      loadTester: false,
      hydrometer: false,
      supply: false,
    });
  });
});
