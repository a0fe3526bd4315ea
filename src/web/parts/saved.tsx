import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { later } from '../browser.ts';
import { laptopAhead } from '../server.ts';
import { countWords } from '../show.ts';
import { dropEntry, heldUp, memoryOnly, sendAgain, waiting } from '../state/job.ts';
import { photosHeldUp, photosRefused, photosWaiting } from '../state/photos-waiting.ts';
import { Press } from './press-button.tsx';

/** Longer than this without an acknowledgement is worth saying aloud, ms. */
const WORTH_SAYING_MS = 3000;

/** Whether everything typed is on the laptop, always in sight. */
export function Saved(): JSX.Element {
  const [entries, photos] = [waiting.value.length, photosWaiting.value];
  const count = entries + photos;
  const [lasting, setLasting] = useState(false);
  useEffect(() => {
    setLasting(false);
    return count > 0 ? later(() => setLasting(true), WORTH_SAYING_MS) : undefined;
  }, [count > 0]);
  const text =
    count === 0
      ? 'All on the laptop'
      : `${[
          ...(entries > 0 ? [countWords(entries, 'entry', 'entries')] : []),
          ...(photos > 0 ? [countWords(photos, 'photograph', 'photographs')] : []),
        ].join(' and ')} not on the laptop yet`;
  return (
    <p class={count === 0 ? 'saved' : 'saved wait'}>
      <span class="sign" aria-hidden="true">
        {count === 0 ? '●' : '▲'}
      </span>
      {count === 0 ? (
        <span>{text}</span>
      ) : (
        <>
          <span class="full">{text}</span>
          <span class="brief">{count} not sent yet</span>
        </>
      )}
      <span class="unseen" role="status">
        {lasting ? `${text}. They are kept in this browser and sent when the laptop answers.` : ''}
      </span>
    </p>
  );
}

/** Clocks further apart than this mix up what happened when, ms. */
const WORTH_SETTING_MS = 5 * 60_000;

/** That this device's clock is not the laptop's. */
export function ClockApart(): JSX.Element | null {
  const ahead = laptopAhead.value;
  if (ahead === null || Math.abs(ahead) < WORTH_SETTING_MS) return null;
  const minutes = Math.round(Math.abs(ahead) / 60_000);
  return (
    <p class="warn">
      <b class="flag">▲ Clock</b> This device's clock is {minutes} min {ahead > 0 ? 'behind' : 'ahead of'} the
      laptop's. Set the wrong one right: until then times of the two are mixed up. Nothing is lost.
    </p>
  );
}

/** Their code is there once one was refused. */
const sendPhotos = (): void => void import('../state/photos.ts').then((photos) => photos.sendPhotosAgain());

/** What the laptop would not take, with its reason: never dropped unasked. */
export function Refused(): JSX.Element | null {
  const refused = waiting.value.filter((entry) => entry.refused !== null);
  // What waits may be sent from another window meanwhile: then nothing is held up.
  const held = [
    ...(waiting.value.length > refused.length && heldUp.value !== null ? [heldUp.value] : []),
    ...(photosWaiting.value > 0 && photosHeldUp.value !== null ? [photosHeldUp.value] : []),
  ];
  if (refused.length + photosRefused.value.length + held.length === 0 && !memoryOnly.value) return null;
  return (
    <section class="warn" aria-label="Entries not kept">
      {memoryOnly.value && (
        <p>
          <b class="flag">▲ Caution</b> This browser stores nothing more: what is not on the laptop yet lives
          only while this page is open. Free some space, or leave the page open until it says “All on the
          laptop”.
        </p>
      )}
      {[...new Set(held)].map((why) => (
        <p key={why}>
          <b class="flag">▲ Waiting</b> {why} What you entered stays in this browser until the laptop has it.
        </p>
      ))}
      {photosRefused.value.map((why) => (
        <div key={why} class="row">
          <p>
            <b class="flag">▲ Not taken</b> The laptop would not keep a photograph: {why} It stays in this
            browser.
          </p>
          <Press act={sendPhotos}>Send it again</Press>
        </div>
      ))}
      {refused.map((entry) => (
        <div key={entry.event.id} class="row">
          <p>
            <b class="flag">▲ Not taken</b> The laptop would not keep an entry: {entry.refused}
          </p>
          <Press act={sendAgain}>Send it again</Press>
          <Press act={() => dropEntry(entry.event.id)}>Drop it</Press>
        </div>
      ))}
    </section>
  );
}
