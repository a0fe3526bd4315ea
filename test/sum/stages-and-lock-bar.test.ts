/** The book's stages and the lock bar: against published settings and computed loads, as properties, and with wrong entries. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { answer, figures, lineOf, refusal } from './ask.ts';

describe('torque stages', () => {
  it('tells each stage in both units', () => {
    const found = answer('book-stages', { stages: '5, 10, 14 N·m' });
    expect(found.lines.map(({ metric }) => metric)).toEqual(['5 N·m', '10 N·m', '14 N·m']);
    expect(found.lines.map(({ inch }) => inch)).toEqual(['44.3 lbf·in', '7.38 lbf·ft', '10.3 lbf·ft']);
    expect(found.cautions).toEqual(found.notes);
  });

  // US Army TM 1-1500-204-23-9: on 10 in with 4 in, 300 lbf·in is set at 214.3; half of it at 107.1.
  it('tells each stage as a setting of the wrench', () => {
    const found = answer('book-stages', { stages: '150, 300 lbf·in', length: '10 in', adapter: '4 in' });
    expect(figures(found, 'stage-1')).toEqual([12.1]);
    expect(figures(found, 'stage-2')).toEqual([24.2]);
    expect(lineOf(found, 'stage-2').says).toContain('the screw then gets 33.9 N·m');
  });

  // FAA AC 43.13-1B §7-40: running torque is added to the target.
  it('adds what turns the screw before it seats', () => {
    const found = answer('book-stages', { stages: '7 then 9 lbf·ft', drag: '1 lbf·ft' });
    expect(found.lines.map(({ inch }) => inch)).toEqual(['8 lbf·ft', '10 lbf·ft']);
  });

  it('tells a fall and a repeat, and does not refuse them', () => {
    const found = answer('book-stages', { stages: '5, 14, 10, 10 N·m' });
    expect(found.cautions[0]).toMatch(/^Stage 3, 10 N·m .* falls below stage 2, 14 N·m/);
    expect(found.cautions[1]).toMatch(/^Stage 4 repeats stage 3/);
  });

  // Under 20 % of full scale a wrench is not trusted (US Army TM 1-1500-204-23-9).
  it('names the stages the wrench cannot do', () => {
    const found = answer('book-stages', { stages: '5, 30 N·m', full: '100 N·m' });
    expect(found.cautions.filter((caution) => caution.startsWith('Stage '))).toHaveLength(1);
    expect(found.cautions[0]).toContain('below 20 %');
  });

  it('makes even parts of a last torque, the last of them all of it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 300 }), fc.integer({ min: 2, max: 10 }), (torque, count) => {
        const found = answer('book-stages', { final: `${torque} N·m`, count: String(count) });
        const parts = found.lines.map(({ id }) => figures(found, id)[0]!);
        expect(parts).toHaveLength(count);
        expect(parts.at(-1)).toBe(torque);
        for (const [i, part] of parts.entries())
          expect(Math.abs(part / ((torque * (i + 1)) / count) - 1)).toBeLessThan(0.006);
      }),
      { numRuns: 60, seed: 3 },
    );
  });

  it.each([
    [{}, 'stages', 'neither they nor a last torque'],
    [{ final: '14 N·m' }, 'count', 'nothing is entered'],
    [{ stages: '5, 10, 14' }, 'stages', '"5" has no unit, and a torque is wanted here: write e.g. 5 N·m.'],
    [{ stages: '5,10,14 N·m' }, 'stages', 'put a space behind a comma'],
    [{ stages: '5-10-14 N·m' }, 'stages', 'holds more than one figure'],
    [{ stages: '20 N·m, 90°' }, 'stages', 'a turn by an angle is no torque'],
    [{ stages: '0, 5 N·m' }, 'stages', 'no torque of a stage'],
    [{ stages: '5, 10 N·m', count: '3' }, 'count', '2 stages are entered, and 3 are said'],
    [{ stages: '5, 10 N·m', final: '12 N·m' }, 'final', 'is not the last stage'],
    [{ stages: '5, 10 N·m', adapter: '2 in' }, 'length', 'an adapter is on'],
    [{ stages: '5, 10 N·m', adapter: '9 in', length: '4 in' }, 'adapter', 'longer than the wrench'],
  ])('refuses %j', (texts, field, words) => {
    const found = refusal('book-stages', texts);
    expect(found.why).toContain(words);
    expect(found.field).toBe(field);
  });

  it("lets the book's stages into the order as well", () => {
    const found = answer('stages', { ring: '4', steps: '5, 10, 14 N·m' });
    expect(figures(found, 'stage-3')).toEqual([10]);
    expect(refusal('stages', { ring: '4', steps: '5, 14, 10 N·m' }).why).toContain('stages must rise');
  });
});

describe('lock bar', () => {
  // Computed: 225 N·m, which is 1.5 times 150, on 24 teeth of 12.7 mm is 4.62 kN, 33 % of a #40 chain (ANSI B29.1).
  const nut = { torque: '150 N·m', teeth: '24', chain: '#40' };

  it('loads teeth and chain as computed when loosening, and by the torque itself when tightening', () => {
    const found = answer('lock-bar', nut);
    expect([figures(found, 'turn'), figures(found, 'load'), figures(found, 'share')]).toEqual([
      [225],
      [4620],
      [33],
    ]);
    const tight = answer('lock-bar', { ...nut, job: 'tightened' });
    expect([figures(tight, 'turn'), figures(tight, 'load')]).toEqual([[150], [3080]]);
  });

  // Half of 3125 lbf (ANSI B29.1) at R = 12.7/(2·sin 7.5°) = 48.65 mm is 338 N·m.
  it('says where to stop, and refuses the chain beyond', () => {
    expect(figures(answer('lock-bar', nut), 'stop')).toEqual([338]);
    const found = answer('lock-bar', { ...nut, torque: '300 N·m' });
    expect(found.cautions[0]).toContain('hold the drive another way');
  });

  // Teeth one module above the pitch circle (ISO 53, from memory): module 3, 24 teeth, 78 mm outside, 36 mm of radius.
  it('takes a gear by its outside diameter', () => {
    const found = answer('lock-bar', {
      ...nut,
      chain: '',
      outside: '78 mm',
      job: 'tightened',
      torque: '36 N·m',
    });
    expect(figures(found, 'load')).toEqual([1000]);
    expect(found.cautions.join(' ')).toContain('where the teeth run together');
    expect(found.lines.map(({ id }) => id)).not.toContain('share');
  });

  // A 520 has the pitch of #50 (ISO 10190, from memory); its strength is its own.
  it('knows the pitch of a motorcycle chain, and asks for its strength', () => {
    const by = (chain: string) => answer('lock-bar', { ...nut, chain });
    expect(lineOf(by('520'), 'load')).toEqual(lineOf(by('#50'), 'load'));
    expect(by('520').cautions.join(' ')).toContain('strength of this chain is not known');
  });

  it('compares with riding', () => {
    const found = answer('lock-bar', { ...nut, engine: '60 N·m' });
    expect(lineOf(found, 'engine').metric).toBe('3.8 times');
    expect(found.cautions[0]).toContain('hard use');
  });

  it('bears more with more torque and less with more teeth', () => {
    const load = (torque: number, teeth: number) => {
      const found = answer('lock-bar', { torque: `${torque} N·m`, teeth: String(teeth), chain: '#60' });
      return figures(found, 'load')[0]! * (lineOf(found, 'load').metric.endsWith('kN') ? 1000 : 1);
    };
    fc.assert(
      fc.property(fc.integer({ min: 20, max: 300 }), fc.integer({ min: 10, max: 60 }), (torque, teeth) => {
        expect(load(torque * 2, teeth)).toBeGreaterThan(load(torque, teeth));
        expect(load(torque, teeth * 2)).toBeLessThan(load(torque, teeth));
      }),
      { numRuns: 50, seed: 5 },
    );
  });

  it.each([
    [{ ...nut, torque: '' }, 'torque', 'nothing is entered'],
    [{ ...nut, teeth: '2' }, 'teeth', 'no whole number from 6'],
    [{ ...nut, chain: '' }, 'chain', 'neither a chain nor the diameter'],
    [{ ...nut, outside: '78 mm' }, 'outside', 'both entered'],
    [{ ...nut, chain: '99' }, 'chain', 'no number of a chain'],
    [{ ...nut, chain: '12.7 kg' }, 'chain', 'a length is wanted'],
    [{ ...nut, chain: '', outside: '78 mm', strength: '14 kN' }, 'strength', 'belongs to a chain'],
    [{ ...nut, job: 'turned' }, 'job', 'one of loosened, tightened'],
  ])('refuses %j', (texts, field, words) => {
    const found = refusal('lock-bar', texts);
    expect(found.why).toContain(words);
    expect(found.field).toBe(field);
  });
});
