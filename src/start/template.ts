/**
 * Room `start`: a machine file from what a mechanic has in hand. Three plain templates give everything that nobody has
 * said yet, wide and marked as a guess; a few first questions narrow what the verdict needs first; what a meter showed
 * becomes figures with their width; and a file, new or old, is asked which figure would narrow it most. It writes texts of
 * machine files and knows no disk, no clock and no screen.
 *
 * This file: the templates. Their figures are ranges from memory of many bikes' books, no source, and of no real bike.
 */
import { CRANK_COVER_WAY, SINGLE_WAY } from './cover-way.ts';
import { PRIMARY_WAY } from './primary-way.ts';
import type { WayIn } from './way-rows.ts';

export const TEMPLATE_IDS = ['primary', 'crank-cover', 'single'] as const;
export type TemplateId = (typeof TEMPLATE_IDS)[number];

export interface Template {
  readonly id: TemplateId;
  readonly name: string;
  /** How one tells on the bike that it is this one. */
  readonly about: string;
  readonly phases: 1 | 3;
  /** AC between two pins at 1000 rpm, and DC amps at 5000 rpm, as a person would write them. */
  readonly openVolts: string;
  readonly ratedAmps: string;
  /** Ah of the battery that most such bikes carry. */
  readonly ampHours: number;
  readonly way: WayIn;
}

export const TEMPLATES: Readonly<Record<TemplateId, Template>> = {
  primary: {
    id: 'primary',
    name: 'alternator in a chain primary case',
    about:
      'Two cylinders or more, a chain from the engine to a clutch under one long cover, the rotor behind the engine sprocket; three stator wires, now and then two.',
    phases: 3,
    openVolts: '13–21 V AC',
    ratedAmps: '20–46 A',
    ampHours: 18,
    way: PRIMARY_WAY,
  },
  'crank-cover': {
    id: 'crank-cover',
    name: 'alternator under a crank cover',
    about:
      'The stator is screwed into a round cover at one end of the crank, the rotor sits on the end of the crank; three stator wires, also on a single.',
    phases: 3,
    openVolts: '10–22 V AC',
    ratedAmps: '18–42 A',
    ampHours: 12,
    way: CRANK_COVER_WAY,
  },
  single: {
    id: 'single',
    name: 'single-cylinder, single-phase',
    about: 'One cylinder, two stator wires; gear pedal and sprocket cover stand before the alternator cover.',
    phases: 1,
    openVolts: '12–24 V AC',
    ratedAmps: '9–25 A',
    ampHours: 8,
    way: SINGLE_WAY,
  },
};

export function isTemplateId(text: string): text is TemplateId {
  return (TEMPLATE_IDS as readonly string[]).includes(text);
}
