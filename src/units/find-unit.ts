/** Finds the unit a person means, within the kind that is wanted, and says what else they may have meant. */
import { KINDS, type Kind } from './kind.ts';
import { squeeze } from './normalise.ts';
import { unitsOf } from './table.ts';
import type { Unit } from './unit.ts';

export interface Found {
  readonly kind: Kind;
  readonly unit: Unit;
}

const ALL_KINDS = Object.keys(KINDS) as readonly Kind[];

type Names = ReadonlyMap<string, readonly Unit[]>;

function add(map: Map<string, Unit[]>, name: string, unit: Unit): void {
  const key = squeeze(name);
  if (key === '') return;
  const known = map.get(key);
  if (!known) map.set(key, [unit]);
  else if (!known.includes(unit)) known.push(unit);
}

function namesOf(kind: Kind, which: 'own' | 'with-loose'): Names {
  const map = new Map<string, Unit[]>();
  for (const unit of unitsOf(kind)) {
    // The bare "1" of a ratio is for code only: nobody writes "5 1".
    if (unit.id !== '1') for (const name of [unit.id, ...unit.names]) add(map, name, unit);
    if (which === 'with-loose') for (const name of unit.loose) add(map, name, unit);
  }
  return map;
}

function lowered(names: Names): Names {
  const map = new Map<string, Unit[]>();
  for (const [name, units] of names) for (const unit of units) add(map, name.toLowerCase(), unit);
  return map;
}

interface Index {
  readonly names: Names;
  readonly lower: Names;
}

/** Names of a kind, squeezed once when they are first asked for: all of them at once held a slow phone up for a tenth of a second. */
function indexed(which: 'own' | 'with-loose'): (kind: Kind) => Index {
  const known = new Map<Kind, Index>();
  return (kind) => {
    let index = known.get(kind);
    if (!index) {
      const names = namesOf(kind, which);
      index = { names, lower: lowered(names) };
      known.set(kind, index);
    }
    return index;
  };
}
const ownNames = indexed('own');
const wantedNames = indexed('with-loose');

// Kinds in which both thousandths and millions are written: there a capital M is never taken for a small m.
const M_MATTERS: ReadonlySet<Kind> = new Set<Kind>([
  'voltage',
  'current',
  'resistance',
  'conductance',
  'inductance',
  'capacitance',
  'power',
  'pressure',
  'energy',
  'frequency',
  'charge',
]);

function search({ names, lower }: Index, kind: Kind, written: string): readonly Unit[] {
  const key = squeeze(written);
  const singular = key.length >= 4 && key.endsWith('s') ? key.slice(0, -1) : key;
  const exact = names.get(key) ?? names.get(singular);
  if (exact) return exact;
  const loose = lower.get(key.toLowerCase()) ?? lower.get(singular.toLowerCase()) ?? [];
  if (!M_MATTERS.has(kind)) return loose;
  const first = /^m/i.exec(key)?.[0];
  return loose.filter((unit) => first === undefined || !/^m/i.test(unit.id) || unit.id.startsWith(first));
}

/** Units of this kind the text can mean; loose names count too. */
export function unitsWanted(kind: Kind, written: string): readonly Unit[] {
  return search(wantedNames(kind), kind, written);
}

/** Units of whichever kind the text names by itself. An exact spelling beats one that differs in capitals. */
export function unitsAnywhere(written: string): readonly Found[] {
  const key = squeeze(written);
  const hits: Found[] = [];
  for (const kind of ALL_KINDS) {
    // A difference of temperatures is only understood where one is asked for.
    if (kind === 'temperature-difference') continue;
    for (const unit of search(ownNames(kind), kind, written)) hits.push({ kind, unit });
  }
  const exact = hits.filter(({ kind }) => ownNames(kind).names.has(key));
  return exact.length > 0 ? exact : hits;
}

/** Least number of letters to add, drop, change or swap with a neighbour, dimensionless. */
export function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      next[j] = Math.min(next[j - 1]! + 1, row[j]! + 1, change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        next[j] = Math.min(next[j]!, before[j - 2]! + 1);
      }
    }
    before = row;
    row = next;
  }
  return row[b.length]!;
}

/** Symbol of the unit whose name is nearest to the text: of the wanted kind first; null when none is near. */
export function nearestUnit(written: string, kind: Kind | null): string | null {
  const key = squeeze(written).toLowerCase().slice(0, 40);
  const allowed = Math.max(1, Math.floor(key.length / 3));
  const best = (kinds: readonly Kind[]): string | null => {
    let found: { readonly id: string; readonly distance: number } | null = null;
    for (const each of kinds) {
      for (const [name, units] of ownNames(each).lower) {
        const distance = editDistance(key, name);
        // A name changed in every letter is no likeness.
        if (distance > allowed || distance >= name.length) continue;
        if (!found || distance < found.distance) found = { id: units[0]!.id, distance };
      }
    }
    return found?.id ?? null;
  };
  return (kind ? best([kind]) : null) ?? best(ALL_KINDS);
}
