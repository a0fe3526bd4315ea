/** A torque stage signed: with which wrench, set to what, on which threads; and what the screw got by that. */
import { conditionChange } from '../joint/condition-change.ts';
import { MET_WITHIN, torqueDeviation } from '../joint/deviation.ts';
import { FRICTIONS, frictionById } from '../joint/friction.ts';
import type { Interval } from '../joint/require.ts';
import { sayShare, sayTorque, sayTorques } from '../joint/say.ts';
import { failureTorque } from '../joint/strip.ts';
import { planWrench, type WrenchPlan } from '../joint/wrench-plan.ts';
import { counting } from '../machine/counts.ts';
import type { Quantity } from '../machine/figure.ts';
import { field, openEntries } from '../sum/entries.ts';
import { figureLine } from '../sum/line.ts';
import type { Field, Refused, Texts } from '../sum/sum.ts';
import { quantity } from '../units/quantity.ts';
import { type Ask, type Asking, type AskKind, type Judged, type Look, lacking, sound } from './ask.ts';

const MOST = { above: 0, most: 2000 };
/** A change of preload within this share says nothing: friction alone scatters more. Common practice, no source. */
const SAME_CLAMP = 0.2;

/** The stage that a step is: its torque, which of how many it is. */
export interface StageHere {
  readonly is: Quantity;
  /** Counted from 1. */
  readonly number: number;
  readonly of: number;
  /** Torques that come before it in the same step, where one step does several; empty else. */
  readonly before: readonly Quantity[];
}

/** The torque that a step asks for; null where it turns nothing or the file has no torque for it. */
export function stageOf({ machine, place, fastener, fresh }: Asking): StageHere | null {
  const { step, list } = place;
  if (step?.kind !== 'torque' && step?.kind !== 'retainer') return null;
  const entry = fastener?.fastener;
  if (!entry?.torque) return null;
  const final = counting(machine, entry.torque, fresh).is;
  const book = (entry.stages ?? []).map((stage) => counting(machine, stage, fresh).is);
  const last = book.at(-1);
  const way = last && last.low === final.low && last.high === final.high ? book.slice(0, -1) : book;
  // A new part's sheet may put the final torque below the book's first stage.
  const stages = [...way.filter(({ high }) => high < final.high), final];
  const turns = list.filter(
    (other) => other.kind === step.kind && (other.fastener ?? null) === (step.fastener ?? null),
  );
  const at = turns.findIndex(({ id }) => id === step.id);
  if (turns.length <= 1) return { is: final, number: 1, of: 1, before: stages.slice(0, -1) };
  const stage = at === turns.length - 1 ? final : (stages[at] ?? final);
  return { is: stage, number: at + 1, of: turns.length, before: [] };
}

const THREADS = FRICTIONS.filter(({ id }) => id !== 'unknown').map(({ id, name }) => ({ id, words: name }));

function fieldsOf({ fastener }: Asking, stage: StageHere): readonly Field[] {
  const nut = fastener?.fastener.kind === 'nut';
  const meant = fastener && fastener.friction.id !== 'unknown' ? fastener.friction.id : '';
  return [
    field('full', 'Full scale of the wrench', 'torque', 'must', '60 N·m'),
    field('adapter', 'Adapter, drive to screw', 'length', 'may', '4 in'),
    field('angle', 'Angle of the adapter, 0° straight out', 'angle', 'may', '90°'),
    field('length', 'Middle of the grip to the drive', 'length', 'may', '10 in'),
    field(
      'drag',
      'Torque that turns it before it seats',
      'torque',
      nut ? 'must' : 'may',
      nut ? '0 N·m' : '5 lbf·in',
    ),
    field('threads', 'Threads as they are', 'choice', 'must', 'dry', meant, THREADS),
    field('set', 'The wrench is set to', 'torque', 'must', stage.is.text.replace(/^.*[–-]\s*/, '')),
  ];
}

function looksOf({ fastener }: Asking, stage: StageHere): readonly Look[] {
  const count = fastener?.fastener.count ?? 1;
  return [
    ...(count > 1 ? [{ id: 'all', words: `All ${count}, in their order` }] : []),
    ...(stage.before.length > 0
      ? [{ id: 'stages', words: `First ${stage.before.map(sayTorques).join(', then ')}` }]
      : []),
    ...(stage.number === stage.of
      ? [{ id: 'clicked', words: 'Pulled smoothly until it clicked, once' }]
      : []),
  ];
}

/** What the wrench is to be set to by what is entered so far; null where that cannot be told yet. */
export function settingFor(asking: Asking, texts: Texts): WrenchPlan | Refused | null {
  const stage = stageOf(asking);
  if (!stage) return null;
  const { set: _set, ...rest } = texts;
  const read = openEntries(fieldsOf(asking, stage), rest);
  const plan = planOf(read, stage);
  return plan && (plan.ok ? plan : { ok: false, faults: [{ field: 'full', why: plan.why }] });
}

/** The setting in both systems: "23.7 N·m", "17.5 lbf·ft"; to the nearest mark one can set. */
export function saySetting({ set }: Pick<WrenchPlan, 'set'>): {
  readonly metric: string;
  readonly inch: string;
} {
  const { metric, inch } = figureLine('set', '', 'torque', { low: set, high: set }, 3, () => '');
  return { metric, inch };
}

function planOf(read: ReturnType<typeof openEntries>, { is }: StageHere) {
  const full = read.one('full', MOST);
  const adapter = read.one('adapter', { least: 0, most: 2 }) ?? 0;
  const angle = read.one('angle', { least: -2 * Math.PI, most: 2 * Math.PI }) ?? 0;
  const length = read.one('length', { above: 0, most: 3 });
  const drag = read.one('drag', { least: 0, most: 1000 }) ?? 0;
  if (full === null || read.refused()) return null;
  const middle = (is.low + is.high) / 2;
  return planWrench(
    {
      torque: middle,
      drag,
      adapter,
      angle,
      ...(is.high > is.low ? { allowed: { low: is.low, high: is.high } } : {}),
    },
    { name: 'the wrench', fullScale: full, ...(length === null ? {} : { length }) },
  );
}

function judge(asking: Asking, texts: Texts, yes: readonly string[]): Judged {
  const stage = stageOf(asking);
  if (!stage) return sound();
  const read = openEntries(fieldsOf(asking, stage), texts);
  read.demand('full', 'set', ...(asking.fastener?.fastener.kind === 'nut' ? ['drag'] : []));
  const set = read.one('set', MOST);
  const threads = read.choice('threads');
  const plan = planOf(read, stage);
  if (plan && !plan.ok)
    read.blame(/adapter|grip|wrench's? length/i.test(plan.why) ? 'adapter' : 'full', plan.why);
  const bad = lacking(looksOf(asking, stage), yes, read.refused());
  if (bad) return bad;
  if (!plan?.ok || set === null) throw new RangeError('a field must be read or blamed, got neither');
  const drag = plan.target - (stage.is.low + stage.is.high) / 2;
  const got = set * plan.factor - drag;
  if (got <= 0) {
    read.blame(
      'set',
      'the drag takes all of this setting and nothing is left to clamp: set more, or find out why it turns so hard.',
    );
    return read.refused()!;
  }
  const stops = [...torqueStops(asking, stage, got, texts.set ?? ''), ...threadStops(asking, threads)];
  return sound(
    { torqueNm: got, setNm: set, fullScaleNm: plan.wrench.fullScale, dragNm: drag },
    [`The screw got ${sayTorque(got)}${drag > 0 ? ' beyond its drag' : ''}.`, ...plan.cautions],
    stops,
  );
}

/** Trap of the twelve times and of the forgotten adapter: what the screw got is not what is wanted. */
function torqueStops(asking: Asking, stage: StageHere, got: number, typed: string): readonly string[] {
  const wanted = (stage.is.low + stage.is.high) / 2;
  const allowed: Interval =
    stage.is.high > stage.is.low
      ? { low: stage.is.low, high: stage.is.high }
      : { low: wanted * (1 - MET_WITHIN), high: wanted * (1 + MET_WITHIN) };
  const strength = failureOf(asking);
  const { severity, words } = torqueDeviation({ used: got, wanted, allowed, ...strength });
  if (severity === 'none') return [];
  const hint = unitMeant(got, allowed, typed);
  return [hint === null ? words : `${words} ${hint}`];
}

/** Units of torque in use, N·m, and how each is recognised in what was typed. */
const UNITS = [
  { name: 'lbf·ft', si: quantity('torque', 1, 'lbf·ft').si, seen: /ft|foot/i },
  { name: 'lbf·in', si: quantity('torque', 1, 'lbf·in').si, seen: /in|"/i },
  { name: 'N·m', si: 1, seen: /n/i },
] as const;
/** How far from what is allowed a figure in another unit still looks like a slip of the unit, share. */
const SLIP = 0.2;

/** Another unit in which the same figure would be about right; null where none is. */
function unitMeant(got: number, { low, high }: Interval, typed: string): string | null {
  const entered = UNITS.find(({ seen }) => seen.test(typed));
  if (!entered) return null;
  const meant = UNITS.find(({ name, si }) => {
    const torque = (got / entered.si) * si;
    return name !== entered.name && torque >= low * (1 - SLIP) && torque <= high * (1 + SLIP);
  });
  return meant ? `Is ${meant.name} meant? The figure would be right in that unit.` : null;
}

/** Torques that break the screw and strip the hole, N·m, where the file tells enough. */
function failureOf({ fastener }: Asking): { readonly breaking?: Interval; readonly stripping?: Interval } {
  if (!fastener?.thread || !fastener.strength || !fastener.material || fastener.engaged === null) return {};
  if (fastener.engaged <= 0) return {};
  const { thread, strength, material, engaged, friction } = fastener;
  const { torque, weaker } = failureTorque(thread, strength, material, engaged, friction.k);
  return weaker === 'internal' ? { stripping: torque } : { breaking: torque };
}

/** Trap of the dry torque on oiled threads: the same reading stretches the screw further. */
function threadStops({ fastener }: Asking, threads: string): readonly string[] {
  if (!fastener || fastener.friction.id === 'unknown' || threads === fastener.friction.id) return [];
  const real = frictionById(threads);
  const { usual } = conditionChange(fastener.friction, real);
  if (Math.abs(usual - 1) <= SAME_CLAMP) return [];
  const clamp =
    usual > 1
      ? `stretch the screw about ${sayShare(usual)} as far as meant`
      : `clamp with about ${sayShare(usual)} of what is meant`;
  return [
    `The torque is meant for ${fastener.friction.name}, and these are ${real.name}: at the same reading they ${clamp}. Clean the threads, or look for the book's figure for them; this is an estimate.`,
  ];
}

function ask(asking: Asking): Ask | null {
  const stage = stageOf(asking);
  if (!stage) return null;
  return {
    id: 'torque',
    title: `Sign: ${sayTorques(stage.is)}${stage.of > 1 ? `, stage ${stage.number} of ${stage.of}` : ''}`,
    why: 'A wrench out of its range, an adapter or a unit not thought of: the screw gets another torque than the book wants.',
    looks: looksOf(asking, stage),
    fields: fieldsOf(asking, stage),
  };
}

export const TORQUE_ASK: AskKind = { ask, judge };
