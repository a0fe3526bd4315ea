import type { JSX } from 'preact';
import { drawBand } from '../../draw/band.ts';
import type { SoundShows } from '../../verdict/answer.ts';
import { bandWords, meterFigure } from '../../verdict/say-sound.ts';
import { readEntry } from '../entry.ts';
import { type Chosen, describeKey } from '../keys.ts';
import { capital } from '../show.ts';
import { bandScale } from '../sound.ts';
import { pictureOf } from './picture.tsx';

/** What a sound bike of this kind shows for this reading in this state, with the typed value marked beside it. */
export function BandFigure(props: {
  readonly chosen: Chosen;
  readonly shows: SoundShows | null;
  readonly typed: string;
}): JSX.Element {
  const { key, kind } = props.chosen;
  const read = props.typed === '' ? null : readEntry(props.typed, kind.unit);
  const value = read?.ok && typeof read.value === 'number' ? read.value : null;
  const band = props.shows?.band ?? null;
  return (
    <div class="band">
      <p>{capital(bandWords(props.shows, kind.unit))}</p>
      {band &&
        pictureOf(
          drawBand({
            unit: kind.unit === 'SG' ? '' : kind.unit,
            sound: { low: meterFigure(band.low, kind.unit), high: meterFigure(band.high, kind.unit) },
            value,
            ...bandScale(band),
            label: describeKey(key),
            shape: 'narrow',
          }),
        )}
    </div>
  );
}
