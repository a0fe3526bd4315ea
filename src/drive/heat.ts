/**
 * Slack lost by heat. A case of aluminium grows more than a chain of steel and spreads the shafts: the loop loses
 *
 *   2C·(αAl·ΔTcase − αSt·ΔTchain)
 *
 * Advisory only. Between the shafts there is often more than one path (case, adapter plates, frame), the case is not
 * evenly hot, and nobody knows the chain's temperature: so the result is an interval, from "the chain runs hotter
 * than the case" to "the chain is just as hot as the case". It asks for a recorded case temperature and warns; it
 * never passes or fails a book's figure. Lengths in metres, temperatures in kelvin.
 */
import { printLength } from './print-length.ts';
import {
  type Interval,
  type Refusal,
  refuse,
  requireInterval,
  requirePositive,
  requireWithin,
} from './require.ts';
import { excessFromSlack, requireSlack, slackFromExcess } from './slack.ts';

/** Expansion of steel, 1/K: handbook value. */
export const STEEL_EXPANSION = 11.7e-6;
/** Expansion of cast aluminium, 1/K: handbook range. */
export const ALUMINIUM_EXPANSION: Interval = { low: 21.5e-6, high: 23e-6 };
/** How much hotter than the case a chain may run, K: common practice, no source. */
export const CHAIN_HOTTER: Interval = { low: 0, high: 20 };

export interface HeatCase {
  /** Distance of the shafts, m. */
  readonly centre: number;
  /** Free span on which slack is felt, m. */
  readonly span: number;
  /** How much hotter the case is when hot than when cold, K, from 0 to 250. */
  readonly caseRise: number;
  /** How much hotter than the case the chain is when hot, K; 0–20 when not given. */
  readonly chainHotter?: Interval;
  /** Expansion of what holds the shafts apart, 1/K; cast aluminium when not given. */
  readonly caseExpansion?: Interval;
}

export interface HeatAdvice {
  readonly kind: 'advisory';
  /** Loop lost between cold and hot, m; below 0 the chain grows more than the case. */
  readonly loss: Interval;
  /** Slack asked for (hot or cold), m; 0 is taut. */
  readonly slack: Interval;
  /** Whether the chain may be taut, at the end of the interval where the case takes most. */
  readonly mayBeTaut: boolean;
  readonly says: string;
  readonly assumptions: readonly string[];
}

function expansionOf(heat: HeatCase): Interval {
  return heat.caseExpansion ?? ALUMINIUM_EXPANSION;
}

function hotterOf(heat: HeatCase): Interval {
  return heat.chainHotter ?? CHAIN_HOTTER;
}

function requireHeat(heat: HeatCase): void {
  requirePositive('centre', heat.centre);
  requirePositive('span', heat.span);
  if (heat.span > heat.centre)
    throw new RangeError(`span must not be above the centre distance, ${heat.centre} m, got ${heat.span}`);
  requireWithin('caseRise', heat.caseRise, 0, 250);
  const [hotter, expansion] = [hotterOf(heat), expansionOf(heat)];
  requireInterval('chainHotter', hotter);
  requireWithin('chainHotter.low', hotter.low, 0, 250);
  requireWithin('chainHotter.high', hotter.high, 0, 250);
  requireInterval('caseExpansion', expansion);
  requireWithin('caseExpansion.low', expansion.low, 1e-6, 40e-6);
  requireWithin('caseExpansion.high', expansion.high, 1e-6, 40e-6);
}

/**
 * Loop lost from cold to hot, as an interval, m. With no rise of the case the chain is taken as cold as well. Throws
 * RangeError for lengths not above 0, a rise outside 0–250 K or expansions outside 1–40 ×10⁻⁶/K.
 */
export function heatLoss(heat: HeatCase): Interval {
  requireHeat(heat);
  const { centre, caseRise } = heat;
  if (caseRise === 0) return { low: 0, high: 0 };
  const [hotter, expansion] = [hotterOf(heat), expansionOf(heat)];
  const lost = (each: number, over: number) =>
    2 * centre * (each * caseRise - STEEL_EXPANSION * (caseRise + over));
  return { low: lost(expansion.low, hotter.high), high: lost(expansion.high, hotter.low) };
}

/** What the sums take for granted, one sentence each, for showing beside the figures. */
export function heatAssumptions(heat: HeatCase): readonly string[] {
  requireHeat(heat);
  const [hotter, expansion] = [hotterOf(heat), expansionOf(heat)];
  const micro = (each: number) => Number((each * 1e6).toPrecision(3));
  return [
    `The case grows by ${micro(expansion.low)}–${micro(expansion.high)} millionths per kelvin, the chain and sprockets by ${micro(STEEL_EXPANSION)}.`,
    `The chain is ${hotter.low}–${hotter.high} K hotter than the case.`,
    'Nothing but the case holds the shafts apart, and it is evenly hot.',
    'This is an estimate; the book wins.',
  ];
}

/** Slack when hot of a chain whose slack was measured cold. An advisory; never a pass or a fail. */
export function slackWhenHot(cold: number, heat: HeatCase): HeatAdvice {
  const loss = heatLoss(heat);
  requireSlack('cold', cold, heat.span);
  const excess = excessFromSlack(cold, heat.span);
  const slack = {
    low: slackFromExcess(Math.max(0, excess - loss.high), heat.span),
    high: slackFromExcess(Math.max(0, excess - loss.low), heat.span),
  };
  const mayBeTaut = excess <= loss.high;
  const says = mayBeTaut
    ? `Set to ${printLength(cold)} cold, this chain may have no slack left when the case is ${heat.caseRise} K hotter.`
    : `Set to ${printLength(cold)} cold, this chain has about ${printLength(slack.low)} to ${printLength(slack.high)} when the case is ${heat.caseRise} K hotter.`;
  return { kind: 'advisory', loss, slack, mayBeTaut, says, assumptions: heatAssumptions(heat) };
}

/**
 * Slack when cold of a chain whose slack was measured hot: what setting it hot to the cold figure leads to. An
 * advisory; measure again cold.
 */
export function slackWhenCold(hot: number, heat: HeatCase): HeatAdvice {
  const loss = heatLoss(heat);
  requireSlack('hot', hot, heat.span);
  const excess = excessFromSlack(hot, heat.span);
  const slack = {
    low: slackFromExcess(Math.max(0, excess + loss.low), heat.span),
    high: slackFromExcess(Math.max(0, excess + loss.high), heat.span),
  };
  const says =
    heat.caseRise === 0
      ? `The case was cold: the slack is ${printLength(hot)}.`
      : `Set to ${printLength(hot)} with the case ${heat.caseRise} K too hot, this chain has about ${printLength(slack.low)} to ${printLength(slack.high)} when cold; measure it again cold.`;
  const mayBeTaut = excess + loss.low <= 0;
  return { kind: 'advisory', loss, slack, mayBeTaut, says, assumptions: heatAssumptions(heat) };
}

/** Slack to set cold, m, that leaves `hot` when hot, at either end of the interval: the larger end is the safe one. */
export function coldSlackFor(hot: number, heat: HeatCase): Interval {
  return slackWhenCold(hot, heat).slack;
}

/**
 * Rise of the case that takes the last of a cold slack, K, at either end of the interval (chain as hot as the case:
 * low; chain hotter: high). Refuses a case that grows no more than the chain. `caseRise` of the heat case is not used.
 */
export function riseUntilTaut(
  cold: number,
  heat: Omit<HeatCase, 'caseRise'>,
): { readonly ok: true; readonly rise: Interval } | Refusal {
  const full = { ...heat, caseRise: 0 };
  requireHeat(full);
  requireSlack('cold', cold, heat.span);
  const [hotter, expansion] = [hotterOf(full), expansionOf(full)];
  if (expansion.low <= STEEL_EXPANSION)
    return refuse('This case may grow no more than the chain does, so heat need not take any slack.');
  const share = excessFromSlack(cold, heat.span) / (2 * heat.centre);
  return {
    ok: true,
    rise: {
      low: (share + STEEL_EXPANSION * hotter.low) / (expansion.high - STEEL_EXPANSION),
      high: (share + STEEL_EXPANSION * hotter.high) / (expansion.low - STEEL_EXPANSION),
    },
  };
}
