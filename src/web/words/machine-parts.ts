/** The pages of a machine file in words. */
import type { MachinePart } from '../route.ts';

/** Sections of the file, in the order in which one fills them. */
export const SECTION_PARTS = [
  'about',
  'charging',
  'sources',
  'parts',
  'fasteners',
  'work',
  'chains',
  'shims',
  'fluids',
] as const satisfies readonly MachinePart[];

/** What is done with the file as a whole. */
export const WHOLE_PARTS = [
  'sharpen',
  'estimate',
  'sheet',
  'learned',
  'compare',
  'share',
  'text',
] as const satisfies readonly MachinePart[];

export const PART_WORDS: Readonly<Record<MachinePart, { readonly title: string; readonly about: string }>> = {
  about: { title: 'The bike', about: 'maker, model, year' },
  charging: { title: 'Charging circuit', about: 'alternator, regulator, battery, loads, wires' },
  sources: { title: 'Sources', about: 'books, sheets, your own readings, guesses' },
  parts: { title: 'Parts', about: 'what comes off after what' },
  fasteners: { title: 'Fasteners', about: 'screws, nuts, plugs with their torques' },
  work: { title: 'Way in', about: 'what is done, what it needs, how long it takes, how it goes back' },
  chains: { title: 'Chains', about: 'pitch, sprockets, slack' },
  shims: { title: 'Shims', about: 'stacks and the play wanted' },
  fluids: { title: 'Fluids', about: 'how much goes in' },
  sharpen: { title: 'What would help most', about: 'which figure would make the verdict surer' },
  estimate: { title: 'Work out a figure', about: 'from one reading, with how far it can be off' },
  learned: { title: 'Learnt at the bench', about: 'what jobs on this bike measured and found' },
  sheet: { title: "A new part's sheet", about: 'the figures that came in the box' },
  compare: { title: 'Side by side', about: 'with an earlier version, or another file' },
  share: {
    title: 'Share it, or take one in',
    about: 'the file with its drawings; no job, no owner, but your remarks',
  },
  text: { title: 'As text', about: 'the whole file as it is written' },
};
