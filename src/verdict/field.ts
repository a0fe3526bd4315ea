/**
 * The field of hypotheses on one bike: every single fault, every pair, and triples grown from the pairs that stay
 * probable; each with its table of predictions, rough or computed.
 */
import type { ChargingSpec } from '../circuit/spec.ts';
import type { FaultId } from '../fault/catalogue.ts';
import { FAULTS } from '../fault/faults.ts';
import type { Asked } from './asked.ts';
import { type Atom, atomsOf } from './atoms.ts';
import { type Bench, type Fit, openBench } from './line.ts';
import { type Base, baseName, extend, grow, homeName, makeBase } from './sets.ts';
import {
  blurred,
  composedTable,
  computedTable,
  correctedTable,
  type Part,
  slotted,
  soundTable,
  type Table,
} from './table.ts';

export interface Member {
  readonly base: Base;
  /** The set by name, wherever it was turned to. */
  readonly name: string;
  /** Put together from smaller sets; the sound bike and the singles are computed. */
  readonly rough: Table;
  /** Moved onto the physics of the set itself, once it has earned that. */
  computed: Table | null;
}

export interface Field {
  /** Every set of up to two faults. */
  readonly members: readonly Member[];
  /** The triples that contain a promoted pair, put together from the pair's own physics; the same at every call. */
  readonly grow: (pair: Member) => readonly Member[];
  /** The sets of four that join one more fault to a set of three, put together; their fourth severity is scatter. */
  readonly fourths: (triple: Member) => readonly Member[];
  /** The sets of two in a set of three. */
  readonly pairsOf: (triple: Member) => readonly Member[];
  readonly promote: (member: Member) => void;
  /** Works out beforehand what a promoted set needs to be read in the engine state of `asked`. */
  readonly ready: (member: Member, asked: Asked) => void;
  readonly sound: Member;
}

/** Fit of a member for a reading: from its own physics or from its faults' put together. */
export function fitOf(member: Member, asked: Asked, computed: boolean): Fit {
  return (computed && member.computed ? member.computed : member.rough).read(asked).fit;
}

/** A reading as a member turned by some phases sees it; a set that sits in no phase reads every phase as the first. */
export function facing(member: Member, turn: number, asked: Asked, phases: 1 | 3): Asked {
  if (member.base.turns === 1) return phases === 3 ? asked.turned[asked.home]! : asked;
  return asked.turned[turn]!;
}

export function openField(
  spec: ChargingSpec,
  weights: Readonly<Record<FaultId, number>>,
  seed: number,
): Field {
  const bench: Bench = openBench(spec, seed);
  const atoms = atomsOf(spec);
  const alone = soundTable(bench);
  const sound: Member = { base: makeBase([], weights), name: '', rough: alone, computed: alone };
  const members: Member[] = [sound];
  // A located single in phase b or c is the one in phase a, turned; its table is shared by the slots it can take.
  const tables = new Map<string, Table>();
  const named = (name: string, make: () => Table): Table => {
    let table = tables.get(name);
    if (!table) {
      table = make();
      tables.set(name, table);
    }
    return table;
  };
  const partOf = (atom: Atom, slot: number): Part => {
    const home: Atom = atom.located ? { ...atom, phase: 0 } : atom;
    const name = baseName([home]);
    const first = named(name, () => computedTable(bench, alone, [home]));
    const table = named(`${name} ${slot}`, () => slotted(first, slot, 1));
    return { table, turn: atom.located ? atom.phase : null, slot, size: 1 };
  };
  for (const base of extend([], atoms, 0, weights)) {
    const { table } = partOf(base.atoms[0]!, 0);
    members.push({ base, name: baseName(base.atoms), rough: table, computed: table });
  }
  for (const single of members.slice(1)) {
    const at = atoms.findIndex((a) => baseName([a]) === single.name);
    for (const base of extend(single.base.atoms, atoms, at + 1, weights)) {
      const rough = composedTable(bench, alone, base.atoms.map(partOf));
      members.push({ base, name: baseName(base.atoms), rough, computed: null });
    }
  }
  const byName = new Map(members.map((member) => [member.name, member]));
  const grown = new Map<Member, readonly Member[]>();
  const promote = (member: Member): void => {
    member.computed ??= correctedTable(bench, alone, member.rough, member.base.atoms);
  };
  return {
    members,
    sound,
    grow: (pair) => {
      let triples = grown.get(pair);
      if (!triples) {
        if (!pair.computed) throw new RangeError(`pair "${pair.name}" must be promoted before it grows`);
        const { turns } = pair.base;
        const whole: Part = { table: pair.computed, turn: turns === 1 ? null : 0, slot: 0, size: 2 };
        triples = grow(pair.base.atoms, atoms, weights).map((base) => ({
          base,
          name: homeName(base.atoms, atoms),
          rough: composedTable(bench, alone, [whole, partOf(base.atoms[2]!, 2)]),
          computed: null,
        }));
        grown.set(pair, triples);
      }
      return triples;
    },
    fourths: (triple) => {
      const { turns, atoms: three } = triple.base;
      const table = triple.computed ?? triple.rough;
      const whole: Part = { table, turn: turns === 1 ? null : 0, slot: 0, size: 3 };
      return grow(three, atoms, weights).map((base) => {
        const fourth = partOf(base.atoms[3]!, 0);
        const rough = composedTable(bench, alone, [whole, { ...fourth, table: blurred(fourth.table, 1) }]);
        return { base, name: '', rough, computed: null };
      });
    },
    pairsOf: ({ base }) =>
      base.atoms.flatMap((left) => {
        const pair = byName.get(
          homeName(
            base.atoms.filter((atom) => atom !== left),
            atoms,
          ),
        );
        return pair ? [pair] : [];
      }),
    promote,
    ready: (member, asked) => {
      promote(member);
      member.computed?.ready?.(asked);
    },
  };
}

/** Prior weights of the catalogue. */
export function catalogueWeights(): Record<FaultId, number> {
  return Object.fromEntries(Object.values(FAULTS).map((f) => [f.id, f.prior])) as Record<FaultId, number>;
}
