/** Records of closing up: the fluid that went in, the winding's insulation, what is new, and whether all is back. */
import { counting } from '../machine/counts.ts';
import { field, openEntries } from '../sum/entries.ts';
import { parseQuantity } from '../units/parse.ts';
import { type Asking, type AskKind, type Look, lacking, sound } from './ask.ts';
import { sayInBoth } from './both-systems.ts';
import { countBack } from './count-back.ts';
import { sayVolume } from './say-volume.ts';

const FILL_LOOKS: readonly Look[] = [
  { id: 'upright', words: 'Upright, on level ground, when the level was read' },
];
const FILL_FIELDS = [
  field('volume', 'How much went in, all pours together', 'volume', 'must', '650 ml'),
  field('level', 'The level', 'choice', 'must', 'right', '', [
    { id: 'low', words: 'low' },
    { id: 'right', words: 'right' },
    { id: 'high', words: 'high' },
  ]),
];
/** A volume within this share of the book's is taken as met: a can's marks, common practice, no source. */
const SAME_VOLUME = 0.12;

function fluidOf({ machine, place }: Asking) {
  const id = place.step?.fluid ?? null;
  return id === null ? null : (machine.fluids?.[id] ?? null);
}

/** Trap of the bike filled while it leans: volume and level must agree. */
export const FILL_ASK: AskKind = {
  ask: (asking) => {
    if (asking.place.step?.kind !== 'fill') return null;
    const fluid = fluidOf(asking);
    const amount = fluid ? counting(asking.machine, fluid.amount, asking.fresh).is : null;
    return {
      id: 'fill',
      title: `${fluid?.name ?? 'Fluid'}: what went in, and the level`,
      why: `${amount ? `The book says ${sayInBoth('volume', amount)}. ` : ''}Ten degrees of lean over 150 mm is 26 mm of level: filled off upright it is short, or too full.`,
      looks: FILL_LOOKS,
      fields: FILL_FIELDS,
    };
  },
  judge: (asking, texts, yes) => {
    const read = openEntries(FILL_FIELDS, texts);
    read.demand('volume', 'level');
    const volume = read.one('volume', { above: 0, most: 0.05 });
    const level = read.empty('level') ? '' : read.choice('level');
    const bad = lacking(FILL_LOOKS, yes, read.refused());
    if (bad) return bad;
    const stops =
      level === 'right'
        ? []
        : [
            `The level is ${level}: ${level === 'low' ? 'pour in a little, wait, look again' : 'let some out'}.`,
          ];
    const fluid = fluidOf(asking);
    if (fluid) stops.push(...volumeStops(asking, fluid, volume!, level));
    return sound({ volumeM3: volume! }, [], stops);
  },
};

function volumeStops(
  { machine, fresh }: Asking,
  fluid: NonNullable<ReturnType<typeof fluidOf>>,
  volume: number,
  level: string,
): readonly string[] {
  const change = counting(machine, fluid.amount, fresh).is;
  const dry = fluid.dry === null ? change : counting(machine, fluid.dry, fresh).is;
  const [low, high] = [change.low * (1 - SAME_VOLUME), dry.high * (1 + SAME_VOLUME)];
  if (volume >= low && volume <= high) return [];
  const book = fluid.dry
    ? `${sayInBoth('volume', change)}, ${sayInBoth('volume', dry)} after it was dry`
    : sayInBoth('volume', change);
  const why =
    volume < low && level === 'right'
      ? 'the level is right with too little: it does not stand upright, or old fluid is in it still'
      : volume > high && level === 'right'
        ? 'the level is right with too much: it does not stand upright, or it runs out below'
        : `that is too ${volume < low ? 'little' : 'much'}`;
  return [`${sayVolume(volume)} went in, and the book says ${book}: ${why}.`];
}

/** Under this a winding leaks to the case, Ω: one megohm, common practice for low-voltage windings, no source. */
const LEAKS_UNDER = 1e6;
const INSULATION_FIELDS = [field('ground', 'Least of all pins to the case', 'text', 'must', 'OL, or 20 MΩ')];
const INSULATION_LOOKS: readonly Look[] = [{ id: 'pins', words: 'Every pin measured to the bare case' }];

export const INSULATION_ASK: AskKind = {
  ask: ({ place }) =>
    place.step?.asks?.includes('insulation')
      ? {
          id: 'insulation',
          title: 'Insulation, with the winding in its place',
          why: 'A winding pinched while it is fitted is found now, or when everything is closed.',
          looks: INSULATION_LOOKS,
          fields: INSULATION_FIELDS,
        }
      : null,
  judge: (_asking, texts, yes) => {
    const read = openEntries(INSULATION_FIELDS, texts);
    read.demand('ground');
    const typed = read.text('ground');
    const open = /^o\.?\s*l\.?$|^open$/i.test(typed);
    const parsed = open || typed === '' ? null : parseQuantity(typed, 'resistance');
    if (parsed && !parsed.ok) read.blame('ground', parsed.why);
    const bad = lacking(INSULATION_LOOKS, yes, read.refused());
    if (bad) return bad;
    if (open || !parsed?.ok) return sound({}, ['No way to the case was found.']);
    const ohm = parsed.value.si;
    return sound(
      { groundOhm: ohm },
      [],
      ohm < LEAKS_UNDER
        ? ['The winding leaks to the case: take it out and look where it is pinched or scraped.']
        : [],
    );
  },
};

const NEW_OR_NOT = [
  { id: 'new', words: 'new' },
  { id: 'again', words: 'the old one again' },
];

/** What must be new at this step: supplies that are used once, and a fastener that is. */
function newHere({
  machine,
  place,
  fastener,
  fresh,
}: Asking): readonly { readonly id: string; readonly name: string; readonly kind: string }[] {
  const supplies = (place.step?.uses ?? []).flatMap(({ supply }) => {
    const found = machine.work?.supplies?.[supply];
    return found?.singleUse && found.kind !== 'consumable'
      ? [{ id: supply, name: found.name, kind: found.kind }]
      : [];
  });
  const reuse = fastener?.fastener.reuse ?? null;
  const turned =
    place.step?.kind === 'torque' && place.list.find(({ kind }) => kind === 'torque')?.id === place.id;
  const said = reuse === null ? null : counting(machine, reuse, fresh).is;
  // A supply of fasteners stands for the screws themselves.
  const screws = said === 'new' && turned && !supplies.some(({ kind }) => kind === 'fastener');
  return screws
    ? [...supplies, { id: 'fastener', name: fastener!.fastener.name, kind: 'fastener' }]
    : supplies;
}

const newFields = (asking: Asking) =>
  newHere(asking).map(({ id, name }) => field(wordOf(id), name, 'choice', 'must', 'new', '', NEW_OR_NOT));
/** Field names in the log are letters and digits. */
const wordOf = (id: string): string =>
  id
    .replace(/[^a-zA-Z0-9]+(.)?/g, (_all, next: string | undefined) => (next ?? '').toUpperCase())
    .replace(/^[^a-z]/, 'x');

const AGAIN: Readonly<Record<string, string>> = {
  gasket: 'has taken its set and may weep: look for it after the heat, and at the next service',
  seal: 'has taken its set and may weep: look under it after the first ride',
  fastener:
    'is meant to be used once, stretched or its lock worn: look at it after the first ride, replace it when it is next open',
  part: 'is meant to be used once: replace it when it is next open',
};

/** Trap of the single-use nut, lock tab or gasket used again. */
export const NEW_ASK: AskKind = {
  ask: (asking) => {
    const fields = newFields(asking);
    if (fields.length === 0) return null;
    return {
      id: 'new',
      title: 'New, not used again',
      why: 'What is meant to be used once leaks, stretches or lets go the second time.',
      looks: [],
      fields,
    };
  },
  judge: (asking, texts) => {
    const read = openEntries(newFields(asking), texts);
    const here = newHere(asking);
    read.demand(...here.map(({ id }) => wordOf(id)));
    const again = here.filter(({ id }) => !read.empty(wordOf(id)) && read.choice(wordOf(id)) === 'again');
    const bad = lacking([], [], read.refused());
    if (bad) return bad;
    return sound(
      {},
      [],
      again.map(({ name, kind }) => `${name}: used again. It ${AGAIN[kind] ?? AGAIN.part}.`),
    );
  },
};

const COUNT_LOOKS: readonly Look[] = [
  { id: 'bench', words: 'No part, screw or shim is left on the bench or in the tray' },
  { id: 'tools', words: 'No tool, rag or lock bar is left in the bike' },
];

/** What came off must go back on. */
export const COUNT_ASK: AskKind = {
  ask: ({ place }) =>
    place.step?.asks?.includes('count')
      ? {
          id: 'count',
          title: 'The count closes',
          why: 'What is left over belongs somewhere.',
          looks: COUNT_LOOKS,
          fields: [],
        }
      : null,
  judge: (asking, _texts, yes) => {
    const { off, lost } = countBack(asking.machine, asking.done);
    return (
      lacking(COUNT_LOOKS, yes, null) ??
      sound(
        { offCount: off.length + lost.length },
        [],
        lost.map(
          ({ does, missing }) =>
            `“${does}” is not put back: ${missing.map((words) => words.toLowerCase()).join('; ')}.`,
        ),
      )
    );
  },
};
