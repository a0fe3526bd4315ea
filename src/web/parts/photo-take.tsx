import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { jobId } from '../state/job.ts';
import { takePhoto } from '../state/photos.ts';

type Told = { readonly is: 'idle' | 'busy' | 'kept' } | { readonly is: 'failed'; readonly why: string };

/**
 * Takes a photograph at a step. A label around the browser's own chooser and no button of ours: the camera opens only at a
 * touch that the browser itself saw.
 */
export function PhotoTake(props: { readonly step: string; readonly about: string }): JSX.Element {
  const [told, setTold] = useState<Told>({ is: 'idle' });
  const busy = told.is === 'busy';
  const take = async (input: HTMLInputElement): Promise<void> => {
    const [file, job] = [input.files?.[0], jobId.peek()];
    if (!file || job === null) return;
    setTold({ is: 'busy' });
    const { step, about } = props;
    const took = await takePhoto(job, file, { step, about });
    // The same file may be chosen again.
    input.value = '';
    setTold(took.ok ? { is: 'kept' } : { is: 'failed', why: took.why });
  };
  return (
    <div class="photo-take">
      <label class={busy ? 'link busy' : 'link'}>
        <input
          type="file"
          accept="image/*"
          capture="environment"
          disabled={busy}
          onChange={(event) => void take(event.currentTarget)}
        />
        Photo
      </label>
      <p role="status" class={told.is === 'failed' ? 'warn' : 'photo-told'}>
        {busy && 'Taking it in…'}
        {told.is === 'kept' && '✓ Photograph kept'}
        {told.is === 'failed' && (
          <>
            <b class="flag">▲ Not kept</b> {told.why}
          </>
        )}
      </p>
    </div>
  );
}
