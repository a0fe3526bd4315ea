import type { JSX } from 'preact';
import { useRef } from 'preact/hooks';
import { listWords } from '../show.ts';
import { job } from '../state/job.ts';
import { answer } from '../state/verdict.ts';
import { choice, choose, targets } from '../state/way.ts';
import type { WayPlan } from '../way-report.ts';
import { Fold } from './fold.tsx';
import { Moment } from './moment.tsx';
import { Press } from './press-button.tsx';
import { Segments } from './segments.tsx';

const DAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'];

/** "Sat 07:45" on the garage's clock. By hand: the browser's own words for dates take a phone longer than the page does. */
function dayWords(iso: string): string {
  const at = new Date(iso);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${DAYS[at.getDay()]} ${two(at.getHours())}:${two(at.getMinutes())}`;
}

/** The choices in one line. */
export function choiceWords(): string {
  const { people, startsAt, nights, leave } = choice.value;
  return [
    people === 1 ? 'one person' : 'two people',
    `from ${dayWords(startsAt)}`,
    nights ? 'nights off' : 'through the night',
    ...(leave.length > 0 ? [`leaving ${listWords(leave.map((fact) => `${thingOf(fact)} on`))}`] : []),
  ].join(', ');
}

/** The thing that a fact "clutch-nut off" speaks of. */
function thingOf(fact: string): string {
  return fact.replace(/ off$/, '').replaceAll('-', ' ');
}

function toggled(list: readonly string[], id: string): readonly string[] {
  return list.includes(id) ? list.filter((one) => one !== id) : [...list, id];
}

/** What to get to; folded once something is chosen. */
export function WayTargets(): JSX.Element {
  const { targets: chosen } = choice.value;
  const names = targets.value.filter(({ id }) => chosen.includes(id)).map(({ name }) => name);
  // Open for who came with nothing chosen, and not shut under the finger that chooses; what the verdict proposes may come
  // after the page.
  const first = useRef<boolean | null>(null);
  const known = job.value.way.chosen !== null || job.value.accepted !== null || answer.value !== null;
  if (known && targets.value.length > 0) first.current ??= names.length === 0;
  return (
    <section aria-labelledby="way-to">
      <h2 id="way-to">What to get to</h2>
      {/* Another fold where it begins open: what stands below it is built after its content. */}
      <Fold
        key={String(first.current)}
        open={first.current === true}
        head={<b>{names.length === 0 ? 'nothing chosen' : listWords(names)}</b>}
      >
        {() => (
          <div class="toggles">
            {targets.value.map(({ id, name }) => (
              <Press
                key={id}
                pressed={chosen.includes(id)}
                act={() => choose({ targets: toggled(chosen, id), aim: 'least' })}
              >
                {name}
              </Press>
            ))}
          </div>
        )}
      </Fold>
    </section>
  );
}

/** How it is to be done: who, when, what is to stay on. */
export function WayChoices(props: { readonly plan: WayPlan | null }): JSX.Element {
  const { people, startsAt, nights, leave } = choice.value;
  const could = [...new Set([...leave, ...(props.plan?.couldLeave ?? [])])];
  return (
    <Fold head={<b>{choiceWords()}</b>}>
      {() => (
        <div class="way-choices">
          <Segments
            ask="How many work on it"
            choices={[
              { value: '1', title: 'one' },
              { value: '2', title: 'two' },
            ]}
            chosen={String(people)}
            choose={(value) => choose({ people: value === '2' ? 2 : 1 })}
          />
          <Segments
            ask="Nights, 22:00 to 07:00"
            choices={[
              { value: 'yes', title: 'off' },
              { value: 'no', title: 'worked through' },
            ]}
            chosen={nights ? 'yes' : 'no'}
            choose={(value) => choose({ nights: value === 'yes' })}
          />
          <Moment ask="The work begins" at={startsAt} set={(iso) => choose({ startsAt: iso })} now="Now" />
          {could.length > 0 && (
            <div class="stack tight way-leave">
              <p class="ask">Leave on, if there is a way</p>
              <div class="toggles">
                {could.map((fact) => (
                  <Press
                    key={fact}
                    pressed={leave.includes(fact)}
                    act={() => choose({ leave: toggled(leave, fact) })}
                  >
                    {thingOf(fact)}
                  </Press>
                ))}
              </div>
            </div>
          )}
        </div>
      )}
    </Fold>
  );
}
