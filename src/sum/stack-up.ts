/** Sum: how far a stack of parts may come out, worst case and by the root of the squares. */
import { parseRange } from '../units/parse.ts';
import { field, openEntries } from './entries.ts';
import { figureLine, wordLine } from './line.ts';
import { BOOK_WINS, type Line, type Reckoned, type Refused, type Sum, type Texts } from './sum.ts';

const FIELDS = [
  field(
    'parts',
    'Parts with their limits, minus for what takes away, commas between',
    'text',
    'must',
    '10 mm ± 0.1 mm, 2.0–2.2 mm, -8.1 ± 0.05 mm',
  ),
  field('wanted', 'What the stack may be', 'length', 'may', '3.9–4.3 mm'),
];
const MOST_PARTS = 40;

function reckon(texts: Texts): Reckoned | Refused {
  const read = openEntries(FIELDS, texts);
  read.demand('parts');
  const wanted = read.span('wanted', { least: -10, most: 10 });
  const pieces = read
    .text('parts')
    .split(/[,;\n]/)
    .map((piece) => piece.trim())
    .filter(Boolean);
  if (pieces.length > MOST_PARTS)
    read.blame('parts', `these are ${pieces.length} parts: at most ${MOST_PARTS} are added up.`);
  let middle = 0;
  let worst = 0;
  let squares = 0;
  for (const piece of pieces.slice(0, MOST_PARTS)) {
    const minus = /^[-−]/.test(piece);
    const found = parseRange(piece.replace(/^[-−+]\s*/, ''), 'length');
    if (!found.ok) {
      read.blame('parts', `"${piece.slice(0, 30)}": ${found.why}`);
      continue;
    }
    const [low, high] = [found.value.low.si, found.value.high.si];
    if (high > 10) read.blame('parts', `${piece.slice(0, 30)} is above 10 m: check the unit.`);
    middle += ((minus ? -1 : 1) * (low + high)) / 2;
    worst += (high - low) / 2;
    squares += ((high - low) / 2) ** 2;
  }
  const bad = read.refused();
  if (bad) return bad;
  const likely = Math.sqrt(squares);
  const lines: Line[] = [
    figureLine(
      'worst',
      'Worst case',
      'length',
      { low: middle - worst, high: middle + worst },
      4,
      (f) => `At worst the stack is ${f}.`,
    ),
    figureLine(
      'likely',
      'Likely',
      'length',
      { low: middle - likely, high: middle + likely },
      4,
      (f) => `With many alike it is mostly ${f} (root of the squares).`,
    ),
  ];
  if (wanted) {
    const fits = middle - worst >= wanted.low - 1e-9 && middle + worst <= wanted.high + 1e-9;
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
    cautions: [
      'For one bike the worst case counts, with the parts measured; the root of the squares is for many.',
      BOOK_WINS,
    ],
    picture: null,
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
