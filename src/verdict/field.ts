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
import {
  type Bench,
  composedTable,
  computedTable,
  type Fit,
  openBench,
  type Single,
  type Table,
} from './table.ts';

export interface Member {
  readonly base: Base;
  /** Composed from single faults; the sound bike and the singles themselves are computed. */
  readonly rough: Table;
  /** From the physics of the set itself, once it has earned that. */
  computed: Table | null;
}

export interface Field {
  /** Every set of up to two faults. */
  readonly members: readonly Member[];
  /** The triples that contain a pair; the same members at every call. */
  readonly grow: (pair: Member) => readonly Member[];
  readonly promote: (member: Member) => void;
  readonly sound: Member;
}

/** Fit of a member for a reading: from its own physics or from its faults' put together. */
export function fitOf(member: Member, key: ReadingKey, name: string, computed: boolean): Fit {
  return computed && member.computed ? member.computed.fit(key, name) : member.rough.fit(key, name);
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
  const singleOf = (atom: Atom): Single => {
    const home: Atom = atom.located ? { ...atom, phase: 0 } : atom;
    const name = baseName([home]);
    let table = tables.get(name);
    if (!table) {
      table = computedTable(bench, [home]);
      tables.set(name, table);
    }
    return { table, turn: atom.located ? atom.phase : null };
  };
  for (const base of extend([], atoms, 0, weights)) {
    const table = singleOf(base.atoms[0]!).table;
    members.push({ base, rough: table, computed: table });
  }
  // A triple grows from any of its three pairs: one member by name.
  const named = new Map<string, Member>();
  const join = (base: Base): Member => {
    const name = baseName(base.atoms);
    let member = named.get(name);
    if (!member) {
      member = {
        base,
        rough: composedTable(spec.alternator.phases, soundTable, base.atoms.map(singleOf)),
        computed: null,
      };
      named.set(name, member);
    }
    return member;
  };
  for (const single of members.slice(1)) {
    const at = atoms.findIndex((a) => baseName([a]) === baseName(single.base.atoms));
    for (const base of extend(single.base.atoms, atoms, at + 1, weights)) members.push(join(base));
  }
  const grown = new Map<Member, readonly Member[]>();
  return {
    members,
    sound,
    grow: (pair) => {
      let triples = grown.get(pair);
      if (!triples) {
        triples = extend(pair.base.atoms, atoms, 0, weights).map(join);
        grown.set(pair, triples);
      }
      return triples;
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
