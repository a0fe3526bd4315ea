/**
 * What an explanation goes through: every set of up to two faults and the threes that the ranking kept, gathered into
 * stories. Sets that expect the same of every reading taken are one story, told once, with the repairs of each and its
 * prior. The ranking itself is not enough: what the readings have buried is no longer in it, and what was buried is
 * just what the readings did.
 */
import type { RepairId } from '../fault/catalogue.ts';
import { FAULTS } from '../fault/faults.ts';
import { REPAIR_IDS } from '../fault/repairs.ts';
import { complaintWeight } from './complaint.ts';
import { rowsOf, type Taken } from './evidence.ts';
import type { Telling } from './explain-path.ts';
import type { Field, Member } from './field.ts';
import type { Ranked, Ranking } from './rank.ts';
import type { Base } from './sets.ts';
import type { Row } from './weigh.ts';

export interface Story extends Telling {
  /** Prior of the story, the owner's words heard, not normalised. */
  prior: number;
  /** For each repair in the catalogue's order, the part of `prior` whose sets need it, and the part whose do not. */
  readonly needs: Float64Array;
  readonly spares: Float64Array;
  /** The sound bike, which is told as sound or as flat (told.ts); null for all others. */
  readonly sound: Member | null;
  /** The set it was first told of: its severities have their own shapes (skew.ts). */
  readonly base: Base;
}

/** One bit for each repair, in the catalogue's order. */
function repairBits(repairs: readonly RepairId[]): number {
  let bits = 0;
  for (const repair of repairs) bits |= 1 << REPAIR_IDS.indexOf(repair);
  return bits;
}

export function gatherStories(
  field: Field,
  taken: readonly Taken[],
  symptoms: readonly string[],
  ranking: Ranking,
): Story[] {
  const stories = new Map<string, Story>();
  const m = taken.length;
  const rows: Row[] = [];
  const at: number[] = [];
  const priors = new Map<Base, number>();
  const priorOf = (base: Base) => {
    let prior = priors.get(base);
    if (prior === undefined) {
      prior = Math.exp(base.logPrior + complaintWeight(symptoms, base.faults));
      priors.set(base, prior);
    }
    return prior;
  };
  const admit = (member: Member, turn: number, computed: boolean) => {
    const prior = priorOf(member.base);
    const tellings: (Row | null)[] = [];
    const terms = new Float64Array(m);
    const sound = member.base.faults.length === 0;
    let sign = 0;
    let other = 0;
    for (let n = 0; n < m; n++) {
      terms[n] = rowsOf(member, turn, [taken[n]!], computed, rows, at);
      const row = rows[0] ?? null;
      tellings.push(row);
      const place = Math.sqrt(2 + n);
      other += place * terms[n]!;
      if (row) sign += place * signOf(row);
    }
    const name = `${sound} ${sign} ${other}`;
    let story = stories.get(name);
    if (!story) {
      story = {
        rows: tellings,
        terms,
        prior: 0,
        needs: new Float64Array(REPAIR_IDS.length),
        spares: new Float64Array(REPAIR_IDS.length),
        sound: sound ? member : null,
        base: member.base,
      };
      stories.set(name, story);
    }
    story.prior += prior;
    const bits = repairBits(member.base.faults.map((f) => FAULTS[f].repair));
    for (let r = 0; r < REPAIR_IDS.length; r++) {
      const share = (bits >> r) & 1 ? story.needs : story.spares;
      share[r] = share[r]! + prior;
    }
  };
  const done = new Map<Member, number>();
  const kept = (b: Ranked) => {
    admit(b.member, b.turn, b.computed);
    done.set(b.member, (done.get(b.member) ?? 0) | (1 << b.turn));
  };
  // The likeliest first: whoever is far behind them need not be gone through to the end.
  for (const b of ranking.best) kept(b);
  for (const member of field.members) {
    const turns = done.get(member) ?? 0;
    for (let turn = 0; turn < member.base.turns; turn++)
      if (!((turns >> turn) & 1)) admit(member, turn, false);
  }
  return [...stories.values()];
}

/** The same for two rows exactly when they expect the same (but for a coincidence in the last of 53 bits). */
function signOf({ fit, scatter }: Row): number {
  let sign = fit.middle + Math.SQRT2 * scatter;
  for (let n = 0; n < fit.places.length; n++) {
    const place = fit.places[n]!;
    sign += fit.slope[place]! * Math.sqrt(3 + place);
  }
  return sign;
}
