import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { TEXT_LIMITS } from '../../job/event-rule.ts';
import { keepSetting, readSetting } from '../browser.ts';
import { deed, inHand, locked } from '../state/bench.ts';
import { job } from '../state/job.ts';
import { canHear, canSpeak } from '../voice.ts';
import { type Awake, keepAwake } from '../wake.ts';
import { Fold } from './fold.tsx';
import { Press } from './press-button.tsx';
import { TextEntry } from './text-entry.tsx';

/** What of the bench is switched on at this device. */
export interface Hands {
  readonly speaks: boolean;
  readonly hears: boolean;
  readonly films: boolean;
}

/** How this device stands at the bench: awake, wiped, read aloud, listening, filming, whose it is. */
export function BenchHands(props: {
  readonly hands: Hands;
  readonly set: (change: Partial<Hands>) => void;
  readonly says: string | null;
}): JSX.Element {
  const { hands, set } = props;
  const [awake, setAwake] = useState<Awake>('asking');
  const [who, setWho] = useState(readSetting('who') ?? '');
  useEffect(() => keepAwake(setAwake), []);
  return (
    <>
      <Fold head="This device: wipe, read aloud, listen, film, name">
        {() => (
          <div class="stack tight">
            <div class="row">
              <Press
                act={() => {
                  locked.value = true;
                }}
              >
                Wipe the screen
              </Press>
              <Press pressed={hands.speaks} disabled={!canSpeak()} act={() => set({ speaks: !hands.speaks })}>
                Read each step aloud
              </Press>
              <Press pressed={hands.hears} disabled={!canHear()} act={() => set({ hears: !hands.hears })}>
                Listen for “done”, “next”, “back”
              </Press>
              <Press pressed={hands.films} act={() => set({ films: !hands.films })}>
                Film
              </Press>
            </div>
            {(!canSpeak() || !canHear()) && (
              <p class="quiet">
                This browser cannot{' '}
                {[canSpeak() ? '' : 'speak', canHear() ? '' : 'listen'].filter(Boolean).join(' or ')}; keys
                and taps do everything.
              </p>
            )}
            <p class="quiet">
              {awake === 'on' && 'The screen stays on while this page is open.'}
              {awake === 'asking' && 'The screen is asked to stay on at the next touch.'}
              {awake === 'cannot' &&
                'This browser cannot keep the screen on: set it so in the device’s own settings.'}{' '}
              Space or a pedal’s Page Down ticks the step, Page Up goes back.
            </p>
            <TextEntry
              field={{
                id: 'who',
                words: 'Name that this device signs with',
                kind: 'text',
                need: 'may',
                initial: '',
                example: 'the lead',
              }}
              text={who}
              why={null}
              most={TEXT_LIMITS.who}
              enter={(text) => {
                setWho(text);
                keepSetting('who', text.trim());
              }}
            />
          </div>
        )}
      </Fold>
      {props.says && (
        <p role="status" class="quiet">
          {props.says}
        </p>
      )}
      {hands.films && <Film />}
    </>
  );
}

/** Clip marks, with a number to clap for: the picture and the log find each other by it. */
function Film(): JSX.Element {
  const { clips } = job.value.bench;
  const [flash, setFlash] = useState<number | null>(null);
  const last = clips.findLast(({ what }) => what !== 'clap');
  const running = last?.what === 'start';
  const count = (what: 'start' | 'clap') => clips.filter((clip) => clip.what === what).length;
  useEffect(() => {
    if (flash === null) return;
    const timer = setTimeout(() => setFlash(null), 1200);
    return () => clearTimeout(timer);
  }, [flash]);
  const mark = (what: 'start' | 'stop' | 'clap', number: number): void =>
    deed({ type: 'clipMarked', what, number, step: inHand.peek() ?? '' });
  return (
    <fieldset class="row" aria-label="Film">
      <Press
        pressed={running}
        act={() => (running ? mark('stop', count('start')) : mark('start', count('start') + 1))}
      >
        {running ? `Clip ${count('start')} runs: stop` : `Start clip ${count('start') + 1}`}
      </Press>
      <Press
        act={() => {
          const number = count('clap') + 1;
          mark('clap', number);
          setFlash(number);
        }}
      >
        Clap {count('clap') + 1}
      </Press>
      {flash !== null && (
        <p class="bench-clap" role="status">
          {flash}
        </p>
      )}
    </fieldset>
  );
}
