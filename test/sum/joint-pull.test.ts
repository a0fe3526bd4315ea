/** The sum `joint` turned round: the torque for a wanted preload or share of proof, against published tables and back. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answer, figures, lineOf, refusal } from './ask.ts';

const M10 = { thread: 'M10x1.25', grade: '8.8' };
const SMALL = { thread: '1/4-20', grade: 'A574', into: 'die-cast aluminium', engaged: '3/8 in' };

describe('torque for a preload, VDI 2230:2001 table, class 8.8, friction 0.12 (long formula from memory)', () => {
  // Worked by hand for M10x1.25: 31.6 kN × (0.159·1.25 + 0.577·0.12·9.188 + 0.12·(14.5 + 11)/4) mm = 50.6 N·m, printed 51.
  it.each([
    ['M8x1', '20.2 kN', 26.1],
    ['M10x1.25', '31.6 kN', 51],
    ['M12x1.25', '48 kN', 90],
    ['M14x1.5', '64.8 kN', 142],
  ])('%s pulled with %s', (thread, preload, printed) => {
    const found = answer('joint', { thread, grade: '8.8', friction: '0.12', preload });
    expect(found.solvedFor).toBe('torque');
    const [torque, ...more] = figures(found, 'torque');
    expect(more).toEqual([]);
    // The usual seat of a head stands in for the one of the table.
    expect(Math.abs(torque! / printed - 1)).toBeLessThan(0.015);
  });

  it('holds the printed torque within the interval of oiled threads', () => {
    const [low, high] = figures(answer('joint', { ...M10, threads: 'oiled', preload: '31.6 kN' }), 'torque');
    expect(low).toBeLessThan(51);
    expect(high).toBeGreaterThan(51);
    expect(low).toBeCloseTo(0.1 * 10 * 31.6, -1);
    expect(high).toBeCloseTo(0.26 * 10 * 31.6, -1);
  });
});

describe('torque for a share of proof, US Army TM 10-6640-238-13, clean and dry: three quarters at K = 0.2', () => {
  it.each([
    ['1/4-20', 'grade 5', 8],
    ['5/16-18', 'grade 5', 17],
    ['3/8-16', 'grade 5', 31],
    ['7/16-14', 'grade 5', 49],
    ['1/2-20', 'grade 5', 85],
    ['5/8-18', 'grade 5', 170],
    ['1/4-20', 'grade 8', 12],
    ['5/16-18', 'grade 8', 24],
    ['3/8-16', 'grade 8', 44],
    ['7/16-14', 'grade 8', 70],
    ['1/2-20', 'grade 8', 120],
    ['5/8-18', 'grade 8', 240],
  ])('%s %s: %d lbf·ft', (thread, grade, printed) => {
    const found = answer('joint', { thread, grade, threads: 'dry', share: '75 %' });
    const [low, high] = figures(found, 'torque', 'inch');
    const unit = lineOf(found, 'torque').inch.endsWith('lbf·in') ? 12 : 1;
    // Dry threads have K from 0.18 to 0.27, so that K = 0.2 lies at low/0.9.
    expect(Math.abs(low! / unit / 0.9 / printed - 1)).toBeLessThan(0.06);
    expect(high! / unit).toBeGreaterThan(printed);
  });
});

describe('there and back', () => {
  it('pulls with the low figure no harder than wanted, beyond the 4 % of the wrench', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('M6', 'M8', 'M10x1.25', '1/4-20', '5/16-24', '1/2-13'),
        fc.integer({ min: 5, max: 100 }),
        fc.constantFrom('unknown', 'dry', 'oiled', 'wet-locker'),
        (thread, share, threads) => {
          const grade = thread.startsWith('M') ? '8.8' : 'grade 5';
          const there = answer('joint', { thread, grade, threads, share: `${share} %` });
          const [low] = figures(there, 'torque');
          const unit = lineOf(there, 'torque').metric.split(' ').at(-1);
          const back = answer('joint', { thread, grade, threads, torque: `${low} ${unit}` });
          expect(back.solvedFor).toBe('share');
          // Two digits there and two back.
          expect(Math.abs(figures(back, 'share').at(-1)! / (share * 1.04) - 1)).toBeLessThan(0.11);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('gives the same for a share and for the preload it is', () => {
    // 0.75 × 580 N/mm² × 61.2 mm² (ISO 898-1).
    const shared = answer('joint', { ...M10, threads: 'dry', share: '75 %' });
    const pulled = answer('joint', { ...M10, threads: 'dry', preload: '26.62 kN' });
    expect(lineOf(pulled, 'share').metric).toBe('75 %');
    expect(lineOf(pulled, 'torque').metric).toBe(lineOf(shared, 'torque').metric);
  });

  it('puts drag on top (FAA AC 43.13-1B §7-40)', () => {
    const free = figures(answer('joint', { ...M10, friction: '0.12', preload: '20 kN' }), 'torque')[0]!;
    const drags = figures(
      answer('joint', { ...M10, friction: '0.12', preload: '20 kN', drag: '4 N·m' }),
      'torque',
    )[0]!;
    expect(drags - free).toBeCloseTo(4, 6);
  });

  it('says how far the high figure may pull, and what leaves nothing over', () => {
    const found = answer('joint', { ...M10, threads: 'dry', share: '95 %' });
    // K 0.27 over 0.18 is 1.5 times as much: 95 % becomes 143 %.
    expect(lineOf(found, 'torque').says).toContain('up to 140 % of proof');
    expect(found.cautions.join(' ')).toContain('Above 90 % of the proof load');
    expect(answer('joint', { ...M10, share: '75 %' }).cautions.join(' ')).not.toContain('Above 90 %');
  });

  it('warns where the tapped thread would give way at the wanted pull', () => {
    const found = answer('joint', { ...SMALL, engaged: '1/8 in', share: '75 %' });
    expect(found.cautions.join(' ')).toMatch(/of the pull at which it gives way: take a lower one/);
    const deep = answer('joint', { ...SMALL, engaged: '3/4 in', share: '30 %' });
    expect(deep.cautions.join(' ')).not.toContain('gives way');
  });
});

describe('refused in one sentence', () => {
  it.each([
    [{ ...M10 }, 'torque', 'neither it nor a wanted pull'],
    [{ ...M10, torque: '40 N·m', share: '75 %' }, 'torque', 'both entered'],
    [{ ...M10, share: '75 %', preload: '20 kN' }, 'preload', 'leave one empty'],
    [{ ...M10, preload: '40 kN' }, 'preload', 'above the proof load of this screw, 35.5 kN'],
    [{ ...M10, share: '120 %' }, 'share', 'is above'],
    [{ ...M10, share: '0 %' }, 'share', 'not above'],
    [{ ...M10, preload: '20' }, 'preload', 'has no unit'],
    [{ ...M10, torque: '40 N·m', friction: '12' }, 'friction', 'no coefficient of friction'],
    [{ ...M10, torque: '40 N·m', friction: '0.2–0.1' }, 'friction', 'no coefficient of friction'],
    [{ ...M10, torque: '40 N·m', friction: 'dry' }, 'friction', 'no coefficient of friction'],
  ])('%j', (texts, field, words) => {
    const fault = refusal('joint', texts);
    expect(fault.field).toBe(field);
    expect(fault.why).toContain(words);
  });
});
