/** New parts with the sheets that came with them: where a sheet differs from the book, both are told. */
import type { Machine, Part } from '../machine/definition.ts';
import { sheetDiffers } from '../machine/sheet-differs.ts';
import type { Block } from './document.ts';
import { heading, list, words } from './make-block.ts';
import type { Recorded } from './record.ts';

export function partBlocks({ machine, bench, state }: Recorded): readonly Block[] {
  const { fresh } = bench;
  const supplies = machine?.work?.supplies ?? {};
  const here = state.way.here.map((id) => supplies[id]?.name ?? id);
  const parts = [...new Set(fresh)];
  const nothing = parts.length === 0;
  return [
    heading(1, 'Parts'),
    ...(nothing
      ? [words('The job names no new part that comes with a sheet of its own.')]
      : machine === null
        ? []
        : list(parts.map((part) => `New ${part}: ${sheetWords(machine, part)}`))),
    ...(machine === null || nothing ? [] : differBlocks(machine, parts)),
    ...(here.length > 0 ? [words(`On the bench before the work began: ${here.join(', ')}.`)] : []),
  ];
}

function sheetWords(machine: Machine, part: Part): string {
  const sheets = Object.values(machine.sources).flatMap((source) =>
    source.kind === 'part-sheet' && source.for === part
      ? [[source.title, source.date, source.page].filter(Boolean).join(', ')]
      : [],
  );
  return sheets.length > 0
    ? `${sheets.join('; ')}.`
    : 'no sheet of it is in the machine file, so the book’s figures counted.';
}

function differBlocks(machine: Machine, fresh: readonly Part[]): readonly Block[] {
  const rows = sheetDiffers(machine, fresh).map(({ name, counts, from, others }) => [
    name,
    counts,
    from,
    others.join('; '),
  ]);
  return rows.length === 0
    ? []
    : [
        {
          kind: 'rows',
          caption: 'Figures where the new part’s own sheet counted, and what else is said of them',
          head: ['Figure', 'Counted', 'From', 'Otherwise'],
          rows,
        },
      ];
}
