/**
 * The section `work` of the machine file: the way into the bike as a person would write it. What each move needs and
 * gives are facts ("primary-cover off", "primary-chain slack", "bike raised"); times are texts, a range and, where the
 * middle is not the likely one, `likely`. Torques are never repeated here: a fastener is named by its id.
 */
import { type Bounds, plain, quantity, range } from './figure.ts';
import {
  choice,
  count,
  flag,
  list,
  named,
  needed,
  type Of,
  object,
  optional,
  record,
  text,
} from './shape.ts';

const TIMES: Bounds = { low: 0, high: 14 * 86400, words: 'from 0 min to 14 days' };
const time = quantity('time', TIMES, '12 min');
const minutes = needed(range('time', TIMES, '8–20 min'), 'hands-on time, or time it runs by itself; a range');
const likely = optional(time, 'the likely time, when it is not the middle of the range');
const id = (example: string) => text(40, example);
const ids = (example: string, about: string) => optional(list(id(example), 20), about);
const fact = text(80, 'primary-cover off');
const does = needed(text(200, 'Take the primary cover off'), 'what is done, in one sentence');
const caution = optional(text(400, 'Battery negative off first.'), 'what could hurt someone');

/** What a build step is about; the kinds of room `way`. */
export const STEP_KINDS = [
  'clean',
  'inspect',
  'gasket',
  'shim',
  'retainer',
  'lock',
  'seal',
  'refit',
  'torque',
  'measure',
  'fill',
  'cure',
  'charge',
  'prove',
] as const;

/** What a step may ask to have written down, beside what its kind asks for anyway; room `bench` says what each holds. */
export const STEP_ASKS = [
  'run',
  'plug',
  'magnets',
  'insulation',
  'clear',
  'gap',
  'bead',
  'dry',
  'retained',
  'count',
] as const;
const asks = optional(list(choice(STEP_ASKS), 10), 'what is to be written down before it is ticked');
const shimsId = optional(id('compensator'), 'id of the shims it takes out or puts back');

const lag = object({
  after: needed(id('lay-bead'), 'id of the other step'),
  from: optional(choice(['start', 'end']), 'counted from its start or its end; end unless said'),
  least: optional(time, 'starts at least this long after; a cure'),
  most: optional(time, 'starts at most this long after; a window'),
});

const use = object({
  supply: needed(id('cover-gasket'), 'id of the supply'),
  amount: needed(count(1, 10000, 1, 1), "how much, in the supply's unit"),
});

const step = named(
  'work-step',
  object({
    id: needed(id('refit-cover'), 'id of this step, unique in the whole section'),
    does,
    kind: needed(choice(STEP_KINDS), 'what the step is about'),
    minutes,
    likely,
    hands: optional(count(0, 2, 1, 1), 'pairs of hands, 0 for what runs by itself; 1 unless said'),
    tools: ids('lift', 'ids of the tools it occupies'),
    uses: optional(list(use, 20), 'supplies it uses up'),
    lags: optional(list(lag, 20), 'waits and windows between it and other steps'),
    cold: optional(flag, 'true when the engine must be cold'),
    caution,
    fastener: optional(id('cover-screws'), 'id of the fastener it turns'),
    asks,
    chain: optional(id('primary'), 'id of the chain whose slack it measures, or whose slack its nut holds'),
    shims: shimsId,
    fluid: optional(id('primary-oil'), 'id of the fluid it fills'),
  }),
);
const steps = (about: string) => optional(list(step, 60), about);

/** Where a fastener or fit sits, which sets how fast age works on it. */
export const PLACES = ['inside-oil', 'outside', 'exhaust-side', 'hidden-corrosion'] as const;

const seizes = object({
  basePercent: needed(
    count(0, 100, 1, 8),
    'chance out of 100 that it will not let go after ten years outside',
  ),
  place: needed(choice(PLACES), 'where it sits'),
  adds: needed(range('time', TIMES, '15–90 min'), 'time it adds when it happens'),
  likely,
  cause: optional(text(80, 'rust outside'), 'a cause shared with others: they seize together'),
});

const action = object({
  does,
  needs: optional(list(fact, 20), 'facts that must all hold before; alternatives are actions of their own'),
  gives: needed(list(fact, 20), 'facts that hold afterwards'),
  minutes,
  likely,
  hands: optional(count(0, 2, 1, 1), 'pairs of hands; 1 unless said'),
  tools: ids('lift', 'ids of the tools it occupies'),
  seizes: optional(seizes, 'when it may not let go'),
  caution,
  fastener: optional(id('cover-screws'), 'id of the fastener it turns'),
  part: optional(id('primary-cover'), 'id of the part it takes off'),
  asks,
  shims: shimsId,
  back: steps('the steps that put it back, in order'),
});

const target = object({
  name: needed(text(80, 'stator'), 'what one calls it'),
  needs: optional(list(fact, 20), 'facts that must hold before the work at the bottom'),
  work: steps('the work at the bottom, in order'),
  repairs: ids('replace-stator', 'repairs that it serves, such as replace-stator'),
});

const tool = object({
  name: needed(text(80, 'torque wrench, 10–100 N·m'), 'what one calls it'),
  count: optional(count(1, 20, 1, 1), 'how many there are; 1 unless said'),
});

const supply = object({
  name: needed(text(80, 'primary cover gasket'), 'what one calls it'),
  kind: needed(choice(['part', 'gasket', 'seal', 'fastener', 'consumable', 'fluid']), 'what it is'),
  unit: needed(choice(['piece', 'ml', 'mm']), 'unit of its amounts'),
  singleUse: optional(flag, 'true when what came off must not go back on'),
  canWait: optional(flag, 'true when the bike can be ridden without it for now'),
});

const level = object({
  name: needed(text(60, 'cover off'), 'name of the depth'),
  facts: needed(list(fact, 20), 'facts that belong to it'),
});

const wear = object({
  name: needed(text(80, 'primary chain'), 'what one calls it'),
  needs: needed(list(fact, 20), 'facts that must hold before it can be replaced'),
  life: needed(
    plain('wear-life', count(100, 1_000_000, 1, 60000), 'km at which 63 in 100 have failed'),
    'how long it lasts',
  ),
  wears: optional(
    choice(['by-chance', 'slowly', 'plainly', 'sharply']),
    'how its failures bunch; plainly unless said',
  ),
  price: needed(count(0, 100_000, 1, 35), 'the part, in the money that the owner reckons in'),
  spoils: needed(count(0, 100_000, 1, 150), 'what its failure costs beside, in the same money'),
  minutes,
  note: optional(text(400, 'invented'), 'a remark'),
});

export const workShape = object({
  note: optional(text(2000, 'All times are guesses.'), 'a remark'),
  actions: needed(record(action, 'primary-cover'), 'everything that could be done on the way in'),
  targets: needed(record(target, 'stator'), 'what one may want to get to'),
  tools: optional(record(tool, 'lift'), 'tools used one at a time'),
  supplies: optional(record(supply, 'cover-gasket'), 'what is to be on the bench'),
  closing: steps('steps after everything is back: fill, prove, charge'),
  wear: optional(record(wear, 'primary-chain'), 'what wears, and may be worth replacing while it is open'),
  levels: optional(list(level, 20), 'names of the depths, from the bike whole downwards'),
});

export type WorkSection = Of<typeof workShape>;
export type WorkStep = Of<typeof step>;
export type SeizesEntry = Of<typeof seizes>;
