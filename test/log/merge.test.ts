import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonical } from '../../src/job/stamp.ts';
import { mergeEvents, missingFrom, sortOut } from '../../src/log/merge.ts';
import { logs, shuffled, story, take } from '../job/stories.ts';

/** Two or three parts of one log that overlap, as devices that were apart would hold them. */
const parts = fc
  .tuple(logs, fc.array(fc.nat(7), { minLength: 1 }))
  .map(([events, seed]) =>
    [1, 2, 4].map((bit) => events.filter((_, index) => ((seed[index % seed.length] ?? 0) & bit) === 0)),
  );

describe('merging two logs (SPEC 8)', () => {
  it('does not depend on which comes first, how three are paired, or how often', () => {
    fc.assert(
      fc.property(parts, ([a = [], b = [], c = []]) => {
        const ab = mergeEvents(a, b).events;
        expect(mergeEvents(b, a).events).toEqual(ab);
        expect(mergeEvents(ab, c).events).toEqual(mergeEvents(a, mergeEvents(b, c).events).events);
        expect(mergeEvents(ab, ab).events).toEqual(ab);
      }),
    );
  });

  it('holds every event of both, each id once, in the order of ids', () => {
    fc.assert(
      fc.property(parts, ([a = [], b = []]) => {
        const { events, clashes } = mergeEvents(a, b);
        expect(events.map((e) => e.id)).toEqual([...new Set([...a, ...b].map((e) => e.id))].sort());
        expect(clashes).toEqual([]);
      }),
    );
  });

  it('sends exactly what the other side lacks', () => {
    fc.assert(
      fc.property(parts, ([a = [], b = []]) => {
        expect(mergeEvents(a, missingFrom(a, b)).events).toEqual(mergeEvents(a, b).events);
        expect(missingFrom(mergeEvents(a, b).events, b)).toEqual([]);
      }),
    );
  });
});

describe('a clash (SPEC 3, 9)', () => {
  const [event] = story([take('rest_volts', 12.4)]);
  const other = { ...event!, who: 'somebody else' };

  it('is told, and settled the same way on both sides', () => {
    const [left, right] = [mergeEvents([event!], [other]), mergeEvents([other], [event!])];
    expect(left).toEqual(right);
    expect(left.clashes).toEqual([event!.id]);
  });

  it('is refused against the store and within a batch', () => {
    const held = new Map([[event!.id, canonical(event!)]]);
    expect(sortOut([other], held)).toMatchObject({ ok: false, event: event!.id });
    expect(sortOut([event!, other], new Map())).toMatchObject({ ok: false, event: event!.id });
  });
});

describe('sorting out a batch (SPEC 2)', () => {
  it('splits it into new and known, whatever its order', () => {
    fc.assert(
      fc.property(logs, fc.array(fc.nat(1000), { minLength: 1 }), (events, seed) => {
        const held = new Map(events.slice(0, 5).map((e) => [e.id, canonical(e)]));
        const sorted = sortOut(shuffled(events, seed), held);
        if (!sorted.ok) throw new Error(sorted.why);
        expect(sorted.fresh.map((e) => e.id)).toEqual(
          events
            .map((e) => e.id)
            .filter((id) => !held.has(id))
            .sort(),
        );
        expect([...sorted.duplicate].sort()).toEqual([...held.keys()].sort());
      }),
    );
  });
});
