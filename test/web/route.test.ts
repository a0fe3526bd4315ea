import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Route, readRoute, STATIONS, writeRoute } from '../../src/web/route.ts';

describe('the address', () => {
  test('a written route reads back', () => {
    const text = fc.string({ minLength: 1, maxLength: 30, unit: 'grapheme' }).filter((s) => s.isWellFormed());
    const job = fc.record({
      at: fc.constant('job' as const),
      job: text,
      station: fc.constantFrom(...STATIONS),
    });
    fc.assert(
      fc.property(job, fc.option(text), (route, take) => {
        const whole: Route = { ...route, take: ['readings', 'bench'].includes(route.station) ? take : null };
        expect(readRoute(writeRoute(whole))).toEqual(whole);
      }),
    );
    expect(readRoute(writeRoute({ at: 'jobs' }))).toEqual({ at: 'jobs' });
    expect(readRoute(writeRoute({ at: 'new' }))).toEqual({ at: 'new' });
    expect(readRoute(writeRoute({ at: 'ride', machine: 'a b/c' }))).toEqual({ at: 'ride', machine: 'a b/c' });
  });

  test('a job without a station opens at its readings', () => {
    expect(readRoute('#/job/demo')).toEqual({ at: 'job', job: 'demo', station: 'readings', take: null });
  });

  test.each([
    '#/dip',
    '#/job',
    '#/job/x/shed',
    '#/job/x/readings/y',
    '#/%E0%A4%A',
    '#/new/x',
    '#/ride',
    '#/ride/x/y',
  ])('%s leads nowhere', (hash) => {
    expect(readRoute(hash).at).toBe('nowhere');
  });

  test('never throws', () => {
    fc.assert(fc.property(fc.string(), (hash) => void readRoute(hash)));
  });
});
