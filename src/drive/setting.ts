/**
 * What to set. A book's slack holds at the tight spot, cold; but the hand and the rule may be at another place. The
 * difference in loop excess between two places stays when the adjuster moves, so the figure to set here follows.
 * Lengths in metres, temperatures in kelvin.
 */
import { printLength } from './print-length.ts';
import {
  type Interval,
  requireFinite,
  requireInterval,
  requireNotNegative,
  requirePositive,
} from './require.ts';
import { excessFromSlack, requireSlack, slackFromExcess } from './slack.ts';
import { type SlackReading, surveySlack } from './tight-spot.ts';

/** How far off a slack read with a rule may be either way, m: common practice, no source. */
export const RULER_ERROR = 0.0005;
/** How far from the air's temperature a case may be and still count as cold, K: common practice, no source. */
export const COLD_WITHIN = 10;

export interface SettingWish {
  readonly readings: readonly SlackReading[];
  /** The book's slack at the tight spot, m. */
  readonly book: Interval;
  /** Free span, m. */
  readonly span: number;
  /** Reading at whose place the chain stands now, index; the tightest when not given. */
  readonly here?: number;
  /** Error of a reading either way, m; half a millimetre when not given. */
  readonly error?: number;
}

export interface Setting {
  /** The tightest reading against the book: 'on-limit' is within a reading's error of either end. */
  readonly state: 'tight' | 'within' | 'on-limit' | 'loose';
  /** Slack to aim for at the tight spot, m: the middle of the book's. */
  readonly aim: number;
  /** The same aim at the place where the chain stands now, m, and the ends of the book's range there. */
  readonly aimHere: number;
  readonly rangeHere: Interval;
  /** Loop to take up (above 0) or to give (below 0) for the aim, m. */
  readonly takeUp: number;
  /** Slack at the loosest place after setting to the aim, m. */
  readonly loosestAfter: number;
  readonly says: string;
}

/**
 * Compares the tight spot with the book and says what to set, at the tight spot and where the chain stands. Throws
 * RangeError for slack outside 0 to a quarter of the span, a book range upside down, or a place not in the list.
 */
export function settingFor(wish: SettingWish): Setting {
  const { readings, book, span } = wish;
  const error = wish.error ?? RULER_ERROR;
  requirePositive('span', span);
  requireInterval('book', book);
  requireSlack('book.low', book.low, span);
  requireSlack('book.high', book.high, span);
  requireNotNegative('error', error);
  const survey = surveySlack(readings);
  requireSlack('slack at the loosest reading', survey.most, span);
  const here = wish.here ?? survey.tightest;
  const stand = readings[here];
  if (!stand) throw new RangeError(`here must be from 0 to ${readings.length - 1}, got ${here}`);

  const tight = excessFromSlack(survey.least, span);
  const aim = (book.low + book.high) / 2;
  const elsewhere = (slack: number, atTight: number) =>
    slackFromExcess(excessFromSlack(atTight, span) + excessFromSlack(slack, span) - tight, span);
  const aimHere = elsewhere(stand.slack, aim);
  const off = Math.min(Math.abs(survey.least - book.low), Math.abs(survey.least - book.high));
  const state =
    off <= error
      ? 'on-limit'
      : survey.least < book.low
        ? 'tight'
        : survey.least > book.high
          ? 'loose'
          : 'within';
  const figure = `${printLength(survey.least)} at the tight spot`;
  const asks = `the book asks ${printLength(book.low)} to ${printLength(book.high)}`;
  const set =
    here === survey.tightest
      ? `set ${printLength(aim)} there`
      : `set ${printLength(aimHere)} where the chain stands now, which gives ${printLength(aim)} at the tight spot`;
  const says = {
    tight: `Too tight: ${figure}, ${asks}; ${set}.`,
    loose: `Too loose: ${figure}, ${asks}; ${set}.`,
    within: `Within the book: ${figure}, ${asks}.`,
    'on-limit': `On the limit: ${figure}, ${asks}, and a rule tells no better than ${printLength(error)}; ${set}.`,
  }[state];
  return {
    state,
    aim,
    aimHere,
    rangeHere: { low: elsewhere(stand.slack, book.low), high: elsewhere(stand.slack, book.high) },
    takeUp: tight - excessFromSlack(aim, span),
    loosestAfter: elsewhere(survey.most, aim),
    says,
  };
}

export interface ColdRecord {
  readonly state: 'cold' | 'warm' | 'not-recorded';
  /** How much hotter than the air the case was, K; null when not recorded. */
  readonly rise: number | null;
  readonly says: string;
}

/**
 * Whether a slack counts as measured cold. A book's slack is a cold slack: without a recorded case temperature it
 * cannot be signed. Temperatures in kelvin, above 0, else RangeError.
 */
export function coldRecord(caseKelvin: number | undefined, airKelvin: number | undefined): ColdRecord {
  if (caseKelvin !== undefined) requirePositive('caseKelvin', caseKelvin);
  if (airKelvin !== undefined) requirePositive('airKelvin', airKelvin);
  if (caseKelvin === undefined || airKelvin === undefined)
    return {
      state: 'not-recorded',
      rise: null,
      says: 'Record the temperature of the case and of the air: a slack counts only when its case was cold.',
    };
  const rise = caseKelvin - airKelvin;
  requireFinite('rise', rise);
  if (rise > COLD_WITHIN)
    return {
      state: 'warm',
      rise,
      says: `The case is ${Math.round(rise)} K hotter than the air: let it cool and measure again; heat takes slack.`,
    };
  return { state: 'cold', rise, says: 'The case was cold.' };
}
