import type { JSX } from 'preact';
import { KM_LIMIT } from '../../job/event-rule.ts';
import { choose } from '../state/way.ts';
import type { WayPlan } from '../way-report.ts';
import { Fold } from './fold.tsx';

/** What else is worth replacing while the bike is open. */
export function WayOpen(props: { readonly plan: WayPlan }): JSX.Element | null {
  const { open } = props.plan;
  if (open === null) return null;
  const replace = open.lines.filter((line) => line.replace).length;
  return (
    <section aria-labelledby="way-open">
      <h2 id="way-open">While it is open</h2>
      <Fold
        head={
          <b>
            {replace === 0
              ? 'nothing else is worth replacing'
              : `${replace} of ${open.lines.length} parts that wear are worth replacing`}
          </b>
        }
      >
        {() => (
          <div class="stack tight">
            <label class="field">
              <span>How far these parts have gone since new, km</span>
              <input
                inputMode="numeric"
                value={String(open.km)}
                onChange={(event) => {
                  const km = Number(event.currentTarget.value.replaceAll(/[\s.,]/g, ''));
                  if (event.currentTarget.value.trim() !== '' && km >= 0 && km <= KM_LIMIT) choose({ km });
                  else event.currentTarget.value = String(open.km);
                }}
              />
            </label>
            <ul class="way-changes">
              {open.lines.map(({ id, says, replace: now }) => (
                <li key={id} class={now ? 'deed' : undefined}>
                  {now ? '■' : '□'} {says}
                </li>
              ))}
            </ul>
            <p class="quiet">{open.sum}</p>
          </div>
        )}
      </Fold>
    </section>
  );
}
