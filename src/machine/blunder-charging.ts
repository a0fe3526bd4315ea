/**
 * Figures of the charging circuit that few bikes have. What cannot be at all is in contradict.ts; the limits here are
 * wide, from memory of many bikes' books unless said otherwise, and only ask to look again.
 */
import type { ChargingSpec } from '../circuit/spec.ts';
import { wireOhms } from '../circuit/wire.ts';
import { chargingSpec } from './charging-spec.ts';
import { counting } from './counts.ts';
import type { Charging, Machine } from './definition.ts';
import { middle, type Quantity } from './figure.ts';
import { type Finding, say, type Topic } from './finding.ts';

const AT = '$.charging';

type Add = (
  level: Finding['level'],
  topic: Topic,
  at: string,
  what: string,
  why: string,
  lookUp: string,
) => void;

/** Findings on a charging circuit without contradictions. */
export function chargingFindings(machine: Machine): readonly Finding[] {
  const spec = chargingSpec(machine);
  const out: Finding[] = [];
  const add: Add = (level, topic, at, what, why, lookUp) => {
    out.push({ level, topic, path: `${AT}.${at}`, what, why, lookUp });
  };
  stator(spec, add);
  battery(spec, add);
  fuseAndLoads(spec, add);
  if (machine.charging.wiring) wires(machine, spec, machine.charging.wiring, add);
  return out;
}

/** AC volts rms between two pins per 1000 rpm. */
const VOLTS_PER_1000 = [6.5, 40] as const;
/** Inductance of a phase, H: some 0.1 to 1.5 mH are met with. */
const HENRY = [0.04e-3, 4e-3] as const;

function stator({ alternator }: ChargingSpec, add: Add): void {
  const { openVolts, ratedAmps, pairOhms, phases, poles } = alternator;
  const per = (openVolts.volts / openVolts.rpm) * 1000;
  if (per < VOLTS_PER_1000[0] || per > VOLTS_PER_1000[1]) {
    const why = `${say(openVolts.volts)} V at ${openVolts.rpm} rpm is ${say(per)} V per 1000 rpm, where ${VOLTS_PER_1000[0]} to ${VOLTS_PER_1000[1]} V are usual`;
    add(
      'doubt',
      'stator',
      'alternator.openVolts.is',
      'the AC volts do not suit their engine speed',
      why,
      'Look up the volts and the speed they are measured at',
    );
  }
  // Current in a phase, A rms, from the DC amps: six-step 0.78, one phase 1.11 (ideal bridges).
  const phaseAmps = (phases === 3 ? 0.78 : 1.11) * ratedAmps.amps;
  const ohms = (pairOhms[0] + pairOhms[1]) / 2;
  const lost = (phases === 3 ? 1.5 : 1) * ohms * phaseAmps ** 2;
  const given = 14 * ratedAmps.amps;
  if (lost > 2.5 * given) {
    const why = `At ${say(ratedAmps.amps)} A a winding of ${say(ohms)} Ω turns ${say(lost)} W into heat to give ${say(given)} W`;
    add(
      'doubt',
      'stator',
      'alternator.pairOhms.is',
      'the winding has too many ohms for its rated amps',
      why,
      'Look up the ohms, their decimal point and the rated amps',
    );
  }
  if (ohms < 0.05) {
    const why = `Windings that give ${say(ratedAmps.amps)} A have some 0.1 Ω or more between two pins, not ${say(ohms)} Ω`;
    add(
      'doubt',
      'stator',
      'alternator.pairOhms.is',
      'the winding has hardly any ohms',
      why,
      'Look up the ohms and their decimal point',
    );
  }
  if (ratedAmps.amps > 75 || ratedAmps.amps < 4) {
    const why = `A motorcycle's alternator gives some 8 to 60 A, not ${say(ratedAmps.amps)} A`;
    add(
      'doubt',
      'stator',
      'alternator.ratedAmps.is',
      'the rated amps are unusual',
      why,
      'Look up the rated output, and whether it is in amps or watts',
    );
  }
  if (poles !== null && (poles > 28 || poles < 4)) {
    const why = `Rotors have 4 to 24 poles, not ${poles}`;
    add(
      'doubt',
      'stator',
      'alternator.poles.is',
      'the count of poles is unusual',
      why,
      'Count the magnets of the rotor',
    );
  }
  if (poles === null) return;
  const scale = ratedAmps.rpm / openVolts.rpm;
  const phase = (Math.SQRT2 * openVolts.volts * scale) / (phases === 3 ? Math.sqrt(3) : 1);
  const dc = phases === 3 ? (2 * Math.PI * 14) / 9 : (Math.PI * 14) / 2;
  if (phase <= dc * 1.2) return;
  // Lossless bridge into constant volts, as in contradict.ts.
  const reactance = ((phases === 3 ? 3 : 2) / Math.PI) * (Math.sqrt(phase ** 2 - dc ** 2) / ratedAmps.amps);
  const henry = reactance / (Math.PI * poles * (ratedAmps.rpm / 60));
  if (henry >= HENRY[0] && henry <= HENRY[1]) return;
  const why = `With ${say(per)} V per 1000 rpm and ${poles} poles, ${say(ratedAmps.amps)} A at ${ratedAmps.rpm} rpm would need ${say(henry * 1000)} mH a phase, where 0.1 to 1.5 mH are usual`;
  add(
    'doubt',
    'stator',
    'alternator.ratedAmps.is',
    'AC volts and rated amps do not suit each other',
    why,
    'Look up the AC volts, the rated amps, their speeds and the poles',
  );
}

/** Volts up to which a battery is charged by some book or other, V. */
const HIGHEST = { flooded: 15.3, agm: 15.0 } as const;
/** Cold-cranking amps per Ah. */
const CRANK_PER_AH = [5.5, 32] as const;
/** Days to half charge below which a drain is no drain but a fault. */
const FEWEST_DAYS = 9;

function battery({ battery: of, regulator, restDrainAmps, alternator }: ChargingSpec, add: Add): void {
  const [low, high] = regulator.chargeVolts;
  const name = of.chemistry === 'agm' ? 'an AGM battery' : 'a flooded battery';
  const lookUp = 'Look up the charge volts for this kind of battery';
  if (high > HIGHEST[of.chemistry]) {
    add(
      'doubt',
      'battery',
      'regulator.chargeVolts.is',
      `${say4(high)} V is high for ${name}`,
      `It should stay at or below ${HIGHEST[of.chemistry]} V`,
      lookUp,
    );
  }
  if ((low + high) / 2 < 13.6) {
    add(
      'doubt',
      'battery',
      'regulator.chargeVolts.is',
      `a regulator that holds ${say4(low)} to ${say4(high)} V hardly fills ${name}`,
      '13.8 to 14.8 V are common practice',
      lookUp,
    );
  }
  if (high - low > 1.8) {
    add(
      'doubt',
      'battery',
      'regulator.chargeVolts.is',
      'the range of charge volts is wide',
      `${say4(low)} to ${say4(high)} V would pass a regulator that is not sound`,
      lookUp,
    );
  }
  const ratio = of.crankAmps / of.ampHours;
  if (ratio < CRANK_PER_AH[0] || ratio > CRANK_PER_AH[1]) {
    const why = `${say(of.crankAmps)} A of cold cranking from ${say(of.ampHours)} Ah is ${say(ratio)} A per Ah, where 8 to 25 are usual`;
    add(
      'doubt',
      'battery',
      'battery.crankAmps.is',
      'capacity and cranking amps do not suit each other',
      why,
      'Read both off the label of the battery',
    );
  }
  if (of.ampHours < 2 || of.ampHours > 45) {
    add(
      'doubt',
      'battery',
      'battery.capacity.is',
      'the capacity is unusual',
      `Motorcycle batteries have 3 to 36 Ah, not ${say(of.ampHours)} Ah`,
      'Read it off the label of the battery',
    );
  }
  if (alternator.ratedAmps.amps > 12 * of.ampHours) {
    const why = `${say(alternator.ratedAmps.amps)} A into ${say(of.ampHours)} Ah`;
    add(
      'doubt',
      'battery',
      'battery.capacity.is',
      'the battery is tiny beside its alternator',
      why,
      'Read it off the label of the battery',
    );
  }
  // Days to half charge = 500·Ah/(24·mA).
  const days = restDrainAmps > 0 ? (0.5 * of.ampHours) / (24 * restDrainAmps) : Number.POSITIVE_INFINITY;
  if (days < FEWEST_DAYS) {
    const why = `${say(restDrainAmps * 1000)} mA takes half of ${say(of.ampHours)} Ah in ${say(days)} days; a few milliamps are common practice`;
    add(
      'doubt',
      'drain',
      'restDrain.is',
      'so large a key-off drain would itself be a fault',
      why,
      'Look up the most that is allowed, and whether it is in mA',
    );
  }
}

const say4 = (value: number) => String(Number(value.toPrecision(4)));

function fuseAndLoads(spec: ChargingSpec, add: Add): void {
  const { fuseAmps, loadsFedFrom, alternator, loads } = spec;
  const rated = alternator.ratedAmps.amps;
  const lookUp = 'Look up the main fuse and the rated amps';
  if (loadsFedFrom === 'battery' && fuseAmps < 0.6 * rated) {
    const why = `All that the alternator gives goes through it, ${say(rated)} A when rated`;
    add('doubt', 'fuse', 'fuse.is', `a fuse of ${say(fuseAmps)} A would blow`, why, lookUp);
  }
  if (fuseAmps > 3.5 * rated) {
    add(
      'doubt',
      'fuse',
      'fuse.is',
      `a fuse of ${say(fuseAmps)} A protects no wire here`,
      `The alternator is rated at ${say(rated)} A`,
      lookUp,
    );
  }
  const running = loads.ignition + Math.max(loads.low, loads.high) + loads.tail;
  const all = running + loads.accessories;
  // Before the engine runs, the battery feeds everything through the fuse, whichever side the loads hang on.
  const drawn = loadsFedFrom === 'battery' ? all : running;
  if (drawn > fuseAmps) {
    const why = `${loadsFedFrom === 'battery' ? 'Ignition, lights and accessories' : 'Ignition and lights'} draw ${say(drawn)} A through ${say(fuseAmps)} A`;
    add(
      'doubt',
      'fuse',
      'fuse.is',
      'the loads are more than the fuse carries',
      why,
      'Look up the fuse and the loads',
    );
  }
  if (running > 1.1 * rated) {
    const why = `Ignition and lights draw ${say(running)} A, the alternator is rated at ${say(rated)} A`;
    add(
      'doubt',
      'loads',
      'loads',
      'the bike draws more than its alternator gives, always',
      why,
      'Check watts and amps of each load, and the rated amps',
    );
  }
  for (const [name, most, least] of [
    ['ignition', 15, 0.3],
    // Even a head lamp of diodes takes some 9 W and more.
    ['low', 10.5, 0.6],
    ['high', 16, 0.6],
    // Tail, plate, side and instrument lamps together: 50 W.
    ['tail', 3.7, 0.03],
    ['accessories', 30, 0.005],
  ] as const) {
    const amps = loads[name];
    // Nought says that there is none; a lamp of a few watts is one of light-emitting diodes.
    if (amps === 0 || (amps <= most && amps >= least)) continue;
    const why = `${say(amps)} A is ${say(amps * 13.5)} W`;
    add(
      'doubt',
      'loads',
      `loads.${name}.is`,
      'the load is unusual',
      why,
      'Read the label again: watts or amps, and the decimal point',
    );
  }
}

/** A mm² of copper carries this in a short run in free air, A: above it look again, far above it the wire burns. */
const PER_MM2 = { doubt: 21, danger: 32 };
/** Volts lost in one run at rated amps. Common practice: under 0.5 V a side, joints included. */
const DROP = { doubt: 0.55, danger: 0.9 };
/** Ohms above which a joint is not sound. */
const SOUND_JOINT = 0.05;

function wires(
  machine: Machine,
  spec: ChargingSpec,
  wiring: NonNullable<Charging['wiring']>,
  add: Add,
): void {
  const rated = spec.alternator.ratedAmps.amps;
  const phaseAmps = (spec.alternator.phases === 3 ? 0.78 : 1.11) * rated;
  for (const name of ['stator', 'output', 'ground', 'sense'] as const) {
    const run = wiring[name];
    if (!run) continue;
    run.joints?.forEach(({ ohms }, n) => {
      const value = middle(counting(machine, ohms).is as Quantity);
      if (value <= SOUND_JOINT || name === 'sense') return;
      const why = `${say(value * 1000)} mΩ takes ${say(value * rated)} V at ${say(rated)} A, where 0.1 to 0.2 V a joint is common practice`;
      add(
        'doubt',
        'wire',
        `wiring.${name}.joints[${n}].ohms.is`,
        'so many ohms are no sound joint',
        why,
        'Check whether mΩ was meant',
      );
    });
    if (name === 'sense') continue;
    const amps = name === 'stator' ? phaseAmps : rated;
    const gauge = counting(machine, run.gauge).is as (typeof run.gauge)['is'];
    const length = middle(counting(machine, run.length).is as Quantity);
    const density = amps / (gauge.section * 1e6);
    const drop = amps * wireOhms(gauge.section, length);
    const at = `wiring.${name}`;
    if (density > PER_MM2.doubt) {
      const level = density > PER_MM2.danger ? 'danger' : 'doubt';
      const why = `${say(amps)} A through ${say(gauge.section * 1e6)} mm² is ${say(density)} A a mm², and above some ${PER_MM2.doubt} a short wire gets hot`;
      add(
        level,
        'wire',
        `${at}.gauge.is`,
        `${gauge.text} is thin for its current`,
        why,
        'Measure the wire without its skin, and look up the rated amps',
      );
    }
    if (drop > DROP.doubt) {
      const level = drop > DROP.danger ? 'danger' : 'doubt';
      const why = `${say(length)} m of ${gauge.text} takes ${say(drop)} V at ${say(amps)} A, and under 0.5 V a side is common practice`;
      add(
        level,
        'wire',
        `${at}.length.is`,
        'the run loses too many volts',
        why,
        'Measure length and gauge, and check the unit of the length',
      );
    }
  }
}
