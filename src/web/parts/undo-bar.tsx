import type { JSX } from 'preact';
import { hideUndo, undoBar } from '../state/undo.ts';
import { Press } from './press-button.tsx';

export function UndoBar(): JSX.Element {
  const bar = undoBar.value;
  return (
    <div role="status" class="undo-place">
      {bar && (
        <div class="undo">
          <p>{bar.said}</p>
          {bar.undo && (
            <Press
              act={() => {
                bar.undo?.();
                hideUndo();
              }}
            >
              Undo
            </Press>
          )}
        </div>
      )}
    </div>
  );
}
