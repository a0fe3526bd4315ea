import type { JSX } from 'preact';
import type { FastenerWords } from '../../machine/say-fastener.ts';
import { capital } from '../show.ts';

/** Why one stops before the next step, in words. */
export const HOLDS = { sign: 'sign it', measure: 'measure', look: 'look', wait: 'wait' } as const;

/**
 * A fastener's figures: all of them where it goes back, size and direction where it comes off; `plain` leaves the torque
 * to who shows it large.
 */
export function Fastener(props: {
  readonly of: FastenerWords;
  readonly back: boolean;
  readonly plain?: boolean;
}): JSX.Element {
  const { name, size, torque, stages, mind, source, differs } = props.of;
  const minded = props.back ? mind : mind.filter((words) => words.startsWith('LEFT'));
  return (
    <div class="way-figures">
      <p>
        {name}
        {size && `: ${size}`}
      </p>
      {props.back && !props.plain && torque && (
        <p>
          <b class="figure">{torque}</b>
          {stages.length > 1 && ` in stages: ${stages.join(', then ')}`}
        </p>
      )}
      {minded.length > 0 && <p>{minded.map(capital).join('. ')}.</p>}
      {props.back && source && <p class="quiet">From: {source}</p>}
      {props.back && differs.map((words) => <p key={words}>◇ {words}</p>)}
    </div>
  );
}
