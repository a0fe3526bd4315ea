/** The way of a wire: what the hands wrote down going in is drawn where the wire goes back, and nothing is made up. */
import { expect, it } from 'vitest';
import { whereOf } from '../../src/bench/where.ts';
import { benchJob } from './bench-job.ts';

const FOUND = 'under the tensioner, two clips; a sleeve at the edge of the case';

it('draws a wire as it was found, at the step that took it out and at the one that puts it back', () => {
  const job = benchJob();
  expect(whereOf(job.asking('retainer-on'))).toBeNull();
  job.record('plug-retainer', 'run', { found: FOUND }, ['followed']);
  const drawn = {
    kind: 'wire-way',
    points: ['under the tensioner', 'two clips', 'a sleeve at the edge of the case'],
    words: 'The wire, as it was found',
  };
  expect(whereOf(job.asking('retainer-on'))).toEqual(drawn);
  expect(whereOf(job.asking('plug-retainer'))).toEqual(drawn);
  // Another wire's record says nothing of this one.
  expect(whereOf(job.asking('regulator-plugs'))).toBeNull();
});

it('draws no way of a single thing', () => {
  const job = benchJob();
  job.record('plug-retainer', 'run', { found: 'under the tensioner, ' }, ['followed']);
  expect(whereOf(job.asking('retainer-on'))).toBeNull();
});
