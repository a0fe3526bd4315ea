/**
 * The mechanical half of the machine file's definition: parts with what blocks them, fasteners, chains, shims and
 * fluids. Every section and nearly every member may be left out: a figure that is missing weakens the blunder check
 * and nothing else. Threads, grades, materials and thread conditions are texts as a person would write them; room
 * `joint` reads them when the file is checked, and what it cannot read becomes a finding, not a refusal.
 */
import { type Bounds, plain, quantity, range } from './figure.ts';
import { choice, count, flag, list, needed, object, optional, record, text } from './shape.ts';

const bounds = (low: number, high: number, words: string): Bounds => ({ low, high, words });
const note = optional(text(2000, 'invented'), 'a remark');
const name = needed(text(80, 'stator screws'), 'what one calls it');
const partId = text(40, 'primary-cover');
const fastenerId = text(40, 'cover-screws');

/** Kinds of fastener: what is turned, and against what. */
export const FASTENER_KINDS = ['screw', 'nut', 'stud', 'plug', 'adjuster'] as const;
/** How often a fastener is undone. */
export const OPENED = ['every-service', 'repairs', 'rarely'] as const;

const SMALL = bounds(0, 1, 'from 0 to 1 m (39 in)');
const smallLength = (example: string) => quantity('length', SMALL, example);

const TORQUE = range('torque', bounds(0.05, 1500, 'from 0.05 to 1500 N·m (1100 lbf·ft)'), '7–9 lbf·ft');
const torque = plain('torque', TORQUE, 'torque at the fastener, with its unit');
const screwLength = plain('screw-length', smallLength('25 mm'), 'with its unit');

const hole = object({
  material: optional(plain('material', text(80, 'die-cast aluminium'), 'in words'), 'what it is tapped into'),
  threadDepth: optional(screwLength, 'depth of full thread, from the face the clamped parts lie on'),
  depth: optional(screwLength, 'depth to the bottom; left out for a hole that goes through'),
  chamfer: optional(screwLength, 'depth of the countersink at its mouth, where there is no thread'),
  through: optional(flag, 'true for a hole that goes through'),
});

const position = object({
  x: needed(quantity('length', bounds(-2, 2, 'from −2 to 2 m'), '40 mm'), 'to the right'),
  y: needed(quantity('length', bounds(-2, 2, 'from −2 to 2 m'), '0 mm'), 'upwards'),
});

const fastener = object({
  name,
  kind: optional(choice(FASTENER_KINDS), 'screw unless said otherwise'),
  part: optional(partId, 'id of the part it holds'),
  count: optional(count(1, 60, 1, 4), 'how many there are'),
  positions: optional(list(position, 60), 'where each sits, seen from outside'),
  thread: optional(
    plain('thread', text(60, 'M6 × 1'), 'like M6 × 1 or 1/4-20 UNC; LH for left-hand'),
    'its thread',
  ),
  diameter: optional(
    plain('thread-diameter', smallLength('8 mm'), 'outside'),
    'diameter of a thread in no table',
  ),
  pitch: optional(
    plain('thread-pitch', smallLength('1 mm'), 'crest to crest'),
    'pitch of a thread in no table',
  ),
  grade: optional(plain('grade', text(60, '8.8'), 'as the head shows it'), 'its grade'),
  length: optional(screwLength, 'length under the head'),
  grip: optional(screwLength, 'thickness of all it clamps, washers not'),
  washer: optional(screwLength, 'thickness of the washers'),
  threadLength: optional(screwLength, 'length of thread from its end; left out when threaded to the head'),
  hole: optional(hole, 'the tapped hole'),
  torque: optional(torque, 'final torque'),
  stages: optional(list(torque, 8), 'torque stages on the way, the final one may be the last'),
  condition: optional(
    plain('condition', text(80, 'clean and dry'), 'dry, oiled, anti-seize, locker …'),
    'state of the threads the torque is meant for',
  ),
  locker: optional(
    plain('locker', choice(['none', 'low', 'medium', 'high']), 'strength, or none'),
    'thread locker',
  ),
  loosens: optional(
    plain('loosens', choice(['anticlockwise', 'clockwise']), 'clockwise for a left-hand thread'),
    'which way it is turned to undo it',
  ),
  reuse: optional(
    plain('reuse', choice(['reuse', 'inspect', 'new']), 'new = a new one each time'),
    'whether it may be used again',
  ),
  opened: optional(choice(OPENED), 'how often it is undone'),
  note,
});

const part = object({
  name: needed(text(80, 'primary cover'), 'what one calls it'),
  blockedBy: optional(list(partId, 20), 'ids of the parts that must come off first'),
  heldBy: optional(list(fastenerId, 20), 'ids of the fasteners that hold it'),
  note,
});

const teeth = plain('teeth', count(6, 150, 1, 24), 'counted');
const CENTRE = range('length', bounds(0.02, 2, 'from 2 cm to 2 m'), '330 mm');
const SLACK = range('length', bounds(0, 0.5, 'from 0 to 50 cm'), '5/8–7/8 in');

const chain = object({
  name: needed(text(80, 'primary chain'), 'what one calls it'),
  pitch: needed(
    plain(
      'chain-pitch',
      quantity('length', bounds(0.003, 0.06, 'from 3 to 60 mm'), '12.7 mm'),
      'pin to pin; of a double-row chain the same',
    ),
    'its pitch',
  ),
  drivingTeeth: optional(teeth, 'teeth of the driving sprocket'),
  drivenTeeth: optional(teeth, 'teeth of the driven sprocket'),
  links: optional(plain('links', count(10, 400, 1, 82), 'inner and outer ones counted'), 'links'),
  centre: optional(plain('centre', CENTRE, 'shaft to shaft; a range when it is adjusted'), 'centre distance'),
  adjusted: optional(choice(['shafts', 'shoe', 'not']), 'how its slack is set'),
  slack: optional(
    plain('slack', SLACK, 'whole movement up and down at mid-span, tightest spot'),
    'slack wanted',
  ),
  slackWhen: optional(choice(['cold', 'hot']), 'at which state of the engine the slack is meant'),
  note,
});

const THICKNESS = bounds(1e-6, 0.1, 'from 1 µm to 10 cm');
const thickness = quantity('length', THICKNESS, '0.5 mm');

const shims = object({
  name: needed(text(80, 'compensator shims'), 'what they set'),
  sizes: needed(
    list(
      object({
        thickness: needed(thickness, 'thickness of one'),
        count: needed(count(1, 100, 1, 2), 'how many are at hand'),
      }),
      24,
    ),
    'the shims at hand',
  ),
  most: optional(count(1, 8, 1, 3), 'most shims in one stack'),
  stack: optional(
    plain('shim-stack', range('length', bounds(0, 0.1, 'from 0 to 10 cm'), '0.95–1.05 mm'), 'limits'),
    'thickness of stack that is wanted',
  ),
  bare: optional(plain('bare-play', smallLength('1.2 mm'), 'measured'), 'play without any shim'),
  play: optional(
    plain('end-play', range('length', bounds(0, 0.1, 'from 0 to 10 cm'), '0.1–0.3 mm'), 'limits'),
    'play that is wanted with the shims fitted',
  ),
  note,
});

const VOLUME = range('volume', bounds(1e-6, 0.05, 'from 1 ml to 50 l'), '38–44 fl oz');
const volume = plain('volume', VOLUME, 'with its unit');

const fluid = object({
  name: needed(text(80, 'primary oil'), 'which fluid, and where'),
  amount: needed(volume, 'how much goes in at a change'),
  dry: optional(volume, 'how much goes in after the case was dry'),
  space: optional(volume, 'volume of the empty case or vessel it goes into'),
  plug: optional(text(40, 'drain-plug'), 'id of the fastener that drains it'),
  note,
});

export const partsShape = record(part, 'primary-cover');
export const fastenersShape = record(fastener, 'stator-screws');
export const chainsShape = record(chain, 'primary');
export const shimsShape = record(shims, 'compensator');
export const fluidsShape = record(fluid, 'primary-oil');
export const fastenerShape = fastener;
