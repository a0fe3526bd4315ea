/** Two devices apart and together again: what counts where both wrote, rules 13–16 of src/log/SPEC.md. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkEvent } from '../../src/job/check.ts';
import type { EventBody, JobEvent } from '../../src/job/event.ts';
import { foldJob } from '../../src/job/fold.ts';
import { writeEvent } from '../../src/job/stamp.ts';
import { mergeEvents } from '../../src/log/merge.ts';
import { opening, START, story } from './stories.ts';

const LOW = 'batt_volts lights=low rpm=3000';

/** A device with its own clock and what it has seen. */
function device(name: string, clock: () => number) {
  let events: readonly JobEvent[] = [];
  return {
    get events() {
      return events;
    },
    hear(others: readonly JobEvent[]) {
      events = mergeEvents(events, others).events;
    },
    write(body: EventBody): JobEvent {
      const last = events.reduce<string | null>(
        (most, { id }) => (most === null || id > most ? id : most),
        null,
      );
      const event = writeEvent({ job: 'j1', who: name, device: name }, body, last, clock());
      events = mergeEvents(events, [event]).events;
      return event;
    },
    state: () => foldJob(events),
    /** As the screen does it: with what stands there now. */
    read(value: number) {
      const over = foldJob(events).readings.find(({ key }) => key === LOW)?.event ?? null;
      return this.write({ type: 'readingTaken', key: LOW, value, entered: String(value), over });
    },
    tick(step: string) {
      return this.write({ type: 'stepDone', step, seen: foldJob(events).way.undone.get(step) ?? null });
    },
  };
}

/** Two devices that opened one job together; the phone's clock is off, ms. */
function pair(off: number) {
  let now = START;
  const laptop = device('laptop', () => {
    now += 60_000;
    return now;
  });
  const phone = device('phone', () => now + off);
  laptop.write(opening);
  phone.hear(laptop.events);
  const meet = () => {
    laptop.hear(phone.events);
    phone.hear(laptop.events);
    expect(laptop.state()).toEqual(phone.state());
    return laptop.state();
  };
  return { laptop, phone, meet };
}

describe.each([0, 3_600_000, -3_600_000])('two devices whose clocks are %i ms apart', (off) => {
  it('13: show both values where neither knew of the other, until somebody picks', () => {
    const { laptop, phone, meet } = pair(off);
    const a = laptop.read(12.4);
    const b = phone.read(12.9);
    const [reading] = meet().readings;
    expect([reading!.event, ...reading!.disputed.map(({ event }) => event)].sort()).toEqual(
      [a.id, b.id].sort(),
    );
    laptop.write({ type: 'readingPicked', event: a.id });
    expect(meet().readings[0]).toMatchObject({ event: a.id, value: 12.4, disputed: [] });
    // A later reading by somebody who saw what was picked is a reading like any other.
    phone.read(13.1);
    expect(meet().readings[0]).toMatchObject({ value: 13.1, disputed: [] });
  });

  it('13: dispute nothing where the second saw the first, or both read the same', () => {
    const { laptop, phone, meet } = pair(off);
    laptop.read(12.4);
    meet();
    phone.read(12.9);
    expect(meet().readings[0]).toMatchObject({ value: 12.9, disputed: [] });
    laptop.read(12.7);
    phone.read(12.7);
    expect(meet().readings[0]!.disputed).toEqual([]);
  });

  it('14: let un-ticking beat a tick that did not know of it, and a tick that did beat it', () => {
    const { laptop, phone, meet } = pair(off);
    laptop.tick('battery-negative');
    meet();
    // The leads finds the cable still on while the hands tick what they believe is done.
    laptop.write({ type: 'stepUndone', step: 'battery-negative' });
    phone.tick('battery-negative');
    expect(meet().way.ticks).toEqual([]);
    phone.tick('battery-negative');
    expect(meet().way.ticks.map(({ step }) => step)).toEqual(['battery-negative']);
  });

  it('15: keep every note of both', () => {
    const { laptop, phone, meet } = pair(off);
    laptop.write({ type: 'noteAdded', text: 'owner: it was fine till the ferry' });
    phone.write({ type: 'noteAdded', text: 'pin a is brown' });
    expect(
      meet()
        .notes.map(({ text }) => text)
        .sort(),
    ).toEqual(['owner: it was fine till the ferry', 'pin a is brown']);
  });
});

describe('rules of a merge', () => {
  it('16: an event of an earlier version, without what its writer saw, counts as it did', () => {
    const bare: EventBody = { type: 'readingTaken', key: LOW, value: 12.4, entered: '12.4' };
    const events = story([opening, bare, { ...bare, value: 12.9 }]);
    for (const event of events) expect(checkEvent(event).ok).toBe(true);
    expect(foldJob(events).readings[0]).toMatchObject({ value: 12.9, disputed: [] });
  });

  it('16: what its writer saw must be an event id', () => {
    const odd = { type: 'readingTaken', key: LOW, value: 12.4, entered: '', over: 'that one' } as EventBody;
    expect(checkEvent(story([odd])[0])).toMatchObject({ ok: false, field: 'over' });
  });

  it('come to one state on three devices that met in any order, as often as they like', () => {
    const act = fc.record({
      who: fc.nat(2),
      what: fc.constantFrom('read', 'tick', 'untick', 'pick', 'meet'),
      value: fc.integer({ min: 110, max: 150 }),
      whom: fc.nat(2),
    });
    fc.assert(
      fc.property(fc.array(act, { maxLength: 40 }), (acts) => {
        let now = START;
        const devices = [0, 3_600_000, -3_600_000].map((off, n) =>
          device(`d${n}`, () => {
            now += 1000;
            return now + off;
          }),
        );
        devices[0]!.write(opening);
        for (const other of devices) other.hear(devices[0]!.events);
        for (const { who, what, value, whom } of acts) {
          const own = devices[who]!;
          if (what === 'read') own.read(value / 10);
          if (what === 'tick') own.tick('seat');
          if (what === 'untick') own.write({ type: 'stepUndone', step: 'seat' });
          if (what === 'meet') own.hear(devices[whom]!.events);
          const [first] = own.state().readings;
          if (what === 'pick' && first) own.write({ type: 'readingPicked', event: first.event });
        }
        for (const a of devices) for (const b of devices) a.hear(b.events);
        for (const a of devices) for (const b of devices) a.hear(b.events);
        const written = new Set(devices.flatMap(({ events }) => events.map(({ id }) => id)));
        for (const one of devices) {
          expect(one.events.length).toBe(written.size);
          expect(one.state()).toEqual(devices[0]!.state());
        }
      }),
    );
  });
});
