/**
 * One page for the owner, in words that need no workshop: what was dead, what was done, whether it was shown to charge, what
 * to look at again and when, what to listen for.
 */
import { deviationsOf } from '../bench/deviations.ts';
import type { DeviationKind } from '../job/event.ts';
import { DEFERENCE } from './deference.ts';
import type { PaperDocument } from './document.ts';
import { bikeWords, inventedBlocks } from './front.ts';
import { heading, list, words } from './make-block.ts';
import { plainFault, plainRepair } from './plain-words.ts';
import { type RecordAsk, type Recorded, recordedOf } from './record.ts';
import { remindersOf } from './reminders.ts';
import { repairWords } from './say-faults.ts';
import { wallTime } from './wall-time.ts';

/** Chance from which a fault is told as found, 0–1. */
const FOUND = 0.5;

export function ownerSheet(ask: RecordAsk): PaperDocument {
  const of = recordedOf(ask);
  const { state } = of;
  return {
    title: 'What was done on your motorcycle',
    under: `${state.opened === null ? bikeWords(of) : `${state.opened.title} (${bikeWords(of)})`}. Written ${wallTime(of.at, of.east).slice(0, 10)}.`,
    at: ask.at,
    blocks: [
      ...inventedBlocks(of),
      heading(1, 'What was wrong'),
      words(wrongWords(of)),
      heading(1, 'What was done'),
      ...doneBlocks(of),
      heading(1, 'Does it charge again?'),
      words(provedWords(of)),
      ...otherwiseBlocks(of),
      heading(1, 'What to have looked at again'),
      ...againBlocks(of),
      heading(1, 'What to watch and listen for'),
      ...list(listenFor(of)),
      words(DEFERENCE),
    ],
  };
}

function wrongWords({ state }: Recorded): string {
  const { accepted } = state;
  if (accepted === null) return 'Nobody has said yet what was wrong.';
  const chance = new Map<string, number>();
  for (const { faults, probability } of accepted.sets)
    for (const fault of faults) chance.set(fault, (chance.get(fault) ?? 0) + probability);
  const found = [...chance].filter(([, share]) => share >= FOUND).sort((a, b) => b[1] - a[1]);
  if (found.length === 0) {
    const best = accepted.sets[0];
    return best === undefined || best.faults.length === 0
      ? 'Nothing was found to be wrong with the parts that charge the battery.'
      : `It could not be said for certain. Most likely: ${best.faults.map(plainFault).join('; ')}.`;
  }
  return found
    .map(
      ([fault, share]) =>
        `${capital(plainFault(fault))}: ${share >= 0.95 ? 'as good as certain' : `about ${Math.round(share * 10)} chances in 10`}.`,
    )
    .join(' ');
}

function doneBlocks({ state, machine, bench }: Recorded) {
  const { made } = state.proof;
  const targets = (state.way.chosen?.targets ?? []).map((id) => machine?.work?.targets[id]?.name ?? id);
  const repairs = made?.repairs.map(plainRepair) ?? [];
  const planned = (state.accepted?.repairs ?? [])
    .filter((line) => line.worthDoing)
    .map(({ repair }) => repairWords(repair));
  const open = bench.open ? ['The motorcycle is not back together yet: do not ride it.'] : [];
  if (repairs.length > 0) return list([...repairs.map(sentence), ...open]);
  if (bench.done.size > 0)
    return list([
      `Work was done${targets.length > 0 ? ` on: ${targets.join(', ')}` : ''}. It was not written down yet as finished.`,
      ...open,
    ]);
  return [
    words(planned.length > 0 ? `Nothing yet. Planned: ${planned.join('; ')}.` : 'Nothing was repaired yet.'),
  ];
}

function provedWords({ state }: Recorded): string {
  const { made, said, readings } = state.proof;
  if (said?.proven && said.changesSince === 0)
    return `Yes. It was measured after the repair, and about ${Math.max(1, Math.round((1 - said.faultLeft) * 100))} times in 100 a motorcycle that measures like this one has nothing left wrong.`;
  if (said && !said.proven)
    return 'No, or not for certain: the measurements after the repair do not show it. Speak to the mechanic before you ride far.';
  if (made !== null && readings.length > 0)
    return 'It was measured in part. Not everything that would show it was measured.';
  return 'It was not measured after the repair, so nobody can promise it. Stay near home until it is.';
}

function otherwiseBlocks({ state, bench }: Recorded) {
  const says = deviationsOf(state.bench, bench.askingOf).map(({ event }) => {
    const noted = state.bench.deviations.find((one) => one.event === event);
    if (noted) return PLAIN_DEVIATIONS[noted.what];
    const record = state.bench.records.find((one) => one.event === event);
    if (record) return record.ask === 'torque' ? PLAIN_DEVIATIONS.torque : PLAIN_DEVIATIONS.other;
    return 'A check that belongs to the work was left out.';
  });
  if (says.length === 0) return [];
  const times = (one: string) => says.filter((other) => other === one).length;
  return [
    heading(1, 'What was done in another way than the book says'),
    ...list([
      ...[...new Set(says)].map((one) => (times(one) > 1 ? `${one} (${times(one)} times.)` : one)),
      'Where and why stands in the record: keep it for whoever works on this motorcycle next.',
    ]),
  ];
}

/** What it means to somebody who only rides. */
const PLAIN_DEVIATIONS: Readonly<Record<DeviationKind, string>> = {
  locker:
    'A screw was glued in with another glue than the maker asks for: it may come loose sooner, or break when it is next undone.',
  sealant: 'Another sealing paste was used than the maker asks for: watch for drops under the engine.',
  'used-again':
    'A part that is meant to be used once, such as a gasket, went on again: watch for drops, and have it replaced next time.',
  torque: 'A screw was tightened more or less than the maker asks for: have it checked after the first ride.',
  other: 'Something was done in another way than the maker asks for: have it looked at after the first ride.',
};

function againBlocks({ state, machine, east }: Recorded) {
  const made = remindersOf(state, machine, east);
  if (!made.ok) return [words('Nothing was repaired yet, so there is nothing to look at again.')];
  // What was done in another way has its own chapter. What falls on one day is one row: the page must stay one page.
  const rows = new Map<string, readonly [title: string, day: string, after: string]>();
  for (const { id, title, day, km } of made.reminders) {
    if (id.startsWith('otherwise.')) continue;
    const after = km === null ? 'no distance' : `${km} km (${Math.round(km / 1.609344)} miles)`;
    const same = rows.get(day + after);
    rows.set(day + after, [same ? `${same[0]}; ${title}` : title, day, after]);
  }
  return [
    {
      kind: 'rows' as const,
      caption: 'The day or the distance, whichever comes first',
      head: ['What', 'By', 'Or after'],
      rows: [...rows.values()],
    },
  ];
}

function listenFor({ bench }: Recorded): readonly string[] {
  const inside = bench.touched.some(
    ({ step }) => step?.kind === 'gasket' || step?.kind === 'seal' || step?.kind === 'fill',
  );
  const chain = bench.touched.some(({ step }) => step?.chain);
  return [
    'The headlight fades at idle or on the road, or the engine turns over slowly in the morning: the battery is not being filled. Switch off what you can, ride home, ring the mechanic.',
    'A smell of burning, a smell of rotten eggs at the battery, or a plug too hot to hold: stop, engine off, key out.',
    ...(inside
      ? ['Drops under the engine in the morning: look at the level before you ride, and ring the mechanic.']
      : []),
    ...(bench.touched.length > 0
      ? ['A knock, a rub or a rattle from the case that was not there before: stop, and do not ride on.']
      : []),
    ...(chain ? ['A whine or a slap from the chain: have its slack measured.'] : []),
  ];
}

function sentence(text: string): string {
  const full = capital(text);
  return /[.!?]$/.test(full) ? full : `${full}.`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
