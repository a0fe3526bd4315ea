/**
 * Where the parts of a strip-down lie on the sheet. Wide: a grid, one band of rows for each layer, in the order that the
 * mean place of their neighbours gives, down and up again (the barycentre method of Sugiyama, Tagawa and Toda 1981, from
 * memory); lines run in the gaps between rows and columns. Narrow: one row for each part under the deepest thing it waits
 * for, indented by its layer. Rejected: places for the long lines between the parts, as the method has them: bands of
 * several rows have no such places, and the gaps carry the lines as well.
 */
import type { Point } from './hatch.ts';
import { textWidth } from './measure.ts';
import type { StripLayers, StripLink } from './strip-layers.ts';

export type StripShape = 'wide' | 'narrow';

export interface StripPlace {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface StripLine extends StripLink {
  readonly points: readonly Point[];
  /** What is written at its end, once for the lines of one kind that enter side by side; empty where nothing is. */
  readonly says: string;
  /** Where that stands. */
  readonly word: Point;
}

export interface StripLayout {
  readonly shape: StripShape;
  readonly width: number;
  readonly height: number;
  readonly layers: StripLayers;
  /** By the place in the list of parts. */
  readonly places: readonly StripPlace[];
  readonly lines: readonly StripLine[];
  /** Where each layer of the wide form begins, px. */
  readonly bands: readonly number[];
}

/** Height of a part, px: a thumb in a wet glove. */
export const PART_HEIGHT = 64;
const CELL = 168;
const LEAST_GUTTER = 30;
/** Height between two rows, px: lanes above, the words of the lines below. */
const GAP = 56;
/** Size of the words at the lines, px. */
export const WORD_SIZE = 13;
/** Room for the names of the layers, px; the first gutter begins behind it. */
const LEFT = 60;
/** Room for the words of the lines into the last column, px. */
const RIGHT = 46;
const LANES = 5;
const STEP = 5;
/** px a layer is indented in the narrow form, and the deepest indent. */
const INDENT = 13;
const DEEPEST = 6;
const ROUNDS = 4;

/** Lays the layers out on a sheet of this width, px; at least 260 for the narrow form and 520 for the wide one. */
export function placeStrip(layers: StripLayers, shape: StripShape, width: number): StripLayout {
  const least = shape === 'wide' ? 520 : 260;
  if (!(width >= least))
    throw new RangeError(`width must be at least ${least} px for the ${shape} form, got ${width}`);
  return shape === 'wide' ? placeWide(layers, width) : placeNarrow(layers, width);
}

function placeWide(layers: StripLayers, width: number): StripLayout {
  const columns = Math.max(2, Math.floor((width - LEFT - RIGHT) / (CELL + LEAST_GUTTER)));
  const pitch = Math.floor((width - LEFT - RIGHT) / columns);
  const order = orderOf(layers, columns);
  const row: number[] = [];
  const column: number[] = [];
  const bands: number[] = [];
  let rows = 0;
  for (const { members, wanted } of order) {
    bands.push(rows);
    for (let start = 0; start < members.length; start += columns) {
      const some = members.slice(start, start + columns);
      const taken = settle(
        some.map((n) => wanted.get(n) ?? 0),
        columns,
      );
      for (const [k, n] of some.entries()) {
        row[n] = rows;
        column[n] = taken[k]!;
      }
      rows++;
    }
  }
  const y = (r: number) => GAP + r * (PART_HEIGHT + GAP);
  const places = layers.parts.map((_, n) => ({
    x: LEFT + (column[n]! + 1) * pitch - CELL,
    y: y(row[n]!),
    width: CELL,
    height: PART_HEIGHT,
  }));
  const lines = linesWide(layers, places, row, column, pitch - CELL);
  return {
    shape: 'wide',
    width,
    height: y(rows) - GAP + 24,
    layers,
    places,
    lines,
    bands: bands.map((r) => y(r)),
  };
}

interface Band {
  readonly members: readonly number[];
  /** The column each would like, by the mean of its neighbours. */
  readonly wanted: ReadonlyMap<number, number>;
}

/** The order within each layer: by the mean place of the neighbours, down and up by turns. */
function orderOf({ parts, layer, count, links }: StripLayers, columns: number): readonly Band[] {
  const bands: number[][] = Array.from({ length: count }, () => []);
  for (const n of parts.keys()) bands[layer[n]!]!.push(n);
  const near: number[][] = parts.map(() => []);
  for (const { from, to } of links) {
    near[from]!.push(to);
    near[to]!.push(from);
  }
  // A place is a share of the sheet's width, so that layers of different lengths can be compared.
  const place = new Float64Array(parts.length);
  const spread = (members: readonly number[]): void => {
    const wide = Math.min(columns, members.length);
    for (const [k, n] of members.entries()) place[n] = ((k % wide) + 0.5) / wide;
  };
  for (const members of bands) spread(members);
  for (let round = 0; round < ROUNDS; round++) {
    const down = round % 2 === 0;
    for (const band of down ? bands : [...bands].reverse()) {
      const mean = new Map(
        band.map((n) => {
          const others = near[n]!.filter((m) => (down ? layer[m]! < layer[n]! : layer[m]! > layer[n]!));
          const sum = others.reduce((total, m) => total + place[m]!, 0);
          return [n, others.length === 0 ? place[n]! : sum / others.length] as const;
        }),
      );
      band.sort((a, b) => mean.get(a)! - mean.get(b)! || a - b);
      spread(band);
      // Where there is room, a part stays below what it waits for.
      if (band.length <= columns) for (const n of band) place[n] = mean.get(n)!;
    }
  }
  return bands.map((members) => ({
    members,
    wanted: new Map(members.map((n) => [n, place[n]! * columns - 0.5])),
  }));
}

/** Whole columns in rising order, each as near to the wanted one as the others let it. */
function settle(wanted: readonly number[], columns: number): readonly number[] {
  const taken = wanted.map((want) => Math.round(Math.min(columns - 1, Math.max(0, want))));
  for (let k = 1; k < taken.length; k++) taken[k] = Math.max(taken[k]!, taken[k - 1]! + 1);
  for (let k = taken.length - 1; k >= 0; k--) taken[k] = Math.min(taken[k]!, columns - (taken.length - k));
  return taken;
}

function linesWide(
  { links }: StripLayers,
  places: readonly StripPlace[],
  row: readonly number[],
  column: readonly number[],
  gutterWidth: number,
): readonly StripLine[] {
  // Lanes in the gutters: as many as there is room for.
  const upright = Math.max(LANES, Math.floor((gutterWidth - 8) / STEP));
  const into = portsOf(links, places, 'to', column);
  const says = wordsAt(links, into);
  const outOf = portsOf(links, places, 'from', column);
  /** Lines into each row so far: each takes the next lane of the gap above it. */
  const used = new Map<number, number>();
  return links.map((link, k) => {
    const { from, to } = link;
    const [a, b] = [places[from]!, places[to]!];
    const down = row[from]! < row[to]!;
    const rank = used.get(row[to]!) ?? 0;
    used.set(row[to]!, rank + 1);
    const lane = (rank % LANES) * STEP;
    // What goes up leaves at the corner, clear of the lines that come in from above.
    const [x0, y0] = down ? [a.x + outOf[k]!, a.y + a.height] : [a.x + 7, a.y];
    const [x1, y1] = [b.x + into[k]!, b.y];
    const leaves = down ? y0 + 8 + lane : y0 - GAP + 8 + lane;
    const enters = y1 - GAP + 8 + lane;
    const gutter = b.x - 5 - (k % upright) * STEP;
    const points: Point[] =
      (down ? row[from]! + 1 : row[from]!) === row[to]!
        ? [
            [x0, y0],
            [x0, enters],
            [x1, enters],
            [x1, y1 - 2],
          ]
        : [
            [x0, y0],
            [x0, leaves],
            [gutter, leaves],
            [gutter, enters],
            [x1, enters],
            [x1, y1 - 2],
          ];
    const { words, raised } = says[k]!;
    return { ...link, points, says: words, word: [x1 + 5, y1 - (raised ? 20 : 8)] };
  });
}

/** What a line means beyond being one, in the order in which lines enter a part. */
const KINDS = ['', 'or', 'slack', 'or slack'];

function wordsOf({ slack, either }: StripLink): string {
  return [either ? 'or' : '', slack ? 'slack' : ''].filter(Boolean).join(' ');
}

/** The word of each line: at the last of its kind, raised where the next line enters under it. */
function wordsAt(
  links: readonly StripLink[],
  into: readonly number[],
): readonly { readonly words: string; readonly raised: boolean }[] {
  const entering = new Map<number, number[]>();
  for (const k of links.keys()) entering.set(links[k]!.to, [...(entering.get(links[k]!.to) ?? []), k]);
  const out = links.map(() => ({ words: '', raised: false }));
  for (const list of entering.values()) {
    list.sort((a, b) => into[a]! - into[b]!);
    for (const [n, k] of list.entries()) {
      const words = wordsOf(links[k]!);
      const next = list[n + 1];
      if (next !== undefined && wordsOf(links[next]!) === words) continue;
      const room = next === undefined ? Number.POSITIVE_INFINITY : into[next]! - into[k]!;
      out[k] = { words, raised: textWidth(words, { size: WORD_SIZE, bold: true }) + 8 > room };
    }
  }
  return out;
}

/** Where lines leave or enter a part, px from its left edge, in the order of the other ends. */
function portsOf(
  links: readonly StripLink[],
  places: readonly StripPlace[],
  end: 'from' | 'to',
  column: readonly number[],
): readonly number[] {
  const other = end === 'to' ? 'from' : 'to';
  const of = new Map<number, number[]>();
  for (const [k, link] of links.entries()) {
    const list = of.get(link[end]);
    if (list) list.push(k);
    else of.set(link[end], [k]);
  }
  const out: number[] = [];
  for (const [n, list] of of) {
    // What enters for the same reason enters side by side, with one word for all.
    const kind = (k: number) => (end === 'to' ? KINDS.indexOf(wordsOf(links[k]!)) : 0);
    list.sort((a, b) => kind(a) - kind(b) || column[links[a]![other]]! - column[links[b]![other]]! || a - b);
    const { width } = places[n]!;
    // Out in the left half and in across the whole width: a line that passes another never lies on it.
    const [start, wide] = end === 'to' ? [12, width - 24] : [width * 0.3, width * 0.4];
    for (const [k, link] of list.entries()) out[link] = start + (wide * (k + 0.5)) / list.length;
  }
  return out;
}

function placeNarrow(layers: StripLayers, width: number): StripLayout {
  const { parts, layer, links } = layers;
  const over = mainOf(layers);
  const under: number[][] = parts.map(() => []);
  const roots: number[] = [];
  for (const n of parts.keys()) (over[n] === undefined ? roots : under[links[over[n]!]!.from]!).push(n);
  const order: number[] = [];
  const stack = roots.sort((a, b) => layer[a]! - layer[b]! || a - b).reverse();
  while (stack.length > 0) {
    const n = stack.pop()!;
    order.push(n);
    for (const m of under[n]!.reverse()) stack.push(m);
  }
  const indent = (n: number) => 4 + Math.min(DEEPEST, layer[n]!) * INDENT;
  const places: StripPlace[] = [];
  for (const [r, n] of order.entries())
    places[n] = { x: indent(n), y: 4 + r * PART_HEIGHT, width: width - indent(n) - 4, height: PART_HEIGHT };
  const lines = parts.flatMap((_, n): StripLine[] => {
    const k = over[n];
    if (k === undefined) return [];
    const link = links[k]!;
    const [a, b] = [places[link.from]!, places[n]!];
    const x = Math.min(a.x, b.x - 8) + 5;
    const middle = b.y + b.height / 2;
    return [
      {
        ...link,
        points: [
          [x, a.y + a.height - 8],
          [x, middle],
          [b.x + 2, middle],
        ],
        says: '',
        word: [b.x + 2, middle],
      },
    ];
  });
  return { shape: 'narrow', width, height: 8 + parts.length * PART_HEIGHT, layers, places, lines, bands: [] };
}

/** The link that a part hangs on in the narrow form: the one from the deepest layer above its own; none outside. */
function mainOf({ parts, layer, links }: StripLayers): readonly (number | undefined)[] {
  const main: (number | undefined)[] = parts.map(() => undefined);
  for (const [k, { from, to }] of links.entries()) {
    if (layer[from]! >= layer[to]!) continue;
    const before = main[to];
    if (before === undefined || layer[links[before]!.from]! < layer[from]!) main[to] = k;
  }
  return main;
}
