import { useEffect, useRef } from 'preact/hooks';
import type { HandsFree } from '../hands-free.ts';
import { hush, listen, speak } from '../voice.ts';
import { heardAct, spoken } from '../voice-words.ts';
import type { WayStep } from '../way-report.ts';
import type { Hands } from './bench-hands.tsx';

/** Reads the step aloud and listens, as far as this device was told to; shows nothing. */
export function BenchVoice(props: {
  readonly step: WayStep;
  readonly hands: Hands;
  /** Grows each time the step is to be read once more. */
  readonly again: number;
  readonly act: (what: HandsFree) => void;
  readonly set: (change: Partial<Hands>) => void;
  readonly say: (words: string) => void;
}): null {
  const { step, hands, again } = props;
  const newest = useRef(props);
  newest.current = props;
  const aloud = (): void => {
    const { does, caution, phase, fastener } = step;
    speak(spoken({ does, caution, torque: phase === 'in' ? null : (fastener?.torque ?? null) }), () => {
      newest.current.set({ speaks: false });
      newest.current.say('No voice answered on this device; reading aloud is off.');
    });
  };
  useEffect(() => {
    if (hands.speaks) aloud();
    return hush;
  }, [step.id, hands.speaks]);
  useEffect(() => {
    if (again > 0) aloud();
  }, [again]);
  useEffect(() => {
    if (!hands.hears) return;
    return listen(
      (words) => {
        const what = heardAct(words);
        if (what) newest.current.act(what);
      },
      () => {
        newest.current.set({ hears: false });
        newest.current.say('It listens no longer: nothing was heard for a while.');
      },
    );
  }, [hands.hears]);
  return null;
}
