/**
 * Simulation-based calibration, short form (idea: Cook, Gelman & Rubin 2006): bikes drawn from the catalogue's own
 * weights, few readings each, and of all repairs claimed with a probability about as many must be needed. Two circuits
 * are kept so that their tables are made once; each bike has wear, hands, faults, complaint and meter of its own.
 */
import { describe, expect, it } from 'vitest';
import { openNamed } from '../../src/cases/draw-stream.ts';
import { drawBike } from '../../src/cases/drawn-bike.ts';
import { binClaims, type Claim } from '../../src/cases/reliability.ts';
import type { ChargingSpec } from '../../src/circuit/spec.ts';
import { FAULTS } from '../../src/fault/faults.ts';
import { openAssessor } from '../../src/verdict/assess.ts';
import { REFERENCE, SINGLE } from '../fault/three-machines.ts';
import { evidenceOf, stillKeys, wrongWith } from './answer-checks.ts';

const SPECS: readonly ChargingSpec[] = [
  { ...REFERENCE, regulator: { ...REFERENCE.regulator, senses: 'wire' } },
  { ...SINGLE, regulator: { ...SINGLE.regulator, kind: 'series' }, tachometer: false },
];
const RUNNING = ['batt_volts', 'drop_pos', 'drop_neg', 'alt_amps', 'ripple', 'batt_amps'].map(
  (kind) => `${kind} lights=low rpm=3000`,
);
const FIRST = ['rest_volts charged=True', 'crank_volts probe=clamp', 'keyoff_mA', RUNNING[0]!];

/** Claims for every repair on `count` drawn bikes, and how often the truth lay in the 95 % set. */
function claimsOf(spec: ChargingSpec, count: number): { claims: Claim[]; inside: number } {
  const assessor = openAssessor(spec);
  const claims: Claim[] = [];
  let inside = 0;
  for (let seed = 1; seed <= count; seed++) {
    const bike = drawBike(seed, { spec, wider: 1 });
    const stream = openNamed(seed, 'keys');
    const keys = new Set(FIRST);
    const still = stillKeys(bike).filter((key) => !key.startsWith('visual') && !key.includes('hot'));
    for (let n = 0; n < 4; n++) {
      const pool = n === 0 ? RUNNING.slice(1) : still;
      keys.add(pool[Math.floor(stream() * pool.length)]!);
    }
    const evidence = evidenceOf(bike, [...keys]);
    const answer = assessor.assess(evidence);
    expect(wrongWith(answer, evidence)).toEqual([]);
    const need = new Set(bike.faults.map((fault) => FAULTS[fault.id].repair));
    for (const line of answer.repairs) claims.push([line.probability, need.has(line.repair)]);
    const truth = bike.faults
      .map((fault) => fault.id)
      .sort()
      .join('+');
    let sum = 0;
    for (const set of answer.sets) {
      if (sum >= 0.95) break;
      sum += set.probability;
      if (set.faults.toSorted().join('+') === truth) inside++;
    }
  }
  return { claims, inside };
}

describe('of what is claimed with a probability, about as much is so', () => {
  const COUNT = 30;
  const both = SPECS.map((spec) => claimsOf(spec, COUNT));
  const claims = both.flatMap((one) => one.claims);

  it('in every bin, within four deviations and what one bike in twenty may be worth', () => {
    const off: string[] = [];
    for (const bin of binClaims(claims, 5)) {
      const those = claims.filter(([p]) => p >= bin.from && (p < bin.to || bin.to === 1));
      const expected = those.reduce((sum, [p]) => sum + p, 0);
      const needed = those.filter(([, so]) => so).length;
      const spread = Math.sqrt(those.reduce((sum, [p]) => sum + p * (1 - p), 0));
      if (Math.abs(needed - expected) > 4 * spread + 2 * COUNT * 0.05)
        off.push(
          `${bin.from}–${bin.to}: ${expected.toFixed(1)} claimed, ${needed} needed of ${those.length}`,
        );
    }
    expect(off).toEqual([]);
    expect(claims.length).toBe(15 * COUNT * SPECS.length);
  });

  it('the whole: as many repairs needed as claimed, within four deviations', () => {
    const expected = claims.reduce((sum, [p]) => sum + p, 0);
    const needed = claims.filter(([, so]) => so).length;
    const spread = Math.sqrt(claims.reduce((sum, [p]) => sum + p * (1 - p), 0));
    expect(Math.abs(needed - expected)).toBeLessThan(4 * spread + 4);
  });

  const share = both.reduce((sum, one) => sum + one.inside, 0) / (COUNT * SPECS.length);

  it('the truth lies in the 95 % set two times in three at least', () => {
    expect(share).toBeGreaterThan(2 / 3);
  });

  // Four deviations under 95 %.
  it('the truth lies in the 95 % set nineteen times in twenty', () => {
    expect(share).toBeGreaterThan(0.95 - 4 * Math.sqrt((0.95 * 0.05) / (COUNT * SPECS.length)));
  });
});
