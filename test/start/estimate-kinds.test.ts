/** The estimates as data: every example is taken, everything that is wrong is said at once, nothing is thrown. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readAs } from '../../src/machine/entry.ts';
import { ESTIMATE_KINDS } from '../../src/start/estimate-kinds.ts';

const kind = (id: string) => ESTIMATE_KINDS.find((one) => one.id === id)!;
const exampleOf = (id: string) =>
  Object.fromEntries(kind(id).fields.map((field) => [field.id, field.example]));

describe('the estimates', () => {
  test.each(ESTIMATE_KINDS.map(({ id }) => id))(
    '%s takes its own examples, and those that must be given alone',
    (id) => {
      const whole = kind(id).reckon(exampleOf(id));
      expect(whole).toMatchObject({ ok: true });
      const must = kind(id).fields.filter(({ otherwise }) => otherwise === undefined);
      const least = kind(id).reckon(Object.fromEntries(must.map((field) => [field.id, field.example])));
      expect(least).toMatchObject({ ok: true });
      const none = kind(id).reckon({});
      expect(none.ok ? [] : none.problems.map(({ field }) => field)).toEqual(must.map((field) => field.id));
    },
  );

  test('the text of one that goes into a file is read there', () => {
    for (const { goes, reckon, id } of ESTIMATE_KINDS) {
      const answer = reckon(exampleOf(id));
      if (!answer.ok) throw new Error(JSON.stringify(answer.problems));
      if (goes === null) continue;
      const read = readAs(answer.text, goes.endsWith('Volts') ? 'voltage' : 'current');
      expect(read).toMatchObject({ ok: true });
    }
  });

  // 34 A and 17 V per 1000 rpm with 12 poles at 5000 rpm is alternator A of the ngspice sweep: 0.60 mH.
  test('a count of poles narrows the inductance to what it is', () => {
    const texts = { phases: '3', volts: '17 V ± 2 %', ohms: '0.20 Ω', rated: '34.4 A ± 2 %' };
    const known = kind('inductance').reckon({ ...texts, poles: '12' });
    const not = kind('inductance').reckon(texts);
    if (!known.ok || !not.ok) throw new Error('both must be estimates');
    expect(known.estimate.low).toBeLessThan(0.6e-3);
    expect(known.estimate.high).toBeGreaterThan(0.6e-3);
    expect(known.estimate.high / known.estimate.low).toBeLessThan(1.1);
    expect(not.estimate.high / not.estimate.low).toBeGreaterThan(2);
    expect(not.estimate.reasons[0]!.what).toBe('count of poles');
  });

  test('a stated range of speeds is taken as it stands', () => {
    const near = kind('ac-volts').reckon({ volts: '51 V', speed: '3000 rpm' });
    const wide = kind('ac-volts').reckon({ volts: '51 V', speed: '2400–3600 rpm' });
    if (!near.ok || !wide.ok) throw new Error('both must be estimates');
    expect(wide.estimate.high / wide.estimate.low).toBeGreaterThan(
      1.2 * (near.estimate.high / near.estimate.low),
    );
  });

  test('no text throws; each problem is a sentence at its field', () => {
    const text = fc.oneof(
      fc.string(),
      fc.constantFrom('0 V', '1e9 V', '−3 rpm', '3', '1', '0.02 Ω', '90 A', '1 mV', '299 V', 'clamp'),
    );
    fc.assert(
      fc.property(
        fc.constantFrom(...ESTIMATE_KINDS),
        fc.array(text, { minLength: 7, maxLength: 7 }),
        (one, texts) => {
          const answer = one.reckon(Object.fromEntries(one.fields.map(({ id }, n) => [id, texts[n]!])));
          if (answer.ok) expect(answer.estimate.low).toBeLessThanOrEqual(answer.estimate.high);
          else for (const { why } of answer.problems) expect(why).toMatch(/\.$/);
        },
      ),
      { numRuns: 300, seed: 3 },
    );
    expect(kind('ohms').reckon({ ...exampleOf('ohms'), colour: 'red' })).toMatchObject({
      ok: false,
      problems: [{ field: 'colour' }],
    });
  });
});
