/** Which unit a quantity is shown in: for each system a ladder of units, each with the least value it is used for. */
import type { Kind } from './kind.ts';
import type { UnitOf } from './table.ts';

export type System = 'metric' | 'inch';

/** Unit, and the least size in that unit from which on it is used; the first rung takes everything below. */
export type Rung<K extends Kind> = readonly [UnitOf<K>, number];

type Ladders = {
  readonly [K in Kind]: { readonly metric: readonly Rung<K>[]; readonly inch: readonly Rung<K>[] };
};

function both<T>(rungs: readonly T[]): { readonly metric: readonly T[]; readonly inch: readonly T[] } {
  return { metric: rungs, inch: rungs };
}

export const LADDERS: Ladders = {
  torque: {
    metric: [['N·m', 0]],
    inch: [
      ['lbf·in', 0],
      ['lbf·ft', 5],
    ],
  },
  energy: {
    metric: [
      ['J', 0],
      ['kJ', 10],
    ],
    inch: [['ft·lbf', 0]],
  },
  length: {
    metric: [
      ['mm', 0],
      ['m', 1],
      ['km', 10],
    ],
    inch: [
      ['thou', 0],
      ['in', 0.1],
      ['ft', 3],
      ['mi', 5],
    ],
  },
  area: {
    metric: [
      ['mm²', 0],
      ['cm²', 10],
      ['m²', 1],
    ],
    inch: [
      ['in²', 0],
      ['ft²', 2],
    ],
  },
  volume: {
    metric: [
      ['ml', 0],
      ['l', 2],
    ],
    inch: [
      ['US fl oz', 0],
      ['US qt', 2],
      ['US gal', 4],
    ],
  },
  mass: {
    metric: [
      ['g', 0],
      ['kg', 1],
    ],
    inch: [
      ['oz', 0],
      ['lb', 1],
    ],
  },
  force: {
    metric: [
      ['N', 0],
      ['kN', 10],
    ],
    inch: [['lbf', 0]],
  },
  pressure: {
    metric: [
      ['Pa', 0],
      ['kPa', 0.1],
      ['MPa', 10],
    ],
    inch: [['psi', 0]],
  },
  temperature: { metric: [['°C', 0]], inch: [['°F', 0]] },
  'temperature-difference': { metric: [['K', 0]], inch: [['°F', 0]] },
  voltage: both([
    ['µV', 0],
    ['mV', 0.1],
    ['V', 0.1],
    ['kV', 2],
  ]),
  current: both([
    ['µA', 0],
    ['mA', 0.1],
    ['A', 0.1],
  ]),
  resistance: both([
    ['µΩ', 0],
    ['mΩ', 0.1],
    ['Ω', 0.1],
    ['kΩ', 1],
    ['MΩ', 1],
  ]),
  conductance: both([
    ['µS', 0],
    ['mS', 0.1],
    ['S', 0.1],
  ]),
  inductance: both([
    ['µH', 0],
    ['mH', 0.1],
    ['H', 1],
  ]),
  capacitance: both([
    ['pF', 0],
    ['nF', 1],
    ['µF', 0.1],
    ['mF', 10],
    ['F', 1],
  ]),
  charge: both([
    ['mAh', 0],
    ['Ah', 0.1],
  ]),
  power: both([
    ['mW', 0],
    ['W', 0.1],
    ['kW', 2],
  ]),
  frequency: both([
    ['Hz', 0],
    ['kHz', 2],
    ['MHz', 2],
  ]),
  rotation: both([['rpm', 0]]),
  time: both([
    ['µs', 0],
    ['ms', 0.1],
    ['s', 1],
    ['min', 2],
    ['h', 2],
    ['days', 3],
  ]),
  angle: both([['°', 0]]),
  ratio: both([['%', 0]]),
  density: both([
    ['kg/m³', 0],
    ['g/cm³', 0.5],
  ]),
  speed: { metric: [['km/h', 0]], inch: [['mph', 0]] },
};

/** Unit that nought is shown in where the smallest rung would look odd ("0 V", not "0 µV"). */
export const NOUGHT: { readonly [K in Kind]?: UnitOf<K> } = {
  voltage: 'V',
  current: 'A',
  resistance: 'Ω',
  conductance: 'S',
  inductance: 'mH',
  capacitance: 'µF',
  charge: 'Ah',
  power: 'W',
  time: 's',
  pressure: 'kPa',
};
