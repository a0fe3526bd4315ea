import type { JSX } from 'preact';
import type { WayStep } from '../way-report.ts';
import { BenchHands, type Hands } from './bench-hands.tsx';
import { BenchLock } from './bench-lock.tsx';
import { BenchMore, BenchOtherwise } from './bench-more.tsx';
import { EarlierLeft } from './earlier-left.tsx';

export { BenchLock };

/** What stands below the step: more one may say at it, this device, what was done otherwise. Null where no step is in hand. */
export function BenchBelow(props: {
  readonly step: WayStep | null;
  readonly hands: Hands;
  readonly set: (change: Partial<Hands>) => void;
  readonly says: string | null;
}): JSX.Element {
  return (
    <>
      {props.step && <BenchMore step={props.step} />}
      {props.step && <BenchHands hands={props.hands} set={props.set} says={props.says} />}
      <BenchOtherwise />
      <EarlierLeft />
    </>
  );
}
