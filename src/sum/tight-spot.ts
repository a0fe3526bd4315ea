/** Sum: slack read at several places of a chain: the tight spot, whether a whole turn is covered, what to take again. */
import { surveySlack } from '../drive/tight-spot.ts';
import { field, openEntries } from './entries.ts';
import { figureLine, shown, wordLine } from './line.ts';
import { readRow } from './row.ts';
import { BOOK_WINS, type Line, type Reckoned, type Refused, type Sum, type Texts } from './sum.ts';

const FIELDS = [
  field('readings', 'Slack at each place, commas between', 'list', 'must', '22, 20, 19, 21 mm'),
  field('step', 'Pitches of chain pulled past between two places', 'text', 'may', '8'),
  field('small', 'Teeth of one sprocket', 'text', 'may', '24'),
  field('large', 'Teeth of the other', 'text', 'may', '36'),
  field('links', 'Pitches of the chain', 'text', 'may', '82'),
];
const MOST = 60;

function reckon(texts: Texts): Reckoned | Refused {
  const read = openEntries(FIELDS, texts);
  read.demand('readings');
  const step = read.whole('step', 1, 400);
  const small = read.whole('small', 6, 150);
  const large = read.whole('large', 6, 150);
  const links = read.whole('links', 10, 400);
  const slacks = readRow(
    read,
    'readings',
    'length',
    { least: 0, most: 0.5 },
    'is no slack of a chain: it must be 0 to 50 cm.',
    MOST,
  );
  const missing = ['small', 'large', 'links'].filter((id) => read.empty(id));
  if (missing.length === 1 || missing.length === 2)
    read.blame(
      missing[0]!,
      'teeth of both sprockets and pitches of the chain belong together, and this one is empty: enter all three or none.',
    );
  const bad = read.refused();
  if (bad) return bad;
  if (!slacks) throw new RangeError('a field must be read or blamed, got neither');
  const readings = slacks.map((slack, n) => (step === null ? { slack } : { slack, turned: n * step }));
  const loop = missing.length === 0 ? { teeth: [small!, large!] as const, links: links! } : undefined;
  const survey = loop ? surveySlack(readings, loop) : surveySlack(readings);
  const at = (value: number) => ({ low: value, high: value });
  const lines: Line[] = [
    figureLine(
      'tight',
      'At the tight spot',
      'length',
      at(survey.least),
      3,
      (f) => `The tight spot is place ${survey.tightest + 1} with ${f}: set the slack there.`,
    ),
    figureLine(
      'loose',
      'At its loosest',
      'length',
      at(survey.most),
      3,
      (f) => `It is loosest at place ${survey.loosest + 1} with ${f}.`,
    ),
  ];
  const told = survey.says.some((says) => says.includes('tighter in between'));
  if (!told && survey.mayBeTighter !== null && survey.mayBeTighter > 0)
    lines.push(
      figureLine(
        'between',
        'Between the places',
        'length',
        at(survey.mayBeTighter),
        2,
        (f) => `Between two places it may be tighter by ${f} still.`,
      ),
    );
  for (const { index, why } of survey.odd)
    lines.push(wordLine(`odd-${index}`, `Place ${index + 1}`, 'take it again', why));
  const known = step !== null && loop !== undefined;
  const picture = {
    kind: 'slack-turn' as const,
    readings: slacks.map((slack, n) => ({
      at: known ? ((n * step) / loop.links) % 1 : n / slacks.length,
      slack,
      odd: survey.odd.some(({ index }) => index === n),
    })),
    tightest: survey.tightest,
    covered: known ? Math.min(1, ((survey.cover?.turned ?? 0) + step) / loop.links) : null,
    words: [`tightest ${shown('length', at(survey.least))}`, `loosest ${shown('length', at(survey.most))}`],
  };
  return { ok: true, lines, cautions: [...survey.says, BOOK_WINS], picture, solvedFor: null };
}

export const TIGHT_SPOT: Sum = {
  id: 'tight-spot',
  words: 'Tight spot',
  about: 'where a chain is tightest, from readings at several places',
  fields: FIELDS,
  example: {
    readings: '22 mm, 21 mm, 19 mm, 19.5 mm, 21 mm, 22 mm, 22.5 mm, 22 mm, 21 mm, 20 mm, 20.5 mm',
    step: '8',
    small: '24',
    large: '36',
    links: '82',
  },
  reckon,
};
