import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  canonical,
  inOrder,
  laterStamp,
  nextStamp,
  readStamp,
  writeEvent,
  writeStamp,
} from '../../src/job/stamp.ts';
import { opening, START, story, take } from './stories.ts';

const stamps = fc.record({
  ms: fc.integer({ min: 0, max: Date.UTC(2199, 11, 31) }),
  count: fc.integer({ min: 0, max: 36 ** 4 - 1 }),
  device: fc.stringMatching(/^[a-z0-9]{1,16}$/),
});

describe('event ids', () => {
  it('read back as written', () => {
    fc.assert(
      fc.property(stamps, (stamp) => {
        expect(readStamp(writeStamp(stamp))).toEqual(stamp);
      }),
    );
  });

  it('sort as strings by time, then count, then device', () => {
    fc.assert(
      fc.property(stamps, stamps, (a, b) => {
        const byParts =
          a.ms - b.ms || a.count - b.count || (a.device < b.device ? -1 : a.device > b.device ? 1 : 0);
        const [left, right] = [writeStamp(a), writeStamp(b)];
        expect(Math.sign(byParts)).toBe(left < right ? -1 : left > right ? 1 : 0);
      }),
    );
  });

  it('grow with every event of a device, whatever its clock does', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 4e12 }), { minLength: 2, maxLength: 50 }), (clock) => {
        let last: string | null = null;
        for (const now of clock) {
          const next = nextStamp(last, now, 'bench');
          if (last !== null) expect(next > last).toBe(true);
          last = next;
        }
      }),
    );
  });

  it('sort an answer after what it answers, although its writer has a slow clock', () => {
    const seen = nextStamp(null, START + 3_600_000, 'phone');
    expect(nextStamp(seen, START, 'bench') > seen).toBe(true);
  });

  it('go on into the next millisecond when the counter is full', () => {
    const full = writeStamp({ ms: START, count: 36 ** 4 - 1, device: 'bench' });
    expect(readStamp(nextStamp(full, START, 'bench'))).toEqual({ ms: START + 1, count: 0, device: 'bench' });
  });

  it('refuse a broken clock, a wrong device and a wrong predecessor', () => {
    expect(() => nextStamp(null, Number.NaN, 'bench')).toThrow(RangeError);
    expect(() => nextStamp(null, Date.UTC(2200, 0, 1), 'bench')).toThrow(/1970 to 2199/);
    expect(() => nextStamp(null, START, 'Bench 1')).toThrow(/device/);
    expect(() => nextStamp('yesterday', START, 'bench')).toThrow(/last/);
    expect(readStamp('zzzzzzzzz-0000-bench')).toBeNull();
  });

  it('take the greater of two as the last seen', () => {
    const [early, late] = [nextStamp(null, START, 'b'), nextStamp(null, START + 1, 'a')];
    expect(laterStamp(early, late)).toBe(late);
    expect(laterStamp(late, null)).toBe(late);
    expect(laterStamp(null, null)).toBeNull();
  });
});

describe('events', () => {
  it('carry the clock of their writer as UTC', () => {
    expect(writeEvent({ job: 'j1', who: 'A', device: 'bench' }, opening, null, START).at).toBe(
      '2026-03-01T20:00:00.000Z',
    );
  });

  it('are equal in canonical text whatever the order of their fields', () => {
    const [event] = story([take('rest_volts', 12.4)]);
    const turned = Object.fromEntries(Object.entries(event!).reverse());
    expect(canonical(turned as never)).toBe(canonical(event!));
    expect(canonical({ ...event!, who: 'B' })).not.toBe(canonical(event!));
  });

  it('keep one of two contents under one id, the same in either order', () => {
    const [event] = story([take('rest_volts', 12.4)]);
    const other = { ...event!, who: 'B' };
    expect(inOrder([event!, other])).toEqual(inOrder([other, event!]));
    expect(inOrder([event!, other])).toHaveLength(1);
  });
});
