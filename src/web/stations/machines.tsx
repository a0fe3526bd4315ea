/** Machine files: the shipped ones and those written here. */
import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { TakeIn } from '../parts/machine-take-in.tsx';
import { writeRoute } from '../route.ts';
import { fetchMachines, type Got, type MachineLine } from '../server.ts';
import { countWords } from '../show.ts';
import { MARK_WORDS } from '../words/marks.ts';

/** The list. */
export function Machines(): JSX.Element {
  const [got, setGot] = useState<Got<readonly MachineLine[]> | null>(null);
  useEffect(() => {
    void fetchMachines().then(setGot);
  }, []);
  return (
    <div class="stack wide">
      <h1 tabIndex={-1}>Machine files</h1>
      {got === null && <p>Looking for machine files on the laptop…</p>}
      {got?.ok === false && <Warn why={got.why} />}
      {got?.ok && (
        <ul class="job-list">
          {got.body.map(({ id, name, invented, versions, mark }) => (
            <li key={id}>
              <a
                class="link plain"
                href={writeRoute({ at: 'machine', machine: id, part: null, field: null })}
              >
                <span>
                  {name}
                  <span class="under">
                    {versions > 0
                      ? `${id}, written here, ${countWords(versions, 'version', 'versions')}`
                      : 'shipped'}
                    {invented ? ' · invented bike' : ''} · {MARK_WORDS[mark]}
                  </span>
                </span>
              </a>
            </li>
          ))}
        </ul>
      )}
      {/* What comes after the list waits for it: nothing moves away from a finger. */}
      {got && (
        <>
          <p>
            Your bike is not among them? A few answers are enough for a first verdict; everything else can
            come later.
          </p>
          <div class="row">
            <a class="link main" href={writeRoute({ at: 'begin' })}>
              Begin with your own bike
            </a>
            <a class="link" href={writeRoute({ at: 'jobs' })}>
              To the list of jobs
            </a>
          </div>
          <TakeIn />
        </>
      )}
    </div>
  );
}

function Warn({ why }: { readonly why: string }): JSX.Element {
  return (
    <p class="warn" role="alert">
      <b class="flag">▲ Caution</b> {why}
    </p>
  );
}
