/** The circuit and the state that the options of `point`, `sweep` and `netlist` describe. */
import type { Bike, RunState } from '../circuit/bike.ts';
import { coldState, hotState } from '../circuit/point.ts';
import { MIDDLING } from '../circuit/sound.ts';
import type { ChargingSpec } from '../circuit/spec.ts';
import { buildBike, heated, type Instance } from '../fault/build.ts';
import { FAULT_IDS, FAULTS, faultPossible, LOCATED } from '../fault/faults.ts';
import { GRADES, grade } from '../fault/grades.ts';
import { nearest } from '../machine/nearest.ts';
import type { Option } from './command.ts';
import { type Given, numberOf, oneOf } from './options.ts';
import { Refusal } from './refusal.ts';

/** Options that say how the bike is run and what is wrong with it. */
export const CIRCUMSTANCES: readonly Option[] = [
  { name: '--lights', value: 'off|low|high', about: 'headlight; low unless said' },
  {
    name: '--temp',
    value: 'cold|hot',
    about: 'winding at 25 °C, or at 110 °C with magnets 6 % weaker; cold unless said',
  },
  { name: '--accessories', value: 'on|off', about: "the owner's additions; on unless said" },
  {
    name: '--battery',
    value: 'as-came|charged',
    about: 'battery as it came (three quarters full) or charged on the bench first',
  },
  {
    name: '--fault',
    value: 'FAULT[:SEVERITY[:PIN]]',
    many: true,
    about:
      'put a fault in: its name (see "chargewright words faults"), how bad from 0 to 1, which pin a, b or c',
  },
];

/** What the circuit is and what was put into it, in words. */
export interface Circumstances {
  readonly bike: Bike;
  readonly stateAt: (rpm: number) => RunState;
  readonly words: string;
}

/** State of charge that a bench charger reaches, 1: 0.95 (common practice, no source). */
const BENCH_CHARGE = 0.95;

/** Reads the options. `defaultLights` is low beam, the state most readings are taken in. */
export function readCircumstances(given: Given, spec: ChargingSpec): Circumstances {
  const lights = oneOf(given, '--lights', ['off', 'low', 'high'], 'low');
  const temp = oneOf(given, '--temp', ['cold', 'hot'], 'cold');
  const accessories = oneOf(given, '--accessories', ['on', 'off'], 'on') === 'on';
  const battery = oneOf(given, '--battery', ['as-came', 'charged'], 'as-came');
  const faults = given.all('--fault').map((text) => readFault(text, spec));
  const built = buildBike(spec, MIDDLING, BENCH_CHARGE, faults);
  let bike = battery === 'charged' ? built.charged : built.asCame;
  if (temp === 'hot') bike = heated(bike, built.condition);
  // A blown main fuse leaves the loads to the battery and the regulator alone.
  if (built.condition.fuseBlown) bike = { ...bike, breakerOhm: 1e5, loadsFedFrom: 'battery' };
  const at = temp === 'hot' ? hotState : coldState;
  const words = [
    lights === 'off' ? 'lights off' : `${lights} beam`,
    temp,
    ...(accessories ? [] : ['accessories off']),
    ...(battery === 'charged' ? ['battery charged'] : []),
    faults.length === 0 ? 'sound' : faults.map(faultWords).join(' and '),
    ...(built.condition.fuseBlown ? ['main fuse blown'] : []),
  ].join(', ');
  return { bike, stateAt: (rpm) => ({ ...at(rpm, lights), accessories }), words };
}

/** Engine speed of an option, rpm. */
export function rpmOf(given: Given, name: string, otherwise: number): number {
  return numberOf(given, name, 300, 15_000, 'rpm', otherwise);
}

function readFault(text: string, spec: ChargingSpec): Instance {
  const [name = '', share = '0.5', pin = 'a', ...rest] = text.split(':');
  const id = FAULT_IDS.find((one) => one === name);
  if (id === undefined) {
    const near = nearest(name, FAULT_IDS);
    const remedy = near === null ? 'see "chargewright words faults"' : `write ${near} if that is meant`;
    throw new Refusal(`--fault "${text}": no fault is called "${name}"; ${remedy}.`);
  }
  const severity = /^(0|1|0?\.\d+|0\.\d+|1\.0+)$/.test(share) ? Number(share) : Number.NaN;
  if (!(severity >= 0 && severity <= 1)) {
    throw new Refusal(
      `--fault "${text}": "${share}" is no severity; write a number from 0 (mild) to 1 (bad).`,
    );
  }
  const phase = ['a', 'b', 'c'].indexOf(pin);
  if (phase < 0 || rest.length > 0 || (spec.alternator.phases === 1 && phase > 1)) {
    const pins = spec.alternator.phases === 1 ? 'a or b' : 'a, b or c';
    throw new Refusal(`--fault "${text}": what follows the severity is one pin, ${pins}.`);
  }
  if (!faultPossible(id, { phases: spec.alternator.phases, senses: spec.regulator.senses })) {
    throw new Refusal(`--fault "${text}": this bike cannot have it (${FAULTS[id].title}); leave it out.`);
  }
  return { id, severity, second: 0.5, place: { phase: phase as 0 | 1 | 2, variant: 0 } };
}

function faultWords({ id, severity, place }: Instance): string {
  const scale = GRADES[id];
  const figure = scale ? Number(grade(id, severity).toPrecision(2)) : null;
  const size =
    figure === null || !scale ? '' : scale.unit === '1' ? ` (× ${figure})` : ` (${figure} ${scale.unit})`;
  return `${FAULTS[id].title}${size}${LOCATED.has(id) ? `, ${'abc'[place.phase]}` : ''}`;
}
