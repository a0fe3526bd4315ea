/** As found and as built side by side, for each move that was made; and what was written down elsewhere. */
import { sayRecord } from '../bench/found.ts';
import type { StepPlace } from '../bench/place.ts';
import type { BenchRecord } from '../job/bench-fold.ts';
import type { Block } from './document.ts';
import { stepWords } from './job-bench.ts';
import { heading, words } from './make-block.ts';
import type { Recorded } from './record.ts';
import { sayWhen } from './wall-time.ts';

/** The last record of each step and ask, torques left out: those have a table of their own. */
export function lastRecords({ state }: Pick<Recorded, 'state'>): readonly BenchRecord[] {
  const { records } = state.bench;
  return records.filter(
    (record) =>
      record.ask !== 'torque' &&
      !records.some(
        (other) => other.step === record.step && other.ask === record.ask && other.event > record.event,
      ),
  );
}

export function foundBlocks(of: Recorded): readonly Block[] {
  const { bench, state } = of;
  const records = lastRecords(of);
  const moves = [...bench.places.values()].filter(
    (place) =>
      place.phase === 'in' && (bench.done.has(place.id) || records.some(({ step }) => step === place.id)),
  );
  const rows = moves.flatMap((move) => {
    const back = [...bench.places.values()].filter(
      (place) => place.phase === 'out' && place.action?.id === move.id,
    );
    const [found, built] = [told(of, records, [move]), told(of, records, back)];
    if (found === '' && built === '') return [];
    return [
      [stepWords(bench.places, move.id), found || 'nothing written down', built || backWords(of, back)],
    ];
  });
  const used = new Set(
    moves.flatMap((move) => [
      move.id,
      ...[...bench.places.values()].flatMap((place) =>
        place.phase === 'out' && place.action?.id === move.id ? [place.id] : [],
      ),
    ]),
  );
  const others = records.filter(({ step }) => !used.has(step));
  const troubles = state.way.troubles.map(
    ({ what, of: thing }) => `${TROUBLES[what] ?? what}: ${stepWords(bench.places, thing) || 'helper'}`,
  );
  return [
    heading(1, 'As found, as built'),
    ...(rows.length === 0
      ? [words('Nothing was written down of what was found and how it was built back.')]
      : [
          {
            kind: 'rows' as const,
            caption: 'What was found when it came off, and how it went back on',
            head: ['Move', 'As found', 'As built'],
            rows,
          },
        ]),
    ...(others.length === 0
      ? []
      : [
          {
            kind: 'rows' as const,
            caption: 'What else was written down at the bench',
            head: ['Step', 'What was written', 'By whom, when'],
            rows: others.map((record) => [
              stepWords(bench.places, record.step),
              said(of, record),
              sayWhen(record, of.east),
            ]),
          },
        ]),
    ...(troubles.length === 0 ? [] : [words(`What would not go: ${troubles.join('; ')}.`)]),
  ];
}

const TROUBLES: Readonly<Record<string, string>> = {
  seized: 'seized',
  stripped: 'thread came out',
  'not-here': 'not at hand',
  'helper-gone': 'helper away',
};

function told(of: Recorded, records: readonly BenchRecord[], places: readonly StepPlace[]): string {
  return places
    .flatMap(({ id }) => records.filter(({ step }) => step === id).map((record) => said(of, record)))
    .join('\n');
}

/** One record: its title only where its lines do not tell by themselves. */
function said({ bench }: Recorded, record: BenchRecord): string {
  const asking = bench.askingOf(record.step);
  if (asking === null)
    return [
      record.ask,
      ...Object.entries(record.words).map(([id, text]) => `${id}: ${text}`),
      ...record.yes,
    ].join('; ');
  const { title, lines } = sayRecord(asking, record);
  return lines.length === 0 ? title : lines.join('; ');
}

function backWords({ bench }: Recorded, back: readonly StepPlace[]): string {
  if (back.length === 0) return 'stays so';
  return back.every(({ id }) => bench.done.has(id)) ? 'back on, nothing written down' : 'not back on yet';
}
