/** Sum: how much thread a screw has hold of, whether it bottoms, how that compares with its strength, and which length is right. */
import { type Engagement, engagement, type ScrewInHole } from '../joint/engagement.ts';
import type { Strength } from '../joint/grade.ts';
import type { Material } from '../joint/material.ts';
import type { Interval } from '../joint/require.ts';
import {
  chooseLength,
  INCH_STOCK,
  type LengthChoice,
  lengthWindow,
  METRIC_STOCK,
  threadWanted,
} from '../joint/screw-length.ts';
import { failure } from '../joint/strip.ts';
import { printNumber } from '../units/print.ts';
import { type Entries, field, openEntries } from './entries.ts';
import { figureLine, shown, wordLine } from './line.ts';
import type { Picture } from './picture.ts';
import { readRow } from './row.ts';
import { BOOK_WINS, type Line, type Reckoned, type Refused, type Sum, type Texts } from './sum.ts';
import { gradeStrength, namedThread, tappedInto } from './thread-field.ts';

const FIELDS = [
  field('thread', 'Thread', 'text', 'must', 'M6'),
  field('length', 'Length of the screw under its head', 'length', 'solve', '25 mm'),
  field('grip', 'What it clamps, gasket included, washer not', 'length', 'must', '12 mm'),
  field('washer', 'Washer', 'length', 'may', '1.6 mm'),
  field('hole', 'Depth of the hole to its bottom; empty where it goes through', 'length', 'may', '18 mm'),
  field('tapped', 'Depth of full thread in the hole', 'length', 'may', '15 mm'),
  field('chamfer', 'Countersink at its mouth, without thread', 'length', 'may', '1 mm'),
  field(
    'plain',
    'Thread on the screw, from its end; empty for thread up to the head',
    'length',
    'may',
    '18 mm',
  ),
  field('into', 'What it is tapped into', 'text', 'may', 'die-cast aluminium'),
  field('grade', 'Grade of the screw', 'text', 'may', '8.8'),
  field('stock', 'Lengths at hand; empty for those usually sold', 'list', 'may', '16, 20, 25, 30 mm'),
];

const LENGTH = { above: 0, most: 0.5 };
const MAY = { least: 0, most: 0.5 };
const at = (value: number) => ({ low: value, high: value });

function readHole(read: Entries): Omit<ScrewInHole, 'length' | 'thread'> {
  const one = (id: string) => read.one(id, MAY) ?? 0;
  const [holeDepth, threadDepth] = [read.one('hole', LENGTH), read.one('tapped', LENGTH)];
  if (holeDepth !== null && threadDepth !== null && threadDepth > holeDepth)
    read.blame('tapped', 'it is deeper than the hole: measure both from the same face.');
  return {
    grip: read.one('grip', MAY) ?? 0,
    washer: one('washer'),
    chamfer: one('chamfer'),
    holeDepth,
    threadDepth,
    threadLength: read.one('plain', LENGTH),
  };
}

function reckon(texts: Texts): Reckoned | Refused {
  const read = openEntries(FIELDS, texts);
  read.demand('thread', 'grip');
  const thread = namedThread(read);
  const strength = gradeStrength(read, thread);
  const material = tappedInto(read);
  const length = read.one('length', LENGTH);
  const hole = readHole(read);
  const stock = readRow(
    read,
    'stock',
    'length',
    { above: 0, most: 0.5 },
    'is no length of a screw: it must be above 0 and at most 500 mm.',
    40,
  );
  const bad = read.refused();
  if (bad) return bad;
  if (!thread) throw new RangeError('a field must be read or blamed, got neither');
  const screw = { ...hole, thread };
  const wanted = threadWanted(thread, strength, material);
  const sold = stock ?? (thread.system === 'inch' ? INCH_STOCK : METRIC_STOCK);
  // A shank grows with the screw: what is sold is reckoned with thread enough.
  const whole = { ...screw, threadLength: null };
  const choice = chooseLength(whole, wanted.engaged.high, sold);
  const has = length === null ? null : engagement({ ...screw, length });
  const lines: Line[] = [];
  if (has && !has.ok) lines.push(wordLine('engaged', 'Thread engaged', 'none', has.why));
  if (has?.ok) lines.push(...engagedLines(has, wanted.engaged, thread.diameter));
  if (has?.ok && strength && material) lines.push(shareLine(has, screw, strength, material));
  lines.push(
    figureLine(
      'wanted',
      'Thread that is enough',
      'length',
      wanted.engaged,
      2,
      (f) => `${f} of thread is enough: ${wanted.by}.`,
    ),
    ...lengthLines(whole, wanted.engaged.high, choice, stock !== null),
  );
  const drawn = length ?? choice.length;
  const shownFit = drawn === null ? null : engagement({ ...screw, length: drawn });
  return {
    ok: true,
    lines,
    cautions: cautionsOf(has?.ok ? has : null, screw),
    picture: drawn === null ? null : picture(screw, drawn, shownFit?.ok ? shownFit : null),
    solvedFor: length === null ? 'length' : null,
  };
}

function engagedLines(has: Engagement, enough: Interval, diameter: number): Line[] {
  const times = printNumber(Number(has.diameters.toPrecision(2)));
  const reaches = (length: number) => has.engaged >= length * (1 - 1e-9);
  const judged = reaches(enough.high)
    ? ''
    : reaches(enough.low)
      ? ': at the edge of what is enough'
      : ': less than is enough';
  const lines = [
    figureLine(
      'engaged',
      'Thread engaged',
      'length',
      at(has.engaged),
      3,
      (f) =>
        `${f} of full thread ${has.bottoms ? 'would hold' : 'hold'}, ${times} diameters of ${shown('length', at(diameter))}${judged}.`,
    ),
  ];
  if (has.room !== null)
    lines.push(
      has.bottoms
        ? wordLine(
            'room',
            'At the bottom',
            'it bottoms',
            `It meets the end of the hole ${shown('length', at(-has.room), 2)} before the head clamps: the torque then clamps nothing.`,
          )
        : figureLine(
            'room',
            'Room under it',
            'length',
            at(has.room),
            2,
            (f) => `${f} are left under the screw.`,
          ),
    );
  return lines;
}

/** What the tapped thread bears over what the screw bears before it breaks (FED-STD-H28 shear areas, partly from memory). */
function shareLine(
  has: Engagement,
  screw: Omit<ScrewInHole, 'length'>,
  strength: Strength,
  material: Material,
): Line {
  const {
    internal,
    external,
    screw: breaks,
    weaker,
  } = failure(screw.thread, strength, material, has.engaged);
  const side = (load: number) => Math.min(load, external) / breaks;
  const share: Interval = { low: side(internal.low), high: side(internal.high) };
  const first = {
    screw: 'the screw breaks first, as it should',
    external: "the screw's own thread strips first",
    internal: 'the tapped thread strips first',
  }[weaker];
  return figureLine(
    'share',
    'Thread against screw',
    'ratio',
    share,
    2,
    (f) => `The thread in ${material.name} bears ${f} of what breaks the screw: ${first}.`,
  );
}

function lengthLines(
  screw: Omit<ScrewInHole, 'length'>,
  engaged: number,
  choice: LengthChoice,
  own: boolean,
): Line[] {
  const right = lengthWindow(screw, engaged);
  const from = own ? 'of those at hand' : 'of those sold';
  const lines: Line[] = [];
  if (choice.length === null)
    lines.push(
      wordLine(
        'right',
        'Right length',
        own ? 'none at hand' : 'none sold',
        choice.wrong === 'too-short'
          ? `All ${from} are too short: ${own ? 'look for another length' : 'look at the grip again'}.`
          : `None ${from} has even half the thread that is enough and stays clear of the bottom: ${own ? 'look for another length' : 'look at grip and depths again'}.`,
      ),
    );
  else {
    const fit = engagement({ ...screw, length: choice.length });
    const held = fit.ok ? `; it has ${shown('length', at(fit.engaged), 3)} of thread` : '';
    lines.push(
      figureLine('right', 'Right length', 'length', at(choice.length), 3, (f) =>
        choice.enough
          ? `Take ${f}, the shortest ${from} with thread enough${held}.`
          : `Take ${f}, the longest ${from} that does not meet the bottom${held}, less than is enough.`,
      ),
    );
  }
  if (!right)
    lines.push(
      wordLine(
        'window',
        'Lengths that would do',
        'none',
        'The hole is too shallow for that much thread with one pitch of room under the screw (common practice, no source): measure its depth again, and look at what the book fits there; a longer screw bottoms.',
      ),
    );
  else if (Number.isFinite(right.high))
    lines.push(
      figureLine(
        'window',
        'Lengths that would do',
        'length',
        right,
        3,
        (f) => `Anything of ${f} would do, with one pitch of room under it (common practice, no source).`,
      ),
    );
  return lines;
}

function cautionsOf(has: Engagement | null, screw: Omit<ScrewInHole, 'length'>): readonly string[] {
  const { holeDepth = null, threadDepth = null, thread } = screw;
  const blind = holeDepth !== null || threadDepth !== null;
  return [
    has?.bottoms
      ? 'It bottoms: it feels tight and clamps nothing, and may burst the casting. A shorter screw, or a washer of the right thickness.'
      : '',
    has && !has.bottoms && has.room !== null && has.room < thread.pitch * (1 - 1e-9)
      ? 'Less than one pitch is left under it: a thinner gasket or no washer, and it bottoms.'
      : '',
    has?.shankJams
      ? 'Its plain shank meets the thread before the head clamps: take a screw with more thread, or a washer.'
      : '',
    holeDepth !== null && threadDepth === null
      ? 'A tap leaves the last 2 to 3 threads of a blind hole shallow (common practice, no source): turn a clean screw in by hand and count; turns times pitch is the depth of full thread.'
      : '',
    blind
      ? 'Blow a blind hole dry: oil or locker shut in under the screw can burst the casting, and falsifies the torque.'
      : '',
    BOOK_WINS,
  ].filter((caution) => caution !== '');
}

function picture(screw: Omit<ScrewInHole, 'length'>, length: number, fit: Engagement | null): Picture {
  const { thread, grip, washer = 0, chamfer = 0, threadDepth = null, holeDepth = null } = screw;
  const clamped = grip + washer;
  return {
    kind: 'screw-hole',
    diameter: thread.diameter,
    pitch: thread.pitch,
    length,
    clamped,
    reach: length - clamped,
    chamfer,
    threadDepth,
    holeDepth,
    bottoms: fit?.bottoms ?? false,
    words: [
      `screw ${shown('length', at(length))}`,
      `clamps ${shown('length', at(clamped))}`,
      fit ? `holds ${shown('length', at(fit.engaged))}` : 'holds nothing',
      ...(fit?.bottoms ? ['it meets the bottom'] : []),
    ],
  };
}

export const ENGAGEMENT: Sum = {
  id: 'engagement',
  words: 'Screw length',
  about: 'how much thread a screw has hold of, whether it bottoms, and which length is right',
  fields: FIELDS,
  example: {
    thread: 'M6',
    length: '25 mm',
    grip: '12 mm',
    washer: '1.6 mm',
    hole: '18 mm',
    tapped: '15 mm',
    into: 'die-cast aluminium',
    grade: '8.8',
  },
  reckon,
};
