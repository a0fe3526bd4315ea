/** Which parts a job brings new, by the targets it is to get to: their own sheets then count. */
import type { Part } from './definition.ts';

/** Which part's own sheet counts once a repair has brought it new. */
const BRINGS: Readonly<Record<string, Part>> = {
  'replace-stator': 'alternator',
  'replace-rotor': 'alternator',
  'replace-regulator': 'regulator',
  'replace-battery': 'battery',
};

/** The parts that the chosen targets bring; `targets` are those of the work. */
export function newParts(
  targets: readonly { readonly id: string; readonly repairs: readonly string[] }[],
  chosen: readonly string[],
): readonly Part[] {
  return targets.filter(({ id }) => chosen.includes(id)).flatMap(({ repairs }) => partsOfRepairs(repairs));
}

/** The parts that repairs bring. */
export function partsOfRepairs(repairs: readonly string[]): readonly Part[] {
  return repairs.flatMap((repair) => BRINGS[repair] ?? []);
}

/** The repairs that bring a part new; empty for a part that no repair of the list brings. */
export function repairsOfPart(part: Part): readonly string[] {
  return Object.keys(BRINGS).filter((repair) => BRINGS[repair] === part);
}
