/** `way`: the way into a bike, the order of work, and the clock. */

import { drawDip } from '../draw/dip.ts';
import { dipOfPlan } from '../draw/dip-of-plan.ts';
import { standalone } from '../draw/palette.ts';
import { svgText } from '../draw/svg.ts';
import type { Machine } from '../machine/definition.ts';
import { AHEAD_KM, usualKm, wearOf } from '../machine/wear.ts';
import { workOf } from '../machine/work.ts';
import { HOUR_WORTH } from '../verdict/repair-choice.ts';
import { adviseOpen, type OpenAdvice, type OpenQuestion } from '../way/open-advice.ts';
import { planJob } from '../way/plan.ts';
import { planClock } from '../way/plan-clock.ts';
import type { Plan, PlanAnswer, PlanRequest } from '../way/plan-shape.ts';
import { sayTime } from '../way/plan-words.ts';
import { type PlanEvent, replan } from '../way/replan.ts';
import { sayAnswer, sayLate, sayPlan } from '../way/say-plan.ts';
import { START_CHANCES, sayStart } from '../way/say-start.ts';
import { sayShopping, shoppingOf } from '../way/shopping.ts';
import { type StartBy, startBy } from '../way/start-by.ts';
import { shutNights } from '../way/to-project.ts';
import type { Work } from '../way/work.ts';
import type { Command } from './command.ts';
import { openMachine, titleOf } from './open-machine.ts';
import { type Given, numberOf, oneOf } from './options.ts';
import { Refusal } from './refusal.ts';
import { wrap } from './table.ts';

/** A clock time as min after midnight. */
function clockOf(text: string, option: string): number {
  const found = /^([01]?\d|2[0-3]):([0-5]\d)$/.exec(text.trim());
  if (!found) throw new Refusal(`${option} wants a time such as 18:00, not "${text}".`);
  return 60 * Number(found[1]) + Number(found[2]);
}

/** What `--ride-by` answers for so many people; times in min from the start of the job, null where there is no plan. */
interface RideBy {
  readonly people: 1 | 2;
  readonly deadline: number;
  readonly says: string;
  readonly latest: StartBy['latest'] | null;
  readonly fromNow: StartBy['fromNow'] | null;
}

interface Asked {
  readonly request: PlanRequest;
  readonly startsAt: number;
  readonly nights: readonly [number, number] | null;
}

function readRequest(given: Given, work: Work): Asked {
  const targets = given.all('--to');
  if (targets.length === 0)
    throw new Refusal(
      `Name what you want to get to with --to: ${work.targets.map(({ id }) => id).join(', ')}.`,
    );
  const startsAt = clockOf(given.one('--start') ?? '18:00', '--start');
  const hours = given.one('--nights') ?? '22:00-07:00';
  const [from, to, ...rest] = hours.split('-');
  if (hours !== 'none' && (from === undefined || to === undefined || rest.length > 0))
    throw new Refusal(
      `--nights wants hours in which nobody works, such as 22:00-07:00, or none; not "${hours}".`,
    );
  const nights = hours === 'none' ? null : ([clockOf(from!, '--nights'), clockOf(to!, '--nights')] as const);
  const people = numberOf(given, '--people', 1, 2, '', 1);
  if (people !== 1 && people !== 2) throw new Refusal(`--people may be 1 or 2, not ${people}.`);
  const leave = given.all('--leave');
  const facts = given.all('--have');
  return {
    request: {
      work,
      targets,
      people,
      ...(nights ? { shut: shutNights(startsAt, nights[0], nights[1]) } : {}),
      ...(leave.length > 0 ? { leave } : {}),
      ...(facts.length > 0 ? { now: { at: 0, did: [], facts } } : {}),
    },
    startsAt,
    nights,
  };
}

/** Events given as options, in the order they are listed in the help. */
function eventsOf(given: Given): PlanEvent[] {
  const events: PlanEvent[] = given.all('--seized').map((text) => {
    const [action = '', more] = text.split('=');
    if (more === undefined || more === 'never') return { what: 'seized', action, adds: 'never' };
    const adds = /^\d+(\.\d+)?$/.test(more) ? Number(more) : Number.NaN;
    if (!(adds <= 10_000))
      throw new Refusal(`--seized wants ACTION, ACTION=never or ACTION=MINUTES, not "${text}".`);
    return { what: 'seized', action, adds };
  });
  for (const at of given.all('--stripped')) events.push({ what: 'stripped', at, minutes: 40 });
  const gone = given.one('--helper-gone');
  if (gone !== null)
    events.push({ what: 'helper gone', at: numberOf(given, '--helper-gone', 0, 20_000, 'min', 0) });
  return events;
}

export const way: Command = {
  name: 'way',
  about: 'Plan the way in: what comes off, in which order, how long, when it can be ridden',
  takes: 'MACHINE',
  more: [
    'The cheapest way in is proved; the order of work is the shortest for it, with cures, windows, tools, one or two people and nights. The clock draws the times ten thousand times. An event (--seized, --stripped, --helper-gone) plans anew and says what has changed.',
  ],
  options: [
    { name: '--to', value: 'TARGET', many: true, about: 'what to get to, such as stator; several at once' },
    { name: '--people', value: 'N', about: 'pairs of hands, 1 or 2; 1 unless said' },
    { name: '--start', value: 'TIME', about: 'when the work begins; 18:00 unless said' },
    {
      name: '--nights',
      value: 'FROM-TO',
      about: 'hours in which nobody works, or none; 22:00-07:00 unless said',
    },
    { name: '--leave', value: 'FACT', many: true, about: 'what is to stay as it is, such as "clutch off"' },
    { name: '--have', value: 'FACT', many: true, about: 'what is so already, such as "seat off"' },
    {
      name: '--seized',
      value: 'ACTION',
      many: true,
      about: 'an action that will not go; ACTION=MINUTES when it only takes longer',
    },
    { name: '--stripped', value: 'STEP', many: true, about: 'an action or step at which a thread came out' },
    { name: '--helper-gone', value: 'MINUTES', about: 'from when only one is left, from the start' },
    {
      name: '--ride-by',
      value: 'TIME',
      about:
        'say when to begin for a ride at this time, alone and with a helper: for an even chance and nine times in ten',
    },
    { name: '--day', value: 'N', about: 'days after the first evening for --ride-by; 1 unless said' },
    {
      name: '--show',
      value: 'WHAT',
      about: 'plan, list, open (what else to replace) or all; plan unless said',
    },
    {
      name: '--km',
      value: 'N',
      about: 'how far the parts have gone since new, for what wears; 6000 a year up to 40000 unless said',
    },
    { name: '--ahead', value: 'N', about: 'how far ahead to look for what wears, km; 20000 unless said' },
    {
      name: '--hour',
      value: 'N',
      about: `worth of an hour of work in the money of the parts; ${HOUR_WORTH} unless said`,
    },
    { name: '--svg', about: 'write the dip as SVG' },
    { name: '--json', about: 'write one JSON object' },
  ],
  example: {
    line: 'way machines/ardmoor-650-pathway.json --to stator --people 2',
    shows: 'the way to the stator of the primary-case twin for two people',
  },
  words: [1, 1],
  run: async (given, world) => {
    const opened = await openMachine(given.words[0]!, given, world);
    const work = workOf(opened.machine, new Date().getFullYear());
    if (!work)
      throw new Refusal(
        `${given.words[0]} says nothing of the way in: add a section "work" (see chargewright schema).`,
      );
    const asked = readRequest(given, work);
    let answer = planJob(asked.request);
    if (!answer.ok) throw new Refusal(answer.says);
    const changes: string[] = [];
    let { request } = asked;
    for (const event of eventsOf(given)) {
      const now = request.now ?? { at: 0, did: [], facts: [] };
      const next = replan(request, answer.least, now, event);
      if (!next.answer.ok) throw new Refusal(next.says);
      changes.push(next.says);
      request = next.request;
      answer = next.answer;
    }
    const clock = planClock(answer.least, request.work);
    if (given.has('--svg')) {
      const dip = drawDip(dipOfPlan(answer.least, request.work, clock, asked.startsAt), 'wide');
      return `${svgText(standalone(dip, 'paper'))}\n`;
    }
    const list = shoppingOf(answer.least, request.work);
    const question = readQuestion(given, opened.machine);
    const advice = adviseOpen(answer.least, request.work, wearOf(opened.machine), question);
    const by = given.one('--ride-by');
    const day = numberOf(given, '--day', 0, 14, '', 1);
    const rideBy = by === null ? null : ridesBy(request, answer, asked, by, day);
    if (given.has('--json')) {
      const plan = ({ project: _project, order: _order, ...rest }: Plan) => rest;
      const { clock: _runs, ...times } = clock;
      return `${JSON.stringify({ least: plan(answer.least), earliest: plan(answer.earliest), differ: answer.differ, left: answer.left, changes, clock: times, list, open: advice, ...(rideBy ? { rideBy } : {}) })}\n`;
    }
    const show = oneOf(given, '--show', ['plan', 'list', 'open', 'all'], 'plan');
    const out = [titleOf(opened), ''];
    for (const says of changes) out.push(wrap(says, 0), '');
    if (show === 'plan' || show === 'all') out.push(...planLines(answer, asked.startsAt, clock));
    if (show === 'list' || show === 'all') out.push('', ...listLines(list));
    if (show === 'open' || show === 'all') out.push('', ...openLines(advice, question));
    if (rideBy) out.push('', ...rideBy.map(({ says }) => wrap(says, 0)));
    out.push(
      '',
      wrap('Times are estimates; the bike’s own book, local rules and licensed practice come first.', 0),
    );
    return `${out.join('\n')}\n`;
  },
};

function planLines(answer: PlanAnswer, startsAt: number, clock: ReturnType<typeof planClock>): string[] {
  const lines = sayAnswer(answer, startsAt).map((line) => wrap(line, 0));
  lines.push(
    wrap(
      `Ride at ${sayTime(clock.p50, startsAt)} one time in two, at ${sayTime(clock.p90, startsAt)} nine times in ten.`,
      0,
    ),
  );
  const [first, second] = clock.drivers;
  if (first) {
    const names = [first, second].flatMap((driver) => (driver ? [`"${driver.step.does}"`] : []));
    lines.push(wrap(`What decides it most: ${names.join(', then ')}.`, 0));
  }
  for (const late of sayLate(clock)) lines.push(wrap(`! ${late}`, 0));
  lines.push('');
  for (const line of sayPlan(answer.least, startsAt).slice(1))
    lines.push(line.endsWith(':') ? `\n${line}` : wrap(line, 2));
  return lines;
}

/** What is asked of what wears. */
function readQuestion(given: Given, machine: Machine): OpenQuestion {
  const usual = usualKm(machine, new Date().getFullYear());
  return {
    km: numberOf(given, '--km', 0, 2_000_000, 'km', usual),
    ahead: numberOf(given, '--ahead', 0, 500_000, 'km', AHEAD_KM),
    hour: numberOf(given, '--hour', 0, 10_000, '', HOUR_WORTH),
  };
}

function openLines(advice: OpenAdvice | null, { km, ahead, hour }: OpenQuestion): string[] {
  if (advice === null) return ['While it is open: nothing that the file says wears lies open on this way.'];
  return [
    wrap(
      `While it is open, at ${km} km since each part was new, looking ${ahead} km ahead, an hour at ${hour}:`,
      0,
    ),
    ...advice.lines.map(({ replace, says }) => wrap(`${replace ? '■' : '□'} ${says}`, 2)),
    wrap(
      `As advised it costs about ${Math.round(advice.cost)} in the end, leaving all of it about ${Math.round(advice.nothing)}. Lives and prices are guesses; the money is of no country.`,
      0,
    ),
  ];
}

function listLines({ lines, tools }: ReturnType<typeof shoppingOf>): string[] {
  return [
    'Before you open it:',
    ...lines.map((line) => wrap(`□ ${sayShopping(line)}`, 2)),
    'Tools:',
    ...tools.map(({ name }) => wrap(`□ ${name}`, 2)),
  ];
}

/** When to begin for a ride at a time, alone and with a helper. `answer` is the plan that was made already. */
function ridesBy(
  request: PlanRequest,
  answer: PlanAnswer,
  { startsAt, nights }: Asked,
  by: string,
  day: number,
): readonly RideBy[] {
  const deadline = 1440 * day + clockOf(by, '--ride-by') - startsAt;
  const hours = nights ? { from: nights[0], to: nights[1] } : null;
  return ([1, 2] as const).map((people) => {
    const found = startBy(
      { ...request, people },
      { deadline, now: 0, chances: START_CHANCES, startsAt, nights: hours, aim: 'least' },
      {},
      people === request.people ? () => answer : undefined,
    );
    const says = sayStart(found, { people, deadline, now: 0 }, startsAt);
    return found.ok
      ? { people, deadline, says, latest: found.latest, fromNow: found.fromNow }
      : { people, deadline, says, latest: null, fromNow: null };
  });
}
