/** What a mechanic sets as a chance is what the verdict starts from. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ChargingSpec } from '../../src/circuit/spec.ts';
import { FAULTS } from '../../src/fault/faults.ts';
import { chanceFaults, ownWeights, priorChances } from '../../src/job/priors.ts';
import { chargingSpec } from '../../src/machine/charging-spec.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { atomsOf } from '../../src/verdict/atoms.ts';
import { catalogueWeights } from '../../src/verdict/field.ts';
import { type Base, baseName, extend, makeBase } from '../../src/verdict/sets.ts';

const folder = new URL('../../machines/', import.meta.url);
const specs = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .map((name): ChargingSpec => {
    const read = readMachine(readFileSync(new URL(name, folder), 'utf8'), name);
    if (!read.ok) throw new Error(name);
    return chargingSpec(read.machine);
  });
const THREE = { phases: 3, senses: 'wire' } as const;
const own = (fault: string, chance: number) => ({ fault, chance, why: '', at: '', who: '' });

/** The chance of each fault over every hypothesis that the verdict holds, counted one by one. */
function counted(spec: ChargingSpec, weights = catalogueWeights()): Map<string, number> {
  const atoms = atomsOf(spec);
  const bases = new Map<string, Base>();
  const add = (list: readonly Base[]): readonly Base[] => {
    for (const base of list) bases.set(baseName(base.atoms), base);
    return list;
  };
  const singles = add(extend([], atoms, 0, weights));
  const pairs = singles.flatMap(({ atoms: [one] }) =>
    add(extend([one!], atoms, atoms.findIndex((a) => baseName([a]) === baseName([one!])) + 1, weights)),
  );
  for (const pair of new Map(pairs.map((base) => [baseName(base.atoms), base])).values())
    add(extend(pair.atoms, atoms, 0, weights));
  add([makeBase([], weights)]);
  const sums = new Map<string, number>();
  let all = 0;
  for (const base of bases.values()) {
    const mass = base.turns * Math.exp(base.logPrior);
    all += mass;
    for (const fault of base.faults) sums.set(fault, (sums.get(fault) ?? 0) + mass);
  }
  return new Map([...sums].map(([fault, sum]) => [fault, sum / all]));
}

describe('chances before any reading', () => {
  it('are those of the hypotheses that the verdict holds, counted one by one, on a two-wire bike', () => {
    // Two wires: fewer places, so that every triple can be counted.
    const spec = specs.find((one) => one.alternator.phases === 1)!;
    const build = { phases: spec.alternator.phases, senses: spec.regulator.senses };
    for (const weights of [
      catalogueWeights(),
      ownWeights([own('drain', 0.4), own('plug-pin', 0.01)], build),
    ]) {
      const all = counted(spec, weights);
      const said = priorChances(weights, build);
      expect([...said.keys()].sort()).toEqual([...all.keys()].sort());
      for (const [fault, chance] of said) expect(chance / all.get(fault)!, fault).toBeCloseTo(1, 2);
    }
  });

  it('stand near the catalogue’s odds, and no sense wire means no fault in it', () => {
    const chances = priorChances(catalogueWeights(), THREE);
    for (const [fault, chance] of chances) {
      expect(chance, fault).toBeGreaterThan(0.85 * FAULTS[fault].prior);
      expect(chance, fault).toBeLessThan(1.25 * FAULTS[fault].prior);
    }
    expect(chanceFaults({ phases: 3, senses: 'output' })).not.toContain('sense-drop');
    expect(chanceFaults(THREE)).not.toContain('battery-flat');
  });

  it('come out as set, for one fault and for two', () => {
    const faults = chanceFaults(THREE);
    const chance = fc.double({ min: 0.001, max: 0.5, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(...faults), chance, fc.constantFrom(...faults), chance, (a, pa, b, pb) => {
        // Two faults of one member shut each other out nearly: close to certain together they cannot both be.
        fc.pre(a !== b && pa + pb <= (FAULTS[a].member === FAULTS[b].member ? 0.75 : 0.9));
        const got = priorChances(ownWeights([own(a, pa), own(b, pb)], THREE), THREE);
        expect(got.get(a)! / pa).toBeCloseTo(1, 2);
        expect(got.get(b)! / pb).toBeCloseTo(1, 2);
      }),
      { numRuns: 60 },
    );
  });

  it('that cannot stand together come as near as they can, and stay finite', () => {
    const wanted = ['plug-pin', 'drain', 'overload', 'output-joint', 'ground-joint'].map((id) =>
      own(id, 0.5),
    );
    const weights = ownWeights(wanted, THREE);
    const got = priorChances(weights, THREE);
    for (const weight of Object.values(weights)) expect(Number.isFinite(weight) && weight > 0).toBe(true);
    for (const { fault } of wanted) {
      const chance = got.get(fault as 'drain')!;
      expect(chance).toBeGreaterThan(0.2);
      expect(chance).toBeLessThan(0.5);
    }
  });

  it('are the catalogue’s where nothing is set, and a word of a later version changes nothing', () => {
    expect(ownWeights([], THREE)).toEqual(catalogueWeights());
    expect(ownWeights([own('flux-leak', 0.4)], THREE)).toEqual(catalogueWeights());
  });
});
