/** Sum: in which order and in which stages to tighten the screws of a joint. */
import type { Place } from '../joint/layout.ts';
import { stagePlan } from '../joint/stages.ts';
import { tighteningOrder } from '../joint/tightening-order.ts';
import { type Entries, field, openEntries } from './entries.ts';
import { figureLine, wordLine } from './line.ts';
import { readRow } from './row.ts';
import type { Line, Reckoned, Refused, Sum, Texts } from './sum.ts';

const FIELDS = [
  field('ring', 'Screws evenly on a ring', 'text', 'may', '8'),
  field('places', 'Places of the screws, x,y each, all in one unit', 'list', 'may', '0,0 100,0 100,80 0,80'),
  field('book', 'Order the book gives', 'text', 'may', '1-3-2-4'),
  field('torque', 'Final torque', 'torque', 'may', '9 lbf·ft'),
  field('steps', 'Stages the book gives, commas between', 'list', 'may', '5, 10, 14 N·m'),
];

const LAST_WORD = 'A sequence or stages that the book gives win.';

function placesOf(read: Entries): readonly Place[] | null {
  if (read.empty('ring') === read.empty('places'))
    return read.blame(
      'ring',
      read.empty('ring')
        ? 'neither a ring nor places are entered: write e.g. 8, or the place of each screw.'
        : 'a ring and places are both entered: take one of them out.',
    );
  const count = read.whole('ring', 3, 100);
  if (count !== null)
    return Array.from({ length: count }, (_, i) => ({
      x: 100 * Math.sin((2 * Math.PI * i) / count),
      y: -100 * Math.cos((2 * Math.PI * i) / count),
    }));
  if (read.empty('places')) return null;
  const words = read.text('places').replace(/[();]/g, ' ').trim().split(/\s+/);
  const places: Place[] = [];
  for (const word of words) {
    const pair = /^(-?\d+(?:\.\d+)?),(-?\d+(?:\.\d+)?)$/.exec(word.replaceAll('−', '-'));
    const [x, y] = [Number(pair?.[1]), Number(pair?.[2])];
    if (!(Math.abs(x) <= 1e6 && Math.abs(y) <= 1e6))
      return read.blame(
        'places',
        `"${word.slice(0, 40)}" is no place of a screw: write x,y without a unit and a space before the next, e.g. 0,0 100,0 100,80.`,
      );
    places.push({ x, y });
  }
  return places;
}

function reckon(texts: Texts): Reckoned | Refused {
  const read = openEntries(FIELDS, texts);
  const places = placesOf(read);
  const steps = readRow(
    read,
    'steps',
    'torque',
    { above: 0, most: 5000 },
    'is no torque of a stage: check the figure and its unit.',
    10,
  );
  const torque = read.one('torque', { above: 0, most: 5000 }) ?? steps?.at(-1) ?? null;
  const book = read.empty('book')
    ? null
    : read
        .text('book')
        .split(/[\s,–-]+/)
        .map(Number);
  if (book?.some((n) => !Number.isInteger(n)))
    read.blame('book', 'it holds something that is no number of a screw: write e.g. 1-3-2-4.');
  const order = places && !read.refused() ? tighteningOrder(places, book ? { book } : {}) : null;
  if (order && !order.ok)
    read.blame(
      book && order.why.startsWith("The book's") ? 'book' : read.empty('ring') ? 'places' : 'ring',
      order.why,
    );
  const bad = read.refused();
  if (bad) return bad;
  if (!places || !order?.ok) throw new RangeError('a field must be read or blamed, got neither');
  const sequence = order.order.join('-');
  const lines: Line[] = [wordLine('order', 'Order', sequence, `${sequence}. ${order.note}`)];
  const plan =
    torque === null ? null : stagePlan({ torque, screws: places.length, ...(steps ? { book: steps } : {}) });
  if (plan && !plan.ok)
    return {
      ok: false,
      faults: [
        {
          field: steps ? 'steps' : 'torque',
          why: `${steps ? 'Stages the book gives' : 'Final torque'}: ${plan.why}`,
        },
      ],
    };
  plan?.stages.forEach((stage, i) => {
    const [id, name] = [
      `stage-${i + 1}`,
      `Stage ${i + 1}${stage.name === 'round' ? ', round and round' : ''}`,
    ];
    lines.push(
      stage.torque === null
        ? wordLine(id, name, 'by hand', stage.words)
        : figureLine(id, name, 'torque', { low: stage.torque, high: stage.torque }, 3, () => stage.words),
    );
  });
  return {
    ok: true,
    lines,
    cautions: [...(plan?.cautions ?? []), ...(book && (steps || !plan) ? [] : [LAST_WORD])],
    notes: [LAST_WORD],
    picture: { kind: 'bolt-map', places, order: order.order },
    solvedFor: null,
  };
}

export const STAGES: Sum = {
  id: 'stages',
  words: 'Order and stages',
  about: 'tightening order for any layout of screws, and the stages',
  fields: FIELDS,
  example: { ring: '8', torque: '9 lbf·ft' },
  reckon,
};
