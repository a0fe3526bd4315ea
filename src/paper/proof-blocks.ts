/** The proof on paper: what was read of the repaired bike beside what it should show, what was looked at, what was said. */
import { provedVolts } from '../draw/proved-volts.ts';
import type { JobState } from '../job/fold.ts';
import { LOOK_NAMES } from '../proof/look-names.ts';
import type { JobProof } from '../proof/prove-job.ts';
import { KINDS } from '../reading/catalogue.ts';
import { readKey } from '../reading/key.ts';
import { showFigure } from '../reading/say-value.ts';
import { inHundred } from '../verdict/say-chance.ts';
import type { Block } from './document.ts';
import { list, words } from './make-block.ts';
import { repairWords, setWords } from './say-faults.ts';
import { readingName, readingValue } from './say-reading.ts';
import { still } from './still.ts';
import { sayWhen } from './wall-time.ts';

const STANDS = { proven: 'Proven', open: 'Not proven yet', 'not-proven': 'Not proven' } as const;

const NOTHING_READ = 'Not proved: nothing was read after the repair.';

/** `proved` is what was worked out of it; null where the machine file is not here or nothing was repaired. */
export function proofBlocks(state: JobState, proved: JobProof | null, east: number): readonly Block[] {
  const { made, before, readings, withdrawn, looks, said } = state.proof;
  if (made === null) return [words(NOTHING_READ)];
  const held = new Map(proved?.proof.held.map((one) => [one.key, one]));
  const chart = proved
    ? provedVolts({ before: state.readings, after: readings, band: proved.volts, shape: 'wide' })
    : null;
  return [
    ...before.map((round) =>
      words(
        `Repaired ${sayWhen(round.made, east)}: ${titles(round.made.repairs)}; ${round.readings.length} readings, then repaired again.`,
      ),
    ),
    words(`Repaired ${sayWhen(made, east)}: ${titles(made.repairs)}.`),
    ...(said
      ? [
          words(
            `Written down as ${said.proven ? 'proven' : 'not proven'} ${sayWhen(said, east)}; that a fault was left then: ${inHundred(said.faultLeft)}.${said.why ? ` Because: ${said.why}` : ''}${said.changesSince > 0 ? ` ${said.changesSince} entries came after it.` : ''}`,
          ),
        ]
      : [words('Nobody has written down yet that it is proven.')]),
    ...(proved
      ? [
          words(
            `${STANDS[proved.standing.is]} by what is in the log: that a fault is left, ${inHundred(proved.proof.faultLeft)}; before any reading it was ${inHundred(proved.proof.faultLeftBefore)}.`,
          ),
          ...list(proved.standing.why),
          ...(proved.standing.is === 'proven'
            ? []
            : list(
                proved.proof.sets
                  .slice(0, 4)
                  .map(({ faults, probability }) => `${setWords(faults)}: ${inHundred(probability)}`),
              )),
        ]
      : []),
    ...(readings.length === 0
      ? [words(NOTHING_READ)]
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
                readingName(reading.key),
                `${readingValue(reading)}${fits === false ? ' (outside)' : ''}`,
                band ? `${showFigure(band.low)} to ${showFigure(band.high)} ${unit}` : '–',
                sayWhen(reading, east),
              ];
            }),
          },
        ]),
    ...list(
      withdrawn.map(
        (one) =>
          `Withdrawn: ${readingName(one.key)}, ${readingValue(one)}: ${one.why.trim() || 'no reason given'}.`,
      ),
    ),
    ...lookRows(proved, looks, east),
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
  return repairs.length === 0 ? 'nothing' : repairs.map((id) => repairWords(id).toLowerCase()).join('; ');
}

function lookRows(
  proved: JobProof | null,
  looks: JobState['proof']['looks'],
  east: number,
): readonly Block[] {
  const seen = new Map(looks.map((one) => [one.check, one]));
  const known = (proved?.looks ?? []).map(({ id, does, fine, amiss }) => {
    const one = seen.get(id);
    if (!one) return [does, 'not looked at', ''];
    return [does, `${one.ok ? fine : amiss}${one.words ? `: ${one.words}` : ''}`, sayWhen(one, east)];
  });
  const strange = looks
    .filter(({ check }) => !proved?.looks.some(({ id }) => id === check))
    .map(({ check, ok, words: said, at, who }) => [
      LOOK_NAMES[check] ?? check,
      `${ok ? 'as it should be' : 'not as it should be'}${said ? `: ${said}` : ''}`,
      sayWhen({ at, who }, east),
    ]);
  const rows = [...known, ...strange];
  return rows.length === 0
    ? []
    : [{ kind: 'rows', caption: 'What was looked at', head: ['Look', 'Found', 'When, who'], rows }];
}
