/** What a sound bike shows, in words. */
import type { Kind } from '../reading/kinds.ts';
import { roundFigure, showFigure } from '../reading/say-value.ts';
import type { SoundShows } from './answer.ts';
import { inHundred } from './say-chance.ts';

/** A band in the unit of its reading: `12.6–12.8 V`. */
export function showBand(low: number, high: number, unit: Kind['unit']): string {
  const write = (value: number): string =>
    unit === 'SG' ? value.toFixed(3) : showFigure(meterFigure(value, unit));
  const [from, to] = [write(low), write(high)];
  const named = unit === 'SG' || unit === 'seen' ? '' : ` ${unit}`;
  return from === to ? `${from}${named}` : `${from} to ${to}${named}`;
}

/** `a sound bike: 14.1 to 16.3 V`, for the meter on the drawing and the line beside the entry. */
export function bandWords(shows: SoundShows | null, unit: Kind['unit']): string {
  if (shows === null) return 'a sound bike: …';
  if (unit === 'seen') return `a sound bike: ${shows.openShare > 0.5 ? 'yes' : 'no'}`;
  const { band, openShare } = shows;
  if (band === null) return openShare > 0.5 ? 'a sound bike: OL' : 'a sound bike: no figure to go by';
  const open = openShare >= 0.05 ? `, or OL (${inHundred(openShare)})` : '';
  return `a sound bike: ${showBand(band.low, band.high, unit)}${open}`;
}

/** A computed figure with no more digits than the meter would show, in that unit. */
export function meterFigure(value: number, unit: Kind['unit']): number {
  if (unit === 'SG') return Number(value.toFixed(3));
  // The end of a band is not worth the last digit a meter shows: 8.84 V, not 8.841 V.
  return roundFigure(Math.abs(value) >= 1 ? Number(value.toFixed(2)) : value);
}
