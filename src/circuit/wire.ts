/** Copper wire: its section by gauge, its resistance. */

/** Resistivity of annealed copper at 20 °C, Ω·m. 0.017241 µΩ·m (International Annealed Copper Standard, as in NBS Handbook 100). */
export const COPPER_OHM_METRES = 1.7241e-8;

/** Rise of copper's resistance, 1/K: 0.393 % a kelvin of that at 20 °C (same source). */
export const COPPER_PER_KELVIN = 0.00393;

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
