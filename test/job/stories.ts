import fc from 'fast-check';
import type { EventBody, JobEvent } from '../../src/job/event.ts';
import { writeEvent } from '../../src/job/stamp.ts';

export const START = Date.UTC(2026, 2, 1, 20, 0);

/** A log from bodies, one a minute, written by one device. */
export function story(
  bodies: readonly EventBody[],
  options: { job?: string; device?: string; start?: number } = {},
) {
  const { job = 'j1', device = 'bench', start = START } = options;
  const events: JobEvent[] = [];
  for (const [minute, body] of bodies.entries()) {
    events.push(
      writeEvent({ job, who: 'A', device }, body, events.at(-1)?.id ?? null, start + minute * 60_000),
    );
  }
  return events;
}

export const opening: EventBody = { type: 'jobOpened', machine: 'm1', title: 'Fades', invented: true };

export function take(key: string, value: number | boolean | null, entered = String(value)): EventBody {
  return { type: 'readingTaken', key, value, entered };
}

const entered = fc.string({ unit: 'grapheme-ascii', maxLength: 8 });
const body: fc.Arbitrary<EventBody> = fc.oneof(
  fc.record({
    type: fc.constant('readingTaken' as const),
    key: fc.constantFrom(
      'rest_volts',
      'batt_volts lights=low rpm=3000',
      'batt_volts',
      'stator_ac pair=ab rpm=3000 temp=cold',
    ),
    value: fc.oneof(
      fc.integer({ min: -400, max: 40_000 }).map((n) => n / 100),
      fc.constant(null),
    ),
    entered,
  }),
  fc.record({
    type: fc.constant('readingTaken' as const),
    key: fc.constant('visual what=plug_burnt'),
    value: fc.boolean(),
    entered,
  }),
  fc.record({ type: fc.constant('noteAdded' as const), text: fc.constantFrom('a', 'b', '⅝ in, “tight” 力') }),
  fc.record({
    type: fc.constant('complaintHeard' as const),
    words: fc.constantFrom('fades', ''),
    symptoms: fc.constant(['weak_battery']),
  }),
  fc.record({
    type: fc.constant('priorSet' as const),
    fault: fc.constantFrom('drain', 'plug-pin'),
    chance: fc.constantFrom(0.001, 0.2, 0.5, null),
    why: fc.constantFrom('', 'seen often'),
  }),
  fc.constant({ type: 'verdictAccepted' as const, repairs: [], sets: [], noneOfThese: 0.02 }),
  fc.constant({ type: 'verdictReopened' as const, why: '' }),
);

/** Logs of one job written by up to three devices whose clocks disagree, with withdrawals of earlier readings. */
export const logs: fc.Arbitrary<readonly JobEvent[]> = fc
  .array(
    fc.record({
      body,
      device: fc.constantFrom('bench', 'phone', 'tablet'),
      ms: fc.integer({ min: 0, max: 90_000 }),
      withdraws: fc.option(fc.nat(30), { nil: null, freq: 4 }),
    }),
    { maxLength: 30 },
  )
  .map((steps) => {
    const events: JobEvent[] = [];
    const last = new Map<string, string>();
    for (const { body: written, device, ms, withdraws } of steps) {
      const target =
        withdraws === null ? undefined : events.filter((e) => e.type === 'readingTaken')[withdraws];
      const fields: EventBody = target
        ? { type: 'readingWithdrawn', event: target.id, why: 'slip' }
        : written;
      const event = writeEvent(
        { job: 'j1', who: device, device },
        fields,
        last.get(device) ?? null,
        START + ms,
      );
      last.set(device, event.id);
      events.push(event);
    }
    return events;
  });

/** The same events in an order decided by `seed`, some of them twice. */
export function shuffled<T>(items: readonly T[], seed: readonly number[]): readonly T[] {
  const rank = (index: number) => seed[index % Math.max(1, seed.length)] ?? 0;
  const twice = items.filter((_, index) => rank(index) % 3 === 0);
  return [...items, ...twice]
    .map((item, index) => ({ item, at: (rank(index) * 7919 + index * 104_729) % 9973 }))
    .sort((a, b) => a.at - b.at)
    .map(({ item }) => item);
}
