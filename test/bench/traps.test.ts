/**
 * The twenty traps of building a case back up, each provoked at the step where it waits and caught there. The traps
 * themselves are common practice, no source; figures that are not the invented machine's own name theirs.
 */
import { describe, expect, it } from 'vitest';
import type { Sound } from '../../src/bench/ask.ts';
import { asksOf, judge } from '../../src/bench/asks-of.ts';
import { clocksOf } from '../../src/bench/clocks.ts';
import { consequence } from '../../src/bench/deviations.ts';
import { settingFor, stageOf } from '../../src/bench/torque-ask.ts';
import { benchJob, machineOf } from './bench-job.ts';

interface Fasteners {
  fasteners: Record<string, { loosens?: unknown; thread: { is: string } }>;
}

const judged = (
  step: string,
  ask: string,
  texts: Record<string, string>,
  yes: string[] = [],
  job = benchJob(),
) => judge(job.asking(step), ask, texts, yes);
const asks = (step: string, job = benchJob()) => asksOf(job.asking(step)).map(({ id }) => id);
const stops = (got: ReturnType<typeof judge>): readonly string[] => {
  expect(got).toMatchObject({ ok: true });
  return (got as Sound).stops;
};
const faults = (got: ReturnType<typeof judge>): string => {
  expect(got.ok).toBe(false);
  return got.ok ? '' : got.faults.map(({ field, why }) => `${field}: ${why}`).join('\n');
};
/** A sound signing of the drain plug, 14–21 lbf·ft. */
const DRAIN = { full: '60 N·m', threads: 'dry', set: '17.5 lbf·ft' };

describe('traps of the screw and its hole', () => {
  it('1: a long screw in a blind hole bottoms', () => {
    const row = Array.from({ length: 10 }, (_, n) => (n === 3 ? '1 3/4 in' : '1 1/4 in')).join(', ');
    expect(stops(judged('cover-bolts', 'lengths', { lengths: row }, ['card'])).join()).toMatch(
      /Hole 4.*bottoms/,
    );
    expect(stops(judged('cover-bolts', 'lengths', { lengths: '1 1/4 in' }, ['card']))).toEqual([]);
  });

  it('2: too little thread holds it', () => {
    const row = Array.from({ length: 10 }, (_, n) => (n === 0 ? '7/8 in' : '1 1/4 in')).join(', ');
    expect(stops(judged('cover-bolts', 'lengths', { lengths: row }, ['card'])).join()).toMatch(
      /Hole 1.*thread/,
    );
  });

  it('3: oil or locker trapped in a blind hole', () => {
    expect(asks('stator-threads')).toContain('dry');
    expect(faults(judged('stator-threads', 'dry', {}, ['clean']))).toMatch(/dry/);
    expect(stops(judged('stator-threads', 'dry', {}, ['clean', 'dry']))).toEqual([]);
  });

  it('4: a left-hand thread: the way is asked before a long bar where the file does not say it', () => {
    expect(asks('clutch-nut')).not.toContain('direction');
    const unsaid = machineOf('ardmoor-650-pathway', (file: Fasteners) => {
      const nut = file.fasteners['clutch-nut']!;
      delete nut.loosens;
      nut.thread.is = '3/4-16 UNF';
    });
    const job = benchJob(unsaid);
    expect(asks('clutch-nut', job)).toContain('direction');
    expect(job.standing('clutch-nut').free).toBe(false);
    expect(faults(judge(job.asking('clutch-nut'), 'direction', {}, []))).toMatch(/undo/);
    const said = judge(
      job.asking('clutch-nut'),
      'direction',
      { undo: 'clockwise', from: 'the book, 6-17' },
      [],
    );
    expect(said).toMatchObject({ ok: true, says: ['LEFT-HAND THREAD: clockwise undoes it.'] });
  });

  it('20: what is meant to be used once is new, or told as used again', () => {
    expect(asks('drain-plug')).toContain('new');
    expect(asks('stator-stage-1')).toContain('new');
    expect(faults(judged('cover-gasket', 'new', {}))).toMatch(/nothing is chosen/);
    expect(stops(judged('cover-gasket', 'new', { coverGasket: 'again' })).join()).toMatch(/used again.*weep/);
    expect(stops(judged('cover-gasket', 'new', { coverGasket: 'new' }))).toEqual([]);
  });
});

describe('traps of the wrench', () => {
  const sign = (texts: Record<string, string>, step = 'drain-plug') =>
    judged(step, 'torque', { ...DRAIN, ...texts }, ['clicked', 'all', 'stages']);

  it('5: inch-pounds for foot-pounds', () => {
    expect(stops(sign({ set: '17.5 lbf·in' })).join()).toMatch(/lbf·ft meant/);
    // The stator's torque in inch-pounds set in foot-pounds, on its own step.
    const stator = judged(
      'stator-stage-2',
      'torque',
      { full: '15 N·m', threads: 'wet-locker', set: '35 lbf·ft' },
      ['clicked', 'all'],
    );
    expect(stops(stator).join()).toMatch(/lbf·in meant/);
  });

  it('6: a dry torque on oiled threads', () => {
    expect(stops(sign({ threads: 'oiled' }, 'footrest-on')).join()).toMatch(/oil/);
    const dry = judged('footrest-on', 'torque', { full: '60 N·m', threads: 'dry', set: '27.5 lbf·ft' }, [
      'clicked',
      'all',
    ]);
    expect(stops(dry)).toEqual([]);
  });

  it('7: a wrench below a fifth of its full scale (ISO 6789-1: 20 % of the maximum is the least it is tested at)', () => {
    expect(faults(sign({ full: '200 N·m' }))).toMatch(/full/);
  });

  it('8: an adapter not corrected for', () => {
    const straight = { full: '60 N·m', threads: 'dry', adapter: '4 in', length: '10 in', set: '17.5 lbf·ft' };
    expect(stops(judged('drain-plug', 'torque', straight, ['clicked'])).join()).toMatch(/wanted/);
    const plan = settingFor(benchJob().asking('drain-plug'), straight);
    // M = T·L/(L + E): 17.5 · 10/14, the lever formula of the torque standards' guides.
    expect(plan).toMatchObject({ ok: true });
    expect((plan as { set: number }).set / 1.3558179483).toBeCloseTo((17.5 * 10) / 14, 6);
    const set = `${((17.5 * 10) / 14).toFixed(2)} lbf·ft`;
    expect(stops(judged('drain-plug', 'torque', { ...straight, set }, ['clicked']))).toEqual([]);
  });

  it('9: the drag of a nut left out', () => {
    const nut = { full: '60 N·m', threads: 'dry', set: '25 lbf·ft' };
    expect(faults(judged('shoe-nut', 'torque', nut, ['clicked']))).toMatch(/drag/);
    expect(stops(judged('shoe-nut', 'torque', { ...nut, drag: '10 lbf·ft' }, ['clicked'])).join()).toMatch(
      /wanted/,
    );
    expect(stops(judged('shoe-nut', 'torque', { ...nut, drag: '0 N·m' }, ['clicked']))).toEqual([]);
  });

  it('a choice left open is told as one, not as a word to be written', () => {
    const open = faults(judged('drain-plug', 'torque', { full: '60 N·m', set: '17.5 lbf·ft' }, ['clicked']));
    expect(open).toMatch(/nothing is chosen yet/);
    expect(open).not.toMatch(/write one of/);
    const wrong = { full: '60 N·m', set: '17.5 lbf·ft', threads: 'greasy' };
    expect(faults(judged('drain-plug', 'torque', wrong, ['clicked']))).toMatch(/write one of dry/);
  });

  it('stages: which of how many, each with its own torque', () => {
    const job = benchJob();
    expect(stageOf(job.asking('engine-stage-1'))).toMatchObject({
      number: 1,
      of: 2,
      is: { text: '150 lbf·ft' },
    });
    expect(stageOf(job.asking('engine-stage-2'))).toMatchObject({
      number: 2,
      of: 2,
      is: { text: '165 lbf·ft' },
    });
    expect(stageOf(job.asking('drain-plug'))).toMatchObject({ number: 1, of: 1 });
    expect(stageOf(job.asking('seat-on'))).toBeNull();
  });
});

describe('traps of locker and sealant', () => {
  const LOCK = { used: 'high', temperature: '20 °C', surface: 'steel' };

  it('10: a locker too strong for the joint', () => {
    const said = stops(judged('stator-stage-1', 'locker', LOCK, ['clean', 'whole'])).join();
    expect(said).toMatch(/high-strength locker/);
    expect(said).toMatch(/wanted/);
    // The new stator's sheet asks for low strength, the book for medium: the sheet counts.
    expect(stops(judged('stator-stage-1', 'locker', { ...LOCK, used: 'low' }, ['clean', 'whole']))).toEqual(
      [],
    );
  });

  it('11: locker on dirty threads; the engine started before it is cured', () => {
    expect(asks('engine-lock')).toContain('locker');
    expect(faults(judged('engine-lock', 'locker', LOCK, ['whole']))).toMatch(/clean and dry/);
    expect(
      faults(judged('engine-lock', 'locker', { ...LOCK, temperature: '0 °C' }, ['clean', 'whole'])),
    ).toMatch(/warm/);
    const job = benchJob();
    job.done('engine-lock', 'engine-stage-1', 'engine-stage-2');
    expect(
      job
        .standing('prove-volts')
        .waits.map(({ says }) => says)
        .join(),
    ).toMatch(/no engine before/);
    const later = job.nowMs() + 7 * 86_400_000;
    expect(job.standing('prove-volts', later).waits).toEqual([]);
  });

  it('19: sealant in a passage; screws that pull a cover down', () => {
    expect(asks('grommet-in')).toContain('bead');
    const bead = { cure: 'neutral', temperature: '20 °C' };
    expect(faults(judged('grommet-in', 'bead', bead, ['clean']))).toMatch(/passage/);
    expect(faults(judged('grommet-in', 'bead', { ...bead, cure: 'acid' }, ['clean', 'passage']))).toMatch(
      /copper/,
    );
    expect(asks('cover-snug')).toContain('gap');
    expect(faults(judged('cover-snug', 'gap', {}, ['bottomed']))).toMatch(/even/);
  });
});

describe('traps of chain, shims and magnets', () => {
  const TURN = '22, 20, 18, 19, 21, 22 mm';

  it('12: slack set hot, or not over a whole turn', () => {
    const cold = { readings: TURN, step: '16', temperature: '18 °C' };
    expect(faults(judged('slack-set', 'slack', { readings: TURN, step: '16' }, ['whole']))).toMatch(
      /temperature/,
    );
    expect(stops(judged('slack-set', 'slack', { ...cold, temperature: '70 °C' }, ['whole'])).join()).toMatch(
      /cold/,
    );
    expect(stops(judged('slack-set', 'slack', { ...cold, step: '4' }, ['whole'])).join()).toMatch(
      /once|round/,
    );
    expect(stops(judged('slack-set', 'slack', { ...cold, readings: '12 mm' }, ['whole'])).join()).toMatch(
      /loosen/,
    );
  });

  it('13: the shoe’s nut tightened after the last measurement', () => {
    const job = benchJob();
    const nut = { full: '60 N·m', threads: 'dry', drag: '0 N·m', set: '25 lbf·ft' };
    job.done('slack-set');
    job.record('shoe-nut', 'slack-again', { again: '18 mm' });
    job.record('shoe-nut', 'torque', nut, ['clicked']);
    const early = job.standing('shoe-nut').asks.find(({ ask }) => ask.id === 'slack-again')!;
    expect(early.met).toBe(false);
    expect(early.stale).toMatch(/after this measurement/);
    job.record('shoe-nut', 'slack-again', { again: '18 mm' });
    expect(job.standing('shoe-nut').free).toBe(true);
  });

  it('14: shims in another order, or turned round', () => {
    const job = benchJob();
    job.record('train-off', 'stack-found', { found: '30, 60 thou' }, ['numbered', 'tied'], {
      shimsM: [30 * 2.54e-5, 60 * 2.54e-5],
    });
    const back = (row: string) => judge(job.asking('shims-back'), 'stack-back', { back: row }, ['side']);
    expect(stops(back('30, 60 thou'))).toEqual([]);
    expect(stops(back('60, 30 thou')).join()).toMatch(/turned round/);
    expect(stops(back('30, 30 thou')).join()).toMatch(/another stack/);
    expect(faults(judge(job.asking('shims-back'), 'stack-back', { back: '30, 60 thou' }, []))).toMatch(
      /same side/,
    );
  });

  it('15: the rotor’s magnets are wiped and looked at just before fitting', () => {
    const job = benchJob();
    expect(job.standing('rotor-wipe').free).toBe(false);
    job.record('rotor-wipe', 'magnets', {}, ['wiped', 'looked', 'stator']);
    expect(job.standing('rotor-wipe').free).toBe(true);
    job.done('rotor-wipe');
    expect(job.standing('rotor-on').free).toBe(true);
    const late = job.nowMs() + 11 * 60_000;
    expect(job.standing('rotor-on', late).waits[0]?.says).toMatch(/time after .*Wipe.* is over/);
    const clocks = clocksOf(
      job.state().bench,
      job.progress(late),
      job.places,
      new Set(job.places.keys()),
      late,
    );
    expect(clocks[0]).toMatchObject({ step: 'rotor-on', state: 'late' });
  });
});

describe('traps of closing up', () => {
  it('16: filled while it leans: volume and level disagree', () => {
    const fill = { volume: '1.1 l', level: 'right' };
    expect(faults(judged('fill', 'fill', fill))).toMatch(/Upright/i);
    expect(stops(judged('fill', 'fill', fill, ['upright']))).toEqual([]);
    expect(stops(judged('fill', 'fill', { ...fill, volume: '600 ml' }, ['upright'])).join()).toMatch(
      /upright/,
    );
  });

  it('17: no oil before the drain plug’s torque is signed', () => {
    const job = benchJob();
    job.done('drain', 'grommet-in');
    job.done('drain-plug');
    const later = job.nowMs() + 2 * 86_400_000;
    expect(
      job
        .standing('fill', later)
        .waits.map(({ says }) => says)
        .join(),
    ).toMatch(/drain plug is not signed/);
    job.record('drain-plug', 'torque', DRAIN, ['clicked']);
    expect(job.standing('fill', later + 86_400_000).waits).toEqual([]);
  });

  it('18: the wire retainer left out, the wire near the chain', () => {
    expect(asks('retainer-on')).toContain('retained');
    expect(faults(judged('retainer-on', 'retained', {}, ['fitted']))).toMatch(/whole turn/);
    expect(asks('stator-insulation')).toContain('insulation');
    expect(stops(judged('stator-insulation', 'insulation', { ground: '20 kΩ' }, ['pins'])).join()).toMatch(
      /leaks/,
    );
    expect(stops(judged('stator-insulation', 'insulation', { ground: 'OL' }, ['pins']))).toEqual([]);
    // The count does not close while the retainer is off.
    const job = benchJob();
    job.done('plug-retainer');
    const open = judge(job.asking('look-over'), 'count', {}, ['bench', 'tools']);
    expect(stops(open).join()).toMatch(/retainer/);
    job.done('retainer-on');
    expect(stops(judge(job.asking('look-over'), 'count', {}, ['bench', 'tools']))).toEqual([]);
  });
});

describe('holds', () => {
  it('are not free without a record, free with it, and free with an override', () => {
    const job = benchJob();
    expect(job.standing('drain-plug').free).toBe(false);
    job.record('drain-plug', 'new', { drainSeal: 'new' });
    job.record('drain-plug', 'torque', DRAIN, ['clicked']);
    expect(job.standing('drain-plug').free).toBe(true);
    const other = benchJob();
    other.record('drain-plug', 'new', { drainSeal: 'new' });
    other.write({ type: 'holdOverridden', step: 'drain-plug', ask: 'torque', why: 'the wrench is broken' });
    expect(other.standing('drain-plug').free).toBe(true);
  });

  it('let what is not as wanted be signed with a reason only', () => {
    const job = benchJob();
    job.record('cover-gasket', 'new', { coverGasket: 'again' });
    expect(job.standing('cover-gasket').free).toBe(false);
    job.record('cover-gasket', 'new', { coverGasket: 'again', why: 'the shop is shut' });
    expect(job.standing('cover-gasket').free).toBe(true);
  });

  it('say what follows from what was noted', () => {
    const job = benchJob();
    expect(consequence(job.asking('stator-stage-2'), { what: 'locker', used: 'high' }).join()).toMatch(
      /high/,
    );
    expect(consequence(null, { what: 'sealant', used: 'acid' }).join()).toMatch(/copper/);
  });
});
