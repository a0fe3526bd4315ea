/**
 * Which bike is being read: as it came, or as repaired. The keys, the drawings and the list of readings serve both; what
 * they show of the one must never stand beside figures of the other.
 */
import { computed, signal } from '@preact/signals';
import type { VoltsBand } from '../../proof/prove-job.ts';
import type { SoundShows } from '../../verdict/answer.ts';
import type { Proof } from '../../verdict/prove.ts';
import { job } from './job.ts';
import { route } from './place.ts';

/** True on the station Proof. */
export const proving = computed(() => route.value.at === 'job' && route.value.station === 'proof');

/** The readings of the bike that is being read. */
export const readings = computed(() => (proving.value ? job.value.proof.readings : job.value.readings));

/** What the proof's worker found, on the newest readings; null until it has, and while nothing is repaired. */
export const proof = signal<Proof | null>(null);
export const proofThinking = signal(false);
export const proofFailure = signal<string | null>(null);
/** Battery volts that the repaired bike should show over engine speed. */
export const proofVolts = signal<VoltsBand>([]);
/** What the repaired bike should show, by reading key, as far as it was asked. */
export const proofBands = signal<ReadonlyMap<string, SoundShows>>(new Map());
/** The reading at hand on the station Proof, whose band is wanted. */
export const bandWanted = signal<string | null>(null);

/** What the proof wants read next; null when nothing, or while it is not known. */
export const proofNext = computed(() => proof.value?.plan[0]?.key ?? proof.value?.next?.key ?? null);
