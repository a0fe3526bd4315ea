/** Screw length: worked by hand, against the published engagement in aluminium, as properties, and with wrong entries. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answer, figures, lineOf, refusal } from './ask.ts';

const COVER = {
  thread: 'M6',
  length: '25 mm',
  grip: '12 mm',
  washer: '1.6 mm',
  hole: '18 mm',
  tapped: '15 mm',
  into: 'die-cast aluminium',
  grade: '8.8',
};

describe('screw length', () => {
  // By hand: 25 − 12 − 1.6 = 11.4 mm of reach, less a point of one pitch; the end is 15 + 1 mm deep.
  it('tells thread and room of a screw in a blind hole', () => {
    const found = answer('engagement', COVER);
    expect(figures(found, 'engaged')).toEqual([10.4]);
    expect(lineOf(found, 'engaged').says).toContain('1.7 diameters');
    expect(figures(found, 'room')).toEqual([4.6]);
    expect(lineOf(found, 'share').says).toContain('the screw breaks first');
  });

  it('says when it bottoms, and which length does not', () => {
    const found = answer('engagement', { ...COVER, length: '35 mm' });
    expect(lineOf(found, 'room').metric).toBe('it bottoms');
    expect(found.cautions[0]).toContain('clamps nothing');
    expect(figures(found, 'right')).toEqual([25]);
    // Through the part nothing can be met.
    expect(
      answer('engagement', { ...COVER, length: '35 mm', hole: '', tapped: '' }).lines.map(({ id }) => id),
    ).not.toContain('room');
  });

  // A 1/4-20 A574 screw needs 1.57 to 1.85 diameters in the 380 family, grade 5 1.05 to 1.23 (FED-STD-H28 with NADCA's
  // 27 and half of 46 ksi): 11.7 and 7.8 mm.
  it.each([
    ['A574', 12],
    ['grade 5', 7.8],
  ])('asks the published engagement in aluminium of %s', (grade, most) => {
    const found = answer('engagement', {
      thread: '1/4-20',
      grip: '1/4 in',
      grade,
      into: 'die-cast aluminium',
    });
    expect(figures(found, 'wanted')[1]).toBe(most);
  });

  // US Army TM 5-3895-367-14&P: two diameters of engagement in aluminium.
  it('asks two diameters in aluminium where the grade is not known', () => {
    const found = answer('engagement', { thread: 'M8', grip: '10 mm', into: 'aluminium casting' });
    expect(figures(found, 'wanted')).toEqual([12, 16]);
    // 10 + 16 + a point of 1.25 mm: the next that is sold is 30 mm (ISO 888, from memory).
    expect(figures(found, 'right')).toEqual([30]);
    expect(found.solvedFor).toBe('length');
  });

  it('chooses of those at hand, and says when none will do', () => {
    const at = (stock: string) => answer('engagement', { ...COVER, length: '', stock });
    expect(figures(at('16, 20, 28 mm'), 'right')).toEqual([28]);
    expect(lineOf(at('16, 20 mm'), 'right').says).toContain('less than is enough');
    expect(lineOf(at('60, 80 mm'), 'right').metric).toBe('none at hand');
    expect(lineOf(at('10, 12 mm'), 'right').says).toContain('too short');
  });

  it('says when the hole is too shallow for any', () => {
    const found = answer('engagement', { ...COVER, hole: '6 mm', tapped: '5 mm' });
    expect(lineOf(found, 'window').metric).toBe('none');
    expect(lineOf(found, 'right').metric).toBe('none sold');
  });

  it('finds a screw that does not reach, and one whose shank jams', () => {
    expect(lineOf(answer('engagement', { ...COVER, length: '12 mm' }), 'engaged').metric).toBe('none');
    expect(answer('engagement', { ...COVER, plain: '5 mm' }).cautions.join(' ')).toContain('plain shank');
  });

  it('never gives out a length that bottoms or does not reach', () => {
    const tenths = (least: number, most: number) => fc.integer({ min: least, max: most });
    fc.assert(
      fc.property(tenths(20, 600), tenths(60, 400), tenths(0, 30), (grip, tapped, washer) => {
        const mm = (n: number) => `${n / 10} mm`;
        const hole = { thread: 'M6', grip: mm(grip), washer: mm(washer), tapped: mm(tapped) };
        const right = answer('engagement', hole).lines.find(({ id }) => id === 'right')!;
        if (!right.metric.endsWith('mm')) return;
        const tried = answer('engagement', { ...hole, length: right.metric });
        expect(lineOf(tried, 'room').metric).toMatch(/mm$/);
        expect(lineOf(tried, 'engaged').metric).toMatch(/mm$/);
      }),
      { numRuns: 100, seed: 11 },
    );
  });

  it.each([
    [{ ...COVER, thread: '' }, 'thread', 'nothing is entered'],
    [{ ...COVER, thread: '1/4' }, 'thread', 'names no pitch'],
    [{ ...COVER, grip: '' }, 'grip', 'nothing is entered'],
    [{ ...COVER, length: '25' }, 'length', 'write e.g. 25 mm'],
    [{ ...COVER, length: '-5 mm' }, 'length', 'not above 0'],
    [{ ...COVER, tapped: '20 mm' }, 'tapped', 'deeper than the hole'],
    [{ ...COVER, into: 'metal' }, 'into', 'not in the table of materials'],
    [{ ...COVER, grade: 'strong' }, 'grade', 'write what the head shows'],
    [{ ...COVER, stock: '16, 20' }, 'stock', '"16" has no unit'],
    [{ ...COVER, stock: '16, 0 mm' }, 'stock', 'no length of a screw'],
  ])('refuses %j', (texts, field, words) => {
    const found = refusal('engagement', texts);
    expect(found.why).toContain(words);
    expect(found.field).toBe(field);
  });
});
