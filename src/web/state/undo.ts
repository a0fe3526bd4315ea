/** The bar at the foot of the screen that says what was just done and, for a while, takes it back. */
import { signal } from '@preact/signals';
import { later } from '../browser.ts';

/** How long a deed can be taken back from the bar, ms. */
export const UNDO_MS = 10_000;

export interface Undo {
  readonly said: string;
  readonly undo: (() => void) | null;
}

export const undoBar = signal<Undo | null>(null);
let callOff: (() => void) | null = null;

export function showUndo(said: string, undo: (() => void) | null): void {
  callOff?.();
  undoBar.value = { said, undo };
  callOff = later(hideUndo, UNDO_MS);
}

export function hideUndo(): void {
  callOff?.();
  callOff = null;
  undoBar.value = null;
}
