/** Ride balance of one machine file, without a job: what is entered is kept in this browser. */
import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { type RideLife, usualLife } from '../../circuit/ride-legs.ts';
import { Press } from '../parts/press-button.tsx';
import { RideBalance } from '../parts/ride-balance.tsx';
import { keepRide, keptRide } from '../ride-kept.ts';
import { writeRoute } from '../route.ts';
import { type Known, type Opened, openMachine } from '../state/machine.ts';
import { showUndo } from '../state/undo.ts';

export function Ride({ machine: id }: { readonly machine: string }): JSX.Element {
  const [opened, keep] = useState<Opened | null>(null);
  useEffect(() => {
    let here = true;
    let again: ReturnType<typeof setTimeout> | undefined;
    const look = (): void => {
      void openMachine(id).then((found) => {
        if (!here) return;
        keep(found);
        // The laptop may be switched on again while one looks.
        if (!found.ok && found.away) again = setTimeout(look, 3000);
      });
    };
    look();
    return () => {
      here = false;
      clearTimeout(again);
    };
  }, [id]);
  if (opened === null) return <p class="step">Opening the machine file…</p>;
  if (opened.ok) return <Page known={opened.known} />;
  return (
    <div class="stack">
      <h1 tabIndex={-1}>The machine file cannot be opened</h1>
      <p class="warn" role="alert">
        <b class="flag">▲ Caution</b> {opened.why}
      </p>
      <a class="link" href={writeRoute({ at: 'machines' })}>
        To the machine files
      </a>
    </div>
  );
}

/** A tab that may keep nothing has no shelf at all, and reading the name of one throws. */
const shelf = (): Storage | null => {
  try {
    return localStorage;
  } catch {
    return null;
  }
};

function Page({ known }: { readonly known: Known }): JSX.Element {
  const { id, machine, spec } = known;
  const { maker, model, invented } = machine.about;
  const usual = () => usualLife(spec);
  const [life, setLife] = useState<RideLife>(() => {
    const place = shelf();
    return (place && keptRide(id, place)) ?? usual();
  });
  const [kept, setKept] = useState(true);
  // Folds and fields half typed belong to the life before: they are built anew with the usual one.
  const [round, turn] = useState(0);
  const change = (now: RideLife, drop = false): void => {
    const place = shelf();
    setKept(place !== null && keepRide(id, drop ? null : now, place));
    setLife(now);
  };
  return (
    <div class="stack wide">
      <div class="stack tight">
        <h1 tabIndex={-1}>Will it stay charged?</h1>
        <p>
          {maker} {model}
          {invented && <span class="quiet"> · invented bike</span>}
        </p>
      </div>
      <RideBalance key={round} machine={machine} value={life} onChange={change} />
      {!kept && (
        <p class="warn" role="alert">
          <b class="flag">▲ Caution</b> This browser keeps nothing: what is entered is gone when the page
          closes.
        </p>
      )}
      <div class="row">
        <Press
          act={() => {
            change(usual(), true);
            turn(round + 1);
            showUndo('The ride begins anew.', () => {
              change(life);
              turn(round + 2);
            });
          }}
        >
          Begin anew
        </Press>
        <a class="link" href={writeRoute({ at: 'machines' })}>
          All machine files
        </a>
      </div>
    </div>
  );
}
