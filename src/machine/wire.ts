/** Resistance of a run of copper wire from its gauge and length. */
import { readAs } from './entry.ts';

/** Resistivity of annealed copper at 20 °C, Ω·m. 0.017241 µΩ·m (International Annealed Copper Standard, as in NBS Handbook 100). */
export const COPPER_OHM_METRES = 1.7241e-8;

/** Diameter of a solid wire of American gauge `awg` (0–36), m. d = 0.127 mm · 92^((36 − n)/39), ASTM B258. */
export function awgDiameter(awg: number): number {
  if (!(awg >= 0 && awg <= 36)) throw new RangeError(`awg must be 0 to 36, not ${awg}`);
  return 0.127e-3 * 92 ** ((36 - awg) / 39);
}

/** Copper section of American gauge `awg` (0–36), m². */
export function awgSection(awg: number): number {
  return (Math.PI / 4) * awgDiameter(awg) ** 2;
}

/** Resistance of a copper wire of `section` m² and `length` m at 20 °C, Ω. Both must be above zero. */
export function wireOhms(section: number, length: number): number {
  if (!(section > 0)) throw new RangeError(`section must be above 0 m², not ${section}`);
  if (!(length > 0)) throw new RangeError(`length must be above 0 m, not ${length}`);
  return (COPPER_OHM_METRES * length) / section;
}

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
