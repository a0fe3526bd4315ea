/** Sum: how far a stack of parts may come out, worst case and by the root of the squares. */
import { parseQuantity, parseRange } from '../units/parse.ts';
import { field, openEntries } from './entries.ts';
import { placedLine, shown, shownTo, wordLine } from './line.ts';
import { piecesOf, whyPiece, withUnits } from './row.ts';
import { BOOK_WINS, type Line, type Reckoned, type Refused, type Sum, type Texts } from './sum.ts';

const FIELDS = [
  field(
    'parts',
    'Parts with their limits, minus for what takes away, commas between',
    'list',
    'must',
    '10 ± 0.1, 2.0–2.2, -8.1 ± 0.05 mm',
  ),
  field('wanted', 'What the stack may be', 'length', 'may', '3.9–4.3 mm'),
];
const MOST_PARTS = 40;
const ONE_BIKE =
  'For one bike the worst case counts, with the parts measured; the root of the squares is for many.';

/** Last place of the finest figure that was written, m: a sum of figures is known no finer. Fractions are taken to a thou. */
function finestPlace(pieces: readonly string[]): number {
  const places = pieces.flatMap((piece) => {
    const unit = /\d\s*([^\d\s]+)$/.exec(piece)?.[1] ?? 'mm';
    const one = parseQuantity(`1 ${unit}`, 'length');
    const decimals = [...piece.matchAll(/\d+(?:[.,](\d+))?/g)].map(([, tail]) => tail?.length ?? 0);
    return piece.includes('/') || !one.ok ? [] : [one.value.si * 10 ** -Math.max(...decimals)];
  });
  return places.length > 0 ? Math.min(...places) : 25.4e-6;
}

function reckon(texts: Texts): Reckoned | Refused {
  const read = openEntries(FIELDS, texts);
  read.demand('parts');
  const wanted = read.span('wanted', { least: -10, most: 10 });
  const pieces = withUnits(piecesOf(read, 'parts', MOST_PARTS) ?? []);
  const place = finestPlace(pieces);
  let [low, high, squares] = [0, 0, 0];
  const parts: { low: number; high: number; words: string }[] = [];
  for (const piece of pieces) {
    const minus = /^[-−]/.test(piece);
    const found = parseRange(piece.replace(/^[-−+]\s*/, ''), 'length');
    if (!found.ok) {
      read.blame('parts', whyPiece(read, 'parts', piece, found.why));
      continue;
    }
    const [least, most] = [found.value.low.si, found.value.high.si];
    if (most > 10) read.blame('parts', `${piece.slice(0, 30)} is above 10 m: check the figure and its unit.`);
    const part = { low: minus ? -most : least, high: minus ? -least : most };
    parts.push({ ...part, words: `${minus ? '−' : '+'} ${shownTo({ low: least, high: most }, place)}` });
    low += part.low;
    high += part.high;
    squares += ((most - least) / 2) ** 2;
  }
  const bad = read.refused();
  if (bad) return bad;
  const middle = (low + high) / 2;
  const likely = Math.sqrt(squares);
  const lines: Line[] = [
    placedLine('worst', 'Worst case', { low, high }, place, (f) => `At worst the stack is ${f}.`),
  ];
  if (likely > 0)
    lines.push(
      placedLine(
        'likely',
        'Likely',
        { low: middle - likely, high: middle + likely },
        place,
        (f) => `With many alike it is mostly ${f}, by the root of the squares.`,
      ),
    );
  if (wanted) {
    const fits = low >= wanted.low - 1e-9 && high <= wanted.high + 1e-9;
    lines.push(
      wordLine(
        'fits',
        'Against what is wanted',
        fits ? 'fits' : 'may not fit',
        fits
          ? 'Even at worst it fits.'
          : 'At worst it does not fit: measure the parts you have and add those up.',
      ),
    );
  }
  return {
    ok: true,
    lines,
    cautions: [ONE_BIKE, BOOK_WINS],
    notes: [ONE_BIKE],
    picture: {
      kind: 'stack-up',
      parts,
      worst: { low, high },
      likely: { low: middle - likely, high: middle + likely },
      wanted,
      words: [
        `at worst ${shownTo({ low, high }, place)}`,
        ...(wanted ? [`wanted ${shown('length', wanted)}`] : []),
      ],
    },
    solvedFor: null,
  };
}

export const STACK_UP: Sum = {
  id: 'stack-up',
  words: 'Stack-up',
  about: 'how far a stack of parts may come out',
  fields: FIELDS,
  example: { parts: '0.250 ± 0.005 in, 0.120 ± 0.003 in, 0.080 ± 0.002 in, -0.400 ± 0.005 in' },
  reckon,
};
