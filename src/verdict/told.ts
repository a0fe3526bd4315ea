/**
 * Hypotheses as they are told to a person: their faults and repairs with a share. Here a sound bike splits into one
 * that is sound and one whose battery is only flat: the state of charge is an unknown of every bike, so the readings
 * themselves say how low it is. (A table of its own for the flat battery was tried: near the set point its lines
 * fitted better than the sound bike's, and each running reading spoke for it whatever it said.)
 */
import type { FaultId, RepairId } from '../fault/catalogue.ts';
import { FAULTS } from '../fault/faults.ts';
import { normalBelow } from '../numbers/normal.ts';
import { AT, FLAT_BELOW } from './latent.ts';
import { type Fit, levelSlopes } from './line.ts';
import type { Ranked } from './rank.ts';
import { predict } from './weigh.ts';

export interface Told {
  readonly faults: readonly FaultId[];
  readonly repairs: readonly RepairId[];
  /** Share among the sets of the catalogue, and with "none of these" counted in, 0–1. */
  readonly share: number;
  readonly probability: number;
}

/** The state-of-charge unknown itself, as a line that is read like a reading. */
const CHARGE: Fit = {
  middle: 0,
  slope: levelSlopes().fill(1, AT.charge, AT.charge + 1),
  places: [AT.charge],
  residual: 1e-9,
  open: 0,
};
const outcome = new Float64Array(2);

/** `flatter`: how many times likelier the owner's words are with a flat battery than with a sound one (complaint.ts), 1. */
export function told(best: readonly Ranked[], flatter = 1): Told[] {
  const list: Told[] = [];
  for (const { member, weighed, share, probability } of best) {
    const { faults } = member.base;
    if (faults.length) {
      list.push({
        faults: [...faults].sort(),
        repairs: [...new Set(faults.map((f) => FAULTS[f].repair))],
        share,
        probability,
      });
      continue;
    }
    predict(weighed.given, CHARGE, outcome);
    const low = flatter * normalBelow((FLAT_BELOW - outcome[0]!) / Math.sqrt(outcome[1]!));
    const flat = low / (low + normalBelow((outcome[0]! - FLAT_BELOW) / Math.sqrt(outcome[1]!)));
    list.push({ faults: [], repairs: [], share: share * (1 - flat), probability: probability * (1 - flat) });
    list.push({
      faults: ['battery-flat'],
      repairs: ['charge-battery'],
      share: share * flat,
      probability: probability * flat,
    });
  }
  return list;
}
