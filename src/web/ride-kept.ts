/** How an owner of a machine rides, kept in this browser: a reload loses nothing. */
import { checkRideLife, type RideLife } from '../circuit/ride-legs.ts';
import type { Shelf } from './sum-texts.ts';

const keyOf = (machine: string): string => `ride ${machine}`;

/** What was kept; null where nothing was, or where it is none of ours. */
export function keptRide(machine: string, shelf: Shelf): RideLife | null {
  try {
    const checked = checkRideLife(JSON.parse(shelf.getItem(keyOf(machine)) ?? 'null'));
    return checked.ok ? checked.life : null;
  } catch {
    return null;
  }
}

/** Keeps a life, or drops it; false when this browser may keep nothing. */
export function keepRide(machine: string, life: RideLife | null, shelf: Shelf): boolean {
  try {
    if (life === null) shelf.removeItem(keyOf(machine));
    else shelf.setItem(keyOf(machine), JSON.stringify(life));
    return true;
  } catch {
    return false;
  }
}
