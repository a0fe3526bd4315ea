/** The figures of an operating point as a table's columns, the same for `point` and `sweep`. */
import type { OperatingPoint } from '../circuit/bike.ts';
import type { Column } from './table.ts';

interface Figure extends Column {
  /** Name in `--json`, with its unit. */
  readonly field: string;
  /** In words, for `point`. */
  readonly words: string;
  readonly of: (point: OperatingPoint) => number;
}

const figure = (
  field: string,
  name: string,
  unit: string,
  decimals: number,
  words: string,
  of: Figure['of'],
): Figure => ({ field, name, unit, decimals, words, of });

/** Every figure in the order printed. A single-phase machine has one phase current and two pins. */
export function pointFigures(phases: 1 | 3): readonly Figure[] {
  const letters = phases === 3 ? ['a', 'b', 'c'] : ['a'];
  const pins = phases === 3 ? ['a', 'b', 'c'] : ['a', 'b'];
  return [
    figure('batteryVolts', 'battery', 'V', 2, 'Battery', (p) => p.batteryVolts),
    figure('regulatorVolts', 'regulator', 'V', 2, 'At the regulator', (p) => p.regulatorVolts),
    figure('alternatorAmps', 'alternator', 'A', 1, 'Alternator gives', (p) => p.alternatorAmps),
    figure('batteryAmps', 'into battery', 'A', 1, 'Into the battery', (p) => p.batteryAmps),
    ...letters.map((pin, n) =>
      figure(
        `phase${pin.toUpperCase()}Amps`,
        phases === 3 ? `phase ${pin}` : 'winding',
        'A rms',
        1,
        phases === 3 ? `Phase ${pin}, rms` : 'Winding, rms',
        (p) => p.phaseAmps[n]!,
      ),
    ),
    figure('rippleMillivolts', 'ripple', 'mV', 0, 'Ripple on an AC meter', (p) => p.rippleMeter * 1000),
    figure(
      'dropPositiveVolts',
      'drop +',
      'V',
      2,
      'Lost from regulator + to battery +',
      (p) => p.dropPositive,
    ),
    figure(
      'dropNegativeVolts',
      'drop −',
      'V',
      2,
      'Lost from battery − to regulator −',
      (p) => p.dropNegative,
    ),
    figure('dropBreakerVolts', 'breaker', 'V', 2, 'Lost in the main breaker', (p) => p.dropBreaker),
    figure('dropOutputJointVolts', 'joint', 'V', 2, 'Lost in the output joint', (p) => p.dropOutputJoint),
    ...pins.map((pin, n) =>
      figure(
        `pin${pin.toUpperCase()}Volts`,
        `pin ${pin}`,
        'V rms',
        2,
        `Lost in pin ${pin} of the stator plug, rms`,
        (p) => p.pinVolts[n]!,
      ),
    ),
  ];
}

/** An operating point as a plain object for `--json`, six digits. */
export function pointObject(point: OperatingPoint, phases: 1 | 3): Record<string, number> {
  return Object.fromEntries(
    pointFigures(phases).map(({ field, of }) => [field, Number(of(point).toPrecision(6))]),
  );
}
