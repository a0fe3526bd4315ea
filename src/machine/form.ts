/** What kind of entry a shape takes, as data: the forms of the app and the reference page of the file are made from it. */
import type { Fields, Shape } from './shape.ts';

export type Form =
  /** Members by name. */
  | { readonly kind: 'object'; readonly fields: Fields }
  /** A figure with its source: the members that are the figure, and the rest: `from`, `page`, `date`, `note`, `also`. */
  | { readonly kind: 'figure'; readonly fields: Fields; readonly rest: Fields }
  /** Entries under ids that the writer chooses. */
  | { readonly kind: 'record'; readonly item: Shape<unknown>; readonly exampleId: string }
  | { readonly kind: 'list'; readonly item: Shape<unknown>; readonly most: number }
  /** One of several objects, told apart by `kind`. */
  | { readonly kind: 'tagged'; readonly variants: Readonly<Record<string, Fields>> }
  /** A quantity as people write it; `range` when two figures may stand there. */
  | { readonly kind: 'quantity'; readonly bounds: string; readonly range: boolean }
  | { readonly kind: 'gauge' }
  | { readonly kind: 'text'; readonly longest: number }
  | { readonly kind: 'choice'; readonly words: readonly string[] }
  | { readonly kind: 'numbers'; readonly numbers: readonly number[] }
  | { readonly kind: 'count'; readonly low: number; readonly high: number; readonly step: number }
  | { readonly kind: 'flag' }
  /** The id of an entry under `sources`. */
  | { readonly kind: 'source' };
