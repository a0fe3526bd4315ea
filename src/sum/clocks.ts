/** Sums: thread locker and sealant by the clock. */
import { lockerAt, lockerClock, type Surface } from '../joint/locker.ts';
import type { Interval } from '../joint/require.ts';
import { sayTimes } from '../joint/say.ts';
import { sealantAt, sealantClock } from '../joint/sealant.ts';
import { field, openEntries, YES_NO } from './entries.ts';
import { wordLine } from './line.ts';
import type { Picture } from './picture.ts';
import type { Line, Reckoned, Refused, Sum, Texts } from './sum.ts';

const KELVIN = 273.15;
const WEATHER = { least: KELVIN - 40, most: KELVIN + 100 };
const ELAPSED = { least: 0, most: 365 * 86400 };
const SHEET_WINS = 'This is an estimate; the sheet of the product wins.';

/** Minutes and hours in one interval stand each in its own unit: "20 min to 4 h", not "0.33–4 h". */
function timeLine(id: string, words: string, time: Interval, says: (figure: string) => string): Line {
  return wordLine(id, words, sayTimes(time), says(sayTimes(time)));
}

function clockPicture(
  rows: readonly (readonly [name: string, from: Interval])[],
  now: number | null,
  rule: string,
): Picture {
  return {
    kind: 'clock',
    rows: rows.map(([name, from]) => ({ name, words: sayTimes(from), from })),
    now,
    words: [rule, ...(now === null ? [] : [`now ${sayTimes({ low: now, high: now })}`])],
  };
}

const LOCKER_FIELDS = [
  field('temperature', 'Temperature of the parts', 'temperature', 'must', '20 °C', '20 °C'),
  field(
    'surface',
    'The slower of the two metals',
    'choice',
    'may',
    'steel',
    'steel',
    ['steel', 'aluminium', 'stainless', 'plated'].map((id) => ({ id, words: id })),
  ),
  field('primer', 'Primer used', 'choice', 'may', 'no', 'no', YES_NO),
  field('clean', 'Threads clean and dry', 'choice', 'may', 'yes', 'yes', YES_NO),
  field('since', 'Time since it went on', 'time', 'may', '20 min'),
];

function reckonLocker(texts: Texts): Reckoned | Refused {
  const read = openEntries(LOCKER_FIELDS, texts);
  read.demand('temperature');
  const kelvin = read.one('temperature', WEATHER);
  const surface = read.choice('surface') as Surface;
  const [primer, clean] = [read.choice('primer') === 'yes', read.choice('clean') === 'yes'];
  const since = read.one('since', ELAPSED);
  const bad = read.refused();
  if (bad) return bad;
  const clock = lockerClock({ temperature: kelvin! - KELVIN, surface, primer, clean });
  if (!clock.ok) return { ok: false, faults: [{ field: null, why: clock.why }] };
  const lines: Line[] = [
    timeLine(
      'handling',
      'Handling',
      clock.handling,
      (f) => `It may be handled ${f} after it went on; every torque must be done before the first.`,
    ),
    timeLine('full', 'Full strength', clock.full, (f) => `It bears its full load ${f} after it went on.`),
  ];
  if (since !== null) {
    const now = lockerAt(clock, since);
    lines.push(wordLine('now', 'Now', now.phase, now.words));
  }
  const picture = clockPicture(
    [
      ['may be handled', clock.handling],
      ['full strength', clock.full],
    ],
    since,
    'turn no screw once it may be handled',
  );
  return { ok: true, lines, cautions: [SHEET_WINS], notes: [SHEET_WINS], picture, solvedFor: null };
}

export const LOCKER: Sum = {
  id: 'locker',
  words: 'Thread locker',
  about: 'until when a locked screw may be turned, and when it may be loaded',
  fields: LOCKER_FIELDS,
  example: { temperature: '50 °F', surface: 'aluminium', since: '20 min' },
  reckon: reckonLocker,
};

const SEALANT_FIELDS = [
  field('temperature', 'Temperature of the parts', 'temperature', 'must', '20 °C', '20 °C'),
  field('humidity', 'Humidity of the air', 'ratio', 'may', '50 %', '50 %'),
  field('depth', 'Depth of the bead from its open face', 'length', 'must', '2 mm', '2 mm'),
  field(
    'cure',
    'Cure',
    'choice',
    'may',
    'neutral',
    'neutral',
    ['neutral', 'acid'].map((id) => ({ id, words: id })),
  ),
  field('electrics', 'Near stator or electrics', 'choice', 'may', 'yes', 'yes', YES_NO),
  field('since', 'Time since it was laid', 'time', 'may', '20 min'),
];

function reckonSealant(texts: Texts): Reckoned | Refused {
  const read = openEntries(SEALANT_FIELDS, texts);
  read.demand('temperature', 'depth');
  const kelvin = read.one('temperature', WEATHER);
  const humidity = read.one('humidity', { least: 0, most: 1 }) ?? 0.5;
  const depth = read.one('depth', { least: 1e-5, most: 0.05 });
  const [cure, nearElectrics] = [
    read.choice('cure') as 'neutral' | 'acid',
    read.choice('electrics') === 'yes',
  ];
  const since = read.one('since', ELAPSED);
  const bad = read.refused();
  if (bad) return bad;
  const clock = sealantClock({ temperature: kelvin! - KELVIN, humidity, depth: depth!, cure, nearElectrics });
  if (!clock.ok) return { ok: false, faults: [{ field: null, why: clock.why }] };
  const lines: Line[] = [
    timeLine(
      'skin',
      'Skin',
      clock.skin,
      (f) => `It skins ${f} after it was laid; close the joint before the first.`,
    ),
    timeLine('through', 'Cured through', clock.through, (f) => `It is cured through ${f} after it was laid.`),
    timeLine('full', 'Full strength', clock.full, (f) => `It has its full strength ${f} after it was laid.`),
  ];
  if (since !== null) {
    const now = sealantAt(clock, since);
    lines.push(wordLine('now', 'Now', now.phase, now.words));
  }
  const picture = clockPicture(
    [
      ['skins', clock.skin],
      ['cured through', clock.through],
      ['full strength', clock.full],
    ],
    since,
    'close the joint before it skins',
  );
  return { ok: true, lines, cautions: [SHEET_WINS], notes: [SHEET_WINS], picture, solvedFor: null };
}

export const SEALANT: Sum = {
  id: 'sealant',
  words: 'Sealant',
  about: 'when a bead skins, and when oil may be filled',
  fields: SEALANT_FIELDS,
  example: { temperature: '60 °F', since: '2 h' },
  reckon: reckonSealant,
};
