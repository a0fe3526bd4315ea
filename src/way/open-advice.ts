/** What else is worth replacing on this plan's way in: which parts it lays open, what getting to each again would take. */
import { cheapestWay } from './cheapest-way.ts';
import type { Plan } from './plan-shape.ts';
import { givesAll, stripProblem } from './strip-problem.ts';
import { MOST_PARTS, type WearLine, whileOpen } from './while-open.ts';
import type { Fact, Work } from './work.ts';

/** One thing that wears. */
export interface WearItem {
  readonly id: string;
  readonly name: string;
  readonly needs: readonly Fact[];
  /** Shape of its life, dimensionless. */
  readonly shape: number;
  /** Distance at which 63 in 100 have failed, km. */
  readonly lifeKm: number;
  /** The part, money. */
  readonly price: number;
  /** What its failure costs beside, money. */
  readonly spoils: number;
  /** Work on it once it lies open, min. */
  readonly minutes: number;
}

export interface OpenQuestion {
  /** How far the bike has gone since each part was new, km. */
  readonly km: number;
  /** How far one looks ahead, km. */
  readonly ahead: number;
  /** Worth of an hour of one pair of hands, money. */
  readonly hour: number;
}

export interface OpenAdvice {
  readonly lines: readonly (WearLine & { readonly says: string })[];
  /** Expected cost as advised and of replacing nothing, money. */
  readonly cost: number;
  readonly nothing: number;
  /** Parts that lie open but were too many to weigh together: the dearest to reach were taken. */
  readonly leftOut: readonly string[];
}

/** The advice; null where nothing that wears lies open. Throws RangeError for figures that are none. */
export function adviseOpen(
  plan: Plan,
  work: Work,
  items: readonly WearItem[],
  { km, ahead, hour }: OpenQuestion,
): OpenAdvice | null {
  const open = new Set<Fact>();
  for (const step of plan.steps) {
    // On the way in and on the way back: a plan made in mid-job no longer lists what is off already.
    const action = work.actions.find(({ id }) => id === step.action);
    for (const fact of action ? givesAll(action) : []) open.add(fact);
  }
  const within = items
    .filter(({ needs }) => needs.every((fact) => open.has(fact)))
    .map((item) => ({ item, minutes: wayTo(work, item.needs) }))
    .sort((a, b) => b.minutes - a.minutes);
  if (within.length === 0) return null;
  const weighed = within.slice(0, MOST_PARTS);
  const found = whileOpen(
    weighed.map(({ item, minutes }) => ({
      id: item.id,
      name: item.name,
      shape: item.shape,
      life: item.lifeKm,
      age: km,
      cost: item.price + (hour * item.minutes) / 60,
      failure: item.spoils,
      access: (hour * minutes) / 60,
    })),
    0,
    ahead,
  );
  return {
    ...found,
    lines: found.lines.map((line) => ({ ...line, says: sayWear(line, ahead) })),
    leftOut: within.slice(MOST_PARTS).map(({ item }) => item.name),
  };
}

/** Work of getting to a part on its own and closing again, hand-min; 0 where there is no way. */
function wayTo(work: Work, needs: readonly Fact[]): number {
  const target = { id: 'this part', name: '', needs, work: [], repairs: [] };
  const { problem } = stripProblem(
    { ...work, targets: [target] },
    [target.id],
    { at: 0, did: [], facts: [] },
    [],
  );
  const way = cheapestWay(problem);
  return way.ok ? way.cost / 10 : 0;
}

const inHundred = (chance: number) => `${Math.round(100 * chance)} in 100`;
const thousands = (km: number) => `${Number((km / 1000).toPrecision(2))} thousand km`;

/** One line in words. */
export function sayWear({ part, replace, left, fresh, saves, turnsAt }: WearLine, ahead: number): string {
  const turns =
    turnsAt === 'always'
      ? 'It would pay at any age.'
      : turnsAt === 'never'
        ? 'It would pay at no age.'
        : `It pays from about ${thousands(turnsAt)} on.`;
  const money = Math.round(Math.abs(saves));
  const worth =
    money === 0
      ? 'it makes no difference'
      : saves > 0
        ? `replacing it now saves about ${money}`
        : `replacing it now costs about ${money} more than leaving it`;
  return (
    `${replace ? 'Replace' : 'Leave'} the ${part.name}: ${worth}. Left in, ${inHundred(left)} fail within ` +
    `${thousands(ahead)}, new ${inHundred(fresh)}. ${turns}`
  );
}
