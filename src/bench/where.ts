/** The drawing of where: the screws of a cover with their order and lengths, the stack of shims, the way of a wire. */
import { sayLength } from '../joint/say.ts';
import { tighteningOrder } from '../joint/tightening-order.ts';
import { counting } from '../machine/counts.ts';
import type { Picture } from '../sum/picture.ts';
import type { Asking } from './ask.ts';
import { sayInBoth } from './both-systems.ts';
import { lastRecord } from './last-record.ts';
import { foundStack, stackFits } from './stack-asks.ts';

/** What to draw at a step; null where a drawing tells nothing. */
export function whereOf(asking: Asking): Picture | null {
  return stackPicture(asking) ?? boltPicture(asking) ?? wayPicture(asking);
}

function boltPicture({ place, fastener, bench }: Asking): Picture | null {
  const positions = fastener?.fastener.positions ?? [];
  if (!fastener || positions.length < 2) return null;
  // The file counts upwards, the sheet downwards.
  const places = positions.map(({ x, y }) => ({ x: x.low, y: -y.low }));
  const order = tighteningOrder(places);
  if (!order.ok) return null;
  const record = place.action === null ? null : lastRecord(bench.records, place.action.id, 'lengths');
  const found = record?.figures.lengthsM;
  // Lengths that are all alike need no map; of others the odd ones are written at their holes.
  const labels = Array.isArray(found) ? oddLengths(found) : null;
  return { kind: 'bolt-map', places, order: order.order, ...(labels ? { labels } : {}) };
}

/** What to write at each hole: its length where it is not that of most; null where all are alike. */
function oddLengths(lengths: readonly number[]): readonly string[] | null {
  const said = lengths.map((length) => sayLength(length).replace(/\s*\(.*$/, ''));
  const count = (one: string) => said.filter((other) => other === one).length;
  const most = said.reduce((best, one) => (count(one) > count(best) ? one : best), said[0]!);
  const odd = said.map((one) => (one === most ? '' : one));
  return odd.some(Boolean) ? odd : null;
}

function stackPicture(asking: Asking): Picture | null {
  if (asking.place.step?.kind !== 'shim') return null;
  const found = foundStack(asking);
  if (!found || found.length === 0) return null;
  const total = found.reduce((sum, each) => sum + each, 0);
  const id = asking.place.step.shims ?? '';
  const figure = asking.machine.shims?.[id]?.stack ?? null;
  const wanted = figure === null ? null : counting(asking.machine, figure, asking.fresh).is;
  return {
    kind: 'shim-stack',
    shims: found.map((thickness, n) => ({ thickness, words: `${n + 1}: ${sayLength(thickness)}` })),
    total: sayLength(total),
    wanted: wanted === null ? 'as found' : sayInBoth('length', wanted),
    // What came out is no proof of what belongs in: somebody may have had it apart before.
    fits: wanted === null || stackFits(total, wanted),
  };
}

/**
 * The way of the wire as the hands wrote it down going in: the file does not know it, and at the step where the wire goes
 * back it must be seen. One thing alone is no way.
 */
function wayPicture({ place, bench }: Asking): Picture | null {
  const said = place.action === null ? null : lastRecord(bench.records, place.action.id, 'run')?.words.found;
  const points = (said ?? '').split(/[,;\n]/).map((point) => point.trim());
  const named = points.filter((point) => point !== '');
  return named.length < 2 ? null : { kind: 'wire-way', points: named, words: 'The wire, as it was found' };
}
