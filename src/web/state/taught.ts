/**
 * How a machine is planned by: with the minutes that the bike's own jobs taught, once they are read. The code that reads them
 * comes after the page that plans: it stands in no page's first script.
 */
import { signal } from '@preact/signals';
import type { Machine } from '../../machine/definition.ts';

export const taught = signal<(machine: Machine) => Machine>((machine) => machine);
