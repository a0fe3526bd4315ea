/** A page for the owner, in plain words: what was dead, what was done, what to look at again and when, what to listen for. */
import { deviationsOf } from '../bench/deviations.ts';
import type { Member } from '../fault/catalogue.ts';
import { FAULTS } from '../fault/faults.ts';
import { REPAIRS } from '../fault/repairs.ts';
import type { JobEvent } from '../job/event.ts';
import { foldJob, type JobState } from '../job/fold.ts';
import { allRepairs } from '../proof/repaired.ts';
import { inHundred } from '../verdict/say-chance.ts';
import { BOOK_FIRST } from './book-first.ts';
import type { Block, PaperDocument } from './document.ts';
import { bikeWords, inventedBlocks } from './front.ts';
import { benchOf, stepWords } from './job-bench.ts';
import { heading, list, words } from './make-block.ts';
import type { PaperWith } from './record.ts';
import { remindersOf } from './reminders.ts';

/** A fault at this chance was dead as far as anybody could tell, 0–1. */
const DEAD = 0.8;
/** A fault under this chance is not worth an owner's line, 0–1. */
const TOLD = 0.1;

/** What the parts are to an owner. */
const PLAIN: Readonly<Record<Member, string>> = {
  rotor: 'the rotor, the spinning half of the alternator',
  stator: 'the stator, the coils of the alternator inside the engine',
  'stator-plug': 'the plug between the alternator and the regulator',
  regulator: 'the regulator, which keeps the charging volts right',
  'output-joint': 'a joint in the wire from the regulator to the battery',
  'output-wire': 'the wire from the regulator to the battery',
  breaker: 'the main fuse or breaker',
  'positive-post': 'the joint at the battery’s plus post',
  battery: 'the battery',
  'negative-post': 'the joint at the battery’s minus post',
  ground: 'the regulator’s ground',
  'sense-wire': 'the wire by which the regulator feels the volts',
  loads: 'what the bike has to feed: lamps and accessories',
  drain: 'something that drew current with the key off',
};

/** Signs that it comes back. Common practice, no source. */
const SIGNS: Readonly<Partial<Record<Member, string>>> = {
  'stator-plug': 'A smell of burnt plastic by the side cover: stop, and have the plug looked at.',
  stator: 'A battery that is low again after a long hot ride.',
  regulator:
    'A headlamp that grows brighter with the engine, bulbs that fail one after another, a smell of acid.',
  battery: 'A starter that turns slower on the second try.',
  drain: 'A battery that is flat after a few days of standing.',
  rotor: 'A rattle or knock from the alternator’s side.',
};
const ALWAYS = [
  'A headlamp that is dim at idle and bright above it, more than before.',
  'Any lamp on the dash that was not lit before.',
] as const;
const INSIDE = 'A drop of oil under the alternator’s cover, or a new noise from there.';

export function ownerSheet(
  events: readonly JobEvent[],
  { machine, at, east, proved }: PaperWith,
): PaperDocument {
  const state = foldJob(events);
  const bench = benchOf(state, machine);
  const found = remindersOf(state, machine, east);
  const deviations = deviationsOf(state.bench, bench.askingOf);
  return {
    title: `For the owner: ${state.opened?.title ?? 'your bike'}`,
    under: bikeWords(state, machine),
    at,
    blocks: [
      words(BOOK_FIRST),
      ...inventedBlocks(state, machine),
      heading(1, 'What was wrong'),
      ...deadBlocks(state),
      heading(1, 'What was done'),
      ...doneBlocks(state),
      heading(1, 'Does it charge now?'),
      words(proofWords(state, proved?.standing.is ?? null)),
      ...(deviations.length === 0
        ? []
        : [
            heading(1, 'Done otherwise than the book wants'),
            words('Keep this page with the bike: whoever opens it next must know.'),
            ...list(
              deviations.map(({ step, says }) => `${stepWords(bench.places, step)}: ${says.join(' ')}`),
            ),
          ]),
      heading(1, 'Look at it again'),
      ...(found.ok
        ? list(
            found.reminders.map(
              ({ day, title, does, orAfter }) =>
                `${day}: ${title}.${orAfter ? ` ${orAfter}` : ''} ${does.join(' ')}`,
            ),
          )
        : [words(found.why)]),
      heading(1, 'Listen and look for'),
      ...list(signs(state, bench.touched.length > 0)),
      words('If one of these comes, do not ride far: have it read again.'),
    ],
  };
}

function deadBlocks({ accepted }: JobState): readonly Block[] {
  if (accepted === null) return [words('Nobody has settled yet what was wrong.')];
  const chances = new Map<Member, number>();
  for (const { faults, probability } of accepted.sets)
    for (const member of new Set(faults.flatMap((fault) => FAULTS[fault]?.member ?? [])))
      chances.set(member, (chances.get(member) ?? 0) + probability);
  const told = [...chances].filter(([, chance]) => chance >= TOLD).sort((a, b) => b[1] - a[1]);
  if (told.length === 0) return [words('Nothing was found that is likely to be wrong.')];
  return list(
    told.map(([member, chance]) =>
      chance >= DEAD
        ? `${capital(PLAIN[member])}.`
        : `Perhaps also ${PLAIN[member]} (${inHundred(chance)} at the time).`,
    ),
  );
}

function doneBlocks(state: JobState): readonly Block[] {
  if (state.proof.made === null) return [words('The repair is not finished.')];
  const repairs = allRepairs(state);
  if (repairs.length === 0) return [words('Nothing was repaired.')];
  return list(repairs.map((id) => `${REPAIRS[id as keyof typeof REPAIRS]?.title ?? id}.`));
}

function proofWords(
  { proof: { said, made } }: JobState,
  stands: 'proven' | 'open' | 'not-proven' | null,
): string {
  if (made === null) return 'It was not read after the repair.';
  if (said?.proven && said.changesSince === 0)
    return `Yes. It was read and looked over after the repair; that something is still wrong: ${inHundred(said.faultLeft)}.`;
  if (said && !said.proven) return `It is not proven.${said.why ? ` ${said.why}` : ''}`;
  return stands === 'not-proven'
    ? 'No: what was read after the repair speaks against it.'
    : 'It is not proven yet: some readings or looks are still to be taken.';
}

function signs(state: JobState, opened: boolean): readonly string[] {
  const members = new Set(
    allRepairs(state).flatMap((id) => REPAIRS[id as keyof typeof REPAIRS]?.member ?? []),
  );
  return [...[...members].flatMap((member) => SIGNS[member] ?? []), ...(opened ? [INSIDE] : []), ...ALWAYS];
}

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
