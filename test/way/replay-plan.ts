/**
 * Carries a plan out minute by minute against the work as given, apart from everything that made it: what every step
 * needs holds when it starts, nothing goes back over an open place, lags, hands, tools and shut hours are kept.
 */
import type { Plan, PlanRequest } from '../../src/way/plan-shape.ts';
import type { Fact } from '../../src/way/work.ts';

const implied = (facts: readonly Fact[]) =>
  facts.flatMap((f) => (f.endsWith(' off') ? [f, `${f.slice(0, -4)} slack`] : [f]));

/** What is wrong with the plan, in words; empty when nothing is. */
export function replayPlan(plan: Plan, request: PlanRequest): string[] {
  const { work } = request;
  const now = request.now ?? { at: 0, did: [], facts: [] };
  const wrong: string[] = [];
  const spans = new Map(now.did.map((d) => [d.id, { start: d.start, end: d.end }]));
  for (const s of plan.steps) {
    spans.set(s.id, { start: s.start, end: s.end });
    if (s.start < plan.at && !now.did.some((d) => d.id === s.id)) wrong.push(`${s.id} starts before now`);
  }
  const carried = work.actions.filter((a) => spans.has(a.id));
  /** A fact holds at a time when an action that gave it has ended and none of its steps back has begun. */
  const holds = (fact: Fact, at: number, until: number) =>
    implied(now.facts).includes(fact) ||
    carried.some((a) => {
      if (!implied(a.gives).includes(fact) || spans.get(a.id)!.end > at) return false;
      const backs = a.back.flatMap((s) => (spans.has(s.id) ? [spans.get(s.id)!.start] : []));
      return backs.every((b) => b >= until || b < spans.get(a.id)!.end);
    });
  for (const a of carried) {
    const span = spans.get(a.id)!;
    for (const f of a.needs)
      if (span.start >= plan.at && !holds(f, span.start, span.end)) wrong.push(`${a.id} lacks ${f}`);
    let last = span.end;
    // Waits at the end, with no hands, do not hold up what goes back over them.
    const over = a.back.findLastIndex((s) => s.hands > 0);
    for (const [k, s] of a.back.entries()) {
      const at = spans.get(s.id);
      if (!at) {
        wrong.push(`${a.id} is not put back: ${s.id}`);
        continue;
      }
      if (at.start < last) wrong.push(`${s.id} before what comes before it`);
      last = at.end;
      if (k <= over)
        for (const f of a.needs)
          if (at.start >= plan.at && !holds(f, at.start, at.end))
            wrong.push(`${s.id} goes back without ${f}`);
    }
  }
  for (const t of work.targets.filter((each) => request.targets.includes(each.id))) {
    let last = 0;
    for (const s of t.work) {
      const at = spans.get(s.id);
      if (!at) {
        wrong.push(`${s.id} is not done`);
        continue;
      }
      for (const f of t.needs)
        if (at.start >= plan.at && !holds(f, at.start, at.end)) wrong.push(`${s.id} lacks ${f}`);
      if (at.start < last) wrong.push(`${s.id} out of order`);
      last = at.end;
    }
  }
  const closing = new Set(work.closing.map((s) => s.id));
  const begin = Math.min(...work.closing.map((s) => spans.get(s.id)?.start ?? Number.POSITIVE_INFINITY));
  for (const s of plan.steps)
    if (!closing.has(s.id) && s.end > begin) wrong.push(`${s.id} after closing began`);
  for (const s of plan.steps) {
    for (const lag of s.step?.lags ?? []) {
      const other = spans.get(lag.after);
      if (!other || s.start < plan.at) continue;
      const base = lag.from === 'start' ? other.start : other.end;
      if (s.start < base + lag.least) wrong.push(`${s.id} too soon after ${lag.after}`);
      if (lag.most !== undefined && s.start > base + lag.most)
        wrong.push(`${s.id} too late after ${lag.after}`);
    }
    if (s.start < plan.at) continue;
    for (const { from, to } of request.shut ?? [])
      if (s.people > 0 && s.start < to && s.end > from) wrong.push(`${s.id} in the night`);
    for (const { supply } of s.step?.uses ?? [])
      for (const a of request.arrivals ?? [])
        if (a.supply === supply && s.start < a.at) wrong.push(`${s.id} before ${supply}`);
    if (s.step?.cold && request.engine && s.start < request.engine.stoppedAt + request.engine.coolsIn)
      wrong.push(`${s.id} on a hot engine`);
    const beside = plan.steps.filter((o) => o.start <= s.start && s.start < o.end && o.start >= plan.at);
    const hands = beside.reduce((sum, o) => sum + o.people, 0);
    const alone = request.helperGone !== undefined && s.start >= request.helperGone;
    if (hands > (alone ? 1 : request.people)) wrong.push(`${hands} pairs of hands at ${s.start}`);
    for (const tool of s.tools) {
      const count = work.tools.find((t) => t.id === tool)!.count;
      if (beside.filter((o) => o.tools.includes(tool)).length > count)
        wrong.push(`${tool} twice at ${s.start}`);
    }
  }
  if (plan.ride.at < Math.max(...plan.steps.map((s) => s.end), plan.at))
    wrong.push('the ride is before the end');
  return wrong;
}
