/**
 * Which readings to take on a repaired bike. After the repair one thing is expected, a sound bike; a reading is worth
 * its minutes by the faults left that it would show: that would put it where a sound bike of this kind is not read.
 * Readings are taken into the plan one after another, each by what it finds beyond those already in it, per minute, for
 * as long as what it finds would cost more in a comeback than it takes.
 */
import type { ChargingSpec } from '../circuit/spec.ts';
import type { FaultId } from '../fault/catalogue.ts';
import { normalBelow } from '../numbers/normal.ts';
import { checkKey, completeKey, KINDS, SET_UP_MINUTES, setUpsOf } from '../reading/catalogue.ts';
import { type ReadingKey, writeKey } from '../reading/key.ts';
import { RUNNING_KINDS } from '../reading/offers.ts';
import { PROVEN } from './after-repair.ts';
import type { Band, Evidence } from './answer.ts';
import { askedOf } from './asked.ts';
import { allowed, paidSetUps } from './choose.ts';
import { givenOf, lookOut, type Offer, offerOf } from './outlook.ts';
import { openProjector, type Projector } from './projection.ts';
import type { Ranked } from './rank.ts';
import { COMEBACK, MISSED } from './repair-choice.ts';

/** A reading to take, with what a sound bike shows and what else it would find. */
export interface Planned {
  readonly key: string;
  /** Minutes with the set-up it still needs. */
  readonly minutes: number;
  /** 95 of 100 sound bikes read inside, given what was read already, the kind's unit; null for a thing seen. */
  readonly band: Band | null;
  /** Chance that a fault is left which it would be the first in the plan to show, 0–1. */
  readonly finds: number;
  /** Faults it would show, those likeliest to be left first. */
  readonly shows: readonly FaultId[];
  /** Taken whatever it finds: no repair is called proven without it. */
  readonly always: boolean;
}

/** Deviations round a sound bike's reading beyond which it is called no sound bike's, 1: one in a hundred. */
const BEYOND = 2.58;
/** Deviations that hold 95 of 100, 1. */
const BAND = 1.96;
/** Share of the chance that a fault would show from which a reading is said to show it, 0–1. */
const SAID = 0.5;
/** What a reading must find at least to be taken for that alone, 0–1. */
const TELLS = 0.01;
/** Readings in a plan at the most. */
const MOST = 9;
/** Faults named beside a reading. */
const NAMED = 4;

/** The two volts that everybody reads, and the drain that no running reading shows. Common practice, no source. */
export const ALWAYS = [
  'batt_volts charged=True lights=low rpm=idle',
  'batt_volts charged=True lights=low rpm=3000',
  'keyoff_mA',
] as const;

const RUNS: readonly Readonly<Record<string, string>>[] = [
  { lights: 'low', rpm: 'idle' },
  { lights: 'low', rpm: '3000' },
  { lights: 'off', rpm: '5000' },
  { lights: 'low', rpm: '3000', temp: 'hot' },
  { lights: 'low', rpm: '3000', wiggle: 'True' },
];
/** What is read of a bike that is put together again and charged: nothing that wants a plug pulled, but to the core. */
function candidates(spec: ChargingSpec): readonly Offer[] {
  const { phases } = spec.alternator;
  const pins = phases === 3 ? ['a', 'b', 'c'] : ['a', 'b'];
  const keys: ReadingKey[] = [
    { kind: 'rest_volts', state: { charged: 'True' } },
    { kind: 'load_test_volts', state: { charged: 'True' } },
    { kind: 'crank_volts', state: { charged: 'True', probe: 'clamp' } },
    { kind: 'drop_term_pos', state: { state: 'crank' } },
    { kind: 'drop_term_neg', state: { state: 'crank' } },
    { kind: 'keyoff_mA', state: {} },
    { kind: 'capacity_minutes', state: {} },
    { kind: 'visual', state: { what: 'connector_warm' } },
    ...pins.map((pin) => ({ kind: 'ohms_case', state: { pin, temp: 'cold' } })),
  ];
  for (const run of RUNS) {
    const state = { charged: 'True', ...run };
    for (const kind of RUNNING_KINDS) keys.push({ kind, state });
    if (spec.regulator.senses === 'wire') keys.push({ kind: 'drop_sense', state });
    for (const pin of pins) keys.push({ kind: 'plug_drop_ac', state: { pin, ...state } });
  }
  return keys.flatMap((key) => {
    const text = writeKey(key);
    const whole = completeKey(key);
    return checkKey(text).ok ? [offerOf(text, whole, phases)] : [];
  });
}

interface Looked {
  readonly offer: Offer;
  /** Chance that each hypothesis would show in it, 0–1. */
  readonly power: Float64Array;
  readonly band: Band | null;
}

/** `must` are readings taken whatever they find, beside those of every proof. */
export function openProofPlanner(spec: ChargingSpec, must: readonly string[] = []) {
  const offers = candidates(spec);
  const projector = openProjector();
  const always = [...ALWAYS, ...must];

  /** `sound` is the sound bike on what was read so far, `faulty` every set that may be left. */
  return (sound: Ranked, faulty: readonly Ranked[], evidence: Evidence): readonly Planned[] => {
    const taken = new Set(
      Object.keys(evidence.readings).flatMap((text) => {
        const checked = checkKey(text);
        return checked.ok ? [askedOf(completeKey(checked.key)).name] : [];
      }),
    );
    const look = [sound, ...faulty];
    projector.over(givenOf(look));
    const open = offers
      .filter(({ key, asked }) => !taken.has(asked.name) && allowed(key, evidence))
      .map((offer) => powerOf(offer, look, projector));
    const unseen = Float64Array.from(faulty, ({ probability }) => probability);
    const paid = paidSetUps(evidence);
    const plan: Planned[] = [];
    const take = (chosen: Looked, needed: boolean): void => {
      open.splice(open.indexOf(chosen), 1);
      const { key } = chosen.offer;
      plan.push({
        key: chosen.offer.text,
        minutes: minutesOf(key, paid),
        band: chosen.band,
        finds: gainOf(chosen, unseen),
        shows: showsOf(chosen, faulty, unseen),
        always: needed,
      });
      for (const need of setUpsOf(key)) paid.add(need);
      for (let h = 0; h < unseen.length; h++) unseen[h] = unseen[h]! * (1 - chosen.power[h]!);
    };
    for (const text of always) {
      const wanted = open.find(({ offer }) => offer.text === text);
      if (wanted) take(wanted, true);
    }
    while (plan.length < MOST) {
      let best: Looked | null = null;
      let most = 0;
      const passing = unseen.reduce((sum, chance) => sum + chance, 0);
      for (const one of open) {
        const minutes = minutesOf(one.offer.key, paid);
        const gain = gainOf(one, unseen);
        const pays = gain * (MISSED + COMEBACK) >= minutes || (passing > PROVEN && gain > TELLS);
        if (!pays) continue;
        if (gain / minutes > most) {
          most = gain / minutes;
          best = one;
        }
      }
      if (!best) break;
      take(best, false);
    }
    return plan;
  };
}

/** Minutes of a reading with the set-ups it still needs, min. Charging runs beside, and every reading here wants it. */
function minutesOf(key: ReadingKey, paid: ReadonlySet<string>): number {
  let minutes = KINDS[key.kind]!.minutes;
  for (const need of setUpsOf(key)) if (!paid.has(need)) minutes += SET_UP_MINUTES[need];
  return minutes;
}

function gainOf({ power }: Looked, unseen: Float64Array): number {
  let gain = 0;
  for (let h = 0; h < unseen.length; h++) gain += unseen[h]! * power[h]!;
  return gain;
}

/** No state is known to the tables beforehand: all are judged at a glance, a quarter of the physics. */
const GLANCE: ReadonlySet<string> = new Set();

function powerOf(offer: Offer, look: readonly Ranked[], projector: Projector): Looked {
  const { means, sds, other, seen } = lookOut(look, offer, GLANCE, projector);
  const power = new Float64Array(look.length - 1);
  const odd = other[0]! < 0.5;
  const low = means[0]! - BEYOND * sds[0]!;
  const high = means[0]! + BEYOND * sds[0]!;
  for (let h = 1; h < look.length; h++) {
    const differs = odd ? other[h]! : 1 - other[h]!;
    const inside = normalBelow((high - means[h]!) / sds[h]!) - normalBelow((low - means[h]!) / sds[h]!);
    const beyond = seen || !odd ? 0 : (1 - other[h]!) * (1 - inside);
    power[h - 1] = Math.min(1, differs + beyond);
  }
  const numeric = !seen && odd;
  const band = { low: means[0]! - BAND * sds[0]!, high: means[0]! + BAND * sds[0]! };
  return { offer, power, band: numeric ? band : null };
}

function showsOf({ power }: Looked, faulty: readonly Ranked[], unseen: Float64Array): FaultId[] {
  const found = new Map<FaultId, number>();
  faulty.forEach(({ member }, h) => {
    if (power[h]! < SAID) return;
    for (const fault of member.base.faults)
      found.set(fault, (found.get(fault) ?? 0) + unseen[h]! * power[h]!);
  });
  return [...found]
    .sort((a, b) => b[1] - a[1])
    .slice(0, NAMED)
    .map(([fault]) => fault);
}
