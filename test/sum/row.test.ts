/** Several figures in one field: how a row is cut, where its unit comes from, and what can be read in two ways. */
import { describe, expect, it } from 'vitest';
import { answer, figures, lineOf, refusal } from './ask.ts';

const tight = (readings: string) => figures(answer('tight-spot', { readings }), 'tight');

describe('a row of readings', () => {
  it.each([
    ['22 mm, 20 mm, 19 mm', 19],
    ['22, 20, 19 mm', 19],
    ['22 mm,20 mm,19 mm', 19],
    ['22\n20\n19 mm', 19],
    ['22; 20; 19 mm;', 19],
    ['22,5 mm, 20,5 mm, 19,5 mm', 19.5],
    ['22,5, 20,5, 19,5 mm', 19.5],
    ['22 mm then 19 mm', 19],
    ['1 in, 3/4 in', 19.1],
    ['7/8, 3/4 in', 19.1],
  ])('reads %j', (readings, least) => expect(tight(readings)[0]).toBe(least));

  it.each([
    ['22, 20, 19', '"22" has no unit, and a length is wanted here: write e.g. 22 mm.'],
    ['22,20,19 mm', 'can be 22.20 or 22 and 20'],
    ['22,5 mm', 'can be 22.5 or 22 and 5'],
    ['22 mm 20 mm', 'holds more than one figure: put a comma and a space between two'],
    ['22 mm, loose', '"loose" is not a number'],
    [',', 'holds no figure'],
    ['', 'nothing is entered'],
    ['22 mm, -3 mm', 'no slack of a chain'],
    [Array.from({ length: 61 }, () => '20 mm').join(', '), 'these are 61 entries, and at most 60 are read'],
  ])('refuses %j', (readings, words) => {
    const found = refusal('tight-spot', { readings });
    expect(found.why).toContain(words);
    expect(found.field).toBe('readings');
  });

  it('asks for all of the drive in a field that is empty', () => {
    expect(refusal('tight-spot', { readings: '20 mm', small: '24', links: '82' }).field).toBe('large');
  });

  it('gives shims and parts the unit of the last', () => {
    expect(lineOf(answer('shims', { stack: '28–32 thou', stock: '10, 20, 30 thou x2' }), 'total').inch).toBe(
      '30 thou',
    );
    expect(lineOf(answer('stack-up', { parts: '10 ± 0.1, 2.0–2.2, -8.1 ± 0.05 mm' }), 'worst').metric).toBe(
      '3.75–4.25 mm',
    );
  });
});

describe('a stack is told no finer than its parts', () => {
  it.each([
    ['10 ± 1 mm, 20 ± 1 mm', '29–31 mm'],
    ['10.0 ± 1 mm, 20 ± 1 mm', '28.6–31.4 mm'],
    ['0.250 ± 0.005 in, 0.120 ± 0.003 in', '0.364–0.376 in'],
  ])('%s', (parts, likely) => {
    const found = lineOf(answer('stack-up', { parts }), 'likely');
    expect([found.metric, found.inch]).toContain(likely);
  });
});

it('tells once what another locker takes to undo', () => {
  const found = answer('other-locker', {
    thread: '#10-24',
    grade: 'grade 8',
    fitted: '35 lbf·in',
    engaged: '3/8 in',
    used: 'high',
    wanted: 'medium',
  });
  expect(
    found.lines
      .map(({ says }) => says)
      .join(' ')
      .match(/To undo it takes/g),
  ).toHaveLength(1);
});

it('tells minutes and hours each in its own unit', () => {
  expect(lineOf(answer('locker', { temperature: '50 °F', surface: 'aluminium' }), 'handling').metric).toBe(
    '20 min to 4 h',
  );
});

it('takes the tolerance for a stack of shims that is wanted as one figure', () => {
  const found = answer('shims', { stack: '90 thou', stock: '10, 20, 60 thou' });
  expect(lineOf(found, 'wish').inch).toBe('85–95 thou');
  expect(lineOf(found, 'fit').metric).toBe('fits');
});
