import type { JSX } from 'preact';
import { Press } from './press-button.tsx';

/** A moment in ISO 8601 as the browser's own field for day and hour wants it: the garage's clock, without a zone. */
function localText(iso: string): string {
  const at = new Date(iso);
  return new Date(at.getTime() - at.getTimezoneOffset() * 60_000).toISOString().slice(0, 16);
}

/** A day and an hour, typed or picked, with "now" beside it. What is no moment leaves the old one. */
export function Moment(props: {
  readonly ask: string;
  readonly at: string;
  readonly set: (iso: string) => void;
  readonly now?: string;
}): JSX.Element {
  return (
    <div class="moment">
      <label class="field">
        <span>{props.ask}</span>
        <input
          type="datetime-local"
          value={localText(props.at)}
          min="2000-01-01T00:00"
          max="2099-12-31T23:59"
          onChange={(event) => {
            const { value, min, max } = event.currentTarget;
            if (value !== '' && value >= min && value <= max) props.set(new Date(value).toISOString());
            else event.currentTarget.value = localText(props.at);
          }}
        />
      </label>
      {props.now && (
        <Press act={() => props.set(new Date(Math.floor(Date.now() / 60_000) * 60_000).toISOString())}>
          {props.now}
        </Press>
      )}
    </div>
  );
}
