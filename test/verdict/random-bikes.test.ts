/** Random bikes, random readings, some of them nonsense: no crash, no NaN, no odd probability. The long form: test/soak. */
import { describe, expect, it } from 'vitest';
import { openAssessor } from '../../src/verdict/assess.ts';
import { EVERY_TOOL, tryBike, wrongWith } from './answer-checks.ts';
import { EDGES, notNumbers, SILLY, trySpec } from './silly-evidence.ts';

describe('no crash, no NaN, no odd probability', { timeout: 240_000 }, () => {
  it('five bikes, each of a build of its own', () => {
    const wrong: string[] = [];
    // The running engine costs a second or two of physics a circuit.
    for (let seed = 1; seed <= 5; seed++) wrong.push(...tryBike(seed, seed === 5, 1, [seed]));
    expect(wrong).toEqual([]);
  });

  for (const [n, spec] of EDGES.entries()) {
    const assessor = openAssessor(spec);
    it(`twelve bikes of one book at the edge: ${spec.name}`, () => {
      expect(trySpec(spec, 12, 100 * n + 1, false, assessor)).toEqual([]);
    });

    it(`every silly value for one reading: ${spec.name}`, () => {
      for (const key of ['keyoff_mA', 'visual what=plug_burnt']) {
        for (const value of SILLY) {
          const evidence = {
            symptoms: [],
            readings: { [key]: value, rest_volts: 12.4 },
            again: [],
            tools: EVERY_TOOL,
          };
          const answer = assessor.assess(evidence);
          expect([...wrongWith(answer, evidence), ...notNumbers(answer)], `${key} = ${value}`).toEqual([]);
        }
      }
    });
  }

  it('a reading of no known kind, alone and beside others', () => {
    const assessor = openAssessor(EDGES[0]!);
    for (const readings of [{ no_such_reading: 3 }, { no_such_reading: 3, rest_volts: 12.4 }]) {
      const evidence = { symptoms: [], readings, again: [], tools: EVERY_TOOL };
      const answer = assessor.assess(evidence);
      expect([...wrongWith(answer, evidence), ...notNumbers(answer)]).toEqual([]);
    }
  });

  it('would see a NaN anywhere in an answer', () => {
    expect(notNumbers({ sets: [{ probability: Number.NaN }], next: { why: 'over NaN V' } })).toHaveLength(2);
  });
});
