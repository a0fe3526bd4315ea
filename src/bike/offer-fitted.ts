/**
 * Sheets of parts that a proven job brought: from then on they are on the bike, and their own figures count. A sheet entered
 * before the one that is fitted is of a part that came off: it is not offered again.
 */
import type { JobState } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import type { Json, Path } from '../machine/json-value.ts';
import { partsOfRepairs } from '../machine/new-parts.ts';
import { type Offer, plainOffer } from './offer.ts';

export function offeredFitted(jobs: readonly JobState[], machine: Machine): readonly Offer[] {
  const sheets = Object.entries(machine.sources).flatMap(([id, source]) =>
    source.kind === 'part-sheet' ? [{ id, source }] : [],
  );
  const out = new Map<string, Offer>();
  for (const { job, proof } of jobs) {
    if (job === null || proof.said?.proven !== true) continue;
    const repairs = [...proof.before.flatMap((round) => round.made.repairs), ...(proof.made?.repairs ?? [])];
    const parts = new Set(partsOfRepairs(repairs));
    for (const [n, { id, source }] of sheets.entries()) {
      if (!parts.has(source.for) || source.fitted) continue;
      if (sheets.slice(n).some((one) => one.source.for === source.for && one.source.fitted)) continue;
      const others = sheets.filter((one) => one.id !== id && one.source.for === source.for);
      const path: Path = ['sources', id, 'fitted'];
      const puts: { path: Path; is: Json }[] = [
        { path, is: true },
        // One part of a kind is on the bike.
        ...others
          .filter((one) => one.source.fitted)
          .map((one) => ({ path: ['sources', one.id, 'fitted'] as Path, is: false })),
      ];
      out.set(
        id,
        plainOffer(
          {
            kind: 'part-fitted',
            path,
            label: `On the bike now: ${source.for}`,
            puts,
            says: `“${source.title}” is of the part on the bike`,
            was: `“${source.title}” is of a part not on the bike`,
            why: `The ${source.for} was renewed and the bike proven: this sheet’s figures then count${others.length > 0 ? '; there are other sheets of that part, so look which one it is' : ''}.`,
          },
          { job, at: proof.said.at },
        ),
      );
    }
  }
  return [...out.values()];
}
