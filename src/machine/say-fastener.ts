/** One fastener's figures in words, for the step that turns it: size, torque and stages in both units, locker, cautions. */

import { sayTorques } from '../joint/say.ts';
import { type AnySaid, counting, sameValue, writeSaid } from './counts.ts';
import type { Fastener, Machine, Part } from './definition.ts';
import type { Quantity } from './figure.ts';

export interface FastenerWords {
  readonly name: string;
  /** "10 of 1/4-20 UNC × 1 1/4 in"; null where the file tells neither size nor count. */
  readonly size: string | null;
  /** Final torque in both units; null where the file has none. */
  readonly torque: string | null;
  /** Stages in order, in both units, the last one included; empty where it is done in one. */
  readonly stages: readonly string[];
  /** What to mind, a short sentence each: threads, locker, direction, new each time. */
  readonly mind: readonly string[];
  /** Where the torque is from: "book, 6-14". */
  readonly source: string | null;
  /** Where other sources differ: "Sheet packed with the stator says 40–45 lbf·in". */
  readonly differs: readonly string[];
}

const LOCKERS = {
  none: 'no thread locker',
  low: 'low-strength thread locker',
  medium: 'medium-strength thread locker',
  high: 'high-strength thread locker',
} as const;

type Minded = AnySaid & {
  readonly is: string;
  readonly also: readonly (AnySaid & { readonly is: string })[];
};

/** What to mind beside size and torque: in words where it is to be minded, and as another source would say it. */
const MINDED: readonly {
  readonly of: 'condition' | 'locker' | 'loosens' | 'reuse';
  readonly words: (is: string) => string | null;
  readonly tells: (is: string) => string;
}[] = [
  { of: 'condition', words: (is) => `Threads: ${is}`, tells: (is) => `threads ${is}` },
  { of: 'locker', words: lockerWords, tells: lockerWords },
  {
    of: 'loosens',
    words: (is) => (is === 'clockwise' ? 'LEFT-HAND THREAD: clockwise undoes it' : null),
    tells: (is) => `${is} undoes it`,
  },
  {
    of: 'reuse',
    words: (is) => (is === 'new' ? 'new each time' : null),
    tells: (is) =>
      is === 'new'
        ? 'new each time'
        : is === 'inspect'
          ? 'look at it, then it may go on again'
          : 'it may go on again',
  },
];

function lockerWords(is: string): string {
  return LOCKERS[is as keyof typeof LOCKERS];
}

/** A fastener's figures as they count with these parts new; null where the file has no such fastener. */
export function sayFastener(
  machine: Pick<Machine, 'sources' | 'fasteners'>,
  id: string,
  newParts: readonly Part[] = [],
): FastenerWords | null {
  const fastener: Fastener | undefined = machine.fasteners?.[id];
  if (!fastener) return null;
  const said = <T>(figure: { readonly is: T; readonly from: string } | null): T | null =>
    figure === null ? null : (counting(machine, figure as never, newParts) as { is: T }).is;
  const torque = fastener.torque === null ? null : counting(machine, fastener.torque, newParts);
  const stages = torque === null ? [] : stagesOf(fastener, torque, (one) => counting(machine, one, newParts));
  const count = fastener.count !== null && fastener.count > 1 ? `${fastener.count} of ` : '';
  const length = said(fastener.length);
  const thread = said(fastener.thread);
  const size = thread === null ? null : `${count}${thread}${length === null ? '' : ` × ${length.text}`}`;
  const mind = [
    // A file may leave torques out, and nobody may fill them in from the head.
    ...(torque === null ? ["Torque by the bike's own book: none in this file"] : []),
    ...MINDED.flatMap(({ of, words }) => {
      const is = said(fastener[of] as Minded | null);
      return is === null ? [] : (words(is) ?? []);
    }),
  ];
  return {
    name: fastener.name,
    size,
    torque: torque === null ? null : sayTorques(torque.is),
    stages: stages.map(sayTorques),
    mind,
    source: torque === null ? null : sourceOf(machine, torque),
    differs: [
      ...(fastener.torque === null || torque === null ? [] : others(machine, fastener.torque, torque)),
      ...MINDED.flatMap(({ of, tells }) => {
        const figure = fastener[of] as Minded | null;
        return figure === null ? [] : others(machine, figure, counting(machine, figure, newParts), tells);
      }),
    ],
  };
}

type Torque = NonNullable<Fastener['torque']>;

/** Stages on the way with the final one. Where a sheet gives another final torque, the book's final stage is that one. */
function stagesOf(
  { stages, torque }: Fastener,
  last: Torque | Torque['also'][number],
  counts: (figure: Torque) => Torque | Torque['also'][number],
): readonly Quantity[] {
  const finals = torque === null ? [] : [torque, ...torque.also];
  const before = (stages ?? [])
    .map((stage) => counts(stage))
    .filter(
      (stage) => !finals.some((final) => sameValue({ is: final.is, from: '' }, { is: stage.is, from: '' })),
    );
  return before.length === 0 ? [] : [...before.map(({ is }) => is), last.is];
}

function sourceOf(
  machine: Pick<Machine, 'sources'>,
  said: AnySaid & { readonly page: string | null },
): string {
  const title = machine.sources[said.from]?.title ?? said.from;
  return said.page === null ? title : `${title}, ${said.page}`;
}

function others(
  machine: Pick<Machine, 'sources'>,
  figure: AnySaid & { readonly also: readonly AnySaid[] },
  counts: AnySaid,
  tells: (is: string) => string = (is) => is,
): readonly string[] {
  return [figure, ...figure.also]
    .filter((one) => one !== counts && !sameValue(one, counts))
    .map((one) => `${machine.sources[one.from]?.title ?? one.from} says ${tells(writeSaid(one))}`);
}
