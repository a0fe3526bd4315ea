import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { comesOffAfter, orElse, slackIsEnough, takeBack } from '../../draft/point-order.ts';
import { waysOff } from '../../draft/point-reach.ts';
import type { Awaited, StripThing } from '../../draft/point-strip.ts';
import type { Json } from '../../machine/json-value.ts';
import { Press } from './press-button.tsx';
import { StripChoose } from './strip-choose.tsx';
import type { Act } from './strip-editor.tsx';

interface Waiting extends Awaited {
  /** Whether another way does without it. */
  readonly either: boolean;
}

/** What a list of ways waits for, each thing once. */
function waitingOf(ways: readonly (readonly Awaited[])[]): readonly Waiting[] {
  const seen = new Map<string, Waiting>();
  for (const way of ways)
    for (const one of way)
      seen.set(one.of, { ...one, either: !ways.every((other) => other.some(({ of }) => of === one.of)) });
  return [...seen.values()];
}

/** “It comes off after …”, thing by thing, and how to say more. `way` speaks of one action only, such as slackening. */
export function StripAfter(props: {
  readonly file: Json;
  readonly thing: StripThing;
  readonly things: readonly StripThing[];
  readonly ways: readonly (readonly Awaited[])[];
  readonly way?: string;
  readonly act: Act;
}): JSX.Element {
  const { file, thing, things, way, act } = props;
  const [asks, ask] = useState<'off' | 'slack' | null>(null);
  const [insteadOf, setInsteadOf] = useState<string | null>(null);
  const waiting = waitingOf(props.ways);
  const named = new Map(things.map((one) => [one.id, one]));
  const others = things.filter(({ id }) => id !== thing.id);
  const apart = others.filter(({ id }) => !waiting.some(({ of }) => of === id));
  const slackable = apart.filter(({ id }) => !id.includes(' '));
  const say = (pointed: ReturnType<typeof comesOffAfter>): void => {
    if (!act(pointed)) return;
    ask(null);
    setInsteadOf(null);
  };
  const toggle = (kind: 'off' | 'slack'): void => {
    setInsteadOf(null);
    ask(asks === kind ? null : kind);
  };
  const [verb, lone] =
    way === undefined ? ['It comes off after', 'comes off'] : ['It is slackened after', 'is slackened'];
  return (
    <div class="stack">
      <h4>{way === undefined ? 'What it waits for' : 'What its slackening waits for'}</h4>
      {waiting.length === 0 && <p>Nothing: it {lone} from the outside.</p>}
      <ul class="strip-waits">
        {waiting.map(({ of, slack, either }) => (
          <li key={of}>
            <p>
              {of === thing.id ? (
                'It is slackened first.'
              ) : (
                <>
                  {slack ? 'It is enough to slacken' : verb} {!of.includes(' ') && 'the '}
                  <b>{named.get(of)?.name ?? of}</b>
                  {either && ', or another of these'}.
                </>
              )}
            </p>
            <div class="row">
              {of !== thing.id && !of.includes(' ') && (
                <Press act={() => say((slack ? comesOffAfter : slackIsEnough)(file, thing.id, of, way))}>
                  {slack ? 'It must be off' : 'It is enough to slacken it'}
                </Press>
              )}
              {way === undefined && of !== thing.id && (
                <Press
                  expanded={insteadOf === of}
                  act={() => {
                    ask(null);
                    setInsteadOf(insteadOf === of ? null : of);
                  }}
                >
                  Or instead …
                </Press>
              )}
              <Press act={() => say(takeBack(file, thing.id, of, way))}>Remove this</Press>
            </div>
            {insteadOf === of && (
              <StripChoose
                ask={`Instead of the ${named.get(of)?.name ?? of}, this one off will do`}
                things={apart}
                choose={(other) => say(orElse(file, thing.id, of, other))}
              />
            )}
          </li>
        ))}
      </ul>
      <div class="row">
        <Press expanded={asks === 'off'} disabled={apart.length === 0} act={() => toggle('off')}>
          {verb} …
        </Press>
        <Press expanded={asks === 'slack'} disabled={slackable.length === 0} act={() => toggle('slack')}>
          It is enough to slacken …
        </Press>
      </div>
      {asks === 'off' && (
        <StripChoose
          ask="What must be off first"
          things={apart}
          choose={(other) => say(comesOffAfter(file, thing.id, other, way))}
        />
      )}
      {asks === 'slack' && (
        <StripChoose
          ask="What need only be slackened"
          things={slackable}
          choose={(other) => say(slackIsEnough(file, thing.id, other, way))}
        />
      )}
      {way === undefined && waysOff(file, thing.id).length > 1 && (
        <p class="quiet">
          There are {waysOff(file, thing.id).length} ways to take it off; the plan takes the one that is less
          work.
        </p>
      )}
    </div>
  );
}
