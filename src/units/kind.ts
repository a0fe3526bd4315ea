/** The kinds of quantity, with the words for them. A kind is a type: a torque never passes for an energy. */

export interface KindWords {
  /** With its article, as it stands in a sentence. */
  readonly noun: string;
  /** UCUM code of the unit a quantity of this kind is held in. */
  readonly si: string;
  /** What to write, shown when an entry is refused. */
  readonly example: string;
  /** Whether a value under nought makes no sense (a temperature is checked against absolute zero instead). */
  readonly neverNegative: boolean;
}

function words(noun: string, si: string, example: string, neverNegative = false): KindWords {
  return { noun, si, example, neverNegative };
}

const NEVER_NEGATIVE = true;

export const KINDS = {
  torque: words('a torque', 'N.m', '8 lbf·ft'),
  energy: words('an energy', 'J', '50 J'),
  length: words('a length', 'm', '5/8 in'),
  area: words('an area', 'm2', '2.5 mm²', NEVER_NEGATIVE),
  volume: words('a volume', 'm3', '38 fl oz', NEVER_NEGATIVE),
  mass: words('a mass', 'kg', '1.2 kg', NEVER_NEGATIVE),
  force: words('a force', 'N', '20 N'),
  pressure: words('a pressure', 'Pa', '36 psi'),
  temperature: words('a temperature', 'K', '25 °C'),
  'temperature-difference': words('a temperature difference', 'K', '10 K'),
  voltage: words('a voltage', 'V', '14.2 V'),
  current: words('a current', 'A', '3.5 A'),
  resistance: words('a resistance', 'Ohm', '0.2 Ω', NEVER_NEGATIVE),
  conductance: words('a conductance', 'S', '0.5 S', NEVER_NEGATIVE),
  inductance: words('an inductance', 'H', '0.3 mH', NEVER_NEGATIVE),
  capacitance: words('a capacitance', 'F', '10 µF', NEVER_NEGATIVE),
  charge: words('a charge', 'C', '12 Ah'),
  power: words('a power', 'W', '55 W'),
  frequency: words('a frequency', 'Hz', '150 Hz', NEVER_NEGATIVE),
  rotation: words('a speed of rotation', '/s', '3000 rpm', NEVER_NEGATIVE),
  time: words('a time', 's', '15 min'),
  angle: words('an angle', 'rad', '45°'),
  ratio: words('a ratio', '1', '5 %'),
  density: words('a density', 'kg/m3', '1.27 g/cm³', NEVER_NEGATIVE),
  speed: words('a speed', 'm/s', '50 km/h'),
} as const satisfies Record<string, KindWords>;

export type Kind = keyof typeof KINDS;

/** Whether a word names a kind. */
export function isKind(word: string): word is Kind {
  return Object.hasOwn(KINDS, word);
}
