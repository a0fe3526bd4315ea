import { box, hatch, stepOf } from './hatch.ts';
import { percent } from './loop.ts';
import { shorten, textWidth, wrap } from './measure.ts';
import { el, letter, type SvgNode, sheet } from './svg.ts';

export interface FaultSet {
  /** The faults of the set in words; empty for "nothing is wrong". */
  readonly faults: readonly string[];
  /** Probability of exactly this set, 0–1. */
  readonly probability: number;
}

export interface SetsInput {
  readonly title: string;
  readonly sets: readonly FaultSet[];
  /** How many to show before the rest is drawn as one bar; default 6. */
  readonly most?: number;
  readonly shape: 'wide' | 'narrow';
}

const SIZES = {
  wide: { width: 760, text: 17 },
  narrow: { width: 360, text: 16 },
} as const;

/** Sets of faults, likeliest first: words above, bar and figure below. Throws RangeError for a probability outside 0–1. */
export function drawSets(input: SetsInput): SvgNode {
  const { width, text } = SIZES[input.shape];
  const most = input.most ?? 6;
  const ranked = input.sets
    .map((set) => ({
      words: set.faults.length === 0 ? 'nothing is wrong' : set.faults.join(' + '),
      p: set.probability,
      rest: false,
    }))
    .sort((a, b) => b.p - a.p);
  const shown = ranked.slice(0, most);
  const others = ranked.slice(most);
  if (others.length > 0) {
    const p = Math.min(
      1,
      others.reduce((sum, set) => sum + set.p, 0),
    );
    shown.push({ words: `${others.length} other ${others.length === 1 ? 'set' : 'sets'}`, p, rest: true });
  }
  const how = { size: text };
  const figure = { size: text, figure: true, bold: true } as const;
  const room = textWidth('>99 %', figure) + 12;
  const track = width - 16 - room;
  const nodes: SvgNode[] = [];
  let y = 6;
  for (const { words, p, rest } of shown) {
    const step = stepOf(p);
    const lines = wrap(words, width - 16, how, 3);
    const rows: SvgNode[] = [];
    for (const one of lines) {
      y += text + 4;
      rows.push(
        letter(8, y, shorten(one, width - 16, how), { ...how, fill: rest ? 'var(--quiet)' : 'var(--ink)' }),
      );
    }
    y += 9;
    const bar = Math.max(p * track, 1.5);
    rows.push(
      ...(rest ? [] : hatch(box(8, y, 8 + bar, y + 18), step === 0 ? 1 : step)),
      el('rect', {
        x: 8,
        y,
        width: bar,
        height: 18,
        stroke: rest ? 'var(--quiet)' : 'var(--ink)',
        'stroke-width': 1.6,
        'stroke-dasharray': rest ? '3 4' : undefined,
      }),
      el('path', { d: `M8 ${y + 18}H${8 + track}`, stroke: 'var(--quiet)', 'stroke-width': 0.7 }),
      letter(8 + bar + 9, y + 9 + text * 0.35, percent(p), { ...figure, bold: step >= 2 }),
    );
    y += 18 + 8;
    nodes.push(
      el(
        'g',
        { class: rest ? 'set rest' : 'set', role: 'listitem', 'aria-label': `${words}, ${percent(p)}` },
        rows,
      ),
    );
  }
  const desc = shown.map((s) => `${s.words}: ${percent(s.p)}`).join('; ');
  return sheet(
    `sets ${input.shape}`,
    width,
    Math.max(y + 4, 24),
    input.title,
    desc === '' ? 'No sets.' : `${desc}.`,
    [el('g', { role: 'list' }, nodes)],
  );
}
