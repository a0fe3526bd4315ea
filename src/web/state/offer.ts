/** What can be read on the machine of the job on screen. Beside the machine itself: only pages with a list of readings need it. */
import { computed, effect } from '@preact/signals';
import { later } from '../browser.ts';
import { offerFor } from '../keys.ts';
import { machine } from './machine.ts';

export const offer = computed(() => (machine.value ? offerFor(machine.value.spec) : null));

// Worked out once while nothing else happens, not while the first reading opens.
effect(() => {
  if (machine.value) later(() => void offer.peek(), 0);
});
