import type { JSX } from 'preact';
import { getTo, goalOf, leaveBe, repairsOf } from '../../draft/point-work.ts';
import { REPAIR_IDS, REPAIRS } from '../../fault/repairs.ts';
import type { Json } from '../../machine/json-value.ts';
import { Fold } from './fold.tsx';
import { Press } from './press-button.tsx';
import type { Act } from './strip-editor.tsx';

/** “This is what we want to get to, for …”. */
export function StripGoal(props: {
  readonly file: Json;
  readonly part: string;
  readonly act: Act;
}): JSX.Element {
  const { file, part, act } = props;
  const goal = goalOf(file, part) !== null;
  const repairs = repairsOf(file, part);
  return (
    <div class="stack">
      <h4>We want to get to this</h4>
      <div class="row toggles">
        <Press pressed={goal} act={() => act(goal ? leaveBe(file, part) : getTo(file, part, []))}>
          Get to this
        </Press>
      </div>
      {goal && (
        <Fold
          head={
            repairs.length === 0 ? 'For no repair yet' : `For: ${repairs.map((id) => wordsOf(id)).join('; ')}`
          }
        >
          {() => (
            <div class="toggles">
              {REPAIR_IDS.map((id) => (
                <Press
                  key={id}
                  pressed={repairs.includes(id)}
                  act={() =>
                    act(
                      getTo(
                        file,
                        part,
                        repairs.includes(id) ? repairs.filter((one) => one !== id) : [...repairs, id],
                      ),
                    )
                  }
                >
                  {REPAIRS[id].title}
                </Press>
              ))}
            </div>
          )}
        </Fold>
      )}
    </div>
  );
}

function wordsOf(repair: string): string {
  const known = REPAIR_IDS.find((id) => id === repair);
  return known === undefined ? repair : REPAIRS[known].title;
}
