/** Times on paper: in the garage's own clock, the same wherever the paper is made. */

/** A time of the log as paper has it: `2026-01-17 21:04`. */
export type SayTime = (iso: string) => string;

/** `eastMinutes`: how far the garage's clock is ahead of UTC, min. A time that is none is given back as it is. */
export function timeIn(eastMinutes: number): SayTime {
  return (iso) => {
    const ms = Date.parse(iso);
    return Number.isFinite(ms)
      ? new Date(ms + eastMinutes * 60_000).toISOString().slice(0, 16).replace('T', ' ')
      : iso;
  };
}
