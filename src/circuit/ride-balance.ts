/**
 * Will it stay charged in this owner's life? Three months are ridden side by side: with the battery and alternator one
 * would expect, with a worn battery on a weak alternator, and with a new battery on a strong one. What they agree on is
 * said plainly; where they part it is in doubt.
 */
import { type Alternator, alternatorOf, rowAmps } from './alternator-output.ts';
import { AGES, rideBattery, startCharge } from './charge-state.ts';
import { type Leg, RATED_VOLTS, type RideLife } from './ride-legs.ts';
import { legSiemens, type MonthOptions, type RideMonth, rideMonth } from './ride-month.ts';
import { MIDDLING, restVoltsAt, type Wear } from './sound.ts';
import type { ChargingSpec } from './spec.ts';

export const CASES = ['worn', 'likely', 'fresh'] as const;
export type Case = (typeof CASES)[number];

/** A figure in the three cases. */
export type InCases<T> = Readonly<Record<Case, T>>;

/** The three alternators of a machine with the tables they have filled so far. */
export type RideMachine = InCases<Alternator> & { readonly spec: ChargingSpec };

export type RideVerdict = 'holds' | 'doubtful' | 'fails';

/** One leg against what the alternator can give in it. */
export interface LegBalance {
  readonly name: string;
  readonly rpm: number;
  /** What is on, at 13.5 V, A. */
  readonly needAmps: number;
  /** What the alternator gives at the battery's rest volts, A. */
  readonly giveAmps: InCases<number>;
  /** Speed from which it gives what is on, rpm; null where it never does; 0 where nothing is on. */
  readonly evenRpm: InCases<number | null>;
}

export interface RideBalance {
  readonly verdict: RideVerdict;
  /** Why it is no better, in the order of what weighs most; empty when it holds. */
  readonly reasons: readonly RideReason[];
  readonly months: InCases<RideMonth>;
  /** How full the likely battery must be for the engine to start, 0–1; null where even a full one would not do. */
  readonly startCharge: number | null;
  readonly legs: readonly LegBalance[];
  /** The leg with the engine running in which most is lacking, or least to spare; null when it never runs. */
  readonly worst: LegBalance | null;
}

export type RideReason =
  | { readonly is: 'flat'; readonly day: number; readonly leg: string | null; readonly in: Case }
  | { readonly is: 'no-start'; readonly day: number; readonly leg: string; readonly in: Case }
  | { readonly is: 'low'; readonly lowest: number }
  | { readonly is: 'falling'; readonly perDay: number };

/** How full a lead battery should stay, 0–1: under it sulphate stays in the plates (common practice, no source). */
export const KEPT_CHARGE = 0.6;
/** A loss a day that is more than the last of settling down, 0–1. */
const FALLING = 0.002;

/** Half of the book's tolerance either way: both at their ends at once would be rare. */
function wearOf(spec: ChargingSpec, sign: -1 | 0 | 1): Wear {
  const { openVolts, ratedAmps } = spec.alternator;
  return {
    ...MIDDLING,
    openVolts: 1 + (sign * openVolts.tolerance) / 2,
    ratedAmps: 1 + (sign * ratedAmps.tolerance) / 2,
  };
}

/** Opens a machine for rides: its tables are filled once and serve every ride after. */
export function rideMachine(spec: ChargingSpec): RideMachine {
  return {
    spec,
    worn: alternatorOf(spec, wearOf(spec, -1)),
    likely: alternatorOf(spec, wearOf(spec, 0)),
    fresh: alternatorOf(spec, wearOf(spec, 1)),
  };
}

/** The month of one case. */
export function monthOf(
  machine: RideMachine,
  life: RideLife,
  which: Case,
  options: MonthOptions = {},
): RideMonth {
  const battery = rideBattery(machine.spec.battery, AGES[which], life.celsius);
  return rideMonth(machine.spec, life, machine[which], battery, options);
}

/** Weighs a life. */
export function balanceRide(machine: RideMachine, life: RideLife, options: MonthOptions = {}): RideBalance {
  const months = inCases((which) => monthOf(machine, life, which, options));
  const legs = life.legs.map((leg) => legBalance(machine, life, leg));
  const running = legs.filter((_, n) => life.legs[n]!.rpm > 0);
  const rank = ({ needAmps, giveAmps }: LegBalance) => needAmps - giveAmps.likely;
  const worst = running.reduce<LegBalance | null>(
    (most, leg) => (most === null || rank(leg) > rank(most) ? leg : most),
    null,
  );
  const likely = rideBattery(machine.spec.battery, AGES.likely, life.celsius);
  return { ...judge(life, months), months, startCharge: startCharge(likely), legs, worst };
}

function inCases<T>(of: (which: Case) => T): InCases<T> {
  return { worn: of('worn'), likely: of('likely'), fresh: of('fresh') };
}

/** What the likely and the worn month say. */
export function judge(
  life: RideLife,
  months: Pick<InCases<RideMonth>, 'likely' | 'worn'>,
): { verdict: RideVerdict; reasons: readonly RideReason[] } {
  const reasons: RideReason[] = [];
  for (const which of ['likely', 'worn'] as const) {
    const { flat, noStart } = months[which];
    if (noStart) {
      const { name } = life.legs[noStart.leg]!;
      reasons.push({ is: 'no-start', day: noStart.day, leg: name, in: which });
    } else if (flat)
      reasons.push({
        is: 'flat',
        day: flat.day,
        leg: flat.leg === null ? null : life.legs[flat.leg]!.name,
        in: which,
      });
    // What the likely one cannot do the worn one cannot either.
    if (reasons.length > 0) break;
  }
  const fails = reasons.some((reason) => 'in' in reason && reason.in === 'likely');
  const { lowest } = months.likely;
  if (!fails && lowest < KEPT_CHARGE) reasons.push({ is: 'low', lowest });
  const perDay = fallPerDay(life, months.likely);
  if (!fails && perDay > FALLING) reasons.push({ is: 'falling', perDay });
  return { verdict: fails ? 'fails' : reasons.length > 0 ? 'doubtful' : 'holds', reasons };
}

/** By how much the battery empties a day at the end of the month, 0–1; negative when it fills. */
export function fallPerDay(life: RideLife, month: RideMonth): number {
  // Whole rounds of ride and rest are compared, else the days between two rides would look like a fall.
  const last = month.days.length - 1;
  const round = life.everyDays * Math.max(1, Math.floor(7 / life.everyDays));
  if (last < round) return 0;
  return (month.days[last - round]!.last - month.days[last]!.last) / round;
}

/** Speeds between which the break-even is looked for, rpm. */
const SPEEDS = { least: 300, most: 12_000 };

function legBalance(machine: RideMachine, life: RideLife, leg: Leg): LegBalance {
  const siemens = legSiemens(machine.spec, life, leg);
  const volts = restVoltsAt(machine.spec.battery.chemistry, 0.9);
  const need = siemens * volts;
  return {
    name: leg.name,
    rpm: leg.rpm,
    needAmps: siemens * RATED_VOLTS,
    giveAmps: inCases((which) => rowAmps(machine[which].row(leg.rpm), volts)),
    evenRpm: inCases((which) => evenRpm(machine[which], volts, need)),
  };
}

/** Speed from which an alternator gives so many amps at some volts, rpm, to 10 rpm; null where it never does. */
export function evenRpm(alternator: Alternator, volts: number, amps: number): number | null {
  if (amps <= 0) return 0;
  const gives = (rpm: number) => rowAmps(alternator.row(rpm), volts) >= amps;
  if (!gives(SPEEDS.most)) return null;
  let [low, high] = [SPEEDS.least / 10, SPEEDS.most / 10];
  while (high - low > 1) {
    const middle = Math.round((low + high) / 2);
    if (gives(middle * 10)) high = middle;
    else low = middle;
  }
  return high * 10;
}
