/** Sums: length of a chain and distance of its shafts, its slack cold and hot, its wear. */
import {
  centreDistance,
  type Drive,
  freeSpan,
  leastCentre,
  pitchDiameter,
  tangentLength,
} from '../drive/chain.ts';
import { slackWhenHot } from '../drive/heat.ts';
import { lengthForFixedCentre } from '../drive/length.ts';
import { settingFor } from '../drive/setting.ts';
import { shoeTravel } from '../drive/shoe.ts';
import { centreForSlack, MOST_SLACK_SHARE, slackAtCentre, slackOfChain } from '../drive/slack.ts';
import { judgeWear, lengthAtWear, wearLimit } from '../drive/wear.ts';
import { readChain } from './chain-pitch.ts';
import { type Entries, field, openEntries, YES_NO } from './entries.ts';
import { figureLine, shown, wordLine } from './line.ts';
import { BOOK_WINS, type Line, type Reckoned, type Refused, type Sum, type Texts } from './sum.ts';

const PITCH = field('pitch', 'Chain, its number or its pitch', 'text', 'must', '#40 or 520');
const TEETH = [
  field('small', 'Teeth of one sprocket', 'text', 'must', '24'),
  field('large', 'Teeth of the other', 'text', 'must', '36'),
];
const LENGTH = { above: 0, most: 5 };

function at(value: number) {
  return { low: value, high: value };
}

function fail(field: string | null, why: string): Refused {
  return { ok: false, faults: [{ field, why }] };
}

/** Pitch, teeth and, where it is entered, a centre distance at which the sprockets do not meet. */
function driveOf(read: Entries, centreMust: boolean) {
  read.demand('pitch', 'small', 'large', ...(centreMust ? ['centre'] : []));
  const pitch = readChain(read)?.pitch ?? null;
  const teeth = [read.whole('small', 6, 400), read.whole('large', 6, 400)] as const;
  const centre = read.one('centre', LENGTH);
  const [one, two] = teeth;
  if (pitch === null || one === null || two === null) return null;
  const least = leastCentre(pitch, [one, two]);
  if (centre !== null && centre <= least * (1 + 1e-9))
    return read.blame(
      'centre',
      `at ${shown('length', at(centre))} the sprockets would meet: it must be above ${shown('length', at(least))}.`,
    );
  return { pitch, teeth: [one, two] as const, centre };
}

const LENGTH_FIELDS = [
  PITCH,
  ...TEETH,
  field('centre', 'Distance of the shafts', 'length', 'solve', '330 mm'),
  field('links', 'Pitches of the chain', 'text', 'solve', '84'),
  field('half', 'May it have a half link', 'choice', 'may', 'no', 'no', YES_NO),
];

function radiiOf(pitch: number, teeth: Drive['teeth']): readonly [number, number] {
  return [pitchDiameter(pitch, teeth[0]) / 2, pitchDiameter(pitch, teeth[1]) / 2];
}

function loopPicture({ pitch, teeth, centre }: Drive, links: number, words: readonly string[]) {
  return { kind: 'chain-loop' as const, pitch, centre, radii: radiiOf(pitch, teeth), teeth, links, words };
}

function reckonLength(texts: Texts): Reckoned | Refused {
  const read = openEntries(LENGTH_FIELDS, texts);
  const drive = driveOf(read, false);
  const links = read.whole('links', 10, 1000);
  const half = read.choice('half') === 'yes';
  if (read.empty('centre') && read.empty('links'))
    read.blame('centre', 'neither it nor the pitches of the chain are entered: enter one of them.');
  const bad = read.refused();
  if (bad) return bad;
  if (!drive) throw new RangeError('a field must be read or blamed, got neither');
  const { pitch, teeth, centre } = drive;
  const odd =
    links !== null && links % 2 === 1
      ? ['An odd number of pitches needs a half link, which is the weak one.']
      : [];
  if (centre === null) {
    const found = centreDistance(pitch, teeth, links!);
    if (!found.ok) return fail('links', found.why);
    const line = figureLine(
      'centre',
      'Distance of the shafts',
      'length',
      at(found.centre),
      5,
      (f) => `A new chain of ${links} pitches is taut at ${f}.`,
    );
    const picture = loopPicture({ pitch, teeth, centre: found.centre }, links!, [
      `${links} pitches`,
      `taut at ${shown('length', at(found.centre), 5)}`,
    ]);
    return { ok: true, lines: [line], cautions: odd, picture, solvedFor: 'centre' };
  }
  const whole: Drive = { pitch, teeth, centre };
  const taut = tangentLength(whole);
  const lines: Line[] = [
    wordLine(
      'taut',
      'Taut loop',
      Number(taut.toFixed(2)),
      `The taut loop is ${taut.toFixed(2)} pitches long.`,
    ),
  ];
  if (links !== null) {
    const found = slackOfChain(whole, links);
    if (!found.ok) return fail('links', found.why);
    lines.push(
      figureLine(
        'slack',
        'Slack',
        'length',
        at(found.slack),
        3,
        (f) => `A new chain of ${links} pitches moves ${f} up and down at mid-span.`,
      ),
    );
    const picture = loopPicture(whole, links, [
      `${links} pitches on ${shown('length', at(centre), 5)}`,
      `slack ${shown('length', at(found.slack))}`,
    ]);
    return { ok: true, lines, cautions: odd, picture, solvedFor: null };
  }
  const choice = lengthForFixedCentre(whole, half);
  lines.push(
    wordLine(
      'links',
      'Pitches',
      choice.links,
      `The shortest chain that goes on has ${choice.links} pitches.`,
    ),
    figureLine(
      'excess',
      'Left over',
      'length',
      at(choice.excess),
      3,
      (f) => `${f} of it are left over for slack and tensioner.`,
    ),
    figureLine('centre', 'Taut at', 'length', at(choice.centre), 5, (f) => `New, it is taut at ${f}.`),
  );
  return {
    ok: true,
    lines,
    cautions: choice.halfLink ? ['It needs a half link, which is the weak one.'] : [],
    picture: loopPicture(whole, choice.links, [
      `${choice.links} pitches on ${shown('length', at(centre), 5)}`,
      `taut at ${shown('length', at(choice.centre), 5)}`,
    ]),
    solvedFor: 'links',
  };
}

export const CHAIN_LENGTH: Sum = {
  id: 'chain-length',
  words: 'Chain length',
  about: 'pitches of chain for a distance of shafts, or the distance for a chain',
  fields: LENGTH_FIELDS,
  example: { pitch: '#40', small: '24', large: '36', centre: '330 mm' },
  reckon: reckonLength,
};

const SLACK_FIELDS = [
  PITCH,
  ...TEETH,
  field('centre', 'Distance of the shafts', 'length', 'must', '330 mm'),
  field('slack', 'Slack now at the tight spot, up and down together', 'length', 'must', '7/8 in'),
  field('wanted', 'Slack the book asks, cold', 'length', 'solve', '5/8–7/8 in'),
  field('moved', 'Distance of the shafts after setting', 'length', 'solve', '331 mm'),
  field('shoe', 'How far the shoe pushes its strand out of line now', 'length', 'may', '10 mm'),
  field(
    'hotter',
    'How much hotter the case that holds both shafts gets, 0 K for a rear chain',
    'temperature-difference',
    'may',
    '60 K',
    '60 K',
  ),
];

function reckonSlack(texts: Texts): Reckoned | Refused {
  const read = openEntries(SLACK_FIELDS, texts);
  const drive = driveOf(read, true);
  read.demand('slack');
  const ready = drive?.centre ? { ...drive, centre: drive.centre } : null;
  const span = ready ? freeSpan(ready) : null;
  const limits = { least: 0, most: span === null ? 1 : span * MOST_SLACK_SHARE };
  const now = read.one('slack', limits);
  const wanted = read.span('wanted', limits);
  const moved = read.one('moved', LENGTH);
  const shoe = read.one('shoe', { least: 0, most: 0.3 });
  const rise = read.one('hotter', { least: 0, most: 250 });
  if (!read.empty('wanted') && !read.empty('moved'))
    read.blame('moved', 'it and the wanted slack are both entered: leave one empty, it is worked out.');
  if (ready && moved !== null && moved <= leastCentre(ready.pitch, ready.teeth) * (1 + 1e-9))
    read.blame('moved', 'the sprockets would meet there: measure again.');
  const bad = read.refused();
  if (bad) return bad;
  if (!ready || span === null || now === null)
    throw new RangeError('a field must be read or blamed, got neither');
  const lines: Line[] = [];
  let [aim, solvedFor]: [number, string | null] = [now, null];
  if (moved !== null) {
    const found = slackAtCentre(ready, now, moved);
    if (!found.ok) return fail('moved', found.why);
    [aim, solvedFor] = [found.slack, 'wanted'];
    lines.push(
      figureLine('wanted', 'Slack after setting', 'length', at(aim), 3, (f) => `The slack is then ${f}.`),
    );
  } else if (wanted) {
    const setting = settingFor({ readings: [{ slack: now }], book: wanted, span });
    lines.push(wordLine('state', 'Against the book', setting.state, setting.says));
    aim = setting.aim;
    solvedFor = 'moved';
    const found = centreForSlack(ready, now, aim);
    if (!found.ok) return fail('wanted', found.why);
    lines.push(
      figureLine('aim', 'Aim', 'length', at(aim), 3, (f) => `Aim for ${f} at the tight spot, cold.`),
      figureLine(
        'moved',
        'Distance of the shafts',
        'length',
        at(found.centre),
        5,
        (f) =>
          `With shafts that move, set them to ${f}, ${shown('length', at(Math.abs(found.move)), 2)} ${found.move < 0 ? 'nearer' : 'further apart'}.`,
      ),
    );
    const travel = shoe === null ? null : shoeTravel({ offset: shoe, span }, now, aim);
    if (travel && !travel.ok) return fail('shoe', travel.why);
    if (travel)
      lines.push(
        figureLine(
          'travel',
          'Travel of the shoe',
          'length',
          at(Math.abs(travel.travel)),
          2,
          (f) => `${travel.travel < 0 ? 'Back the shoe off by' : 'Move the shoe in by'} ${f}.`,
        ),
      );
  }
  let notes: readonly string[] = [];
  const cautions: string[] = [
    'Turn the chain once round and take the slack where it is tightest, with the case cold.',
  ];
  if (rise !== null && rise > 0) {
    const hot = slackWhenHot(aim, { centre: ready.centre, span, caseRise: Math.round(rise) });
    lines.push(
      hot.mayBeTaut
        ? wordLine('hot', 'Slack when hot', 'may be taut', hot.says)
        : figureLine(
            'hot',
            'Slack when hot',
            'length',
            hot.slack,
            2,
            (f) => `With the case ${Math.round(rise)} K hotter it is about ${f}.`,
          ),
    );
    if (hot.mayBeTaut)
      cautions.push('It may run taut when hot: look that the figure is the one for a cold case.');
    notes = hot.assumptions;
    cautions.push(...notes);
  } else cautions.push(BOOK_WINS);
  const picture = {
    kind: 'slack' as const,
    centre: ready.centre,
    radii: radiiOf(ready.pitch, ready.teeth),
    now,
    words: [
      `now ${shown('length', at(now))}`,
      ...(wanted ? [`the book asks ${shown('length', wanted)}`] : []),
      ...(aim === now ? [] : [`${moved === null ? 'aim for' : 'then'} ${shown('length', at(aim))}`]),
    ],
  };
  return { ok: true, lines, cautions, notes, picture, solvedFor };
}

export const CHAIN_SLACK: Sum = {
  id: 'chain-slack',
  words: 'Chain slack',
  about: 'what to move for a wanted slack, and what heat takes of it',
  fields: SLACK_FIELDS,
  example: {
    pitch: '#40',
    small: '24',
    large: '36',
    centre: '330 mm',
    slack: '1 in',
    wanted: '5/8–7/8 in',
    shoe: '10 mm',
  },
  reckon: reckonSlack,
};

const WEAR_FIELDS = [
  PITCH,
  ...TEETH,
  field('over', 'Pitches measured over', 'text', 'must', '12', '12'),
  field('length', 'Length over them, pin to pin, taut', 'length', 'solve', '155 mm'),
  field('error', 'How far off that may be', 'length', 'may', '0.5 mm', '0.5 mm'),
  field('adjustable', 'Can the distance of the shafts be adjusted', 'choice', 'may', 'yes', 'yes', YES_NO),
];

function reckonWear(texts: Texts): Reckoned | Refused {
  const read = openEntries(WEAR_FIELDS.concat(field('centre', '', 'length', 'may', '')), texts);
  const drive = driveOf(read, false);
  read.demand('over');
  const pitches = read.whole('over', 1, 1000);
  const length = read.one('length', { above: 0, most: 50 });
  const error = read.one('error', { least: 0, most: 0.02 }) ?? 0;
  const adjustable = read.choice('adjustable') === 'yes';
  const bad = read.refused();
  if (bad) return bad;
  if (!drive || pitches === null) throw new RangeError('a field must be read or blamed, got neither');
  const { pitch, teeth } = drive;
  const limit = wearLimit(teeth, adjustable);
  const lines = [
    figureLine('new', 'New', 'length', at(pitch * pitches), 5, (f) => `New, ${pitches} pitches are ${f}.`),
    figureLine(
      'limit',
      'At its limit',
      'length',
      at(lengthAtWear(pitch, pitches, limit)),
      5,
      (f) => `At the limit of ${shown('ratio', at(limit))} they are ${f}.`,
    ),
  ];
  const ends = [
    `new ${shown('length', at(pitch * pitches), 5)}`,
    `limit ${shown('length', at(lengthAtWear(pitch, pitches, limit)), 5)}`,
  ];
  const drawn = { kind: 'worn-chain' as const, limit, pitches };
  if (length === null) {
    const picture = { ...drawn, wear: null, words: [`over ${pitches} pitches`, ...ends] };
    return { ok: true, lines, cautions: [BOOK_WINS], picture, solvedFor: 'length' };
  }
  const verdict = judgeWear({ pitch, pitches, length, error }, teeth, adjustable);
  if (!verdict.ok) return fail('length', verdict.why);
  lines.unshift(figureLine('wear', 'Wear', 'ratio', verdict.interval, 2, () => verdict.says));
  const measured = `${pitches} pitches measure ${shown('length', at(length), 5)}`;
  const picture = { ...drawn, wear: verdict.interval, words: [measured, ...ends] };
  return { ok: true, lines, cautions: [BOOK_WINS], picture, solvedFor: null };
}

export const CHAIN_WEAR: Sum = {
  id: 'chain-wear',
  words: 'Chain wear',
  about: 'how far a chain has worn over so many pitches',
  fields: WEAR_FIELDS,
  example: { pitch: '#40', small: '24', large: '36', over: '12', length: '155 mm' },
  reckon: reckonWear,
};
