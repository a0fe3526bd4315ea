/** Edits of a life that keep it whole: loads follow the legs they name. */
import { type Leg, type Load, RIDE_LIMITS, type RideLife } from '../circuit/ride-legs.ts';

/** What the day has left besides one leg, min. */
export function minutesLeft(life: RideLife, besides: number | null): number {
  const taken = life.legs.reduce((sum, leg, n) => sum + (n === besides ? 0 : leg.minutes), 0);
  return 1440 - taken;
}

/** Loads that name a leg by its old name follow it, unless another leg still has that name. */
function follow(loads: readonly Load[], legs: readonly Leg[], from: string, to: string): readonly Load[] {
  if (from === to || legs.some(({ name }) => name === from)) return loads;
  return loads.map((load) => {
    if (typeof load.when === 'string' || !load.when.includes(from)) return load;
    return { ...load, when: [...new Set(load.when.map((name) => (name === from ? to : name)))] };
  });
}

/** A leg changed; its time gives way when the day would be too long. */
export function withLeg(life: RideLife, at: number, change: Partial<Leg>): RideLife {
  const before = life.legs[at];
  if (!before) return life;
  const after = { ...before, ...change };
  const minutes = Math.min(after.minutes, minutesLeft(life, at));
  const legs = life.legs.map((leg, n) => (n === at ? { ...after, minutes } : leg));
  return { ...life, legs, loads: follow(life.loads, legs, before.name, after.name) };
}

/** A leg more at the end; the same life where the day or the list is full. */
export function withMore(life: RideLife, leg: Leg): RideLife {
  const minutes = Math.min(leg.minutes, minutesLeft(life, null));
  if (minutes < RIDE_LIMITS.minutes[0] || life.legs.length >= RIDE_LIMITS.legs[1]) return life;
  return { ...life, legs: [...life.legs, { ...leg, minutes }] };
}

/** Without a leg; the last one stays. A load that ran only there runs while riding. */
export function withoutLeg(life: RideLife, at: number): RideLife {
  if (life.legs.length < 2) return life;
  const legs = life.legs.filter((_, n) => n !== at);
  const loads = life.loads.map((load) => {
    if (typeof load.when === 'string') return load;
    const when = load.when.filter((name) => legs.some((leg) => leg.name === name));
    return { ...load, when: when.length > 0 ? when : ('riding' as const) };
  });
  return { ...life, legs, loads };
}

/** A load changed. */
export function withLoad(life: RideLife, at: number, change: Partial<Load>): RideLife {
  return { ...life, loads: life.loads.map((load, n) => (n === at ? { ...load, ...change } : load)) };
}

/** A name that no load has yet: "lamp", "lamp 2". */
export function freeName(life: RideLife, name: string): string {
  const taken = (one: string) => life.loads.some((load) => load.name === one);
  if (!taken(name)) return name;
  for (let n = 2; ; n++) if (!taken(`${name} ${n}`)) return `${name} ${n}`;
}
