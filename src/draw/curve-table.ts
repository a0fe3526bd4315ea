import type { CurvesInput } from './curves.ts';

/** One field of a CSV line. RFC 4180 §2, rules 5–7. */
export function csvField(raw: string): string {
  return /[",\r\n]/.test(raw) ? `"${raw.replaceAll('"', '""')}"` : raw;
}

/**
 * The data of a drawing of curves as CSV (RFC 4180: CRLF, header line, quotes where needed): one line for each
 * x, one column for each curve, two for each band; an x a curve does not have leaves its field empty. Figures
 * are written in full, with a full stop.
 */
export function curveTable(input: CurvesInput): string {
  const bands = input.bands ?? [];
  const unit = input.y.unit;
  const columns: { head: string; at: Map<number, number> }[] = [
    ...input.curves.map((c) => ({
      head: `${c.name}, ${unit}`,
      at: new Map(c.points.map((p) => [p[0], p[1]] as const)),
    })),
    ...bands.flatMap((b) => [
      { head: `${b.name} low, ${unit}`, at: new Map(b.points.map((p) => [p[0], p[1]] as const)) },
      { head: `${b.name} high, ${unit}`, at: new Map(b.points.map((p) => [p[0], p[2]] as const)) },
    ]),
  ];
  const xs = [...new Set(columns.flatMap((c) => [...c.at.keys()]))]
    .filter(Number.isFinite)
    .sort((a, b) => a - b);
  const head = [`${input.x.label}, ${input.x.unit}`, ...columns.map((c) => c.head)];
  const lines = xs.map((x) => [
    String(x),
    ...columns.map((c) => {
      const y = c.at.get(x);
      return y === undefined || !Number.isFinite(y) ? '' : String(y);
    }),
  ]);
  return [head, ...lines].map((fields) => `${fields.map(csvField).join(',')}\r\n`).join('');
}
