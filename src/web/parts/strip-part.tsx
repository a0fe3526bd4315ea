import type { JSX } from 'preact';
import { goesWith, removePart, renamePart } from '../../draft/point-parts.ts';
import { waysOff, waysSlack } from '../../draft/point-reach.ts';
import type { StripThing } from '../../draft/point-strip.ts';
import { actionNow } from '../../draft/point-work.ts';
import type { Json } from '../../machine/json-value.ts';
import { Fold } from './fold.tsx';
import { HoldPress } from './hold-press.tsx';
import { StripAfter } from './strip-after.tsx';
import type { Act } from './strip-editor.tsx';
import { StripField } from './strip-field.tsx';
import { StripGoal } from './strip-goal.tsx';
import { StripHeld } from './strip-held.tsx';
import { StripTakes } from './strip-takes.tsx';

/** All that can be said of the part in hand, as sentences. */
export function StripPart(props: {
  readonly file: Json;
  readonly thing: StripThing;
  readonly things: readonly StripThing[];
  readonly act: Act;
  /** After it was taken out. */
  readonly gone: () => void;
}): JSX.Element {
  const { file, thing, act } = props;
  const { id, name } = thing;
  const off = waysOff(file, id);
  const slack = waysSlack(file, id);
  return (
    <section class="strip-part stack" aria-label={name}>
      <h3>{name}</h3>
      <StripAfter {...props} ways={off.length === 0 ? [] : thing.ways} />
      {thing.isPart && <StripHeld file={file} part={id} act={act} />}
      {off.map((way, n) => (
        <Fold
          key={way.id}
          head={
            off.length === 1
              ? takesHead(file, way.id, 'Taking it off')
              : takesHead(file, way.id, `Way ${n + 1}`)
          }
        >
          {() => <StripTakes file={file} action={way.id} act={act} />}
        </Fold>
      ))}
      {slack.map((way, n) => (
        <Fold
          key={way.id}
          head={takesHead(file, way.id, slack.length === 1 ? 'Slackening it' : `Slackening, way ${n + 1}`)}
        >
          {() => (
            <div class="stack">
              <StripAfter {...props} ways={thing.slackens.slice(n, n + 1)} way={way.id} />
              <StripTakes file={file} action={way.id} act={act} />
            </div>
          )}
        </Fold>
      ))}
      {thing.isPart && <StripGoal file={file} part={id} act={act} />}
      {thing.isPart && (
        <Fold head="Call it something else, or take it out">
          {() => (
            <div class="stack">
              <StripField ask="Its name" value={name} enter={(text) => act(renamePart(file, id, text))} />
              {goesWith(file, id).map((words) => (
                <p key={words}>◇ {words}</p>
              ))}
              <div class="row">
                <HoldPress
                  act={() => {
                    if (act(removePart(file, id))) props.gone();
                  }}
                >
                  Take it out of the file
                </HoldPress>
              </div>
            </div>
          )}
        </Fold>
      )}
    </section>
  );
}

function takesHead(file: Json, action: string, words: string): string {
  const minutes = actionNow(file, action)?.minutes;
  if (!minutes) return words;
  const { low, high } = minutes;
  return `${words}: ${low === high ? low : `${low}–${high}`} min`;
}
