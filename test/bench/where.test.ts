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

it('draws the shims as they were found, and says whether they are what the book wants', () => {
  const job = benchJob();
  job.record('sprocket-only', 'stack-found', { found: '30, 60 thou' }, ['numbered', 'tied'], {
    shimsM: [0.000762, 0.001524],
  });
  expect(whereOf(job.asking('shims-back-c'))).toMatchObject({
    kind: 'shim-stack',
    total: '2.29 mm (0.09 in)',
    wanted: '85–95 thou (2.16–2.41 mm)',
    fits: true,
  });
  const short = benchJob();
  short.record('sprocket-only', 'stack-found', { found: '30, 40 thou' }, ['numbered', 'tied'], {
    shimsM: [0.000762, 0.001016],
  });
  expect(whereOf(short.asking('shims-back-c'))).toMatchObject({ total: '1.78 mm (0.07 in)', fits: false });
});

it('draws no way of a single thing', () => {
  const job = benchJob();
  job.record('plug-retainer', 'run', { found: 'under the tensioner, ' }, ['followed']);
  expect(whereOf(job.asking('retainer-on'))).toBeNull();
});
