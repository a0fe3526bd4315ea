/** A torque that was signed, in words: what was wanted, on which wrench at which setting, what the screw got by that. */
import type { BenchRecord } from '../job/bench-fold.ts';
import { sayTorque, sayTorques } from '../joint/say.ts';
import type { Asking } from './ask.ts';
import { stageOf } from './torque-ask.ts';

export interface SaidTorque {
  /** "42.5–47.5 N·m (31–35 lbf·ft), stage 2 of 3". */
  readonly wanted: string;
  /** "60 N·m wrench set to 45 N·m; threads dry". */
  readonly how: string;
  readonly got: string;
}

/** Whether a step turns something to a torque of the file. */
export function hasTorque(asking: Asking): boolean {
  return stageOf(asking) !== null;
}

/** `asking`: null for a step that the machine file no longer has. */
export function sayTorqueRecord(
  asking: Asking | null,
  { words, figures }: Pick<BenchRecord, 'words' | 'figures'>,
): SaidTorque {
  const stage = asking === null ? null : stageOf(asking);
  const number = (name: string): number => (typeof figures[name] === 'number' ? figures[name] : 0);
  const [got, drag] = [number('torqueNm'), number('dragNm')];
  const { full, set, adapter, angle, threads } = words;
  const how = [
    [full ? `${full} wrench` : '', set ? `set to ${set}` : ''].filter(Boolean).join(' '),
    adapter ? `adapter ${adapter}${angle ? ` at ${angle}` : ''}` : '',
    threads ? `threads ${threads.replaceAll('-', ' ')}` : '',
  ].filter(Boolean);
  return {
    wanted:
      stage === null
        ? 'not in the machine file'
        : `${sayTorques(stage.is)}${stage.of > 1 ? `, stage ${stage.number} of ${stage.of}` : ''}`,
    how: how.join('; ') || 'not written down',
    got:
      got > 0
        ? `${sayTorque(got)}${drag > 0 ? `, beyond a drag of ${sayTorque(drag)}` : ''}`
        : 'not reckoned',
  };
}
