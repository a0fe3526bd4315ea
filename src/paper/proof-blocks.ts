/** The proof on paper: what was read of the repaired bike beside what it should show, what was looked at, what was said. */
import { provedVolts } from '../draw/proved-volts.ts';
import { REPAIRS } from '../fault/repairs.ts';
import type { JobState } from '../job/fold.ts';
import type { JobProof } from '../proof/prove-job.ts';
import { KINDS } from '../reading/catalogue.ts';
import { readKey } from '../reading/key.ts';
import { showFigure } from '../reading/say-value.ts';
import { inHundred } from '../verdict/say-chance.ts';
import type { Block } from './document.ts';
import { heading, list, words } from './make-block.ts';
import { byWhom, readingWords, setsList, valueWords, withdrawnBlocks } from './record-evidence.ts';
import type { SayTime } from './say-time.ts';
import { still } from './still.ts';

const STANDS = { proven: 'Proven', open: 'Not proven yet', 'not-proven': 'Not proven' } as const;

/** `proved` is what was worked out of it; null where the machine file is not here or nothing was repaired. */
export function proofBlocks(state: JobState, proved: JobProof | null, time: SayTime): readonly Block[] {
  const { made, before, readings, withdrawn, looks, said } = state.proof;
  const head = heading(1, 'The proof');
  if (made === null) return [head, words('Not proved: nothing was read after the repair.')];
  const held = new Map(proved?.proof.held.map((one) => [one.key, one]));
  const chart = proved
    ? provedVolts({ before: state.readings, after: readings, band: proved.volts, shape: 'wide' })
    : null;
  return [
    head,
    ...before.map((round) =>
      words(
        `Repaired ${time(round.made.at)}${byWhom(round.made.who)}: ${titles(round.made.repairs)}; ${round.readings.length} readings, then repaired again.`,
      ),
    ),
    words(`Repaired ${time(made.at)}${byWhom(made.who)}: ${titles(made.repairs)}.`),
    ...(said
      ? [
          words(
            `Written down as ${said.proven ? 'proven' : 'not proven'} ${time(said.at)}${byWhom(said.who)}; that a fault was left then: ${inHundred(said.faultLeft)}.${said.why ? ` Because: ${said.why}` : ''}${said.changesSince > 0 ? ` ${said.changesSince} entries came after it.` : ''}`,
          ),
        ]
      : [words('Nobody has written down yet that it is proven.')]),
    ...(proved
      ? [
          words(
            `${STANDS[proved.standing.is]} by what is in the log: that a fault is left, ${inHundred(proved.proof.faultLeft)}; before any reading it was ${inHundred(proved.proof.faultLeftBefore)}.`,
          ),
          ...list(proved.standing.why),
          ...(proved.standing.is === 'proven' ? [] : setsList(proved.proof.sets, proved.proof.noneOfThese)),
        ]
      : []),
    ...(readings.length === 0
      ? [words('Nothing was read after the repair.')]
      : [
          {
            kind: 'rows' as const,
            caption: 'What was read of the repaired bike, and what a sound one of its kind shows (95 of 100)',
            head: ['Reading', 'Shown', 'Should be', 'When, who'],
            rows: readings.map((reading) => {
              const band = held.get(reading.key)?.band ?? null;
              const unit = KINDS[readKey(reading.key)?.kind ?? '']?.unit ?? '';
              const fits = held.get(reading.key)?.inside;
              return [
                readingWords(reading.key),
                `${valueWords(reading)}${fits === false ? ' (outside)' : ''}`,
                band ? `${showFigure(band.low)} to ${showFigure(band.high)} ${unit}` : '–',
                `${time(reading.at)}${byWhom(reading.who)}`,
              ];
            }),
          },
        ]),
    ...withdrawnBlocks(withdrawn, time),
    ...lookRows(proved, looks, time),
    ...(chart
      ? [
          {
            kind: 'drawing' as const,
            sheet: still(chart),
            caption:
              'Battery volts over engine speed, low beam on: before the repair, after it, and what it should be.',
          },
        ]
      : []),
  ];
}

function titles(repairs: readonly string[]): string {
  return repairs.length === 0
    ? 'nothing'
    : repairs.map((id) => (REPAIRS[id as keyof typeof REPAIRS]?.title ?? id).toLowerCase()).join('; ');
}

function lookRows(
  proved: JobProof | null,
  looks: JobState['proof']['looks'],
  time: SayTime,
): readonly Block[] {
  const seen = new Map(looks.map((one) => [one.check, one]));
  const known = (proved?.looks ?? []).map(({ id, does, fine, amiss }) => {
    const one = seen.get(id);
    if (!one) return [does, 'not looked at', ''];
    return [
      does,
      `${one.ok ? fine : amiss}${one.words ? `: ${one.words}` : ''}`,
      `${time(one.at)}${byWhom(one.who)}`,
    ];
  });
  const strange = looks
    .filter(({ check }) => !proved?.looks.some(({ id }) => id === check))
    .map(({ check, ok, words: said, at, who }) => [
      check,
      `${ok ? 'as it should be' : 'not as it should be'}${said ? `: ${said}` : ''}`,
      `${time(at)}${byWhom(who)}`,
    ]);
  const rows = [...known, ...strange];
  return rows.length === 0
    ? []
    : [{ kind: 'rows', caption: 'What was looked at', head: ['Look', 'Found', 'When, who'], rows }];
}
