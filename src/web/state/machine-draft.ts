/**
 * The machine file on screen: what is saved, what was changed and not saved, what the check says. A worker writes and looks
 * over the newest state a moment after the last key; what is not saved is kept in this browser.
 */
import { batch, computed, effect, signal } from '@preact/signals';
import { change, type Draft, openDraft, type Put, redo, undo } from '../../draft/draft.ts';
import type { Json } from '../../machine/json-value.ts';
import type { FileJudged } from '../../machine/judge-file.ts';
import { browserShelf, later } from '../browser.ts';
import type { LookAsk, Looked } from '../machine-worker.ts';
import { fetchMachine, fetchMachines, type MachineLine, saveMachine } from '../server.ts';
import { MARK_WORDS } from '../words/marks.ts';

export type Judged = Omit<FileJudged, 'machine'>;

/** The file that is open: its id, and its text as the laptop has it; null while the laptop is away. */
export interface OpenFile {
  readonly id: string;
  readonly saved: string | null;
  /** Whether it came with the program: it is then saved under a name of its own. */
  readonly shipped: boolean;
}

export const file = signal<OpenFile | null>(null);
/** The draft before the text stopped reading. */
const unread = signal<Draft | null>(null);
/** Why it cannot be opened, in a sentence. */
export const failure = signal<string | null>(null);
/** The file as a value with its changes; null where the text does not read as one. */
export const draft = signal<Draft | null>(null);
/** What was typed as text and is not written by the forms; null while the forms have the word. */
const typed = signal<string | null>(null);
/** The newest text that the worker has written or looked at, and what it found. */
export const looked = signal<Looked | null>(null);
export const judged = computed<Judged | null>(() => looked.value?.judged ?? null);
/** The name it is saved under. */
export const saveAs = signal('');
/** What came of the last saving, or why it did not. */
export const told = signal<{ readonly ok: boolean; readonly words: string } | null>(null);
/** Whether this browser keeps what is not saved. */
export const keepsHere = signal(true);

/** The file's text, newest first: as typed, as the forms' value was written, as saved. */
export const text = computed<string>(() => typed.value ?? looked.value?.text ?? file.value?.saved ?? '');
export const changed = computed(() => {
  const open = file.value;
  if (open === null) return false;
  return typed.value !== null ? typed.value !== open.saved : draft.value !== null && touched.value;
});
/** The value that the saved text has: while the draft stands at it, nothing is to be saved. */
const savedValue = signal<Json | null>(null);
const touched = computed(() => draft.value !== null && draft.value.value !== savedValue.value);

const draftKey = (id: string): string => `machine draft ${id}`;

/** Takes a text in as the file that is on screen. The forms have it once the worker has read it. */
function show(open: OpenFile, now: string): void {
  file.value = open;
  looked.value = null;
  told.value = null;
  saveAs.value = open.shipped ? `my-${open.id}`.slice(0, 64) : open.id;
  draft.value = null;
  unread.value = null;
  savedValue.value = null;
  // A text that is as it was typed is shown as it was typed, its line ends and blanks with it.
  typed.value = now;
}

let opening = 0;

/** Opens a file, with what was changed here and not saved. */
export async function openFile(id: string): Promise<void> {
  if (file.peek()?.id === id) return;
  opening += 1;
  const mine = opening;
  file.value = null;
  failure.value = null;
  const [got, list] = await Promise.all([fetchMachine(id), fetchMachines()]);
  if (mine !== opening) return;
  const kept = browserShelf.get(draftKey(id));
  const shipped = list.ok && list.body.some((one: MachineLine) => one.id === id && one.versions === 0);
  if (got.ok) return show({ id, saved: got.body, shipped }, kept ?? got.body);
  // The laptop is away: what was typed here is still here.
  if (kept !== null && got.kind === 'unreachable') return show({ id, saved: null, shipped }, kept);
  failure.value = got.why;
}

/** Another file is opened from the beginning; used after saving under another name. */
export function closeFile(): void {
  opening += 1;
  file.value = null;
  draft.value = null;
  looked.value = null;
  typed.value = null;
}

/** One touch in a form. */
export function put(puts: readonly Put[], typing = false): void {
  const now = draft.peek();
  if (now === null) return;
  const next = change(now, puts, typing);
  if (next === now) return;
  draft.value = next;
  typed.value = null;
  told.value = null;
}

export function undoPut(): void {
  // A text that stopped reading goes back to what read last.
  const back = draft.value === null ? unread.value : undo(draft.value);
  if (back === null) return;
  draft.value = back;
  unread.value = null;
  typed.value = null;
}
/** Whether there is something to take back. */
export const undoable = computed(() => (draft.value ? draft.value.done.length > 0 : unread.value !== null));

export function redoPut(): void {
  if (draft.value === null) return;
  draft.value = redo(draft.value);
  typed.value = null;
}

/** What is typed as text; the forms have it too as soon as the worker has read it. */
export function typeText(now: string): void {
  typed.value = now;
  told.value = null;
}

/** Whether there are forms: a page that asks this is not drawn anew at every key, as one that asks for the draft would be. */
export const hasForms = computed(() => draft.value !== null);
/** Whether the text is known not to read: there are no forms then. */
export const unreadable = computed(() => looked.value !== null && draft.value === null);

/** What a typed text says goes into the forms; where it does not read they wait, and then take back to before the typing. */
function takeIn(now: string, value: Json | null): void {
  if (typed.peek() !== now) return;
  const had = draft.peek() ?? unread.peek();
  if (value === null) {
    unread.value = had;
    draft.value = null;
    return;
  }
  unread.value = null;
  draft.value = had === null ? openDraft(value) : change(had, [{ path: [], is: value }], true);
  if (now === file.peek()?.saved) savedValue.value = draft.value.value;
}

/** Throws away what is not saved. It can be taken back like any other step. */
export function backToSaved(): void {
  const saved = file.value?.saved ?? null;
  if (saved !== null) typeText(saved);
}

/** Saves it as the next version under its name; gives that name where it is another one, null otherwise. */
export async function saveFile(): Promise<string | null> {
  const open = file.value;
  if (open === null) return null;
  const name = saveAs.value.trim();
  const value = draft.value?.value ?? null;
  const now = typed.value ?? (await written());
  const answer = await saveMachine(name, now);
  if (!answer.ok) {
    told.value = { ok: false, words: `${answer.why} What was entered here stays here.` };
    return null;
  }
  told.value = {
    ok: true,
    words: `Saved as version ${answer.body.version}: ${MARK_WORDS[answer.body.mark]}.`,
  };
  // What was entered while it was being saved is newer than what was saved: it stays, here and as a draft.
  const newer = (draft.value?.value ?? null) !== value || (typed.value !== null && typed.value !== now);
  if (!newer) browserShelf.remove(draftKey(open.id));
  if (name !== open.id && !newer) return name;
  if (name === open.id) {
    file.value = { ...open, saved: now, shipped: false };
    savedValue.value = value;
  }
  return null;
}

const worker = new Worker(new URL('../machine-worker.ts', import.meta.url), {
  type: 'module',
  name: 'machine',
});
let asked = 0;
const waiting = new Set<() => void>();
worker.addEventListener('message', ({ data }: MessageEvent<Looked>) => {
  if (data.id !== asked) return;
  batch(() => {
    looked.value = data;
    if (data.value !== undefined) takeIn(data.text, data.value);
  });
  keepHere(data.text);
  for (const done of [...waiting]) done();
  waiting.clear();
});

/** Keeps what is not saved, or lets it go where it is as saved. */
function keepHere(now: string): void {
  const open = file.peek();
  if (open === null) return;
  try {
    if (changed.peek()) browserShelf.set(draftKey(open.id), now);
    else browserShelf.remove(draftKey(open.id));
    keepsHere.value = true;
  } catch {
    keepsHere.value = false;
  }
}

/** The newest state as text, once the worker has written it. */
async function written(): Promise<string> {
  ask();
  await new Promise<void>((done) => waiting.add(done));
  return looked.peek()?.text ?? '';
}

/** How long after the last key the file is looked over, ms: a fast typist's keys are some 120 ms apart. */
const QUIET_MS = 140;

function ask(): void {
  const open = file.peek();
  if (open === null) return;
  const value = draft.peek()?.value;
  const as = typed.peek();
  asked += 1;
  worker.postMessage({
    id: asked,
    file: as === null && value !== undefined ? { value } : { text: as ?? '' },
    name: `${open.id}.json`,
    year: new Date().getFullYear(),
  } satisfies LookAsk);
}

effect(() => {
  // Named, so that the effect runs when any of them changes.
  void [file.value?.id, draft.value?.value, typed.value];
  if (file.value === null) return undefined;
  return later(ask, QUIET_MS);
});
