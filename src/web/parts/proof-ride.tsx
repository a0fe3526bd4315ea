import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { checkRideLife, type RideLife, usualLife } from '../../circuit/ride-legs.ts';
import { partsOfRepairs } from '../../machine/new-parts.ts';
import { later } from '../browser.ts';
import { happened, job } from '../state/job.ts';
import { machine } from '../state/machine.ts';
import { repairs } from '../state/proof.ts';
import { RideBalance } from './ride-balance.tsx';

/** How long nothing is changed before the ride is written down, ms: a stepper held would otherwise write at every step. */
const QUIET_MS = 1500;

/** The owner's ride, kept with the job. */
export function ProofRide(): JSX.Element | null {
  const known = machine.value;
  // What an earlier version let through may not hang together: then one begins anew, and the log keeps what was told.
  const looked = checkRideLife(job.value.life);
  const told = looked.ok ? looked.life : null;
  const [edited, setEdited] = useState<RideLife | null>(null);
  const stop = useRef<(() => void) | null>(null);
  const waiting = useRef<RideLife | null>(null);
  const write = (): void => {
    stop.current?.();
    stop.current = null;
    if (waiting.current) happened({ type: 'lifeTold', life: waiting.current });
    waiting.current = null;
  };
  useEffect(() => write, []);
  if (known === null) return null;
  return (
    <RideBalance
      machine={known.machine}
      newParts={partsOfRepairs(repairs.value)}
      value={edited ?? told ?? usualLife(known.spec)}
      onChange={(life) => {
        setEdited(life);
        waiting.current = life;
        stop.current?.();
        stop.current = later(write, QUIET_MS);
      }}
    />
  );
}
