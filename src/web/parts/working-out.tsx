import type { JSX } from 'preact';

/** Said while the next reading is worked out. */
export function WorkingOut(): JSX.Element {
  return (
    <p class="step">
      Working out what to read next: the reading that tells most for its minutes, by all that is known of this
      bike so far.
    </p>
  );
}
