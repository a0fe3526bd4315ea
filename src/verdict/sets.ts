/**
 * Sets of faults as hypotheses. A base holds atoms in one orientation of the phases; a hypothesis is a base turned
 * by 0, 1 or 2 phases, so that one table of predictions serves three. Sets never hold two faults that one repair
 * cures: the repair list would be the same, and the stronger fault speaks for both.
 *
 * Prior of a set: chance of its number of faults, times its atoms' weights, times cascade factors (a burnt plug
 * raises the odds of a dead regulator and stator: heat at one end burns both sides; guess, no source).
 */
import type { FaultId } from '../fault/catalogue.ts';
import { FAULTS } from '../fault/faults.ts';
import type { Atom } from './atoms.ts';

export interface Base {
  readonly atoms: readonly Atom[];
  readonly faults: readonly FaultId[];
  /** Turns that give a different hypothesis: 1 when nothing is located, else 3. */
  readonly turns: 1 | 3;
  /** Log prior of each turn, before normalising and before the complaint. */
  readonly logPrior: number;
  /** The repairs as one sorted text: the class the next reading is chosen for. */
  readonly repairs: string;
  /** A diode short that has blown the main fuse, and a regulator that is dead on the diode range in any way. */
  readonly blown: boolean;
  readonly deadAnyhow: boolean;
}

/** Chance of 0, 1, 2, 3 faults on a bike that somebody complains of (guess). */
export const COUNT = [0.1, 0.45, 0.33, 0.12] as const;

/** Chance of more than three faults on a bike that somebody complains of (guess), dimensionless. */
export const MORE = 0.01;

/** Pairs of faults that breed each other, with the factor on the odds of both together (guess). */
export const CASCADE: readonly (readonly [FaultId, FaultId, number])[] = [
  ['plug-pin', 'regulator-dead', 1.6],
  ['plug-pins', 'regulator-dead', 1.6],
  ['plug-pin', 'diode-shorted', 1.6],
  ['plug-pins', 'diode-shorted', 1.6],
  ['plug-pin', 'diode-open', 1.6],
  ['plug-pins', 'diode-open', 1.6],
  ['plug-pin', 'stator-shorted-turns', 1.6],
  ['plug-pins', 'stator-shorted-turns', 1.6],
  ['battery-sulphated', 'regulator-runaway', 1.5],
  ['drain', 'overload', 1.3],
];

export function makeBase(atoms: readonly Atom[], weights: Readonly<Record<FaultId, number>>): Base {
  const faults = atoms.map((a) => a.fault);
  let total = 0;
  for (const w of Object.values(weights)) total += w;
  let log = Math.log(COUNT[atoms.length] ?? MORE);
  for (const atom of atoms) {
    log += Math.log((weights[atom.fault] / total) * atom.share);
  }
  // n! orders of n distinct faults make the same set.
  for (let n = 2; n <= atoms.length; n++) log += Math.log(n);
  for (const [a, b, factor] of CASCADE) if (faults.includes(a) && faults.includes(b)) log += Math.log(factor);
  const repairs = [...new Set(faults.map((f) => FAULTS[f].repair))].sort().join('+');
  const has = (fault: FaultId) => atoms.some((a) => a.fault === fault && a.variant === 1);
  return {
    atoms,
    faults,
    turns: atoms.some((a) => a.located) ? 3 : 1,
    logPrior: log,
    repairs,
    blown: has('diode-shorted'),
    deadAnyhow: has('regulator-dead'),
  };
}

/** Whether an atom may join a set: not the same fault, nor one that a repair in the set cures already. */
export function mayJoin(set: readonly Pick<Atom, 'fault'>[], atom: Pick<Atom, 'fault'>): boolean {
  return set.every(
    (a) =>
      FAULTS[a.fault].repair !== FAULTS[atom.fault].repair &&
      !(FAULTS[a.fault].member === 'battery' && FAULTS[atom.fault].member === 'battery'),
  );
}

/** Bases that join one more atom to a set. The first located atom of a base sits in phase 0; turning does the rest. */
export function extend(
  set: readonly Atom[],
  atoms: readonly Atom[],
  from: number,
  weights: Readonly<Record<FaultId, number>>,
): Base[] {
  const placed = set.some((a) => a.located);
  const bases: Base[] = [];
  for (let n = from; n < atoms.length; n++) {
    const atom = atoms[n]!;
    if (!mayJoin(set, atom)) continue;
    if (atom.located && !placed && atom.phase !== 0) continue;
    bases.push(makeBase(homeward([...set, atom], atoms), weights));
  }
  return bases;
}

/** Bases that join one more atom to a set as it stands, which is not turned again. */
export function grow(
  set: readonly Atom[],
  atoms: readonly Atom[],
  weights: Readonly<Record<FaultId, number>>,
): Base[] {
  const placed = set.some((a) => a.located);
  return atoms
    .filter((atom) => mayJoin(set, atom) && (placed || !atom.located || atom.phase === 0))
    .map((atom) => makeBase([...set, atom], weights));
}

/** A set's key text, the same whatever order its atoms joined in and wherever its first phase was put. */
export function homeName(set: readonly Atom[], order: readonly Atom[]): string {
  return baseName(homeward(set, order));
}

/** The same set turned so that its first located atom, in the catalogue's order, sits in phase 0: one base, not three. */
function homeward(set: readonly Atom[], order: readonly Atom[]): Atom[] {
  const sorted = [...set].sort((a, b) => order.indexOf(a) - order.indexOf(b));
  const turn = sorted.find((a) => a.located)?.phase ?? 0;
  if (turn === 0) return sorted;
  return sorted.map((a) => {
    if (!a.located) return a;
    const phase = (a.phase - turn + 3) % 3;
    return (
      order.find(
        (b) =>
          b.fault === a.fault &&
          b.variant === a.variant &&
          b.phase === phase &&
          b.span === a.span &&
          b.second === a.second,
      ) ?? { ...a, phase: phase as 0 | 1 | 2 }
    );
  });
}

/** A base's key text, the same whatever order its atoms joined in. */
export function baseName(atoms: readonly Atom[]): string {
  return atoms
    .map((a) => `${a.fault}.${a.phase}.${a.variant}.${a.span[0]}.${a.second[0]}`)
    .sort()
    .join(' ');
}
