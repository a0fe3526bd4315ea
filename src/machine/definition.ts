/**
 * Room `machine`: one bike as its mechanic knows it, kept as a JSON file that a person writes: what it is, who
 * says so, and the figures of its charging circuit. This room holds the one definition of that file, writes its
 * JSON Schema, reads and checks a file with every complaint at its line, and turns it into what the sciences
 * take. It reads texts, not disks.
 *
 * This file: the definition, version 2 (bring-up.ts tells of versions). Parts, fasteners, chains, shims and fluids (mechanical-definition.ts) are
 * further members that may be left out, so a file without them stays valid; a reader refuses versions it does not know.
 */
import { VERSION } from './bring-up.ts';
import { type Bounds, figure, gauge, plain, type Quantity, quantity, range } from './figure.ts';
import { chainsShape, fastenersShape, fluidsShape, partsShape, shimsShape } from './mechanical-definition.ts';
import {
  choice,
  count,
  flag,
  list,
  named,
  needed,
  type Of,
  object,
  oneOf,
  optional,
  record,
  type Shape,
  tagged,
  text,
} from './shape.ts';
import { workShape } from './work-definition.ts';

/** Parts that can be bought new with a sheet of their own. Each is also the section of `charging` it speaks of. */
export const PARTS = ['alternator', 'regulator', 'battery', 'loads', 'fuse', 'wiring'] as const;
export type Part = (typeof PARTS)[number];

const title = needed(text(160, "Owner's book"), 'what the source is called');
const page = optional(text(60, 'chapter 8'), 'page or section');
const note = optional(text(2000, 'invented'), 'a remark');
const date = optional(
  text(10, '2019-05'),
  'when it was printed or measured: year, year-month or year-month-day',
);

const source = tagged('what kind of source it is', {
  book: { title, date, page, note },
  'part-sheet': {
    title,
    for: needed(choice(PARTS), 'the part it came with'),
    fitted: needed(flag, 'whether that part is on the bike now; its own figures then count'),
    date,
    page,
    note,
  },
  measured: { title, date, page, note },
  'common-practice': { title, date, page, note },
  guess: { title, date, page, note },
});

const bounds = (low: number, high: number, words: string): Bounds => ({ low, high, words });

/** A figure that holds at one engine speed. Speed is kept in rev/min once it is read. */
const atSpeed = (name: string, is: Shape<Quantity>, speed: string) =>
  figure(name, {
    is: needed(is, 'the range that the source allows'),
    at: needed(quantity('rpm', bounds(300, 15000, 'from 300 to 15,000 rpm'), speed), 'at which engine speed'),
  });

const LOAD = plain(
  'load',
  range('load', bounds(0, 40, 'from 0 to 40 A (0 to 540 W)'), '55 W'),
  'amps at 13.5 V, or the watts on the label',
);

const JOINT_AT = [
  'stator-plug',
  'output-joint',
  'breaker',
  'positive-post',
  'negative-post',
  'ground',
  'sense-wire',
] as const;

const joint = object({
  at: needed(choice(JOINT_AT), 'which joint of the circuit it is'),
  ohms: needed(
    plain(
      'joint-ohms',
      range('resistance', bounds(0, 1, 'from 0 to 1 Ω'), '2 mΩ'),
      'one pin of a plug; a breaker with both its ends',
    ),
    'its resistance when sound',
  ),
});

const LENGTH = quantity('length', bounds(0.02, 6, 'from 2 cm to 6 m'), '0.6 m');
const run = named(
  'run',
  object({
    gauge: needed(plain('gauge', gauge, 'wire size'), 'how thick the wire is'),
    length: needed(plain('length', LENGTH, 'length of wire'), 'how long the wire is'),
    joints: optional(list(joint, 12), 'the joints on the way'),
    note,
  }),
);

const OPEN_VOLTS = range('voltage', bounds(2, 200, 'from 2 to 200 V'), '17.0 V ± 10 %');
const RATED_AMPS = range('current', bounds(1, 100, 'from 1 to 100 A'), '34 A ± 8 %');
const PAIR_OHMS = range('resistance', bounds(0.02, 10, 'from 0.02 to 10 Ω'), '0.18–0.24 Ω');

const alternator = object({
  phases: needed(
    plain('phases', oneOf([1, 3]), '3 or 1'),
    '3 = star with three wires, 1 = one winding on two wires',
  ),
  pins: needed(plain('pins', oneOf([2, 3]), '3 or 2'), 'pins of the stator plug that carry AC'),
  poles: optional(
    plain('poles', count(2, 36, 2, 12), 'an even number'),
    'magnet poles of the rotor, when known',
  ),
  openVolts: needed(
    atSpeed('open-volts', OPEN_VOLTS, '1000 rpm'),
    'AC volts rms between two pins, unplugged, winding cold',
  ),
  ratedAmps: needed(atSpeed('rated-amps', RATED_AMPS, '5000 rpm'), 'DC amps the alternator can give'),
  pairOhms: needed(
    plain('pair-ohms', PAIR_OHMS, 'the range allowed'),
    'resistance between two pins at 25 °C',
  ),
});

const CHARGE_VOLTS = range(
  'voltage',
  bounds(12, 16.5, 'from 12 to 16.5 V; only 12 V bikes are known here'),
  '14.1–14.9 V',
);

const regulator = object({
  type: needed(plain('regulator-type', choice(['shunt', 'series']), 'shunt or series'), 'how it regulates'),
  chargeVolts: needed(
    plain('charge-volts', CHARGE_VOLTS, 'the range allowed'),
    'battery volts at 5000 rpm with a charged battery',
  ),
  senses: needed(
    plain('senses', choice(['output', 'wire']), 'output or wire'),
    'whether it senses the volts at its own output or through a wire of its own',
  ),
});

const battery = object({
  chemistry: needed(plain('chemistry', choice(['flooded', 'agm']), 'flooded or agm'), 'how it is built'),
  capacity: needed(
    plain('capacity', quantity('charge', bounds(3600, 216000, 'from 1 to 60 Ah'), '18 Ah'), 'on its label'),
    'capacity',
  ),
  crankAmps: needed(
    plain('crank-amps', quantity('current', bounds(20, 900, 'from 20 to 900 A'), '270 A'), 'on its label'),
    'cold-cranking amps',
  ),
});

const loads = object({
  ignition: needed(LOAD, 'ignition, fuel pump and instruments'),
  low: needed(LOAD, 'what low beam adds'),
  high: needed(LOAD, 'what high beam adds, in place of low'),
  tail: needed(LOAD, 'tail and instrument lamps with the lights on'),
  accessories: needed(LOAD, "the owner's additions, all on; 0 A when there are none"),
});

const wiring = object({
  stator: optional(run, 'from the stator to the regulator, one wire of it'),
  output: optional(run, 'from regulator + through joint and breaker to the battery + clamp'),
  ground: optional(run, 'from regulator − to the battery − clamp'),
  sense: optional(run, 'the wire through which the regulator senses'),
});

const charging = object({
  alternator: needed(alternator, 'the alternator: rotor and stator'),
  regulator: needed(regulator, 'the regulator with its rectifier'),
  battery: needed(battery, 'the battery'),
  loads: needed(loads, 'what the bike draws'),
  loadsFedFrom: needed(
    plain('fed-from', choice(['battery', 'regulator']), 'battery or regulator'),
    'which side of the main fuse or breaker the loads hang on',
  ),
  fuse: needed(
    plain('fuse', quantity('current', bounds(5, 100, 'from 5 to 100 A'), '30 A'), 'as printed on it'),
    'main fuse or breaker',
  ),
  restDrain: needed(
    plain('drain', quantity('current', bounds(0, 0.5, 'from 0 to 500 mA'), '3 mA'), 'at most this'),
    'the most the bike may draw with the key off',
  ),
  tachometer: needed(plain('tachometer', flag, 'true or false'), 'whether the bike has a tachometer'),
  wiring: optional(wiring, 'runs of wire with their joints'),
});

const about = object({
  maker: needed(text(60, 'Ardmoor'), 'who made it'),
  model: needed(text(60, '650 Pathway'), 'model'),
  year: needed(count(1950, 2100, 1, 1988), 'year of build'),
  invented: needed(flag, 'true for a bike that does not exist'),
  note,
});

/** The whole file, member by member. */
export const SECTIONS = {
  $schema: optional(
    text(200, '../schema/machine.schema.json'),
    'where the schema of this file lies, for editors',
  ),
  version: needed(oneOf([VERSION]), 'version of this file format'),
  about: needed(about, 'which bike this is'),
  sources: needed(record(source, 'book'), 'who says the figures below'),
  charging: needed(charging, 'the charging circuit'),
  parts: optional(partsShape, 'the parts, and what must come off before each'),
  fasteners: optional(fastenersShape, 'screws, nuts, studs and plugs'),
  chains: optional(chainsShape, 'chains with their sprockets'),
  shims: optional(shimsShape, 'sets of shims'),
  fluids: optional(fluidsShape, 'oils and other fluids'),
  work: optional(workShape, 'the way in: actions, targets, tools, supplies, closing steps'),
};

/** The whole file. */
export const machineFile = object(SECTIONS);

export type Machine = Of<typeof machineFile>;
export type Source = Machine['sources'][string];
export type Charging = Machine['charging'];
export type Fastener = NonNullable<Machine['fasteners']>[string];
export type Chain = NonNullable<Machine['chains']>[string];
export type Shims = NonNullable<Machine['shims']>[string];
export type Fluid = NonNullable<Machine['fluids']>[string];
