/** Sum: which shims at hand to fit for a wanted thickness, an alignment or an end play. */
import { chooseShims, type ShimSize } from '../drive/choose-shims.ts';
import { type ShimWish, shimForAlignment, shimForEndPlay } from '../drive/shim.ts';
import { parseQuantity } from '../units/parse.ts';
import { type Entries, field, openEntries } from './entries.ts';
import { placedLine, shown, wordLine } from './line.ts';
import { piecesOf, whyPiece, withUnits } from './row.ts';
import type { Line, Reckoned, Refused, Sum, Texts } from './sum.ts';

const FIELDS = [
  field('stack', 'Stack that is wanted', 'length', 'may', '85–95 thou'),
  field('old', 'Stack that was in', 'length', 'may', '30 thou'),
  field('step', 'How far the sprocket stands short of the line', 'length', 'may', '20 thou'),
  field('tolerance', 'What may be left of it either way', 'length', 'may', '5 thou', '5 thou'),
  field('play', 'End play without any shim', 'length', 'may', '2.5 mm'),
  field('wanted', 'End play that is wanted', 'length', 'may', '0.1–0.3 mm'),
  field(
    'stock',
    'Shims at hand, thickness and how many',
    'list',
    'must',
    '10 thou x2, 20 thou x2, 30 thou x1',
  ),
  field('most', 'Most shims in a stack', 'text', 'may', '3', '3'),
];

const LENGTH = { least: 0, most: 0.1 };
/** A tenth of a thou, m: no micrometer in a garage tells more. */
const FINEST = 2.54e-6;

function stockOf(read: Entries): readonly ShimSize[] | null {
  if (read.empty('stock')) return null;
  const pieces = piecesOf(read, 'stock', 24);
  if (!pieces) return null;
  const parts = pieces.map((piece) => /^(.*?)(?:\s*[x×]\s*(\d{1,3}))?$/is.exec(piece)!);
  const sizes: ShimSize[] = [];
  for (const [i, text] of withUnits(parts.map((part) => part[1]!)).entries()) {
    const size = parseQuantity(text, 'length');
    if (!size.ok) return read.blame('stock', whyPiece(read, 'stock', text, size.why));
    const { si } = size.value;
    if (!(si >= 1e-6 && si <= 0.05))
      return read.blame(
        'stock',
        `${text} is no thickness of a shim: it must be above 0 and at most 50 mm (2 in).`,
      );
    sizes.push({ thickness: si, count: Number(parts[i]![2] ?? 1) });
  }
  return sizes.some(({ count }) => count > 0)
    ? sizes
    : read.blame('stock', 'there is none of any size: write how many there are, e.g. 10 thou x2.');
}

function reckon(texts: Texts): Reckoned | Refused {
  const read = openEntries(FIELDS, texts);
  read.demand('stock');
  const sizes = stockOf(read);
  const most = read.whole('most', 0, 8) ?? 3;
  const stack = read.span('stack', LENGTH);
  const old = read.one('old', LENGTH);
  const step = read.one('step', { least: -0.1, most: 0.1 });
  const tolerance = read.one('tolerance', LENGTH) ?? 0;
  const play = read.one('play', LENGTH);
  const wanted = read.span('wanted', LENGTH);
  const asked = [
    !read.empty('stack'),
    !read.empty('old') || !read.empty('step'),
    !read.empty('play') || !read.empty('wanted'),
  ].filter(Boolean);
  if (asked.length !== 1)
    read.blame(
      'stack',
      'enter either the stack that is wanted, or the old stack and the step, or the end play without shims and the one wanted.',
    );
  else if (!read.empty('old') || !read.empty('step')) read.demand('old', 'step');
  else if (read.empty('stack')) read.demand('play', 'wanted');
  const bad = read.refused();
  if (bad) return bad;
  const lines: Line[] = [];
  let wish: ShimWish;
  if (stack) {
    // One figure alone leaves no room for any shim: the tolerance below is meant for it then.
    const off = stack.low === stack.high ? tolerance : 0;
    wish = {
      low: Math.max(0, stack.low - off),
      high: stack.high + off,
      target: stack.low + (stack.high - stack.low) / 2,
    };
  } else {
    const found = old !== null ? shimForAlignment(old, step!, tolerance) : shimForEndPlay(play!, wanted!);
    if (!found.ok) return { ok: false, faults: [{ field: null, why: found.why }] };
    wish = found.wish;
  }
  if (wish.high < 0)
    return {
      ok: false,
      faults: [{ field: null, why: 'Even no shim is too much there: look for a part that is not seated.' }],
    };
  lines.push(
    placedLine(
      'wish',
      'Stack wanted',
      { low: Math.max(0, wish.low), high: wish.high },
      FINEST,
      (f) => `The stack must be ${f}.`,
    ),
  );
  const choice = chooseShims(sizes!, wish, most);
  const chosen = choice.ok ? choice.stack : choice.nearest;
  lines.push(
    wordLine('fit', 'Fit', choice.ok ? 'fits' : 'none fits', choice.ok ? choice.says : choice.why),
    placedLine(
      'total',
      'Stack',
      { low: chosen.total, high: chosen.total },
      FINEST,
      (f) => `${choice.ok ? 'That' : 'The nearest'} makes ${f}.`,
    ),
  );
  return {
    ok: true,
    lines,
    cautions: ['Measure each shim, and measure again after fitting.'],
    picture: {
      kind: 'shim-stack',
      shims: sizes!
        .flatMap(({ thickness }, i) =>
          Array.from({ length: chosen.counts[i] ?? 0 }, () => ({
            thickness,
            words: shown('length', { low: thickness, high: thickness }, 4),
          })),
        )
        .sort((a, b) => b.thickness - a.thickness),
      total: shown('length', { low: chosen.total, high: chosen.total }, 4),
      wanted: shown('length', { low: Math.max(0, wish.low), high: wish.high }, 4),
      fits: choice.ok,
    },
    solvedFor: null,
  };
}

export const SHIMS: Sum = {
  id: 'shims',
  words: 'Shims',
  about: 'which shims at hand to fit for an alignment or an end play',
  fields: FIELDS,
  example: { stack: '85–95 thou', stock: '10 thou x2, 20 thou x2, 30 thou x2, 60 thou x2' },
  reckon,
};
