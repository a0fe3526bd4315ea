import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Photo } from '../../job/bench-fold.ts';
import { later } from '../browser.ts';
import { type Found, findPhoto, mayHaveCome } from '../state/photos.ts';
import { Press } from './press-button.tsx';

/** Waits between looks for one that is not here, ms. */
const LOOKS_MS = [2000, 4000, 8000, 15_000, 30_000] as const;

type Absent = Extract<Found, { ok: false }>['is'];
type Look = { readonly is: 'looking' | Absent } | { readonly is: 'here'; readonly url: string };

/** Why there is no picture to see, in a word or two. */
const ABSENT: Readonly<Record<'looking' | Absent, string>> = {
  looking: 'Looking for it…',
  missing: '◇ Not here yet',
  damaged: '▲ Damaged on the laptop',
  away: '◇ Not here: the laptop does not answer',
};

/** The picture as an address of this page, which is given back when it is no longer shown; looks again until it is here. */
export function usePicture(photo: string): Look {
  const [seen, setSeen] = useState<Look>({ is: 'looking' });
  const here = useRef(false);
  // Whoever has it does not look again.
  const again = here.current ? -1 : mayHaveCome.value;
  useEffect(() => {
    if (again < 0) return undefined;
    let [gone, tries] = [false, 0];
    let callOff = (): void => undefined;
    const look = async (): Promise<void> => {
      const found = await findPhoto(photo);
      if (gone) return;
      if (found.ok) {
        here.current = true;
        setSeen({ is: 'here', url: URL.createObjectURL(new Blob([found.bytes], { type: 'image/jpeg' })) });
        return;
      }
      setSeen({ is: found.is });
      callOff = later(() => void look(), LOOKS_MS[Math.min(tries, LOOKS_MS.length - 1)]!);
      tries += 1;
    };
    void look();
    return () => {
      gone = true;
      callOff();
    };
  }, [photo, again]);
  const url = seen.is === 'here' ? seen.url : null;
  useEffect(() => (url === null ? undefined : () => URL.revokeObjectURL(url)), [url]);
  return seen;
}

function Large(props: {
  readonly url: string;
  readonly words: string;
  readonly close: () => void;
}): JSX.Element {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    dialog.current?.showModal();
  }, []);
  return (
    <dialog ref={dialog} class="photo-large" aria-label={props.words} onClose={props.close}>
      <img src={props.url} alt={props.words} />
      <p>{props.words}</p>
      <Press act={() => dialog.current?.close()}>Close</Press>
    </dialog>
  );
}

function Thumb(props: { readonly photo: Photo }): JSX.Element {
  const { photo, step, about } = props.photo;
  const words = about !== '' ? about : step !== '' ? `photograph at ${step}` : 'photograph';
  const seen = usePicture(photo);
  const [large, setLarge] = useState(false);
  if (seen.is !== 'here')
    return (
      <figure class="photo-absent">
        <p>{ABSENT[seen.is]}</p>
        <figcaption>{words}</figcaption>
      </figure>
    );
  return (
    <figure>
      <Press class="photo-thumb" label={`Open large: ${words}`} act={() => setLarge(true)}>
        <img src={seen.url} alt={words} loading="lazy" decoding="async" />
      </Press>
      <figcaption>{words}</figcaption>
      {large && <Large url={seen.url} words={words} close={() => setLarge(false)} />}
    </figure>
  );
}

/** Photographs in a row; a touch opens one large. */
export function PhotoStrip(props: { readonly photos: readonly Photo[] }): JSX.Element | null {
  if (props.photos.length === 0) return null;
  return (
    <ul class="photo-strip" aria-label="Photographs">
      {props.photos.map((photo) => (
        <li key={photo.event}>
          <Thumb photo={photo} />
        </li>
      ))}
    </ul>
  );
}
