/**
 * The strip-down as layers from the outside to the bottom, and the lines between. A thing lies one layer below the deepest
 * thing it waits for, on the way that lies highest: the longest-path layering of layered drawings (Healy and Nikolov,
 * "Hierarchical drawing algorithms", in the Handbook of Graph Drawing, 2013, from memory), with either-or as the least of
 * its ways. Lines that others say already are left out (the transitive reduction of Aho, Garey and Ullman 1972).
 */

/** What a way waits for: a thing that is off, or only slackened. */
export interface StripAwaited {
  readonly of: string;
  readonly slack: boolean;
}

/** A part or another thing of the way in. */
export interface StripPart {
  readonly id: string;
  readonly name: string;
  /** Fasteners that hold it, count. */
  readonly held: number;
  /** What it is called as something to get to; null where it is none. */
  readonly goal: string | null;
  /** One entry for each way of taking it off. */
  readonly ways: readonly (readonly StripAwaited[])[];
  /** One entry for each way of slackening it without taking it off. */
  readonly slackens: readonly (readonly StripAwaited[])[];
}

/** One thing before another. */
export interface StripLink {
  /** Places in the list of parts. */
  readonly from: number;
  readonly to: number;
  /** Slackening is enough. */
  readonly slack: boolean;
  /** One of several: another way needs it not. */
  readonly either: boolean;
}

export interface StripLayers {
  readonly parts: readonly StripPart[];
  /** Layer of each part, 0 is the outside; what nothing takes off lies in the last one. */
  readonly layer: readonly number[];
  /** Layers, count. */
  readonly count: number;
  /** Parts that nothing takes off, as things are written. */
  readonly stuck: ReadonlySet<number>;
  /** All that is drawn. */
  readonly links: readonly StripLink[];
  /** All that is waited for, drawn or said by others. */
  readonly all: readonly StripLink[];
}

/** Lays the parts in layers. Throws RangeError where two have the same id. */
export function layersOf(parts: readonly StripPart[]): StripLayers {
  const at = new Map<string, number>();
  for (const [n, { id }] of parts.entries()) {
    if (at.has(id)) throw new RangeError(`id of each part must be its own, got "${id}" twice`);
    at.set(id, n);
  }
  const raw = depths(parts, at);
  // What is slackened by itself first takes a step more; a layer that nothing lies in is left out.
  const used = [...new Set(raw)].filter((one) => one >= 0).sort((a, b) => a - b);
  const rank = new Map(used.map((one, n) => [one, n]));
  const depth = raw.map((one) => rank.get(one) ?? -1);
  const deepest = used.length - 1;
  const stuck = new Set(depth.flatMap((layer, n) => (layer < 0 ? [n] : [])));
  const layer = depth.map((one) => (one < 0 ? deepest + 1 : one));
  const all = linksOf(parts, at);
  const count = parts.length === 0 ? 0 : deepest + (stuck.size > 0 ? 2 : 1);
  return { parts, layer, count, stuck, links: reduced(parts.length, all), all };
}

/** Layer of each part, −1 for what nothing takes off. Each fact is met first at its least depth, as the queue grows in order. */
function depths(parts: readonly StripPart[], at: ReadonlyMap<string, number>): readonly number[] {
  // Two facts for each part: off, and slack, which follows from off.
  const known = new Int32Array(2 * parts.length).fill(-1);
  const takers: { fact: number; way: number }[][] = Array.from({ length: 2 * parts.length }, () => []);
  const open: number[] = [];
  const queue: number[] = [];
  const learn = (fact: number, layer: number): void => {
    if (known[fact]! >= 0) return;
    known[fact] = layer;
    queue.push(fact);
    if (fact % 2 === 0) learn(fact + 1, layer);
  };
  for (const [n, { ways, slackens }] of parts.entries())
    for (const [fact, list] of [
      [2 * n, ways],
      [2 * n + 1, slackens],
    ] as const)
      for (const way of list) {
        const needs = new Set(way.map(({ of, slack }) => 2 * (at.get(of) ?? Number.NaN) + (slack ? 1 : 0)));
        // What waits for something that is not there is never ready.
        if ([...needs].some(Number.isNaN)) continue;
        const id = open.push(needs.size) - 1;
        for (const need of needs) takers[need]!.push({ fact, way: id });
        if (needs.size === 0) learn(fact, 0);
      }
  for (const fact of queue)
    for (const { fact: given, way } of takers[fact]!) {
      open[way]! -= 1;
      if (open[way] === 0) learn(given, known[fact]! + 1);
    }
  return parts.map(({ ways }, n) => (ways.length > 0 ? known[2 * n]! : known[2 * n + 1]!));
}

/** The ways of a part; where it is slackened first by itself, with what that waits for in the place of it. */
function waysOf({ id, ways, slackens }: StripPart): readonly (readonly StripAwaited[])[] {
  if (ways.length === 0) return slackens;
  const itself = ({ of, slack }: StripAwaited) => of === id && slack;
  return ways.flatMap((way) =>
    way.some(itself) && slackens.length > 0
      ? slackens.map((first) => [...first, ...way.filter((one) => !itself(one))])
      : [way],
  );
}

/** Every thing a part waits for; of one that only slackens, what its slackening waits for. */
function linksOf(parts: readonly StripPart[], at: ReadonlyMap<string, number>): readonly StripLink[] {
  return parts.flatMap((part, to) => {
    const list = waysOf(part);
    const seen = new Map<string, StripLink>();
    for (const way of list)
      for (const { of, slack } of way) {
        const from = at.get(of);
        const key = `${slack} ${of}`;
        if (from === undefined || from === to || seen.has(key)) continue;
        const always = list.every((other) => other.some((one) => one.of === of && one.slack === slack));
        seen.set(key, { from, to, slack, either: !always });
      }
    return [...seen.values()];
  });
}

/** The links without those that follow from others: what must be off for what must be off. */
function reduced(count: number, all: readonly StripLink[]): readonly StripLink[] {
  const needs: number[][] = Array.from({ length: count }, () => []);
  for (const { from, to, slack, either } of all) if (!slack && !either) needs[to]!.push(from);
  const words = (count + 31) >> 5;
  const above: (Uint32Array | null)[] = Array.from({ length: count }, () => null);
  /** All that is surely off before a part, as bits; `null` on the trail: a ring, which says nothing. */
  const visit = (n: number, trail: Set<number>): Uint32Array | null => {
    const known = above[n];
    if (known) return known;
    if (trail.has(n)) return null;
    trail.add(n);
    const bits = new Uint32Array(words);
    for (const m of needs[n]!) {
      bits[m >> 5]! |= 1 << (m & 31);
      const more = visit(m, trail);
      if (more) for (let w = 0; w < words; w++) bits[w]! |= more[w]!;
    }
    trail.delete(n);
    above[n] = bits;
    return bits;
  };
  return all.filter(({ from, to, slack, either }) => {
    if (slack || either) return true;
    return !needs[to]!.some((m) => {
      if (m === from) return false;
      const bits = visit(m, new Set([to]));
      return bits !== null && ((bits[from >> 5]! >>> (from & 31)) & 1) === 1;
    });
  });
}
