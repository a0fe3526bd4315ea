/** `sum` at the command line. */
import { describe, expect, it } from 'vitest';
import { run } from './run.ts';

describe('sum', () => {
  it('lists the sums, and the fields of one', async () => {
    expect((await run(['sum'])).out).toMatch(/^wrench {2}/);
    expect((await run(['sum', 'joint'])).out).toContain('Example:');
  });

  // US Army TM 1-1500-204-23-9: 300 lbf·in on 10 in with 4 in is set at 214.3 lbf·in.
  it('works one out as text, as JSON and as a drawing', async () => {
    const args = ['sum', 'wrench', 'torque=300 lbf·in', 'length=10 in', 'adapter=4 in'];
    expect((await run(args)).out).toContain('Set the wrench to 24.2 N·m (17.9 lbf·ft).');
    const found = JSON.parse((await run([...args, '--json'])).out) as { solvedFor: string };
    expect(found.solvedFor).toBe('set');
    expect((await run([...args, '--svg'])).out).toMatch(/^<svg[\s\S]*<\/svg>\n$/);
  });

  it.each([
    [['sum', 'nut'], 'is no sum'],
    [['sum', 'wrench', '35'], 'is no field with its text'],
    [['sum', 'wrench', 'torque=35', 'length=10 in'], 'has no unit'],
    [['sum', 'wrench', 'torque=1 N·m', 'torque=2 N·m'], 'given twice'],
    [['sum', 'wear', '--svg'], 'is no sum'],
    [['sum', 'break-loose', 'fitted=150 N·m', 'thread=right', 'bar=600 mm', '--svg'], 'has no drawing'],
  ])('refuses %j', async (args, words) => {
    const { code, out, err } = await run(args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(words);
  });
});
