/** Why a reading is the next one, in words. */
import { FAULTS } from '../fault/faults.ts';
import type { Outlook } from './outlook.ts';
import type { Ranked } from './rank.ts';

/** Says which two readings of the bike the reading parts best: the classes furthest apart that still count. */
export function whyWords(
  bits: number,
  minutes: number,
  look: readonly Ranked[],
  weights: Float64Array,
  classes: Int32Array,
  outlook: Outlook,
): string {
  let best = { gap: 0, a: -1, b: -1 };
  for (let i = 0; i < look.length; i++) {
    for (let j = i + 1; j < look.length; j++) {
      if (classes[i] === classes[j]) continue;
      const apart = outlook.seen
        ? 0
        : Math.min(3, Math.abs(outlook.means[i]! - outlook.means[j]!) / (outlook.sds[i]! + outlook.sds[j]!));
      const gap =
        Math.sqrt(weights[i]! * weights[j]!) *
        (Math.max(Math.abs(outlook.other[i]! - outlook.other[j]!) * 2, apart) + 1e-3);
      if (gap > best.gap) best = { gap, a: i, b: j };
    }
  }
  const words = (r: Ranked) =>
    r.member.base.faults.length
      ? r.member.base.faults.map((f) => FAULTS[f].title).join(' with ')
      : 'nothing wrong';
  const tells = bits > 0.4 ? 'tells a lot' : bits > 0.12 ? 'tells something' : 'tells a little';
  const apart =
    best.a < 0
      ? ''
      : `; best of all readings per minute, it parts “${words(look[best.a]!)}” from “${words(look[best.b]!)}”`;
  return `${tells} for ${minutes} min${apart}`;
}
