/** Wire sizes as a person writes them in a machine file. */
import { awgSection } from '../circuit/wire.ts';
import { readAs } from './entry.ts';

/** A gauge as a person writes it. */
export interface Gauge {
  readonly text: string;
  /** Copper section, m². */
  readonly section: number;
}

/**
 * Reads `AWG 14`, `14 AWG`, `14 ga`, `2.5 mm²`, `2,5 mm2`. AWG 4 to 24 and 0.2 to 25 mm², which is more than a
 * charging circuit uses.
 */
export function readGauge(text: string): { ok: true; gauge: Gauge } | { ok: false; why: string } {
  const plain = text.trim();
  const awg = /^(?:awg\s*(\d{1,2})|(\d{1,2})\s*(?:awg|ga|gauge))$/i.exec(plain);
  if (awg) {
    const n = Number(awg[1] ?? awg[2]);
    if (n < 4 || n > 24) return { ok: false, why: `AWG ${n} is outside AWG 4 to AWG 24` };
    return { ok: true, gauge: { text: plain, section: awgSection(n) } };
  }
  const metric = readAs(plain, 'area');
  if (!metric.ok || metric.low !== metric.high) return { ok: false, why: `"${plain}" is no wire size` };
  if (metric.low < 0.2e-6 || metric.low > 25e-6) {
    return { ok: false, why: `${plain} is outside 0.2 mm² to 25 mm²` };
  }
  return { ok: true, gauge: { text: plain, section: metric.low } };
}
