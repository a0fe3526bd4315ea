/** A ride balance in plain words, the same on the screen and in the terminal. All of it is an estimate and says so. */
import { AGES } from './charge-state.ts';
import type { RideAdvice, RideChange } from './ride-advice.ts';
import type { LegBalance, RideBalance, RideReason, RideVerdict } from './ride-balance.ts';
import { type Leg, type Load, minutesWords, RATED_VOLTS, type RideLife } from './ride-legs.ts';

export const ESTIMATE =
  'An estimate: the battery’s age, its acceptance in the cold and the exact loads are not known. A reading of the battery’s rest volts after a week of such riding is worth more.';

export const VERDICT_WORDS: Readonly<Record<RideVerdict, string>> = {
  holds: 'It stays charged',
  doubtful: 'It may not stay charged',
  fails: 'It does not stay charged',
};

const LIGHT_WORDS = {
  off: 'lights off',
  park: 'parking lights',
  low: 'low beam',
  high: 'high beam',
} as const;

/** A leg as `readLegs` reads it. */
export function legWords({ name, rpm, minutes, lights }: Leg): string {
  return `${name} ${rpm === 0 ? 'engine off' : `${rpm} rpm`} ${minutesWords(minutes)} ${LIGHT_WORDS[lights]}`;
}

/** A load as `readLoad` reads it. */
export function loadWords({ name, watts, when }: Load): string {
  const runs = when === 'riding' ? '' : when === 'always' ? ' always' : ` in ${when.join(', ')}`;
  const small = watts > 0 && watts < 2;
  const draws = small
    ? `${Number(((watts / RATED_VOLTS) * 1000).toPrecision(3))} mA`
    : `${Number(watts.toPrecision(4))} W`;
  return `${name} ${draws}${runs}`;
}

/** A share of a full battery: "85 %". */
export function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}

/** "62–91 %"; one figure where they round to the same. */
export function percentSpan(low: number, high: number): string {
  const [a, b] = [Math.round(100 * Math.min(low, high)), Math.round(100 * Math.max(low, high))];
  return a === b ? `${a} %` : `${a}–${b} %`;
}

const NUMBERS = [
  'first',
  'second',
  'third',
  'fourth',
  'fifth',
  'sixth',
  'seventh',
  'eighth',
  'ninth',
  'tenth',
];
/** "on the third day"; days count from 0. */
export function dayWords(day: number): string {
  return `on the ${
    NUMBERS[day] ??
    `${day + 1}th`
      .replace(/(?<!1)1th$/, '1st')
      .replace(/(?<!1)2th$/, '2nd')
      .replace(/(?<!1)3th$/, '3rd')
  } day`;
}

/** Why a verdict is no better. */
export function reasonWords(reason: RideReason): string {
  switch (reason.is) {
    case 'flat': {
      const who = reason.in === 'likely' ? 'The battery' : `With ${AGES.worn.words} it`;
      return `${who} is flat ${dayWords(reason.day)}${reason.leg === null ? ', while it stands' : `, in “${reason.leg}”`}.`;
    }
    case 'no-start': {
      const who = reason.in === 'likely' ? 'It' : `With ${AGES.worn.words} it`;
      return `${who} would probably not start ${dayWords(reason.day)}, before “${reason.leg}”.`;
    }
    case 'low':
      return `It falls to ${percent(reason.lowest)}: a lead battery kept so low grows hard plates and soon takes less.`;
    case 'falling':
      return `At the end it still loses ${(100 * reason.perDay).toFixed(1)} % a day.`;
  }
}

/** How full it is at its lowest and at the end, with the span of the three batteries. */
export function levelWords({ months }: RideBalance): readonly string[] {
  const { worn, likely, fresh } = months;
  const end = (month: typeof likely) => (month.flat ? 0 : month.days.at(-1)!.last);
  const cranks = [worn, likely, fresh].flatMap(({ crankVolts }) => crankVolts ?? []);
  const lines = [
    `Lowest charge ${percent(likely.lowest)} (${percentSpan(worn.lowest, fresh.lowest)} from ${AGES.worn.words} to ${AGES.fresh.words}).`,
    `${likely.flat ? 'Flat' : 'Charge'} after ${likely.days.length === 1 ? 'the day' : `${likely.days.length} days`}: ${percent(end(likely))} (${percentSpan(end(worn), end(fresh))}).`,
  ];
  if (likely.crankVolts !== null)
    lines.push(
      `While starting the battery falls to about ${likely.crankVolts.toFixed(1)} V at the worst (${Math.min(...cranks).toFixed(1)}–${Math.max(...cranks).toFixed(1)} V).`,
    );
  return lines;
}

/** From which speed on it gives what is on. */
export function evenWords(leg: LegBalance): string {
  const { worn, likely, fresh } = leg.evenRpm;
  const need = `${leg.needAmps.toFixed(1)} A`;
  if (likely === null)
    return `In “${leg.name}” ${need} are on: at no speed does the alternator give as much.`;
  if (worn === null)
    return `In “${leg.name}” ${need} are on: the alternator gives them from about ${likely} rpm, a weak one at no speed.`;
  const span = worn === fresh ? '' : ` (${fresh}–${worn} rpm)`;
  return `In “${leg.name}” ${need} are on: the alternator gives them from about ${likely} rpm${span}.`;
}

/** What to do. */
export function changeWords(change: RideChange): string {
  switch (change.is) {
    case 'load-off':
      return `Leave “${change.load}” off`;
    case 'load-only-in':
      return `Run “${change.load}” only in ${change.legs.map((leg) => `“${leg}”`).join(', ')}`;
    case 'low-beam':
      return 'Low beam instead of high beam';
    case 'dark-while-parked':
      return 'Lights off while the engine stands';
    case 'faster':
      return `Keep the engine at ${change.rpm} rpm in “${change.leg}”, not ${change.from}`;
    case 'longer':
      return `Ride ${change.minutes} min more of “${change.leg}” a day`;
    case 'mains':
      return 'Charge it from the mains one night a week';
    case 'new-battery':
      return 'Fit a new battery';
    case 'no-drain':
      return `Find what draws ${Math.round(change.amps * 1000)} mA with the key off`;
  }
}

/** What a change brings. */
export function effectWords(advice: RideAdvice): string {
  const { mends, before, after, troubleBefore, troubleAfter } = advice;
  const level = `lowest ${percent(after)} instead of ${percent(before)}`;
  if (mends) return `then it stays charged; ${level}`;
  if (troubleBefore === null) return level;
  if (troubleAfter === null) return `then it starts every day; ${level}`;
  if (troubleAfter > troubleBefore)
    return `trouble ${dayWords(troubleAfter)} instead of ${dayWords(troubleBefore)}`;
  return `still trouble ${dayWords(troubleAfter)}; ${level}`;
}

/** The ride in one line: "each day" or "every 3 days", °C. */
export function lifeWords({ celsius, days, everyDays, startCharge }: RideLife): string {
  const often = everyDays === 1 ? 'every day' : `every ${everyDays} days`;
  return `ridden ${often} for ${days === 1 ? 'one day' : `${days} days`} at ${celsius} °C, ${percent(startCharge)} full at first`;
}
