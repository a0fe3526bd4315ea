/** The record's second half: parts, what was found and how it was built, torques, holds, deviations, notes, photographs. */
import { isAsk, judge } from '../bench/asks-of.ts';
import { deviationsOf } from '../bench/deviations.ts';
import { sayRecord } from '../bench/found.ts';
import { textsOf } from '../bench/standing.ts';
import { REPAIRS } from '../fault/repairs.ts';
import { sayTorques } from '../joint/say.ts';
import { eachFigure, writeSaid } from '../machine/counts.ts';
import { partsOfRepairs } from '../machine/new-parts.ts';
import { sayFastener } from '../machine/say-fastener.ts';
import { allRepairs } from '../proof/repaired.ts';
import type { Block, Pictured } from './document.ts';
import { type JobBench, stepWords } from './job-bench.ts';
import { heading, list, words } from './make-block.ts';
import { byWhom } from './record-evidence.ts';
import type { SayTime } from './say-time.ts';

/** What was renewed, and what the sheets of the new parts say where the book says otherwise. */
export function partsBlocks({ state, machine }: JobBench): readonly Block[] {
  const repairs = allRepairs(state);
  const head = heading(1, 'What was done');
  if (state.proof.made === null) return [head, words('Nobody has written down yet which repairs were made.')];
  const titles = repairs.map((id) => REPAIRS[id as keyof typeof REPAIRS]?.title ?? id);
  return [
    head,
    ...(titles.length === 0 ? [words('Nothing was repaired.')] : list(titles)),
    ...(machine === null ? [] : sheetBlocks(machine, partsOfRepairs(repairs))),
  ];
}

function sheetBlocks(
  machine: NonNullable<JobBench['machine']>,
  fresh: ReturnType<typeof partsOfRepairs>,
): readonly Block[] {
  const rows = eachFigure(machine).flatMap(({ path, figure }) => {
    const sheet = [figure, ...figure.also].find(({ from }) => {
      const source = machine.sources[from];
      return source?.kind === 'part-sheet' && fresh.includes(source.for);
    });
    if (!sheet || sheet === figure || writeSaid(sheet) === writeSaid(figure)) return [];
    const name = path
      .split('.')
      .slice(-1)[0]!
      .replace(/([A-Z])/g, ' $1')
      .toLowerCase();
    return [[name, writeSaid(figure), writeSaid(sheet)]];
  });
  if (rows.length === 0) return [];
  return [
    {
      kind: 'rows',
      caption: 'Where the new part’s own sheet differs from the book; the sheet counts',
      head: ['Figure', 'Book', 'Sheet of the new part'],
      rows,
    },
  ];
}

/** Every torque that was signed, against what it should be. */
export function torqueBlocks(bench: JobBench, time: SayTime): readonly Block[] {
  const { state, machine, places, fresh, askingOf } = bench;
  const records = state.bench.records.filter(({ ask }) => ask === 'torque');
  if (records.length === 0) return [];
  return [
    heading(1, 'Torques'),
    {
      kind: 'rows',
      caption: 'Every torque that was signed, in the order in which it was signed',
      head: ['Fastener', 'Wanted', 'Signed', 'When, who'],
      rows: records.map((record) => {
        const asking = askingOf(record.step);
        const id = places.get(record.step)?.fastener ?? null;
        const said = machine && id ? sayFastener(machine, id, fresh) : null;
        const torque = record.figures.torqueNm;
        const lines = asking ? sayRecord(asking, record).lines : [];
        return [
          `${said?.name ?? ''}${said ? ': ' : ''}${stepWords(places, record.step)}`,
          [
            said?.torque ?? 'not in the machine file',
            ...(said && said.stages.length > 1 ? [`stages ${said.stages.join(', ')}`] : []),
          ].join('; '),
          lines.length > 0
            ? lines.join('; ')
            : typeof torque === 'number'
              ? sayTorques({ low: torque, high: torque })
              : 'no figure',
          `${time(record.at)}${byWhom(record.who)}`,
        ];
      }),
    },
  ];
}

/** As found beside as built: what was written down when it came off, and when it went back on. */
export function builtBlocks(bench: JobBench, time: SayTime): readonly Block[] {
  const { state, places, askingOf } = bench;
  const others = state.bench.records.filter(({ ask }) => ask !== 'torque');
  if (others.length === 0) return [];
  const order = { in: 0, bottom: 1, out: 2, closing: 3 } as const;
  const row = (record: (typeof others)[number]): readonly string[] => {
    const asking = askingOf(record.step);
    const said = asking ? sayRecord(asking, record) : null;
    const judged =
      asking && isAsk(record.ask) ? judge(asking, record.ask, textsOf(record), record.yes) : null;
    return [
      stepWords(places, record.step),
      said?.title ?? record.ask,
      [
        ...(said?.lines ?? Object.values(record.words)),
        ...(judged?.ok && judged.stops.length > 0 ? [`Not as it should be: ${judged.stops.join(' ')}`] : []),
      ].join('; '),
      `${time(record.at)}${byWhom(record.who)}`,
    ];
  };
  const phase = (step: string): number => order[places.get(step)?.phase ?? 'closing'];
  const head = ['At the step', 'Record', 'Written down', 'When, who'];
  const table = (caption: string, records: typeof others): readonly Block[] =>
    records.length === 0 ? [] : [{ kind: 'rows', caption, head, rows: records.map(row) }];
  return [
    heading(1, 'As found, as built'),
    ...table(
      'As found, going in',
      others.filter(({ step }) => phase(step) === 0),
    ),
    ...table(
      'As built',
      others.filter(({ step }) => phase(step) > 0),
    ),
  ];
}

/** What was signed for though its record was missing, and what was done otherwise, with what follows from it. */
export function deviationBlocks(bench: JobBench, time: SayTime): readonly Block[] {
  const { state, places, askingOf } = bench;
  const all = deviationsOf(state.bench, askingOf);
  if (all.length === 0)
    return [
      heading(1, 'Done otherwise'),
      words('Nothing was done otherwise than the book or the plan wants.'),
    ];
  return [
    heading(1, 'Done otherwise'),
    words('What was done otherwise than the book or the plan wants, and what it means next time:'),
    ...list(
      all.map(
        ({ step, says, why, at }) =>
          `${stepWords(places, step)} (${time(at)}): ${says.join(' ')}${why ? ` Because: ${why}` : ''}`,
      ),
    ),
  ];
}

export function noteBlocks({ state, places }: JobBench, time: SayTime): readonly Block[] {
  if (state.notes.length === 0) return [];
  return [
    heading(1, 'Notes'),
    ...list(
      state.notes.map(
        ({ text, step, at, who }) =>
          `${time(at)}${byWhom(who)}${step === null ? '' : `, at “${stepWords(places, step)}”`}: ${text}`,
      ),
    ),
  ];
}

export function photoBlocks({ state, places }: JobBench, time: SayTime): readonly Block[] {
  const { photos } = state.bench;
  if (photos.length === 0) return [];
  const pictured = photos.map(({ photo, about, step, at }): Pictured => {
    const place = step === '' ? '' : stepWords(places, step);
    return { photo, about: [about.trim(), place, time(at)].filter(Boolean).join(', ') };
  });
  return [heading(1, 'Photographs'), { kind: 'photos', photos: pictured }];
}

/** The cautions of the steps that were done, each once. */
export function cautionBlocks({ touched }: JobBench): readonly Block[] {
  const said = new Set(
    touched.flatMap(({ step, action }) => (step ? step.caution : action?.entry.caution) ?? []),
  );
  if (said.size === 0) return [];
  return [
    heading(1, 'Cautions of this work'),
    ...[...said].map((text): Block => ({ kind: 'caution', text })),
  ];
}
