/** What the sheet packed with a new part may speak of: the places of this machine file that it can fill, found from the file. */
import type { Part } from '../machine/definition.ts';
import { getAt, isObject, type Json, type JsonObject, type Path, pathText } from '../machine/json-value.ts';
import { repairsOfPart } from '../machine/new-parts.ts';

export interface SheetPlace {
  readonly path: Path;
  readonly label: string;
  /** As the sheet might print it. */
  readonly example: string;
  /** Whether the figure holds at one engine speed, which is then asked for too: an example of it, else null. */
  readonly at: string | null;
  /** Words, or numbers, to choose from; null where it is typed. */
  readonly words: readonly (string | number)[] | null;
  /** What stands there now, with its source; null for nothing. */
  readonly stands: string | null;
  /** Id of the fastener it is about; null for a figure of the part itself. */
  readonly fastener: string | null;
}

type Asked = Pick<SheetPlace, 'label' | 'example'> & Partial<Pick<SheetPlace, 'at' | 'words'>>;

/** Figures of the part itself, by their member of its section of `charging`. */
const OWN: Readonly<Record<Exclude<Part, 'fuse' | 'wiring'>, Readonly<Record<string, Asked>>>> = {
  alternator: {
    openVolts: { label: 'AC volts between two pins, unplugged', example: '16–18 V AC', at: '1000 rpm' },
    ratedAmps: { label: 'DC amps it can give', example: '34 A ± 8 %', at: '5000 rpm' },
    pairOhms: { label: 'Resistance between two pins, cold', example: '0.18–0.24 Ω' },
    poles: { label: 'Magnet poles of the rotor', example: '12', words: evenNumbers(36) },
  },
  regulator: {
    chargeVolts: { label: 'Charge volts, battery charged, 5000 rpm', example: '14.2–14.8 V' },
    type: { label: 'How it regulates', example: 'shunt', words: ['shunt', 'series'] },
    senses: { label: 'Where it senses the volts', example: 'output', words: ['output', 'wire'] },
  },
  battery: {
    chemistry: { label: 'How it is built', example: 'agm', words: ['flooded', 'agm'] },
    capacity: { label: 'Capacity', example: '18 Ah' },
    crankAmps: { label: 'Cold-cranking amps', example: '270 A' },
  },
  loads: {
    ignition: { label: 'Ignition, fuel pump and instruments', example: '3.2 A' },
    low: { label: 'Low beam', example: '55 W' },
    high: { label: 'High beam', example: '60 W' },
    tail: { label: 'Tail and instrument lamps', example: '8 W' },
    accessories: { label: 'Additions, all on', example: '3.5 A' },
  },
};

function evenNumbers(most: number): readonly number[] {
  return Array.from({ length: most / 2 }, (_, n) => 2 * (n + 1));
}

/** What a sheet says of a fastener that holds the part. */
const TURNED: Readonly<Record<string, Asked>> = {
  torque: { label: 'torque', example: '40–45 lbf·in' },
  locker: { label: 'thread locker', example: 'medium', words: ['none', 'low', 'medium', 'high'] },
  condition: { label: 'threads', example: 'clean and dry' },
  reuse: { label: 'used again?', example: 'new', words: ['reuse', 'inspect', 'new'] },
};

/** Words in the name of a part of the bike by which it is known where no action takes it off. */
const NAMES: Partial<Readonly<Record<Part, RegExp>>> = {
  alternator: /\b(?:stator|rotor|alternator|magnet)/i,
  regulator: /\b(?:regulator|rectifier)/i,
  battery: /\bbattery\b/i,
};

/** The places a sheet of this part can speak of, those of the part first. */
export function sheetPlaces(file: Json, part: Part): readonly SheetPlace[] {
  return [...ownPlaces(file, part), ...fastenersOf(file, part).flatMap((id) => turnedPlaces(file, id))];
}

function ownPlaces(file: Json, part: Part): readonly SheetPlace[] {
  if (part === 'fuse')
    return [placeOf(file, ['charging', 'fuse'], { label: 'Main fuse or breaker', example: '30 A' }, null)];
  if (part === 'wiring')
    return keysAt(file, ['charging', 'wiring']).map((run) =>
      placeOf(
        file,
        ['charging', 'wiring', run, 'gauge'],
        { label: `Wire size, ${run}`, example: 'AWG 12' },
        null,
      ),
    );
  return Object.entries(OWN[part]).map(([member, asked]) =>
    placeOf(file, ['charging', part, member], asked, null),
  );
}

function turnedPlaces(file: Json, id: string): readonly SheetPlace[] {
  const name = getAt(file, ['fasteners', id, 'name']);
  return Object.entries(TURNED).map(([member, asked]) =>
    placeOf(
      file,
      ['fasteners', id, member],
      { ...asked, label: `${typeof name === 'string' ? name : id}: ${asked.label}` },
      id,
    ),
  );
}

function placeOf(file: Json, path: Path, asked: Asked, fastener: string | null): SheetPlace {
  const stands = getAt(file, path);
  const title = isObject(stands) ? getAt(file, ['sources', String(stands.from), 'title']) : undefined;
  return {
    path,
    label: asked.label,
    example: asked.example,
    at: asked.at ?? null,
    words: asked.words ?? null,
    stands:
      isObject(stands) && stands.is !== undefined
        ? `${String(stands.is)}${typeof stands.at === 'string' ? ` at ${stands.at}` : ''} (${typeof title === 'string' ? title : String(stands.from)})`
        : null,
    fastener,
  };
}

/**
 * Fasteners that hold the part: what the targets that its repairs serve must have off, by the actions that take it off; where
 * the file tells no way in, the parts that are named so.
 */
function fastenersOf(file: Json, part: Part): readonly string[] {
  const repairs = repairsOfPart(part);
  const targets = entriesAt(file, ['work', 'targets']).filter(([, target]) =>
    textsOf(target.repairs).some((repair) => repairs.includes(repair)),
  );
  const needs = new Set(targets.flatMap(([, target]) => textsOf(target.needs)));
  const actions = entriesAt(file, ['work', 'actions']).filter(([, action]) =>
    textsOf(action.gives).some((fact) => needs.has(fact)),
  );
  const parts = new Set(actions.flatMap(([, { part: taken }]) => (typeof taken === 'string' ? [taken] : [])));
  const named = NAMES[part];
  if (parts.size === 0 && named)
    for (const [id, one] of entriesAt(file, ['parts']))
      if (named.test(`${id.replaceAll('-', ' ')} ${String(one.name ?? '')}`)) parts.add(id);
  const found = new Set<string>();
  for (const id of parts) for (const held of textsOf(getAt(file, ['parts', id, 'heldBy']))) found.add(held);
  for (const [, { fastener }] of actions) if (typeof fastener === 'string') found.add(fastener);
  for (const [id, one] of entriesAt(file, ['fasteners']))
    if (typeof one.part === 'string' && parts.has(one.part)) found.add(id);
  return [...found].filter((id) => isObject(getAt(file, ['fasteners', id])));
}

function keysAt(file: Json, path: Path): readonly string[] {
  const object = getAt(file, path);
  return isObject(object) ? Object.keys(object) : [];
}

function entriesAt(file: Json, path: Path): readonly (readonly [string, JsonObject])[] {
  const object = getAt(file, path);
  return isObject(object)
    ? Object.entries(object).flatMap(([key, one]) => (isObject(one) ? [[key, one] as const] : []))
    : [];
}

function textsOf(list: Json | undefined): readonly string[] {
  return Array.isArray(list)
    ? (list as readonly Json[]).filter((one): one is string => typeof one === 'string')
    : [];
}

/** A place by its path as text; null where the sheet has none such. */
export function sheetPlaceAt(places: readonly SheetPlace[], path: Path): SheetPlace | null {
  const text = pathText(path);
  return places.find((place) => pathText(place.path) === text) ?? null;
}
