/** A time of the log as the garage's clock shows it, `2026-01-17 20:04`; as it stands where it is no time. `east`: min ahead of UTC. */
export function wallTime(iso: string, east: number): string {
  const ms = Date.parse(iso);
  if (!Number.isFinite(ms)) return iso;
  return new Date(ms + east * 60_000).toISOString().slice(0, 16).replace('T', ' ');
}

/** Who and when: `the mechanic, 2026-01-17 20:04`. */
export function sayWhen({ at, who }: { readonly at: string; readonly who: string }, east: number): string {
  return who.trim() === '' ? wallTime(at, east) : `${who.trim()}, ${wallTime(at, east)}`;
}
