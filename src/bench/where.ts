/** The drawing of where: the screws of a cover with their order and lengths, the stack of shims, the lever on the wrench. */
import { sayLength } from '../joint/say.ts';
import { tighteningOrder } from '../joint/tightening-order.ts';
import { counting } from '../machine/counts.ts';
import type { Picture } from '../sum/sum.ts';
import type { Asking } from './ask.ts';
import { foundStack, lastRecord } from './stack-asks.ts';

/** What to draw at a step; null where a drawing tells nothing. */
export function whereOf(asking: Asking): Picture | null {
  return stackPicture(asking) ?? boltPicture(asking);
}

function boltPicture({ machine, place, fastener, bench }: Asking): Picture | null {
  const positions = fastener?.fastener.positions ?? [];
  if (!fastener || positions.length < 2) return null;
  // The file counts upwards, the sheet downwards.
  const places = positions.map(({ x, y }) => ({ x: x.low, y: -y.low }));
  const order = tighteningOrder(places);
  if (!order.ok) return null;
  const record = place.action === null ? null : lastRecord(bench.records, place.action.id, 'lengths');
  const found = record?.figures.lengthsM;
  const said = fastener.fastener.length;
  const one = said === null ? null : counting(machine, said).is.text;
  const labels = Array.isArray(found) ? found.map(sayLength) : one === null ? null : positions.map(() => one);
  // Lengths that are all alike are told once, below.
  const differ = labels !== null && new Set(labels).size > 1;
  return { kind: 'bolt-map', places, order: order.order, ...(differ ? { labels: labels! } : {}) };
}

function stackPicture(asking: Asking): Picture | null {
  if (asking.place.step?.kind !== 'shim') return null;
  const found = foundStack(asking);
  if (!found || found.length === 0) return null;
  const total = found.reduce((sum, each) => sum + each, 0);
  const id = asking.place.step.shims ?? '';
  const wanted = asking.machine.shims?.[id]?.stack ?? null;
  return {
    kind: 'shim-stack',
    shims: found.map((thickness, n) => ({ thickness, words: `${n + 1}: ${sayLength(thickness)}` })),
    total: sayLength(total),
    wanted: wanted === null ? 'as found' : counting(asking.machine, wanted).is.text,
    fits: true,
  };
}
