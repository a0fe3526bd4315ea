/** The proof of a job: what is offered as repaired, what is looked at, how it stands. All common practice, no source. */
import { describe, expect, it } from 'vitest';
import { foldJob } from '../../src/job/fold.ts';
import { judgeSlack } from '../../src/proof/judge-slack.ts';
import { looksFor } from '../../src/proof/looks.ts';
import { proveJob } from '../../src/proof/prove-job.ts';
import { allRepairs, leftAfter, likelyMade, mustRead, repairedSpec } from '../../src/proof/repaired.ts';
import { benchJob, machineOf } from '../bench/bench-job.ts';

const machine = machineOf('ardmoor-650-pathway');
const IDLE = 'batt_volts charged=True lights=low rpm=idle';
const FAST = 'batt_volts charged=True lights=low rpm=3000';
const SETS = [
  { faults: ['plug-pins', 'stator-core-midway'], probability: 0.95 },
  { faults: ['stator-core-midway'], probability: 0.04 },
] as const;

/** A job repaired after its verdict, with what came later. */
function repairedJob(made: readonly string[] = ['replace-stator', 'replace-stator-plug']) {
  const job = benchJob(machine);
  job.write({ type: 'jobOpened', machine: 'ardmoor-650-pathway', title: 'A stator', invented: true });
  job.write({ type: 'readingTaken', key: FAST, value: 12.6, entered: '12.6', over: null });
  job.write({
    type: 'verdictAccepted',
    repairs: [
      { repair: 'replace-stator', probability: 0.99, worthDoing: true, whileOpen: false },
      { repair: 'replace-stator-plug', probability: 0.95, worthDoing: true, whileOpen: false },
      { repair: 'replace-battery', probability: 0.01, worthDoing: false, whileOpen: false },
    ],
    sets: [...SETS],
    noneOfThese: 0.01,
  });
  for (const step of ['cover-gasket', 'fill', 'slack-set', 'stator-in'])
    job.write({ type: 'stepDone', step, seen: null });
  const { left, noneOfThese } = leftAfter(
    { sets: SETS, noneOfThese: 0.01 },
    made,
    repairedSpec(machine, made),
  );
  const repaired = job.write({
    type: 'repairsMade',
    repairs: made,
    left: Object.entries(left).map(([fault, chance]) => ({ fault, chance })),
    noneOfThese,
  });
  const read = (key: string, value: number | null | boolean) =>
    job.write({ type: 'readingTaken', key, value, entered: String(value), over: null, after: repaired.id });
  const look = (check: string, ok: boolean, words = '') =>
    job.write({ type: 'proofLooked', after: repaired.id, check, ok, words });
  return { ...job, read, look, repaired };
}

const stateOf = (job: ReturnType<typeof repairedJob>) => foldJob(job.events);

describe('what was repaired', () => {
  it('is offered from the accepted verdict and from the ticked steps', () => {
    const job = repairedJob();
    expect(likelyMade(stateOf(job), machine)).toEqual(['replace-stator-plug', 'replace-stator']);
  });

  it('brings the new part’s own figures: the stator’s sheet counts', () => {
    const before = repairedSpec(machine, []);
    const after = repairedSpec(machine, ['replace-stator']);
    expect(after.alternator).not.toEqual(before.alternator);
    expect(mustRead(['replace-stator'])).toEqual(['ohms_case pin=a temp=cold']);
  });
});

describe('readings of the repaired bike', () => {
  it('stay apart from those of the bike as it came, and change no verdict', () => {
    const job = repairedJob();
    job.read(FAST, 14.4);
    const state = stateOf(job);
    expect(state.readings.map(({ value }) => value)).toEqual([12.6]);
    expect(state.proof.readings.map(({ value }) => value)).toEqual([14.4]);
    expect(state.accepted?.changesSince).toBe(0);
  });

  it('of an earlier round are kept, and do not count for the next', () => {
    const job = repairedJob();
    job.read(FAST, 12.7);
    job.write({ type: 'repairsMade', repairs: ['replace-regulator'], left: [], noneOfThese: 0.01 });
    const state = stateOf(job);
    expect(state.proof.readings).toEqual([]);
    expect(state.proof.before[0]!.readings.map(({ value }) => value)).toEqual([12.7]);
    expect(allRepairs(state)).toEqual(['replace-stator', 'replace-stator-plug', 'replace-regulator']);
  });

  it('withdrawn are told and do not count; taken again, the last counts', () => {
    const job = repairedJob();
    const wrong = job.read(FAST, 1.44);
    job.write({ type: 'readingWithdrawn', event: wrong.id, why: 'ten times out' });
    job.read(FAST, 14.4);
    const { readings, withdrawn } = stateOf(job).proof;
    expect(readings.map(({ value }) => value)).toEqual([14.4]);
    expect(withdrawn.map(({ why }) => why)).toEqual(['ten times out']);
  });
});

describe('how it stands', () => {
  it('nothing repaired: there is no proof', () => {
    const job = benchJob(machine);
    job.write({ type: 'jobOpened', machine: 'ardmoor-650-pathway', title: 'A stator', invented: true });
    expect(proveJob(foldJob(job.events), machine)).toBeNull();
  });

  it('asks for the readings and looks that are wanting, in whole sentences', () => {
    const proved = proveJob(stateOf(repairedJob()), machine)!;
    expect(proved.standing.is).toBe('open');
    expect(proved.standing.why[0]).toBe('4 readings that every proof needs are not taken yet.');
    expect(proved.standing.why.at(-1)).toBe('6 things are not looked at yet.');
    for (const words of proved.standing.why) expect(words).toMatch(/^\S.*\.$/);
    expect(proved.volts.map(([rpm]) => rpm)).toEqual([1030, 2000, 3000, 5000]);
  });

  it('is proven by sound readings and looks', () => {
    const job = repairedJob();
    job.read(IDLE, 14.2);
    job.read(FAST, 14.4);
    job.read('keyoff_mA', 1.2);
    job.read('ohms_case pin=a temp=cold', null);
    job.read('visual what=connector_warm', false);
    job.read('crank_volts charged=True probe=clamp', 10.7);
    const looks = looksFor(machine, stateOf(job), ['replace-stator']);
    expect(looks.map(({ id }) => id)).toEqual(['lamps', 'leak', 'level', 'run-clear', 'noise', 'slack']);
    for (const { id } of looks) job.look(id, true);
    const { standing, proof } = proveJob(stateOf(job), machine)!;
    expect(standing).toEqual({ is: 'proven', why: [], toLook: [] });
    expect(proof.faultLeft).toBeLessThan(0.05);
  });

  it('one look amiss undoes it, in the words of who looked; looked again, the last counts', () => {
    const job = repairedJob();
    job.look('leak', false, 'a drop at the lowest screw');
    const { standing } = proveJob(stateOf(job), machine)!;
    expect(standing.is).toBe('not-proven');
    expect(standing.why).toEqual(['It leaks: a drop at the lowest screw.']);
    job.look('leak', true);
    expect(proveJob(stateOf(job), machine)!.standing.is).toBe('open');
  });

  it('a repair that did not take says so, with the part that was just renewed among the suspects', () => {
    const job = repairedJob();
    job.read(IDLE, 12.4);
    job.read(FAST, 12.5);
    job.read('ohms_case pin=a temp=cold', 0.2);
    const { standing } = proveJob(stateOf(job), machine)!;
    expect(standing.is).toBe('not-proven');
    expect(standing.why.join(' ')).toMatch(/stator.*replace the stator was done: the part or its fitting/);
  });

  it('what was said of it stands until something comes after it', () => {
    const job = repairedJob();
    job.write({
      type: 'proofSaid',
      after: job.repaired.id,
      proven: true,
      faultLeft: 0.02,
      sets: [],
      why: 'I answer for it',
    });
    expect(stateOf(job).proof.said?.changesSince).toBe(0);
    job.read(FAST, 14.4);
    expect(stateOf(job).proof.said?.changesSince).toBe(1);
  });

  it('a machine without a section work has fewer looks, and no crash', () => {
    const bare = machineOf<{ work?: unknown }>('ardmoor-650-pathway', (file) => {
      delete file.work;
    });
    expect(looksFor(bare, stateOf(repairedJob()), []).map(({ id }) => id)).toEqual(['lamps']);
  });
});

describe('the slack as it is typed', () => {
  const chain = machine.chains!.primary!;

  it('is held against the book in either system, the last line of the rule with it', () => {
    for (const [text, fits] of [
      ['3/4 in', true],
      ['19 mm', true],
      ['7/8 in', true],
      ['22.4 mm', true],
      ['1 in', false],
      ['10 mm', false],
    ] as const)
      expect(judgeSlack(text, chain), text).toEqual({ ok: true, fits });
    expect(judgeSlack('3/4 in', { slack: null })).toEqual({ ok: true, fits: null });
  });

  it('what is no length with a unit is refused in a sentence', () => {
    for (const text of ['', '3/4', 'tight', '5 V'])
      expect(judgeSlack(text, chain)).toMatchObject({ ok: false });
  });
});
