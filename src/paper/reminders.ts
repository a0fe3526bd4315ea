/**
 * What to look at again after the repair, and when: by date, and by distance where wear goes by distance. Nothing that
 * somebody typed is in it, so that it may lie in anybody's calendar: a deviation is told by its kind and its step.
 */
import type { JobState } from '../job/fold.ts';
import { counting } from '../machine/counts.ts';
import type { Machine } from '../machine/definition.ts';
import { deviationReminders } from './deviation-reminders.ts';
import { benchOf, type JobBench } from './job-bench.ts';

export interface Reminder {
  /** Its own in the job, and the same whenever the job is asked again: `slack.primary`. */
  readonly id: string;
  /** `2026-02-14`, a day of the garage. */
  readonly day: string;
  /** From the repair, km; null where it goes by date alone. */
  readonly km: number | null;
  /** "Or after 500 km, whichever comes first."; null where it goes by date alone. */
  readonly orAfter: string | null;
  /** A few words. */
  readonly title: string;
  /** What to do, a sentence each. */
  readonly does: readonly string[];
  /** Who says so: "Common practice, no source." */
  readonly source: string;
}

export type Reminders =
  | {
      readonly ok: true;
      /** The day from which they count: that of the last step ticked, or of the repair where that is later. */
      readonly from: string;
      /** By day, then by id. */
      readonly reminders: readonly Reminder[];
      /** What is uncertain about them, a sentence each. */
      readonly says: readonly string[];
    }
  | { readonly ok: false; readonly why: string };

const PRACTICE = 'Common practice, no source.';
const BOOK = 'The bike’s own book comes first: where it gives a figure, that counts.';

/** Days and km after the repair. Common practice, no source, all of them. */
const AFTER_RIDE = { days: 7, km: 100 } as const;
const FIRST = { days: 28, km: 500 } as const;
const BATTERY_DAYS = [28, 182] as const;
const FLUID_DAYS = 365;

/** How far the garage's clock is ahead of UTC, min: it says on which day the last step fell. */
export type EastMinutes = number;

/** The reminders of a job. `machine`: null where its file is not here; then there is less to say. */
export function remindersOf(state: JobState, machine: Machine | null, east: EastMinutes): Reminders {
  const bench = benchOf(state, machine);
  const { made } = state.proof;
  const last = Math.max(...bench.done.values(), ...(made === null ? [] : [Date.parse(made.at)]));
  if (!Number.isFinite(last))
    return {
      ok: false,
      why: 'No step of this job is ticked yet and nothing was said to be repaired, so there is nothing to look at again.',
    };
  const from = new Date(last + east * 60_000).toISOString().slice(0, 10);
  const reminders = [
    ...slackReminders(bench, from),
    ...fastenerReminders(bench, from),
    ...fluidReminders(bench, from),
    ...batteryReminders(from),
    ...proofReminders(state, from),
    ...deviationReminders(bench).map((said) => ({ ...said, ...when(from, AFTER_RIDE.days, AFTER_RIDE.km) })),
  ].sort((a, b) => (a.day === b.day ? (a.id < b.id ? -1 : 1) : a.day < b.day ? -1 : 1));
  return { ok: true, from, reminders, says: doubts(bench) };
}

function doubts({ machine, open }: JobBench): readonly string[] {
  return [
    ...(machine === null
      ? ['The machine file is not here: slack, fasteners and fluids of this bike are left out.']
      : []),
    ...(open
      ? ['The bike is not back together yet: the days count from the last step ticked, and will move.']
      : []),
  ];
}

type When = Pick<Reminder, 'day' | 'km' | 'orAfter'>;

function when(from: string, days: number, km: number | null): When {
  const day = new Date(Date.parse(`${from}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
  return {
    day,
    km,
    orAfter:
      km === null ? null : `Or after ${km} km (${Math.round(km / 1.609344)} miles), whichever comes first.`,
  };
}

/** Each chain whose slack this job measured or set. */
function slackReminders({ machine, touched, fresh }: JobBench, from: string): readonly Reminder[] {
  const ids = new Set(touched.flatMap(({ step }) => step?.chain ?? []));
  return [...ids].flatMap((id): Reminder[] => {
    const chain = machine?.chains?.[id];
    if (!machine || !chain) return [];
    const slack = chain.slack === null ? null : counting(machine, chain.slack, fresh);
    const cold = chain.slackWhen === 'hot' ? 'engine warm' : 'engine cold';
    return [
      {
        id: `slack.${id}`,
        ...when(from, FIRST.days, FIRST.km),
        title: `${capital(chain.name)}: slack again`,
        does: [
          `Measure the slack of the ${chain.name}, ${cold}, once round, at the tight spot${slack === null ? '' : `: ${slack.is.text}`}. A chain and its shoe settle in the first kilometres.`,
          `After that as often as the book says. ${BOOK}`,
        ],
        source:
          slack === null
            ? PRACTICE
            : `The figure: ${machine.sources[slack.from]?.title ?? slack.from}. When: common practice, no source.`,
      },
    ];
  });
}

/** What was tightened in this job: what a wrench may try, and what it must not. */
function fastenerReminders({ machine, touched, fresh, asked }: JobBench, from: string): readonly Reminder[] {
  if (!machine) return [];
  const turned = new Set(
    touched.flatMap(({ step, fastener }) =>
      step !== null && fastener !== null && (step.kind === 'torque' || step.kind === 'retainer')
        ? [fastener]
        : [],
    ),
  );
  const known = [...turned].flatMap((id) => machine.fasteners?.[id] ?? []);
  const names = (all: typeof known) => all.map(({ name }) => name).join(', ');
  const isLocked = ({ locker }: (typeof known)[number]) =>
    locker !== null && counting(machine, locker, fresh).is !== 'none';
  const [locked, free] = [known.filter(isLocked), known.filter((one) => !isLocked(one))];
  const wires = asked.has('retained') || asked.has('clear');
  if (known.length === 0 && !wires) return [];
  return [
    {
      id: 'fasteners',
      ...when(from, FIRST.days, FIRST.km),
      title: 'Fasteners: first recheck',
      does: [
        ...(free.length > 0
          ? [
              `Engine cold, try with the wrench at the torque of the book: ${names(free)}. What lies behind a cover stays shut unless something speaks against it.`,
            ]
          : []),
        ...(locked.length > 0
          ? [`Held by thread locker, so look and do not turn, for a turn breaks its bond: ${names(locked)}.`]
          : []),
        ...(wires ? ['Look where the wires run: held, not rubbed, clear of chain and exhaust.'] : []),
        BOOK,
      ],
      source: PRACTICE,
    },
  ];
}

/** What was filled in this job: for leaks and level soon, for the change later. */
function fluidReminders({ machine, touched }: JobBench, from: string): readonly Reminder[] {
  const ids = new Set(touched.flatMap(({ step }) => (step?.kind === 'fill' ? (step.fluid ?? []) : [])));
  const names = [...ids].flatMap((id) => {
    const name = machine?.fluids?.[id]?.name;
    return name === undefined ? [] : [{ id, name }];
  });
  if (names.length === 0) return [];
  const all = names.map(({ name }) => name).join(', ');
  return [
    {
      id: 'leaks',
      ...when(from, AFTER_RIDE.days, AFTER_RIDE.km),
      title: 'Leaks and level',
      does: [
        `After a night on clean cardboard look for drops, then check the level of ${all}. ${BOOK}`,
        'Caution: hot engine and pipes after a ride.',
      ],
      source: PRACTICE,
    },
    ...names.map(({ id, name }) => ({
      id: `fluid.${id}`,
      ...when(from, FLUID_DAYS, null),
      orAfter: 'Or after the distance that the bike’s own book gives, whichever comes first.',
      title: `${capital(name)}: change it`,
      does: [`Change the ${name}. The machine file gives no interval; a year is a common one. ${BOOK}`],
      source: PRACTICE,
    })),
  ];
}

/** A proof that was not brought to its end, or did not hold. */
function proofReminders({ proof }: JobState, from: string): readonly Reminder[] {
  if (proof.made === null || (proof.said?.proven === true && proof.said.changesSince === 0)) return [];
  return [
    {
      id: 'proof',
      ...when(from, AFTER_RIDE.days, AFTER_RIDE.km),
      title: 'Proof: not brought to its end',
      does: [
        'It was not shown that the bike charges again: take the readings that the station Proof asks for, and say how it stands.',
        'Caution: run the engine outdoors only, for carbon monoxide.',
      ],
      source: 'From this job’s own log.',
    },
  ];
}

/** A battery that was run flat is weaker than it looks: once soon, once before it has to crank in the cold. */
function batteryReminders(from: string): readonly Reminder[] {
  return BATTERY_DAYS.map((days, n) => ({
    id: `battery.${n + 1}`,
    ...when(from, days, null),
    title: n === 0 ? 'Battery: first test' : 'Battery: test again',
    does: [
      'Left alone for a night, read the volts at its posts: 12.6 V and more is full, under 12.4 V it wants the charger and a look at why.',
      'Then outdoors, engine warm, lights on: the volts at the posts must rise as the engine speeds up from idle, and stay in the book’s range.',
      'Caution: battery gas burns and acid bites; run the engine outdoors only, for carbon monoxide.',
    ],
    source: `${PRACTICE} ${BOOK}`,
  }));
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
