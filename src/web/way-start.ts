/** When to begin so that the bike is ridden by an hour: what the station Way in asks and says, one number of hands at a time. */
import { type AskedWay, askWay, NIGHT } from '../job/way-request.ts';
import { workOf } from '../machine/work.ts';
import type { PlanRefusal, PlanRequest } from '../way/plan-shape.ts';
import { afterEvent } from '../way/replan.ts';
import { START_CHANCES, sayStart } from '../way/say-start.ts';
import { startBy } from '../way/start-by.ts';
import { type Planned, throughTonight, type WayAsk } from './way-report.ts';

/** One number of hands an ask: what is ticked meanwhile is planned for between two. */
export interface StartQuestion extends WayAsk {
  readonly people: 1 | 2;
  /** The moment at which it must be ridden, ms since 1970. */
  readonly rideByMs: number;
}

export interface StartReply {
  readonly id: number;
  readonly people: 1 | 2;
  readonly says: string;
  /** The start that keeps it nine times in ten, ISO 8601 in UTC; null where there is none to choose. */
  readonly start: string | null;
}

/** Answers when to begin; `planned` has the plan on screen already. */
export function tellStart(ask: StartQuestion, planned: Planned): StartReply {
  const { id, people, choice, wall, nowMs } = ask;
  const only = (says: string): StartReply => ({ id, people, says, start: null });
  const work = workOf(ask.machine, ask.year);
  if (!work) return only('This machine file says nothing of the way in yet: it has no section "work".');
  const asked = askWay(work, choice, ask.way, { nowMs, startsAt: wall.startsAt });
  if ('ok' in asked) return only(asked.says);
  let request = requestOf(asked);
  if ('ok' in request) return only(request.says);
  const answer = planned(request);
  // As on the station: who opened a window in the evening stays up for it.
  const late = !answer.ok && answer.why === 'window' ? throughTonight(asked) : null;
  if (late) request = requestOf(late);
  if ('ok' in request) return only(request.says);
  const chosen = request;
  const startMs = Date.parse(choice.startsAt);
  const minute = (ms: number) => Math.round((ms - startMs) / 60_000);
  const deadline = minute(ask.rideByMs);
  // With something done it goes on from there, whatever hour it is on this device.
  const now = asked.now.did.length > 0 ? asked.now.at : minute(nowMs);
  const found = startBy(
    { ...chosen, people },
    {
      deadline,
      now,
      chances: START_CHANCES,
      startsAt: wall.startsAt,
      nights: choice.nights ? NIGHT : null,
      aim: choice.aim,
    },
    {},
    people === chosen.people ? () => planned(chosen) : undefined,
  );
  const sure = found.ok && deadline > now ? (found.latest.at(-1)?.start ?? null) : null;
  return {
    id,
    people,
    says: sayStart(found, { people, deadline, now }, wall),
    start: sure === null ? null : new Date(startMs + 60_000 * sure).toISOString(),
  };
}

/** What is planned for: with every trouble, from where the bike is. */
function requestOf({ before, event, now }: AskedWay): PlanRequest | PlanRefusal {
  return event === null ? before : afterEvent({ ...before, now }, event);
}
