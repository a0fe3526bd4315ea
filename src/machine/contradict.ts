/** Figures of one machine file that cannot all be true. Each check is on the figures that count. */
import type { ChargingSpec } from '../circuit/spec.ts';
import { chargingSpec } from './charging-spec.ts';
import { type AnySaid, eachFigure, sameValue, writeSaid } from './counts.ts';
import { type Machine, PARTS } from './definition.ts';

/** A contradiction: where to look first, what does not fit, and what to do. */
export interface Contradiction {
  readonly path: string;
  readonly what: string;
  readonly fix: string;
}

/** Volts between two pins that the rectifier needs before any current flows into a 12 V battery, V peak: 12.6 V and two diodes. */
const THRESHOLD_VOLTS = 12.6 + 2 * 0.7;

/** Volts that a full battery shows at rest, V. Flooded: industry table; AGM: US Army TM 9-6115-730-24. */
const FULL_VOLTS = { flooded: 12.65, agm: 12.8 } as const;

/** Above this a charged battery gasses or dries out quickly, V. From memory of makers' leaflets; deliberately wide. */
const MOST_VOLTS = { flooded: 15.5, agm: 15.2 } as const;

const AT = '$.charging';
const round = (value: number, digits = 2) => String(Number(value.toPrecision(digits + 1)));

/** Everything that contradicts itself in a file whose members are all readable. */
export function contradictions(machine: Machine): readonly Contradiction[] {
  const toleranceFaults = tolerances(machine);
  const bySource = sourceFaults(machine);
  // The checks below need the tolerances.
  if (toleranceFaults.length > 0) return [...bySource, ...toleranceFaults];
  const spec = chargingSpec(machine);
  return [
    ...bySource,
    ...pins(machine, spec),
    ...voltage(spec),
    ...winding(spec),
    ...loads(spec),
    ...wires(machine, spec),
  ];
}

function tolerances(machine: Machine): Contradiction[] {
  const { openVolts, ratedAmps } = machine.charging.alternator;
  const out: Contradiction[] = [];
  for (const [name, figure] of Object.entries({ openVolts, ratedAmps })) {
    [figure, ...figure.also].forEach((said, n) => {
      const path = `${AT}.alternator.${name}${n === 0 ? '' : `.also[${n - 1}]`}`;
      if (said.is.low < said.is.high) return;
      const what = `"${said.is.text}" has no tolerance`;
      out.push({
        path: `${path}.is`,
        what,
        fix: `Write the range that the source allows, like "${said.is.text} ± 10 %"`,
      });
    });
  }
  return out;
}

function sourceFaults(machine: Machine): Contradiction[] {
  const out: Contradiction[] = [];
  for (const { path, figure } of eachFigure(machine)) {
    const said: readonly AnySaid[] = [figure, ...figure.also];
    said.forEach((one, n) => {
      const at = n === 0 ? path : `${path}.also[${n - 1}]`;
      const source = machine.sources[one.from];
      const section = path.split('.')[2]!;
      const part = PARTS.find((name) => name === section);
      if (source?.kind === 'part-sheet' && source.for !== part) {
        const what = `"${one.from}" is the sheet of the ${source.for}, which cannot say this`;
        out.push({ path: `${at}.from`, what, fix: 'Name the source that says it' });
      }
      const twin = said.findIndex((other) => other.from === one.from);
      if (twin < n && !sameValue(said[twin]!, one)) {
        const what = `"${one.from}" is quoted with ${writeSaid(said[twin]!)} and with ${writeSaid(one)}`;
        out.push({
          path: at,
          what,
          fix: 'Look it up again and keep one; if both are printed, name two sources',
        });
      } else if (twin < n) {
        out.push({
          path: at,
          what: `"${one.from}" is quoted twice with the same figure`,
          fix: 'Take one out',
        });
      }
    });
  }
  return out;
}

function pins(machine: Machine, spec: ChargingSpec): Contradiction[] {
  const count = machine.charging.alternator.pins.is;
  const { phases } = spec.alternator;
  if (phases === 3 && count === 2) {
    const what = 'a three-phase stator cannot feed a plug with two pins';
    return [
      {
        path: `${AT}.alternator.pins`,
        what,
        fix: 'Write phases 1 for two stator wires, or pins 3 for three',
      },
    ];
  }
  if (phases === 1 && count === 3) {
    const what = 'a single-phase stator has two wires, but the plug is given three pins';
    return [{ path: `${AT}.alternator.pins`, what, fix: 'Count only the pins that carry AC' }];
  }
  return [];
}

function voltage(spec: ChargingSpec): Contradiction[] {
  const [low, high] = spec.regulator.chargeVolts;
  const { chemistry } = spec.battery;
  const name = chemistry === 'agm' ? 'an AGM battery' : 'a flooded battery';
  const path = `${AT}.regulator.chargeVolts`;
  if (low < FULL_VOLTS[chemistry] + 0.3) {
    const what = `a regulator set to ${low} V would never fill ${name}, which rests at ${FULL_VOLTS[chemistry]} V`;
    return [{ path, what, fix: 'Check the charge volts and the chemistry of the battery' }];
  }
  if (high > MOST_VOLTS[chemistry]) {
    const what = `a regulator set to ${high} V would ruin ${name}, which takes ${MOST_VOLTS[chemistry]} V at most`;
    return [{ path, what, fix: 'Check the charge volts and the chemistry of the battery' }];
  }
  return [];
}

/**
 * Rated amps against the EMF behind them. Bounds that hold whatever the inductance is: below the threshold there
 * is no current, and above it the resistance alone allows at most (peak EMF − threshold)/R.
 */
function winding(spec: ChargingSpec): Contradiction[] {
  const { openVolts, ratedAmps, pairOhms } = spec.alternator;
  const path = `${AT}.alternator.ratedAmps`;
  const volts = (openVolts.volts / openVolts.rpm) * ratedAmps.rpm;
  const peak = Math.SQRT2 * volts * (1 + openVolts.tolerance);
  const amps = ratedAmps.amps * (1 - ratedAmps.tolerance);
  const gives = `${round(volts)} V AC at ${ratedAmps.rpm} rpm (by its open volts)`;
  if (peak <= THRESHOLD_VOLTS) {
    const what = `a winding that gives ${gives} cannot charge a 12 V battery at all`;
    return [
      {
        path,
        what,
        fix: `Check the rpm of openVolts (${openVolts.rpm}) and of ratedAmps (${ratedAmps.rpm})`,
      },
    ];
  }
  const most = (peak - THRESHOLD_VOLTS) / pairOhms[0];
  if (amps > most) {
    const what = `${ratedAmps.amps} A cannot come from a winding of ${pairOhms[0]} Ω that gives ${gives}; at most ${round(most)} A`;
    return [
      {
        path,
        what,
        fix: 'Check ratedAmps, pairOhms and openVolts with their rpm: one of the three does not fit',
      },
    ];
  }
  return inductance(spec, path);
}

/** Wildest inductance of a winding that is believed, H. From memory: motorcycle windings have some 0.1 to 2 mH a phase. */
const HENRY = [0.01e-3, 10e-3] as const;

/**
 * The inductance that open volts and rated amps imply together. Lossless continuous current into constant volts:
 * X = (3/π)√(Vs² − (2πV/9)²)/I for three phases, (2/π)√(Vs² − (πV/2)²)/I for one (derived, checked against ngspice).
 */
function inductance(spec: ChargingSpec, path: string): Contradiction[] {
  const { openVolts, ratedAmps, phases, poles } = spec.alternator;
  const pair = (Math.SQRT2 * openVolts.volts * ratedAmps.rpm) / openVolts.rpm;
  const peak = phases === 3 ? pair / Math.sqrt(3) : pair;
  const dc = phases === 3 ? (2 * Math.PI * THRESHOLD_VOLTS) / 9 : (Math.PI * THRESHOLD_VOLTS) / 2;
  if (peak <= dc * 1.1) return [];
  const reactance = ((phases === 3 ? 3 : 2) / Math.PI) * (Math.sqrt(peak ** 2 - dc ** 2) / ratedAmps.amps);
  // Without the poles, the widest believable counts bound the frequency.
  const henry = (count: number) => reactance / (2 * Math.PI * (count / 2) * (ratedAmps.rpm / 60));
  if (henry(poles ?? 4) >= HENRY[0] && henry(poles ?? 36) <= HENRY[1]) return [];
  const shown = round(henry(poles ?? 14) * 1000);
  const what = `${ratedAmps.amps} A at ${ratedAmps.rpm} rpm with ${openVolts.volts} V at ${openVolts.rpm} rpm would need a winding of about ${shown} mH, which no such alternator has`;
  return [{ path, what, fix: 'Check both figures and the rpm that each belongs to' }];
}

function loads(spec: ChargingSpec): Contradiction[] {
  const { ignition, low, high, tail, accessories } = spec.loads;
  const most = ignition + Math.max(low, high) + tail + accessories;
  if (spec.loadsFedFrom === 'battery' && most > spec.fuseAmps * 2) {
    const what = `the loads add up to ${round(most)} A, twice what a ${spec.fuseAmps} A fuse carries`;
    return [
      {
        path: `${AT}.fuse`,
        what,
        fix: 'Check the fuse and the loads; accessories with a fuse of their own do not go through the main one',
      },
    ];
  }
  return [];
}

function wires(machine: Machine, spec: ChargingSpec): Contradiction[] {
  const wiring = machine.charging.wiring;
  if (wiring?.sense && spec.regulator.senses === 'output') {
    const what = 'a sense wire is described, but the regulator senses at its own output';
    return [{ path: `${AT}.wiring.sense`, what, fix: 'Write senses "wire", or take the sense wire out' }];
  }
  return [];
}
