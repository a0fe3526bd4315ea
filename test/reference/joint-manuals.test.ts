/** What manuals say beside their tables: oil, plating and aluminium against a dry torque, scatter, stages, and what a bike on its lift bears. */
import { describe, expect, test } from 'vitest';
import { judgeTorque } from '../../src/joint/believable.ts';
import { breakLoose } from '../../src/joint/break-loose.ts';
import { conditionChange } from '../../src/joint/condition-change.ts';
import { frictionById } from '../../src/joint/friction.ts';
import { gradeById, strengthOf } from '../../src/joint/grade.ts';
import { lockerAdvice } from '../../src/joint/locker.ts';
import { materialById } from '../../src/joint/material.ts';
import { preloadAtShare, preloadFromTorque } from '../../src/joint/preload.ts';
import { readThread } from '../../src/joint/read-thread.ts';
import { stagePlan } from '../../src/joint/stages.ts';
import type { Thread } from '../../src/joint/thread.ts';
import { SAFETY_ASKED } from '../../src/joint/tip.ts';
import { quantity } from '../../src/units/quantity.ts';
import { answer } from '../sum/ask.ts';

const at = (value: number) => ({ low: value, high: value });

function thread(text: string): Thread {
  const read = readThread(text);
  if (!read.ok) throw new Error(read.why);
  return read.thread;
}

describe('US Army TM 5-3895-367-14&P: what is taken off a dry torque', () => {
  // For the same pull the torque goes down as K does: the manual's cut must lie within what the frictions leave open.
  test.each([
    ['engine oil, 10 % less', 'oiled', 0.9],
    ['new plated, 20 % less', 'zinc', 0.8],
  ])('%s', (_, condition, share) => {
    const { range } = conditionChange(frictionById('dry'), frictionById(condition));
    expect(1 / share).toBeGreaterThan(range.low);
    expect(1 / share).toBeLessThan(range.high);
  });

  // The dry torques of US Army TM 10-6640-238-13, lbf·ft, less 30 %.
  test.each([
    ['1/4-20', 'j429-5', 8],
    ['5/16-18', 'j429-5', 17],
    ['3/8-16', 'j429-5', 31],
    ['1/2-20', 'j429-5', 85],
    ['1/4-20', 'j429-8', 12],
    ['5/16-18', 'j429-8', 24],
    ['3/8-16', 'j429-8', 44],
    ['1/2-20', 'j429-8', 120],
  ])('into aluminium, 30 %% less and two diameters of thread: %s %s at %d lbf·ft', (size, id, printed) => {
    const each = thread(size);
    const found = strengthOf(gradeById(id), each.diameter);
    if (!found.ok) throw new Error(found.why);
    const judged = (diameters: number, share: number) =>
      judgeTorque({
        torque: at(quantity('torque', printed * share, 'lbf·ft').si),
        unit: 'lbf·ft',
        thread: each,
        strength: found.strength,
        material: materialById('die-cast-380'),
        engaged: diameters * each.diameter,
        k: frictionById('dry').k,
      });
    expect(judged(2, 0.7).verdict).toBe('fits');
    // The other way round: all of it in a shallow hole is not let pass.
    expect(judged(0.5, 1).verdict).not.toBe('fits');
  });
});

test('a torque wrench scatters the preload by about ±30 % (secondary source): an unknown condition leaves that open', () => {
  const size = thread('M8');
  const { low, high } = preloadFromTorque({ torque: at(25) }, size, frictionById('unknown').k);
  expect(high / low).toBeGreaterThan(1.3 / 0.7);
  // A condition that is known says more, yet never less than the wrench's own error.
  const dry = preloadFromTorque({ torque: at(25) }, size, frictionById('dry').k);
  expect(dry.high / dry.low).toBeLessThan(1.3 / 0.7);
  expect(dry.high / dry.low).toBeGreaterThan((1.04 / 0.96) * 1.3);
});

test('three quarters at K = 0.2 is no rule for a 1-14 shaft: its nut of common practice pulls far less', () => {
  const size = thread('1-14');
  const found = strengthOf(gradeById('j429-8'), size.diameter);
  if (!found.ok) throw new Error(found.why);
  const rule = preloadAtShare(0.75, size, found.strength) * 0.2 * size.diameter;
  // 165 lbf·ft (common practice, no source).
  expect(quantity('torque', 165, 'lbf·ft').si / rule).toBeLessThan(0.25);
});

describe('stages (common practice, no source): each rises to the last', () => {
  test.each([
    ['stator socket screws in two passes', 'lbf·in', [30, 40], 4],
    ['engine sprocket nut', 'lbf·ft', [150, 165], 1],
    ['case cover screws', 'lbf·ft', [7, 9], 12],
  ] as const)('%s', (_, unit, figures, screws) => {
    const book = figures.map((figure) => quantity('torque', figure, unit).si);
    const plan = stagePlan({ torque: book.at(-1)!, screws, book });
    if (!plan.ok) throw new Error(plan.why);
    const asked = plan.stages.filter(({ name }) => name === 'book').map(({ share }) => share);
    expect(asked).toEqual([figures[0] / figures[1], 1]);
    const told = answer('book-stages', { stages: `${figures.join(', ')} ${unit}` });
    expect(told.cautions.join(' ')).not.toMatch(/falls|repeats/);
  });
});

describe('a bike on its lift (this project’s rule, from statics)', () => {
  const stand = { mass: 300, halfWidth: 0.125, offset: 0.3, height: 0.9 };
  const ask = (way: 'up' | 'down' | 'sideways', bar: number) => {
    const plan = breakLoose({
      undo: { fitted: at(150), locker: null },
      thread: 'right',
      bar,
      way,
      stand,
      tiedDown: false,
      lockBar: { teeth: 24, pitch: 0.0127, tensile: 13_900 },
    });
    if (!plan.ok) throw new Error(plan.why);
    return plan;
  };

  test('twice over is asked, tied down, pushed down, never sideways', () => {
    expect(SAFETY_ASKED).toBe(2);
    const ids = (plan: ReturnType<typeof ask>) => plan.cautions.map(({ id }) => id);
    expect(ids(ask('down', 0.6))).toContain('tie-down');
    expect(ids(ask('down', 0.6))).not.toContain('tips');
    expect(ids(ask('sideways', 0.6))).toContain('sideways');
    expect(ask('sideways', 0.6).safe).toBe(false);
    expect(ids(ask('up', 0.5))).toContain('tips');
    expect(ask('up', 0.5).safe).toBe(false);
  });

  test('steel on the tooth roots, never on rotor, stator or casting (common practice, no source)', () => {
    expect(
      ask('down', 0.6)
        .cautions.map(({ words }) => words)
        .join(' '),
    ).toMatch(/tooth roots only, never on rotor, stator or casting/);
    const told = answer('lock-bar', { torque: '150 N·m', teeth: '24', chain: '#40' });
    expect(told.cautions.join(' ')).toContain('tooth roots only');
  });
});

test('locker: never add oil (common practice, no source)', () => {
  for (const strength of ['low', 'medium', 'high'] as const)
    expect(lockerAdvice(strength, false, false).join(' ')).toContain('never add oil');
});
