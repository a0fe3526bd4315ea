/** Sum: breaking a tight nut loose: torque to be ready for, hand and bar, and whether the bike stays on its lift. */
import { breakLoose } from '../joint/break-loose.ts';
import type { LockerStrength } from '../joint/locker.ts';
import type { PushWay } from '../joint/tip.ts';
import { PLAN_FACTOR } from '../joint/undo-torque.ts';
import { field, openEntries, YES_NO } from './entries.ts';
import { figureLine, shown, wordLine } from './line.ts';
import { BOOK_WINS, type Line, type Reckoned, type Refused, type Sum, type Texts } from './sum.ts';

const ids = (...all: readonly string[]) => all.map((id) => ({ id, words: id }));

const FIELDS = [
  field('fitted', 'Torque it was fitted with', 'torque', 'must', '165 lbf·ft'),
  field('locker', 'Locker on it', 'choice', 'may', 'high', 'none', ids('none', 'low', 'medium', 'high')),
  field('corroded', 'Corroded', 'choice', 'may', 'no', 'no', YES_NO),
  field(
    'thread',
    'Which way the thread runs',
    'choice',
    'must',
    'right',
    'unknown',
    ids('right', 'left', 'unknown'),
  ),
  field('bar', 'Nut to the hand', 'length', 'solve', '24 in'),
  field('force', 'Push of the hand', 'force', 'solve', '50 lbf'),
  field(
    'way',
    'Which way the hand pushes',
    'choice',
    'may',
    'down',
    'down',
    ids('down', 'up', 'sideways', 'along'),
  ),
  field('mass', 'Bike as it stands; empty for a joint on the bench', 'mass', 'may', '300 kg'),
  field('width', 'Width of its support', 'length', 'may', '250 mm'),
  field('support', 'Length of its support', 'length', 'may', '400 mm'),
  field('offset', 'Middle of the bike to the bar', 'length', 'may', '300 mm'),
  field('height', 'Hand above the support', 'length', 'may', '900 mm'),
  field('tied', 'Tied down', 'choice', 'may', 'no', 'no', YES_NO),
  field('held', 'Wheels chocked or clamped', 'choice', 'may', 'no', 'no', YES_NO),
  field('magnets', 'Magnets or a seal near', 'choice', 'may', 'yes', 'yes', YES_NO),
];

/** Measures that each way of pushing needs besides the width. */
const NEEDED: Readonly<Partial<Record<PushWay, readonly string[]>>> = {
  up: ['offset'],
  down: ['offset'],
  sideways: ['height'],
  along: ['height', 'support'],
};

function reckon(texts: Texts): Reckoned | Refused {
  const read = openEntries(FIELDS, texts);
  read.demand('fitted');
  const fitted = read.span('fitted', { above: 0, most: 2000 });
  const length = { above: 0, most: 5 };
  const bar = read.one('bar', length);
  const force = read.one('force', { above: 0, most: 5000 });
  const mass = read.one('mass', { above: 0, most: 1000 });
  const width = read.one('width', length);
  const support = read.one('support', length);
  const offset = read.one('offset', { least: 0, most: 5 });
  const height = read.one('height', { least: 0, most: 5 });
  const [locker, thread, way] = [read.choice('locker'), read.choice('thread'), read.choice('way') as PushWay];
  const [corroded, tiedDown, wheelsHeld, magnets] = ['corroded', 'tied', 'held', 'magnets'].map(
    (id) => read.choice(id) === 'yes',
  ) as [boolean, boolean, boolean, boolean];
  if (read.empty('bar') && read.empty('force'))
    read.blame('bar', 'neither the bar nor the push is entered: enter one of them.');
  if (!read.empty('bar') && !read.empty('force'))
    read.blame('force', 'bar and push are both entered: leave one empty, it is worked out.');
  if (!read.empty('mass')) read.demand('width', ...(NEEDED[way] ?? []));
  const bad = read.refused();
  if (bad) return bad;
  const lever = bar ?? (PLAN_FACTOR * fitted!.high) / force!;
  const found = breakLoose({
    undo: { fitted: fitted!, locker: locker === 'none' ? null : (locker as LockerStrength), corroded },
    thread: thread === 'unknown' ? null : (thread as 'right' | 'left'),
    bar: lever,
    way,
    stand:
      mass !== null && width !== null
        ? {
            mass,
            halfWidth: width / 2,
            ...(offset === null ? {} : { offset }),
            ...(height === null ? {} : { height }),
            ...(support === null ? {} : { halfLength: support / 2 }),
          }
        : null,
    tiedDown,
    wheelsHeld,
    nearMagnetOrSeal: magnets,
  });
  if (!found.ok)
    return { ok: false, faults: [{ field: thread === 'unknown' ? 'thread' : null, why: found.why }] };
  const at = (value: number) => ({ low: value, high: value });
  const lines: Line[] = [
    figureLine(
      'undo',
      'Comes off at',
      'torque',
      found.undo.torque,
      2,
      (f) => `It comes off at about ${f}, an estimate.`,
    ),
    figureLine(
      'plan',
      'Be ready for',
      'torque',
      at(found.undo.plan),
      3,
      (f) => `Be ready for ${f}, ${found.turn}.`,
    ),
    figureLine('bar', 'Bar', 'length', at(lever), 3, (f) => `The bar is ${f} from the nut to the hand.`),
    figureLine('force', 'Push', 'force', at(found.force), 3, (f) => `The hand pushes with ${f}.`),
  ];
  if (found.safety !== null)
    lines.push(
      wordLine(
        'safety',
        'Safety against tipping',
        Number(found.safety.toPrecision(3)),
        `The bike stands ${found.safety.toPrecision(3)} times over; 2 is asked.`,
      ),
    );
  const cautions = [...found.cautions.map(({ words }) => words), BOOK_WINS];
  const picture =
    width === null
      ? null
      : {
          kind: 'lift' as const,
          halfWidth: width / 2,
          offset: offset ?? 0.3,
          height: height ?? 0.4,
          way,
          words: [
            `push ${shown('force', at(found.force))}`,
            `on a bar of ${shown('length', at(lever))}`,
            ...(found.safety === null
              ? []
              : [`stands ${found.safety.toPrecision(3)} times over; 2 is asked`]),
          ],
        };
  return { ok: true, lines, cautions, picture, solvedFor: bar === null ? 'bar' : 'force' };
}

export const BREAK_LOOSE: Sum = {
  id: 'break-loose',
  words: 'Break loose',
  about: 'torque, bar and push for a tight nut, and whether the bike tips',
  fields: FIELDS,
  example: {
    fitted: '150 N·m',
    thread: 'right',
    bar: '600 mm',
    way: 'up',
    mass: '300 kg',
    width: '250 mm',
    offset: '300 mm',
  },
  reckon,
};
