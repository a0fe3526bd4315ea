/** Sum: what a bar or tool that locks the drive puts on the teeth and the chain while a nut is loosened or tightened. */
import { CHAIN_SHARE_MOST, gearRadius, loadAtRadius, sprocketRadius } from '../joint/lock-bar.ts';
import type { LockerStrength } from '../joint/locker.ts';
import { undoTorque } from '../joint/undo-torque.ts';
import { printNumber } from '../units/print.ts';
import { readChain } from './chain-pitch.ts';
import { type Entries, field, openEntries, YES_NO } from './entries.ts';
import { figureLine, shown } from './line.ts';
import { BOOK_WINS, type Line, type Reckoned, type Refused, type Sum, type Texts } from './sum.ts';

const ids = (...all: readonly string[]) => all.map((id) => ({ id, words: id }));

const FIELDS = [
  field('job', 'The nut is to be', 'choice', 'may', 'loosened', 'loosened', ids('loosened', 'tightened')),
  field('torque', 'Torque of the nut', 'torque', 'must', '110 lbf·ft'),
  field(
    'locker',
    'Locker on it, when it is loosened',
    'choice',
    'may',
    'high',
    'none',
    ids('none', 'low', 'medium', 'high'),
  ),
  field('corroded', 'Corroded', 'choice', 'may', 'no', 'no', YES_NO),
  field('teeth', 'Teeth of the wheel that turns with the nut', 'text', 'must', '24'),
  field('chain', 'Its chain, by number or pitch; empty for a gear', 'text', 'may', '#40'),
  field(
    'strength',
    'Strength of the chain, all strands, where its number does not tell',
    'force',
    'may',
    '3125 lbf',
  ),
  field('outside', 'Outside diameter of the gear; empty for a sprocket', 'length', 'may', '80 mm'),
  field('engine', 'Most torque that runs through this wheel when riding', 'torque', 'may', '60 N·m'),
];

/** Times the running torque from which a locked tooth is told to be hard used: common practice, no source. */
const HARD = 3;
const at = (value: number) => ({ low: value, high: value });

interface Wheel {
  /** Pitch radius, m. */
  readonly radius: number;
  /** Strength of its chain, N; null for a gear or where it is not known. */
  readonly tensile: number | null;
  readonly gear: boolean;
  readonly teeth: number;
}

function wheelOf(read: Entries): Wheel | null {
  const teeth = read.whole('teeth', 6, 400);
  const chain = readChain(read, 'chain');
  const strength = read.one('strength', { above: 100, most: 1e6 });
  const outside = read.one('outside', { above: 0.005, most: 1 });
  if (read.empty('chain') === read.empty('outside'))
    return read.blame(
      read.empty('chain') ? 'chain' : 'outside',
      read.empty('chain')
        ? 'neither a chain nor the diameter of a gear is entered: enter one of them.'
        : 'a chain and a gear are both entered: take one of them out.',
    );
  if (!read.empty('strength') && read.empty('chain'))
    read.blame('strength', 'it belongs to a chain, and none is entered: leave it empty for a gear.');
  if (teeth === null) return null;
  if (chain)
    return {
      radius: sprocketRadius(teeth, chain.pitch),
      tensile: strength ?? chain.standard?.tensile ?? null,
      gear: false,
      teeth,
    };
  return outside === null ? null : { radius: gearRadius(teeth, outside), tensile: null, gear: true, teeth };
}

function reckon(texts: Texts): Reckoned | Refused {
  const read = openEntries(FIELDS, texts);
  read.demand('torque', 'teeth');
  const torque = read.span('torque', { above: 0, most: 2000 });
  const loosen = read.choice('job') !== 'tightened';
  const [locker, corroded] = [read.choice('locker'), read.choice('corroded') === 'yes'];
  const wheel = wheelOf(read);
  const engine = read.one('engine', { above: 0, most: 2000 });
  const bad = read.refused();
  if (bad) return bad;
  if (!torque || !wheel) throw new RangeError('a field must be read or blamed, got neither');
  const undo = loosen
    ? undoTorque({ fitted: torque, locker: locker === 'none' ? null : (locker as LockerStrength), corroded })
    : null;
  const turn = undo?.plan ?? torque.high;
  const load = loadAtRadius(turn, wheel.radius);
  const lines: Line[] = [
    figureLine('turn', undo ? 'Be ready for' : 'On the nut', 'torque', at(turn), 3, (f) =>
      undo
        ? `It comes off at about ${shown('torque', undo.torque, 2)}, an estimate; be ready for ${f}, one and a half times what it was fitted with.`
        : `The nut gets ${f}, and the bar holds all of it.`,
    ),
    figureLine(
      'load',
      'On the teeth',
      'force',
      at(load),
      3,
      (f) =>
        `The bar bears on the teeth with ${f}, at ${shown('length', at(wheel.radius), 3)} from the middle of the wheel.`,
    ),
  ];
  const cautions: string[] = [];
  if (wheel.tensile !== null)
    lines.push(...chainLines(wheel.tensile, wheel.radius, load, turn, undo?.torque.high ?? turn, cautions));
  if (engine !== null) {
    const times = turn / engine;
    lines.push({
      ...figureLine('engine', 'Against riding', 'ratio', at(times), 2, () => ''),
      metric: `${printNumber(Number(times.toPrecision(2)))} times`,
      inch: `${printNumber(Number(times.toPrecision(2)))} times`,
      says: `The locked teeth bear ${printNumber(Number(times.toPrecision(2)))} times what they bear at most when riding.`,
    });
    if (times > HARD)
      cautions.push(
        `More than ${HARD} times the riding load on one place of the teeth is hard use (common practice, no source): hold the wheel with a holder that takes several teeth, or by its spokes or bolt holes.`,
      );
  }
  cautions.push(...placeCautions(wheel.gear, wheel.tensile, loosen), BOOK_WINS);
  const picture = {
    kind: 'lock-bar' as const,
    radius: wheel.radius,
    teeth: wheel.teeth,
    gear: wheel.gear,
    loosen,
    share: wheel.tensile === null ? null : { value: load / wheel.tensile, most: CHAIN_SHARE_MOST },
    words: [
      `${shown('force', at(load))} on the teeth`,
      `nut ${shown('torque', at(turn))}`,
      `bears ${shown('length', at(wheel.radius), 3)} from the middle`,
    ],
  };
  return { ok: true, lines, cautions, picture, solvedFor: null };
}

function chainLines(
  tensile: number,
  radius: number,
  load: number,
  turn: number,
  high: number,
  cautions: string[],
): Line[] {
  const share = load / tensile;
  // Torque at which the chain bears the most it may: F = T/R turned round.
  const stop = CHAIN_SHARE_MOST * tensile * radius;
  if (share > CHAIN_SHARE_MOST * (1 + 1e-9))
    cautions.push(
      `The chain would bear ${Math.round(share * 100)} % of its strength, and ${Math.round(CHAIN_SHARE_MOST * 100)} % is the most: hold the drive another way.`,
    );
  else if (high > stop)
    cautions.push(
      `It may take up to ${shown('torque', at(high), 2)}: stop at ${shown('torque', at(stop))}, and use heat or another hold instead.`,
    );
  return [
    figureLine(
      'share',
      'Share of the chain’s strength',
      'ratio',
      at(share),
      2,
      (f) => `That is ${f} of the least strength of a new chain; a worn one has less.`,
    ),
    figureLine(
      'stop',
      'Stop at',
      'torque',
      at(stop),
      3,
      (f) =>
        `At ${f} on the nut the chain would bear half its strength${stop < turn ? ', and that is less than it may take' : ''}; go no further.`,
    ),
  ];
}

function placeCautions(gear: boolean, tensile: number | null, loosen: boolean): readonly string[] {
  const turned = loosen ? 'loosening' : 'tightening';
  return [
    ...(gear
      ? [
          `Put it where the teeth run together in ${turned}; for the other direction that is the other side of the mesh. It also pushes the two shafts apart (common practice, no source).`,
          'Hard steel chips hardened teeth: copper or aluminium between them, across their whole width (common practice, no source).',
        ]
      : [
          'Steel bar on the tooth roots only, never on rotor, stator or casting.',
          ...(tensile === null
            ? ['The strength of this chain is not known here: enter it, or hold the wheel without the chain.']
            : []),
        ]),
    'Take up the slack by hand, then pull slowly; no impact wrench against a lock bar (common practice, no source).',
  ];
}

export const LOCK_BAR: Sum = {
  id: 'lock-bar',
  words: 'Lock bar',
  about: 'what a bar between the teeth bears while a nut is loosened or tightened',
  fields: FIELDS,
  example: { torque: '150 N·m', teeth: '24', chain: '#40', engine: '60 N·m' },
  reckon,
};
