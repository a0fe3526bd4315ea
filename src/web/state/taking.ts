/** Which reading is being taken, and what is typed so far: kept in the browser, so that a reload loses no figure. */
import { computed, signal } from '@preact/signals';
import type { Member } from '../../fault/catalogue.ts';
import type { Value } from '../../reading/key.ts';
import { showValue } from '../../reading/say-value.ts';
import { browserShelf, keepSetting, later } from '../browser.ts';
import { readEntry } from '../entry.ts';
import { type Chosen, chooseKey, describeKey, sameReading } from '../keys.ts';
import { checkSane } from '../sane.ts';
import { happened, job, jobId } from './job.ts';
import { machine } from './machine.ts';
import { go, route, slide } from './place.ts';
import { proof, proofNext, proofThinking, proving, readings } from './side.ts';
import { showUndo } from './undo.ts';
import { answer, thinking } from './verdict.ts';

/** The reading the mechanic chose; null when the proposed one is to be taken. */
const asked = computed(() => (route.value.at === 'job' ? route.value.take : null));

/** The reading that the verdict proposes; null when none is worth its minutes or none is known yet. */
export const proposed = computed(() => (proving.value ? proofNext.value : (answer.value?.next?.key ?? null)));

/** The proposal was answered a moment ago and the next one is still being worked out. */
const answered = computed(
  () =>
    (proving.value ? proofThinking.value : thinking.value) &&
    proposed.value !== null &&
    readings.value.some((reading) => sameReading(reading.key, proposed.value ?? '')) &&
    !(proving.value ? proof.value : answer.value)?.doubtful.some((doubt) => doubt.key === proposed.value),
);

/** On the bike of this job; before its file is here, any key of the catalogue will do. */
function choose(key: string): Chosen | null {
  return chooseKey(key, machine.value?.spec.alternator.phases);
}

export const chosen = computed<Chosen | null>(() => {
  if (asked.value !== null) return choose(asked.value);
  return proposed.value !== null && !answered.value ? choose(proposed.value) : null;
});
/** A key in the address that this version does not know, or not for this bike. */
export const unknownKey = computed(() =>
  asked.value !== null && choose(asked.value) === null ? asked.value : null,
);

/** Opens the station of the bike that is being read on a reading; null for the proposed one. */
export function takeReading(key: string | null): void {
  const id = jobId.peek();
  if (id === null) return;
  const to = { at: 'job', job: id, station: proving.peek() ? 'proof' : 'readings', take: key } as const;
  const here = route.peek();
  if (here.at === 'job' && here.station === to.station) slide(to);
  else go(to);
}

/** The catalogue is open: on all readings (`about` null) or on those that speak of one part. */
export const picking = signal<{ readonly about: Member | null } | null>(null);

/** Opens the catalogue on the readings that speak of a part. */
export function pickAbout(member: Member): void {
  const here = route.peek();
  if (here.at !== 'job') return;
  if (here.station !== 'readings' && here.station !== 'proof') takeReading(null);
  picking.value = { about: member };
}

/** Opens a reading from elsewhere on the page: its task stands at the top. */
export function openReading(key: string | null): void {
  takeReading(key);
  scrollTo(0, 0);
}

/** What is typed and for which kind of reading, by job: a figure never slips over to another kind. */
interface Draft {
  readonly job: string;
  readonly kind: string;
  readonly text: string;
}

function keptDraft(job: string): Draft | null {
  const kept = browserShelf.get(`chargewright.draft.${job}`) ?? '';
  const space = kept.indexOf(' ');
  return space < 1 ? null : { job, kind: kept.slice(0, space), text: kept.slice(space + 1) };
}

const typed = signal<Draft | null>(null);

/** What is typed so far for the reading at hand. */
export const draft = computed(() => {
  const [id, now] = [jobId.value, chosen.value];
  if (id === null || now === null) return '';
  const held = typed.value?.job === id ? typed.value : keptDraft(id);
  return held?.kind === now.kind.id ? held.text : '';
});

/** Types: from the first figure on, the reading at hand stays until it is entered or left. */
export function type(text: string): void {
  const [id, now] = [jobId.peek(), chosen.peek()];
  if (id === null || now === null) return;
  typed.value = { job: id, kind: now.kind.id, text };
  keepSetting(`draft.${id}`, `${now.kind.id} ${text}`);
  if (text !== '' && asked.peek() === null) takeReading(now.key);
}

export interface Trouble {
  readonly why: string;
  /** Other ways to read the entry, to be picked. */
  readonly instead: readonly string[];
  /** Whether the mechanic may enter it all the same. */
  readonly mayInsist: boolean;
}

export type Tried =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly trouble: Trouble };

/** Reads what is typed for a reading, and says what is wrong with it, if anything. */
export function tryEntry(now: Chosen, text: string, insist: boolean): Tried {
  const { unit } = now.kind;
  const read = readEntry(text, unit);
  if (!read.ok) return { ok: false, trouble: { why: read.why, instead: read.instead, mayInsist: false } };
  const sanity = checkSane(now.kind, read.value);
  if (sanity.verdict === 'fine' || (insist && sanity.verdict === 'surprising'))
    return { ok: true, value: read.value };
  const { why, meant } = sanity;
  return {
    ok: false,
    trouble: {
      why,
      instead: meant === null ? [] : [String(meant)],
      mayInsist: sanity.verdict === 'surprising',
    },
  };
}

/** Id of the take of a reading that is on screen now; null where there is none. */
export function takenNow(key: string): string | null {
  return readings.peek().find((reading) => reading.key === key)?.event ?? null;
}

/** Which bike a reading is of, as the entry writes it. */
export function afterNow(): { readonly after?: string | null } {
  return proving.peek() ? { after: job.peek().proof.made?.event ?? null } : {};
}

/** Enters a reading and moves on to the proposed one. */
export function enter(now: Chosen, value: Value, entered: string): void {
  const event = happened({
    type: 'readingTaken',
    key: now.key,
    value,
    entered: entered.slice(0, 60),
    over: takenNow(now.key),
    ...afterNow(),
  });
  type('');
  // The next reading in a task of its own: what was entered is on its way first.
  later(() => openReading(null), 0);
  if (!event) return;
  showUndo(`Entered: ${describeKey(now.key)}, ${showValue(value, now.kind.unit)}.`, () =>
    happened({ type: 'readingWithdrawn', event: event.id, why: '' }),
  );
}
