/** Which member of the loop a step is about; every word that comes out is one of the drawing's, or none of its. */
import { expect, it } from 'vitest';
import { memberOf } from '../../src/bench/member-of.ts';
import { MEMBERS } from '../../src/fault/catalogue.ts';
import { benchJob, machineOf } from './bench-job.ts';

it.each([
  ['stator-off', 'stator'],
  ['stator-stage-1', null],
  ['stator-in', 'stator'],
  ['regulator-plugs', 'stator-plug'],
  ['stator-plug-new', 'stator-plug'],
  ['output-joint-new', 'output-joint'],
  ['battery-charge', 'battery'],
  ['ground-clean', 'ground'],
  ['seat', null],
])('%s is about %s', (step, member) => {
  const { machine, places } = benchJob();
  expect(memberOf(machine, places.get(step)!)).toBe(member);
});

it('names a member of the drawing for the work at the bottom of every shipped machine', () => {
  for (const id of ['ardmoor-650-pathway', 'oskerlund-420-fellgate', 'pemburrow-900-carillon']) {
    const { machine, places } = benchJob(machineOf(id));
    const served = Object.values(machine.work?.targets ?? {}).flatMap(({ work, repairs }) =>
      repairs?.length ? (work ?? []) : [],
    );
    const bottom = served.map(({ id: step }) => places.get(step)!);
    expect(bottom.length).toBeGreaterThan(5);
    for (const place of bottom) expect([...MEMBERS, 'posts'], place.id).toContain(memberOf(machine, place));
  }
});
