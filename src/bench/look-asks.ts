/**
 * Records that are looks: things seen and ticked one by one, with a word where it helps. Each names the trap it stands
 * against. All common practice, no source.
 */
import { field, openEntries } from '../sum/entries.ts';
import type { Texts } from '../sum/sum.ts';
import {
  type Ask,
  type AskId,
  type Asking,
  type AskKind,
  type Judged,
  type Look,
  lacking,
  sound,
} from './ask.ts';
import { askedBy } from './place.ts';

interface LookWords {
  readonly title: string;
  readonly why: string;
  readonly looks: readonly Look[];
  /** What may be written beside it; null for nothing. */
  readonly words: { readonly asks: string; readonly example: string; readonly need: 'must' | 'may' } | null;
}

const LOOKS = {
  run: {
    title: 'As found: how the wire runs',
    why: 'Once it is out nobody remembers, and a wire laid otherwise rubs through or meets the chain.',
    looks: [{ id: 'followed', words: 'Followed by eye from end to end' }],
    words: {
      asks: 'How it runs, clips and sleeves',
      example: 'under the shaft, two clips, sleeve at the edge',
      need: 'must',
    },
  },
  plug: {
    title: 'As found: the plug',
    why: 'A burnt pin tells that both sides of it may be dead.',
    looks: [{ id: 'pins', words: 'Every pin looked at, both halves' }],
    words: { asks: 'What it looks like', example: 'one pin brown, shell melted on that side', need: 'must' },
  },
  magnets: {
    title: 'Magnets, just before fitting',
    why: 'A chip of steel on a magnet is drawn into the winding at the first turn; the magnets pinch fingers.',
    looks: [
      { id: 'wiped', words: 'Wiped with a clean cloth' },
      { id: 'looked', words: 'Each magnet looked at: no chip, no crack, none loose' },
      { id: 'stator', words: 'The stator wiped and looked at too' },
    ],
    words: null,
  },
  gap: {
    title: 'The gap, before any torque',
    why: 'Screws that pull down a cover which does not lie flat crack it, or hide what is caught in the joint.',
    looks: [
      { id: 'even', words: 'Screws by hand only, the gap even all round' },
      { id: 'bottomed', words: 'Every screw turns in by hand to its head' },
    ],
    words: null,
  },
  retained: {
    title: 'The wire retainer',
    why: 'It is easily left out, and a wire that is not held meets the chain.',
    looks: [
      { id: 'fitted', words: 'The retainer is fitted, its screw in' },
      { id: 'pulled', words: 'Pulled at the wire: it does not move' },
      { id: 'clear', words: 'The wire clears chain and rotor over a whole turn' },
    ],
    words: null,
  },
  clear: {
    title: 'Clear over a whole turn',
    why: 'A wire or a winding that touches what turns is dead within miles.',
    looks: [
      { id: 'turned', words: 'Turned by hand a whole turn of the slowest shaft' },
      { id: 'clear', words: 'Nothing touches, nothing scrapes' },
    ],
    words: null,
  },
  dry: {
    title: 'The holes, clean and dry',
    why: 'Oil or locker trapped under a screw in a blind hole cannot get out: the pressure cracks the case.',
    looks: [
      { id: 'clean', words: 'Old locker out of every thread' },
      { id: 'dry', words: 'Blown out and looked into: dry to the bottom' },
    ],
    words: null,
  },
} as const satisfies Partial<Record<AskId, LookWords>>;

type LookId = keyof typeof LOOKS;

function ask(id: LookId): Ask {
  const { title, why, looks, words } = LOOKS[id];
  return {
    id,
    title,
    why,
    looks,
    fields: words ? [field('found', words.asks, 'text', words.need, words.example)] : [],
  };
}

function judge(id: LookId, texts: Texts, yes: readonly string[]): Judged {
  const asked = ask(id);
  const read = openEntries(asked.fields, texts);
  if (asked.fields.some(({ need }) => need === 'must')) read.demand('found');
  return lacking(asked.looks, yes, read.refused()) ?? sound();
}

/** A look that is there where the file or the step's kind asks for it. */
function lookKind(id: LookId, here: (asking: Asking) => boolean): AskKind {
  return {
    ask: (asking) => (here(asking) ? ask(id) : null),
    judge: (_asking, texts, yes) => judge(id, texts, yes),
  };
}

const byWord =
  (id: LookId) =>
  ({ place }: Asking): boolean =>
    askedBy(place).includes(id);

/** A blind hole takes the locker of a step that does not clean it first. */
function blindAndWet({ place, fastener }: Asking): boolean {
  if (askedBy(place).includes('dry')) return true;
  return (
    place.step?.kind === 'lock' &&
    fastener?.holeDepth != null &&
    !place.list.some(({ asks }) => asks?.includes('dry'))
  );
}

export const RUN_ASK = lookKind('run', byWord('run'));
export const PLUG_ASK = lookKind('plug', byWord('plug'));
export const MAGNETS_ASK = lookKind('magnets', byWord('magnets'));
export const GAP_ASK = lookKind('gap', byWord('gap'));
export const RETAINED_ASK = lookKind(
  'retained',
  (asking) => asking.place.step?.kind === 'retainer' || byWord('retained')(asking),
);
export const CLEAR_ASK = lookKind('clear', byWord('clear'));
export const DRY_ASK = lookKind('dry', blindAndWet);
