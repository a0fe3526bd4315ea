/**
 * Sum: does it charge: what the alternator gives at a speed against what the bike draws, and from which speed on it holds
 * the battery. The bridge's current is the exact one for a balanced alternator (room `circuit`), with the inductance from
 * the rated output; regulator and wiring are taken for sound.
 */
import { bridgeAmps } from '../circuit/closed-form.ts';
import { henryFromRated } from '../circuit/sound.ts';
import { field, openEntries } from './entries.ts';
import { figureLine, shown, wordLine } from './line.ts';
import { BOOK_WINS, type Line, type Reckoned, type Refused, type Sum, type Texts } from './sum.ts';

const DIODE_VOLTS = 0.75;
const DIODE_OHM = 0.012;
/** What copper and magnets leave of it hot: windings at 110 °C, magnets 6 % down (common practice, no source). */
const HOT = { ohm: 1.334, emf: 0.94 };
/** Pole pairs only fix the frequency, which the rated output takes out again. */
const POLE_PAIRS = 6;

const FIELDS = [
  field('phases', 'Wires of the stator', 'choice', 'must', '3', '3', [
    { id: '3', words: 'three' },
    { id: '1', words: 'two' },
  ]),
  field('open', 'AC volts between two pins, unplugged', 'voltage', 'must', '17 V'),
  field('openAt', '… at this speed', 'rotation', 'must', '1000 rpm', '1000 rpm'),
  field('rated', 'Amps it can give', 'current', 'must', '34 A'),
  field('ratedAt', '… at this speed', 'rotation', 'must', '5000 rpm', '5000 rpm'),
  field('ohms', 'Resistance between two pins', 'resistance', 'must', '0.2 Ω'),
  field('loads', 'What the bike draws with all that is on', 'current', 'must', '14 A'),
  field('more', 'Heated gear and the like besides', 'current', 'may', '5 A'),
  field('idle', 'Idle speed', 'rotation', 'may', '1000 rpm', '1000 rpm'),
  field('volts', 'Volts at the battery', 'voltage', 'may', '14 V', '14 V'),
];

const TAKEN = 'Wiring and regulator are taken for sound; what is lost in them comes on top.';
const SPEED = { above: 5, most: 250 };

function reckon(texts: Texts): Reckoned | Refused {
  const read = openEntries(FIELDS, texts);
  const phases = read.choice('phases') === '1' ? 1 : 3;
  read.demand('open', 'openAt', 'rated', 'ratedAt', 'ohms', 'loads');
  const open = read.one('open', { above: 1, most: 200 });
  const openAt = read.one('openAt', SPEED);
  const rated = read.one('rated', { above: 0.5, most: 100 });
  const ratedAt = read.one('ratedAt', SPEED);
  const ohms = read.one('ohms', { above: 0, most: 20 });
  const loads = read.one('loads', { least: 0, most: 100 });
  const more = read.one('more', { least: 0, most: 60 }) ?? 0;
  const idle = read.one('idle', SPEED) ?? 1000 / 60;
  const volts = read.one('volts', { above: 10, most: 16.5 }) ?? 14;
  const bad = read.refused();
  if (bad) return bad;
  // Speeds are turns a second here.
  const perTurn = (open! * Math.SQRT2) / openAt! / (phases === 3 ? Math.sqrt(3) : 1);
  const winding = phases === 3 ? ohms! / 2 : ohms!;
  const omega = (speed: number) => 2 * Math.PI * POLE_PAIRS * speed;
  if (perTurn * ratedAt! * (phases === 3 ? Math.sqrt(3) : 1) <= volts + 2 * DIODE_VOLTS)
    return {
      ok: false,
      faults: [
        {
          field: 'open',
          why: 'AC volts between two pins, unplugged: at the speed of the rated amps they do not even reach the battery’s volts; check volts and speed.',
        },
      ],
    };
  const henry = henryFromRated(phases, perTurn * ratedAt!, winding, rated!, omega(ratedAt!));
  const amps = (speed: number, hot: boolean): number => {
    const emf = perTurn * speed * (hot ? HOT.emf : 1);
    const ohm = winding * (hot ? HOT.ohm : 1) + (phases === 3 ? DIODE_OHM : 2 * DIODE_OHM);
    return bridgeAmps(phases, emf, omega(speed) * henry, ohm, volts + 2 * DIODE_VOLTS);
  };
  const span = (speed: number) => {
    const [cold, hot] = [amps(speed, false), amps(speed, true)];
    return { low: Math.min(cold, hot), high: Math.max(cold, hot) };
  };
  const need = loads! + more;
  const lines: Line[] = [
    figureLine(
      'idle',
      'It gives at idle',
      'current',
      span(idle),
      2,
      (f) => `At idle it gives ${f}, hot and cold.`,
    ),
    figureLine(
      'running',
      'It gives at 3000 rpm',
      'current',
      span(50),
      2,
      (f) => `At 3000 rpm it gives ${f}.`,
    ),
    figureLine(
      'need',
      'The bike draws',
      'current',
      { low: need, high: need },
      3,
      (f) => `All that is on draws ${f}.`,
    ),
  ];
  const even = [false, true].map((hot) => evenSpeed((speed) => amps(speed, hot), need));
  const [cold, hot] = even as [number | null, number | null];
  if (cold === null || hot === null)
    lines.push(
      wordLine(
        'even',
        'It holds the battery',
        cold === null ? 'never' : 'only cold',
        'At no speed up to 12,000 rpm does it give as much as is drawn: switch something off.',
      ),
    );
  else
    lines.push(
      figureLine(
        'even',
        'It holds the battery from',
        'rotation',
        { low: Math.min(cold, hot), high: Math.max(cold, hot) },
        2,
        (f) => `From ${f} on it gives what is drawn; below, the battery does.`,
      ),
    );
  const left = span(idle);
  if (left.high < need)
    lines.push(
      figureLine(
        'drained',
        'The battery gives at idle',
        'current',
        { low: Math.max(0, need - left.high), high: need - left.low },
        2,
        (f) => `At idle the battery gives ${f} of it.`,
      ),
    );
  return {
    ok: true,
    lines,
    cautions: [TAKEN, BOOK_WINS],
    notes: [TAKEN],
    picture: {
      kind: 'power-balance',
      rows: [
        { name: 'at idle', words: gives(span(idle), volts), amps: span(idle) },
        { name: 'at 3000 rpm', words: gives(span(50), volts), amps: span(50) },
        {
          name: `at ${shown('rotation', only(ratedAt!))}`,
          words: gives(span(ratedAt!), volts),
          amps: span(ratedAt!),
        },
      ],
      need,
      words: [`drawn: ${gives(only(need), volts)}`, `at ${shown('voltage', only(volts))} at the battery`],
    },
    solvedFor: null,
  };
}

const only = (value: number) => ({ low: value, high: value });

/** "21 A, 290 W": what the loads are sold by beside what the meter shows. */
function gives(amps: { readonly low: number; readonly high: number }, volts: number): string {
  const watts = { low: amps.low * volts, high: amps.high * volts };
  return `${shown('current', amps, 2)}, ${shown('power', watts, 2)}`;
}

/** The speed from which the current is enough, turns a second; null where none up to 200 is. */
function evenSpeed(amps: (speed: number) => number, need: number): number | null {
  let [low, high] = [0.5, 200];
  if (amps(high) < need) return null;
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    if (amps(middle) < need) low = middle;
    else high = middle;
  }
  return high;
}

export const LOAD_BALANCE: Sum = {
  id: 'load-balance',
  words: 'Load balance',
  about: 'whether the alternator feeds what is switched on, and from which speed',
  fields: FIELDS,
  example: { phases: '3', open: '17 V', rated: '34 A', ohms: '0.21 Ω', loads: '15 A', more: '6 A' },
  reckon,
};
