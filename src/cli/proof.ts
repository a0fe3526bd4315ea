/** `proof`: whether the repaired bike of a job is shown to charge, and what is still to be read and looked at. */
import { DEMO_JOB } from '../job/demo.ts';
import { foldJob } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import { partsOfRepairs } from '../machine/new-parts.ts';
import { sheetDiffers } from '../machine/sheet-differs.ts';
import { readingName, readingValue } from '../paper/say-reading.ts';
import { machineOf } from '../press/how-to-pack.ts';
import { type JobProof, proveJob } from '../proof/prove-job.ts';
import { allRepairs } from '../proof/repaired.ts';
import { sayLeft } from '../proof/standing.ts';
import { KINDS } from '../reading/catalogue.ts';
import { readKey } from '../reading/key.ts';
import { showFigure } from '../reading/say-value.ts';
import type { Band } from '../verdict/answer.ts';
import { inHundred } from '../verdict/say-chance.ts';
import type { Command } from './command.ts';
import { handedOver } from './handover-job.ts';
import { inGarage } from './open-garage.ts';
import { Refusal } from './refusal.ts';

const STANDS = { proven: 'Proven', open: 'Not proven yet', 'not-proven': 'Not proven' } as const;

function bandWords(key: string, band: Band | null): string {
  if (band === null) return '';
  const unit = KINDS[readKey(key)?.kind ?? '']?.unit ?? '';
  return `  sound: ${showFigure(band.low)} to ${showFigure(band.high)} ${unit}`;
}

function told(
  state: ReturnType<typeof foldJob>,
  machine: Machine,
  { proof, looks, standing }: JobProof,
): string {
  const made = allRepairs(state);
  const sheets = sheetDiffers(machine, partsOfRepairs(made)).filter(({ of }) => of === 'charging');
  const held = new Map(proof.held.map((one) => [one.key, one]));
  const lines = [
    `${STANDS[standing.is]}: that a fault is left, ${inHundred(proof.faultLeft)} (before any reading ${inHundred(proof.faultLeftBefore)})`,
    ...standing.why.map((words) => `  ${words}`),
    ...(sheets.length > 0 ? ['', 'It is held against the sheet of the new part'] : []),
    ...sheets.map(
      ({ name, counts, from, others }) => `  ${name}: ${counts} (${from}); otherwise ${others.join('; ')}`,
    ),
    ...(state.proof.readings.length > 0 ? ['', 'Read since the repair'] : []),
    ...state.proof.readings.map((reading) => {
      const one = held.get(reading.key);
      const mark = one?.inside === false ? '  OUTSIDE' : '';
      return `  ${readingName(reading.key)}: ${readingValue(reading)}${bandWords(reading.key, one?.band ?? null)}${mark}`;
    }),
    ...(proof.plan.length > 0 ? ['', 'Still to read'] : []),
    ...proof.plan.map(
      ({ key, minutes, band }) => `  ${readingName(key)}, ${minutes} min${bandWords(key, band)}\n    ${key}`,
    ),
    ...(proof.next
      ? ['', `What tells best which fault: ${readingName(proof.next.key)}\n    ${proof.next.key}`]
      : []),
    ...(standing.toLook.length > 0 ? ['', 'Still to look at'] : []),
    ...looks.filter(({ id }) => standing.toLook.includes(id)).map(({ does }) => `  ${does}`),
    ...(proof.left.length > 0 ? ['', 'What may be left'] : []),
    ...proof.left.slice(0, 8).map((left) => `  ${sayLeft(left, made)}`),
  ];
  return `${lines.join('\n').replaceAll('\u00a0', ' ')}\n`;
}

export const proof: Command = {
  name: 'proof',
  about: 'Say whether the repaired bike of a job is shown to charge',
  takes: 'JOB',
  more: [
    'JOB is the name in the address of the job. Readings are taken in the app, on the station Proof, after what was repaired is written down there; this tells how they stand.',
  ],
  options: [{ name: '--json', about: 'the whole of it as JSON' }],
  example: { line: `proof ${DEMO_JOB}`, shows: 'how the proof of the demo job stands' },
  words: [1, 1],
  run: (given) =>
    inGarage(false, async (garage) => {
      const { events, machine } = await handedOver(garage, given.words[0]!);
      const file = machineOf(machine);
      if (file === null)
        throw new Refusal(
          'The machine file of this job is not here, so nothing can be said of its bike: import it first.',
        );
      const state = foldJob(events);
      const proved = proveJob(state, file);
      if (proved === null)
        return given.has('--json')
          ? 'null\n'
          : 'Nothing was said to be repaired in this job yet: do that on the station Proof, then read the bike.\n';
      return given.has('--json') ? `${JSON.stringify(proved, null, 2)}\n` : told(state, file, proved);
    }),
};
