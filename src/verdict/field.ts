/**
 * The field of hypotheses on one bike: every single fault, every pair, and triples grown from the pairs that stay
 * probable; each with its table of predictions, rough or computed.
 */
import type { ChargingSpec } from '../circuit/spec.ts';
import type { FaultId } from '../fault/catalogue.ts';
import { FAULTS } from '../fault/faults.ts';
import type { ReadingKey } from '../reading/key.ts';
import { type Atom, atomsOf } from './atoms.ts';
import { type Base, baseName, extend, makeBase } from './sets.ts';
import { type Bench, composedTable, computedTable, type Fit, openBench, type Table } from './table.ts';

export interface Member {
  readonly base: Base;
  /** Composed from single faults; the sound bike and the singles themselves are computed. */
  readonly rough: Table;
  /** From the physics of the set itself, once it has earned that. */
  computed: Table | null;
}

export interface Field {
  readonly members: Member[];
  /** Adds the triples that contain a probable pair. */
  readonly grow: (pair: Member) => void;
  readonly promote: (member: Member) => void;
  readonly sound: Member;
}

/** Fit of a member for a reading: computed where it can be had without new physics or where `spend` allows it. */
export function fitOf(member: Member, key: ReadingKey, name: string, spend: boolean): Fit {
  if (member.computed && (spend || member.computed.ready(key))) return member.computed.fit(key, name);
  return member.rough.fit(key, name);
}

export function openField(
  spec: ChargingSpec,
  weights: Readonly<Record<FaultId, number>>,
  seed: number,
): Field {
  const bench: Bench = openBench(spec, seed);
  const atoms = atomsOf(spec);
  const soundTable = computedTable(bench, []);
  const sound: Member = { base: makeBase([], weights), rough: soundTable, computed: soundTable };
  const members: Member[] = [sound];
  // A located single in phase b or c is the one in phase a, turned.
  const tables = new Map<string, Table>();
  const singleOf = (atom: Atom): { table: Table; turn: number } => {
    const home: Atom = atom.located ? { ...atom, phase: 0 } : atom;
    const name = baseName([home]);
    let table = tables.get(name);
    if (!table) {
      table = computedTable(bench, [home]);
      tables.set(name, table);
    }
    return { table, turn: atom.located ? atom.phase : 0 };
  };
  for (const base of extend([], atoms, 0, weights)) {
    const table = singleOf(base.atoms[0]!).table;
    members.push({ base, rough: table, computed: table });
  }
  const seen = new Set<string>();
  const join = (base: Base) => {
    const name = baseName(base.atoms);
    if (seen.has(name)) return;
    seen.add(name);
    members.push({ base, rough: composedTable(soundTable, base.atoms.map(singleOf)), computed: null });
  };
  for (const single of members.slice(1)) {
    const at = atoms.indexOf(atoms.find((a) => baseName([a]) === baseName(single.base.atoms))!);
    for (const base of extend(single.base.atoms, atoms, at + 1, weights)) join(base);
  }
  const grown = new Set<Member>();
  return {
    members,
    sound,
    grow: (pair) => {
      if (grown.has(pair) || pair.base.atoms.length !== 2) return;
      grown.add(pair);
      for (const base of extend(pair.base.atoms, atoms, 0, weights)) join(base);
    },
    promote: (member) => {
      member.computed ??= computedTable(bench, member.base.atoms);
    },
  };
}

/** Prior weights of the catalogue. */
export function catalogueWeights(): Record<FaultId, number> {
  return Object.fromEntries(Object.values(FAULTS).map((f) => [f.id, f.prior])) as Record<FaultId, number>;
}
