/** Turns the section `work` of a checked machine file into what room `way` takes: minutes, chances at this age. */
import type { BuildStep, Seizing, Spread, Work } from '../way/work.ts';
import type { Machine } from './definition.ts';
import { middle, type Quantity } from './figure.ts';
import type { SeizesEntry, WorkStep } from './work-definition.ts';

/** How fast age works on a fit by its place, against one outside, ratios: guesses, no source. */
const PLACE_FACTOR = { 'inside-oil': 0.3, outside: 1, 'exhaust-side': 2, 'hidden-corrosion': 1.5 } as const;

/**
 * Chance that a fit will not let go, 0–1. (1 − (1 − base)^(age/10 years)) × factor of its place, at most 0.95: a guess,
 * no source. `age` in years, below 0 counts as 0.
 */
export function seizingChance(base: number, place: keyof typeof PLACE_FACTOR, age: number): number {
  if (!(base >= 0 && base <= 1)) throw new RangeError(`base must be from 0 to 1, not ${base}`);
  if (!Number.isFinite(age)) throw new RangeError(`age must be a finite number of years, not ${age}`);
  return Math.min(0.95, (1 - (1 - base) ** (Math.max(0, age) / 10)) * PLACE_FACTOR[place]);
}

/** The work on this bike; undefined when its file has no such section. `year` is the year of the caller's clock. */
export function workOf(
  machine: { readonly about: Machine['about'] | null; readonly work: Machine['work'] },
  year: number,
): Work | undefined {
  const section = machine.work;
  if (!section) return undefined;
  const age = machine.about === null ? 0 : year - machine.about.year;
  return {
    actions: Object.entries(section.actions).map(([id, one]) => ({
      id,
      does: one.does,
      needs: one.needs ?? [],
      gives: one.gives,
      minutes: spread(one.minutes, one.likely),
      hands: one.hands ?? 1,
      tools: one.tools ?? [],
      ...(one.seizes === null ? {} : { seizes: seizing(one.seizes, age) }),
      ...(one.caution === null ? {} : { caution: one.caution }),
      ...(one.fastener === null ? {} : { fastener: one.fastener }),
      back: (one.back ?? []).map(buildStep),
      ...(one.part === null ? {} : { part: one.part }),
    })),
    targets: Object.entries(section.targets).map(([id, one]) => ({
      id,
      name: one.name,
      needs: one.needs ?? [],
      work: (one.work ?? []).map(buildStep),
      repairs: one.repairs ?? [],
    })),
    tools: Object.entries(section.tools ?? {}).map(([id, { name, count }]) => ({
      id,
      name,
      count: count ?? 1,
    })),
    supplies: Object.entries(section.supplies ?? {}).map(([id, one]) => ({
      id,
      name: one.name,
      kind: one.kind,
      unit: one.unit,
      singleUse: one.singleUse ?? false,
      canWait: one.canWait ?? false,
    })),
    closing: (section.closing ?? []).map(buildStep),
    levels: section.levels ?? [],
  };
}

/** Low, likely and high time, min. */
function spread(range: Quantity, likely: Quantity | null): Spread {
  const wanted = likely === null ? middle(range) : likely.low;
  const inside = Math.min(range.high, Math.max(range.low, wanted));
  return { low: range.low / 60, likely: inside / 60, high: range.high / 60 };
}

function seizing(one: SeizesEntry, age: number): Seizing {
  return {
    chance: seizingChance(one.basePercent / 100, one.place, age),
    adds: spread(one.adds, one.likely),
    ...(one.cause === null ? {} : { cause: one.cause }),
  };
}

function buildStep(one: WorkStep): BuildStep {
  return {
    id: one.id,
    does: one.does,
    kind: one.kind,
    minutes: spread(one.minutes, one.likely),
    hands: one.hands ?? 1,
    tools: one.tools ?? [],
    uses: one.uses ?? [],
    lags: (one.lags ?? []).map(({ after, from, least, most }) => ({
      after,
      from: from ?? 'end',
      least: (least?.low ?? 0) / 60,
      ...(most === null ? {} : { most: most.low / 60 }),
    })),
    ...(one.cold === null ? {} : { cold: one.cold }),
    ...(one.caution === null ? {} : { caution: one.caution }),
    ...(one.fastener === null ? {} : { fastener: one.fastener }),
  };
}
