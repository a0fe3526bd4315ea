/** What wears on a bike, from the section `work` of its file, as room `way` weighs it while the bike is open. */
import type { WearItem } from '../way/open-advice.ts';
import { counting } from './counts.ts';
import type { Machine } from './definition.ts';
import { middle } from './figure.ts';

/** Shape of a life by how its failures bunch, dimensionless: Weibull, guesses within what handbooks give (from memory). */
const SHAPES = { 'by-chance': 1, slowly: 2, plainly: 3, sharply: 5 } as const;

/** What wears, in the order of the file; empty where it tells nothing. */
export function wearOf(machine: Pick<Machine, 'sources' | 'work'>): readonly WearItem[] {
  return Object.entries(machine.work?.wear ?? {}).map(([id, one]) => ({
    id,
    name: one.name,
    needs: one.needs,
    shape: SHAPES[one.wears ?? 'plainly'],
    lifeKm: (counting(machine, one.life as never) as { is: number }).is,
    price: one.price,
    spoils: one.spoils,
    minutes: middle(one.minutes) / 60,
  }));
}

/** Distance ahead that one looks for what wears, km. */
export const AHEAD_KM = 20_000;
/** Distance a year of a bike that nobody read the clock of, km; and from where on parts are taken to be newer: guesses. */
const KM_A_YEAR = 6000;
const MOST_KM = 40_000;

/** How far a part of a bike of that year has usually gone, km. `year` is the year of the caller's clock. */
export function usualKm(machine: Pick<Machine, 'about'>, year: number): number {
  return Math.min(MOST_KM, Math.max(0, year - machine.about.year) * KM_A_YEAR);
}
