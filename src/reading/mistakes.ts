/** How people and meters misread: named mistakes, each with the value that was meant. */

export interface Mistake {
  readonly id:
    | 'ten-times'
    | 'a-tenth'
    | 'thousand'
    | 'wrong-mode'
    | 'contact'
    | 'contact-ohms'
    | 'reversed'
    | 'anything';
  /** In words. */
  readonly title: string;
  /** Share of all mistakes (guess). */
  readonly share: number;
  /** The value meant, from the value noted; null when this mistake cannot give it. */
  readonly undo: (noted: number) => number | null;
  /** |d meant / d noted|, so that densities compare. */
  readonly stretch: (noted: number) => number;
  /** Relative scatter of the mistake itself. */
  readonly spread: number;
}

const same = () => 1;

export const MISTAKES = {
  tenTimes: {
    id: 'ten-times',
    title: 'ten times out',
    share: 0.2,
    undo: (v: number) => v / 10,
    stretch: () => 0.1,
    spread: 0,
  },
  aTenth: {
    id: 'a-tenth',
    title: 'ten times out',
    share: 0.2,
    undo: (v: number) => v * 10,
    stretch: () => 10,
    spread: 0,
  },
  thousand: {
    id: 'thousand',
    title: 'milli and whole units mixed up',
    share: 0.05,
    undo: (v: number) => v / 1000,
    stretch: () => 0.001,
    spread: 0,
  },
  wrongMode: {
    id: 'wrong-mode',
    title: 'AC and DC mixed up',
    share: 0.15,
    undo: (v: number) => (v > 0.01 ? v / 2.2 : null),
    stretch: () => 1 / 2.2,
    spread: 0.01,
  },
  contact: {
    id: 'contact',
    title: 'poor contact at a probe',
    share: 0.15,
    undo: (v: number) => v / 0.7,
    stretch: () => 1 / 0.7,
    spread: 0.06,
  },
  contactOhms: {
    id: 'contact-ohms',
    title: 'poor contact at a probe',
    share: 0.15,
    undo: (v: number) => (v > 2.8 ? v - 3 : null),
    stretch: same,
    spread: 0,
  },
  reversed: {
    id: 'reversed',
    title: 'leads reversed',
    share: 0.15,
    undo: (v: number) => -v,
    stretch: same,
    spread: 0,
  },
  anything: {
    id: 'anything',
    title: 'does not fit, mistake unknown',
    share: 0.12,
    undo: () => null,
    stretch: same,
    spread: 0,
  },
} as const satisfies Readonly<Record<string, Mistake>>;

const SIGNED = new Set([
  'batt_amps',
  'batt_volts',
  'rest_volts',
  'keyon_volts',
  'crank_volts',
  'load_test_volts',
  'reg_volts',
  'drop_pos',
  'drop_neg',
  'alt_amps',
]);
const AC = new Set(['stator_ac', 'pin_case_ac', 'ripple', 'plug_drop_ac', 'phase_amps']);

/** Mistakes that can happen to a kind of reading with this noted value. */
export function mistakesFor(kind: string, noted: number): readonly Mistake[] {
  const list: Mistake[] = [MISTAKES.tenTimes, MISTAKES.aTenth];
  if (SIGNED.has(kind)) list.push(MISTAKES.reversed, MISTAKES.thousand);
  if (!AC.has(kind) || noted > 0.01) list.push(MISTAKES.wrongMode);
  list.push(kind.startsWith('ohms') ? MISTAKES.contactOhms : MISTAKES.contact);
  return list;
}
