/** Why the machine of the job is not here. In a file of its own: the frame of every page shows it, and reads no machine file. */
import { signal } from '@preact/signals';

/** In words; null while nothing is wrong. */
export const machineFailure = signal<string | null>(null);
