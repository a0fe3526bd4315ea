/**
 * What to switch off or change so that it holds. Every change is ridden again, on the likely and on the worn battery, and
 * ranked by what it did; nothing here knows beforehand what helps.
 */
import {
  type Case,
  judge,
  monthOf,
  type RideBalance,
  type RideMachine,
  type RideVerdict,
} from './ride-balance.ts';
import { RIDE_LIMITS, type RideLife } from './ride-legs.ts';
import { type MonthOptions, type RideMonth, runsIn } from './ride-month.ts';

export type RideChange =
  | { readonly is: 'load-off'; readonly load: string }
  | { readonly is: 'load-only-in'; readonly load: string; readonly legs: readonly string[] }
  | { readonly is: 'low-beam' }
  | { readonly is: 'dark-while-parked' }
  | { readonly is: 'faster'; readonly leg: string; readonly from: number; readonly rpm: number }
  | { readonly is: 'longer'; readonly leg: string; readonly minutes: number }
  | { readonly is: 'mains'; readonly everyDays: number }
  | { readonly is: 'new-battery' }
  | { readonly is: 'no-drain'; readonly amps: number };

/** A change and what came of it. */
export interface RideAdvice {
  readonly change: RideChange;
  readonly verdict: RideVerdict;
  /** Whether it holds with the change and did not without. */
  readonly mends: boolean;
  /** Lowest charge in the last round of the likely month before and after, 0–1; 0 where it went flat. */
  readonly before: number;
  readonly after: number;
  /** Days until the first trouble before and after; null where there was none. */
  readonly troubleBefore: number | null;
  readonly troubleAfter: number | null;
}

export interface RideAdviceList {
  /** The most helpful first; only what helps. */
  readonly single: readonly RideAdvice[];
  /** The fewest of the first ones that hold together; null when one alone holds or nothing does. */
  readonly together: { readonly changes: readonly RideChange[]; readonly verdict: RideVerdict } | null;
}

/** A life as changed, with what does not stand in it. */
interface Changed {
  readonly machine: RideMachine;
  readonly life: RideLife;
  readonly options: MonthOptions;
  /** Which battery stands for the likely one. */
  readonly likely: Case;
}

/** Drain under which there is nothing to look for, A. */
const SMALL_DRAIN = 0.01;
/** How much above break-even a speed is kept, and to what it is rounded, rpm. */
const SPEED = { above: 150, round: 50, most: 4000 };
const MOST_TOGETHER = 4;

/** The changes that this life leaves room for. */
export function changesFor(machine: RideMachine, life: RideLife, now: RideBalance): readonly RideChange[] {
  const changes: RideChange[] = [];
  const { legs } = now;
  const plenty = [
    ...new Set(
      legs
        .filter((leg, n) => life.legs[n]!.rpm > 0 && leg.giveAmps.likely > 1.15 * leg.needAmps)
        .map((leg) => leg.name),
    ),
  ];
  for (const load of life.loads) {
    const runs = life.legs.filter((leg) => runsIn(load, leg));
    if (load.watts === 0 || (runs.length === 0 && load.when !== 'always')) continue;
    changes.push({ is: 'load-off', load: load.name });
    const only = plenty.filter((name) => runs.some((leg) => leg.name === name));
    if (load.when !== 'always' && only.length > 0 && runs.some((leg) => !only.includes(leg.name)))
      changes.push({ is: 'load-only-in', load: load.name, legs: only });
  }
  if (life.legs.some((leg) => leg.lights === 'high')) changes.push({ is: 'low-beam' });
  if (life.legs.some((leg) => leg.rpm === 0 && leg.lights !== 'off'))
    changes.push({ is: 'dark-while-parked' });
  const slow = new Set<string>();
  legs.forEach((leg, n) => {
    const from = life.legs[n]!.rpm;
    const even = leg.evenRpm.worn ?? leg.evenRpm.likely;
    if (from === 0 || even === null || slow.has(leg.name)) return;
    const rpm = Math.ceil((even + SPEED.above) / SPEED.round) * SPEED.round;
    if (rpm <= from || rpm > SPEED.most) return;
    slow.add(leg.name);
    changes.push({ is: 'faster', leg: leg.name, from, rpm });
  });
  const best = legs
    .filter((leg) => leg.rpm > 0)
    .toSorted((a, b) => b.giveAmps.likely - b.needAmps - (a.giveAmps.likely - a.needAmps))[0];
  const free = 1440 - life.legs.reduce((sum, leg) => sum + leg.minutes, 0);
  if (best && best.giveAmps.likely > best.needAmps && free >= 15)
    changes.push({ is: 'longer', leg: best.name, minutes: 15 });
  changes.push({ is: 'mains', everyDays: 7 }, { is: 'new-battery' });
  const { restDrainAmps } = machine.spec;
  if (restDrainAmps > SMALL_DRAIN) changes.push({ is: 'no-drain', amps: restDrainAmps });
  return changes;
}

/** Makes one change. */
function change(now: Changed, what: RideChange): Changed {
  const { life } = now;
  const legs = (of: (leg: RideLife['legs'][number], n: number) => RideLife['legs'][number]): Changed => ({
    ...now,
    life: { ...life, legs: life.legs.map(of) },
  });
  switch (what.is) {
    case 'load-off':
      return { ...now, life: { ...life, loads: life.loads.filter((load) => load.name !== what.load) } };
    case 'load-only-in': {
      const loads = life.loads.map((load) => (load.name === what.load ? { ...load, when: what.legs } : load));
      return { ...now, life: { ...life, loads } };
    }
    case 'low-beam':
      return legs((leg) => (leg.lights === 'high' ? { ...leg, lights: 'low' } : leg));
    case 'dark-while-parked':
      return legs((leg) => (leg.rpm === 0 ? { ...leg, lights: 'off' } : leg));
    case 'faster':
      return legs((leg) =>
        leg.name === what.leg && leg.rpm > 0 && leg.rpm < what.rpm ? { ...leg, rpm: what.rpm } : leg,
      );
    case 'longer': {
      const at = life.legs.findLastIndex((leg) => leg.name === what.leg && leg.rpm > 0);
      return legs((leg, n) =>
        n === at ? { ...leg, minutes: Math.min(RIDE_LIMITS.minutes[1], leg.minutes + what.minutes) } : leg,
      );
    }
    case 'mains':
      return { ...now, options: { ...now.options, mainsEvery: what.everyDays } };
    case 'new-battery':
      return { ...now, likely: 'fresh' };
    case 'no-drain':
      return { ...now, machine: { ...now.machine, spec: { ...now.machine.spec, restDrainAmps: 0.001 } } };
  }
}

interface Ridden {
  readonly verdict: RideVerdict;
  readonly lowest: number;
  readonly trouble: number | null;
  /** What is ranked by: days until trouble first, then the charge that is left. */
  readonly score: number;
}

function ride(changed: Changed): Ridden {
  const { machine, life, options, likely } = changed;
  const expected =
    likely === 'fresh'
      ? // A new battery on the alternator that is there.
        monthOf({ ...machine, fresh: machine.likely }, life, 'fresh', options)
      : monthOf(machine, life, 'likely', options);
  const worn = likely === 'fresh' ? expected : monthOf(machine, life, 'worn', options);
  return ridden(life, expected, worn);
}

function ridden(life: RideLife, expected: RideMonth, worn: RideMonth): Ridden {
  const { verdict } = judge(life, { likely: expected, worn });
  const troubleOf = ({ noStart, flat }: RideMonth) => {
    const days = [noStart?.day, flat?.day].filter((day) => day !== undefined);
    return days.length > 0 ? Math.min(...days) : null;
  };
  const lowest = expected.flat
    ? 0
    : Math.min(...expected.days.slice(-life.everyDays).map((day) => day.lowest));
  const trouble = troubleOf(expected);
  const gone = (days: number | null) => (days === null ? 1 : days / life.days);
  const score = 10 * gone(trouble) + lowest + 0.1 * gone(troubleOf(worn));
  return { verdict, lowest, trouble, score };
}

const BETTER: Readonly<Record<RideVerdict, number>> = { holds: 2, doubtful: 1, fails: 0 };

/** Rides every change and ranks them. */
export function adviseRide(machine: RideMachine, life: RideLife, now: RideBalance): RideAdviceList {
  const start: Changed = { machine, life, options: {}, likely: 'likely' };
  const before = ridden(life, now.months.likely, now.months.worn);
  const all = changesFor(machine, life, now)
    .map((what) => ({ what, found: ride(change(start, what)) }))
    // Under half a percent of charge, and not a day later: it helps nothing.
    .filter(({ found }) => found.score > before.score + 0.005)
    .toSorted((a, b) => BETTER[b.found.verdict] - BETTER[a.found.verdict] || b.found.score - a.found.score);
  // Where leaving it off altogether does no more, the owner keeps it where there is plenty.
  const tried = all.filter(({ what, found }) => {
    if (what.is !== 'load-off') return true;
    return !all.some(
      (other) =>
        other.what.is === 'load-only-in' &&
        other.what.load === what.load &&
        other.found.verdict === found.verdict &&
        other.found.score > found.score - 0.02,
    );
  });
  const single = tried.map(
    ({ what, found }): RideAdvice => ({
      change: what,
      verdict: found.verdict,
      mends: found.verdict === 'holds' && before.verdict !== 'holds',
      before: before.lowest,
      after: found.lowest,
      troubleBefore: before.trouble,
      troubleAfter: found.trouble,
    }),
  );
  if (before.verdict === 'holds' || single.some(({ verdict }) => verdict === 'holds'))
    return { single, together: null };
  let sum = start;
  const changes: RideChange[] = [];
  let best: Ridden = before;
  for (const { what } of tried) {
    if (changes.length === MOST_TOGETHER) break;
    // Off is more than off in some legs.
    if ('load' in what && changes.some((each) => 'load' in each && each.load === what.load)) continue;
    const next = change(sum, what);
    const found = ride(next);
    if (found.score <= best.score) continue;
    [sum, best] = [next, found];
    changes.push(what);
    if (found.verdict === 'holds') break;
  }
  const helps = changes.length > 1 && BETTER[best.verdict] > BETTER[before.verdict];
  return { single, together: helps ? { changes, verdict: best.verdict } : null };
}
