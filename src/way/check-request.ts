/**
 * A request checked against the work it speaks of: every id known, every tool there.
 */
import { noSuch } from './nearest-name.ts';
import { type PlanRefusal, type PlanRequest, refuse } from './plan-shape.ts';
import { givesAll } from './strip-problem.ts';

/** Why the request cannot be answered as it stands, or null. Throws RangeError for numbers that are none. */
export function checkRequest(request: PlanRequest): PlanRefusal | null {
  const { work, now, targets, people } = request;
  if (people !== 1 && people !== 2) throw new RangeError(`people must be 1 or 2, got ${people}`);
  for (const [name, value] of [
    ['now.at', now?.at ?? 0],
    ['helperGone', request.helperGone ?? 0],
    ['engine.stoppedAt', request.engine?.stoppedAt ?? 0],
    ['engine.coolsIn', request.engine?.coolsIn ?? 0],
  ] as const)
    requireFinite(name, value);
  for (const { action, adds } of request.stuck ?? [])
    if (adds !== 'never' && !(adds >= 0 && Number.isFinite(adds)))
      throw new RangeError(`what "${action}" takes more must be ≥ 0 min or 'never', got ${adds}`);
  for (const { supply, at } of request.arrivals ?? []) requireFinite(`arrival of "${supply}"`, at);
  for (const { id, start, end } of now?.did ?? []) {
    requireFinite(`start of "${id}"`, start);
    if (!(end >= start && Number.isFinite(end)))
      throw new RangeError(`end of "${id}" must be a finite number ≥ its start ${start}, got ${end}`);
  }
  for (const { from, to } of request.shut ?? [])
    if (!(to >= from && Number.isFinite(to - from)))
      throw new RangeError(`shut hours must end after they begin, got ${from} to ${to}`);
  const ways = request.ways ?? 1;
  if (!(Number.isInteger(ways) && ways >= 1))
    throw new RangeError(`ways must be a whole number ≥ 1, got ${ways}`);

  const actions = new Set(work.actions.map((a) => a.id));
  const steps = [
    ...work.actions.flatMap((a) => a.back),
    ...work.targets.flatMap((t) => t.work),
    ...work.closing,
  ];
  const facts = new Set(work.actions.flatMap((a) => [...a.needs, ...givesAll(a)]));
  for (const f of work.targets.flatMap((t) => t.needs)) facts.add(f);
  const known = [
    { what: 'target', asked: targets, names: new Set(work.targets.map((t) => t.id)) },
    { what: 'action', asked: (request.stuck ?? []).map((s) => s.action), names: actions },
    {
      what: 'supply',
      asked: (request.arrivals ?? []).map((a) => a.supply),
      names: new Set(work.supplies.map((s) => s.id)),
    },
    { what: 'fact', asked: [...(request.leave ?? []), ...(now?.facts ?? [])], names: facts },
    {
      what: 'action or step',
      asked: (now?.did ?? []).map((d) => d.id),
      names: new Set([...actions, ...steps.map((s) => s.id)]),
    },
    {
      what: 'tool',
      asked: [...work.actions.flatMap((a) => a.tools), ...steps.flatMap((s) => s.tools)],
      names: new Set(work.tools.map((t) => t.id)),
    },
  ];
  for (const { what, asked, names } of known)
    for (const id of asked) if (!names.has(id)) return refuse('unknown', noSuch(what, id, names), [id]);
  const seen = new Set<string>();
  for (const { id } of [...work.actions, ...steps]) {
    if (seen.has(id))
      return refuse('unknown', `Two actions or steps are called "${id}"; give one another id.`, [id]);
    seen.add(id);
  }
  return null;
}

function requireFinite(name: string, value: number): void {
  if (!Number.isFinite(value)) throw new RangeError(`${name} must be a finite number, got ${value}`);
}
