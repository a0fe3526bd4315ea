import type { JSX } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { locked } from '../state/bench.ts';
import { HoldPress } from './hold-press.tsx';

/**
 * The screen locked for wiping. The browser's own dialog takes touches, keys and focus from all that lies below, and gives
 * the focus back.
 */
export function BenchLock(): JSX.Element {
  const dialog = useRef<HTMLDialogElement>(null);
  useLayoutEffect(() => {
    const shown = dialog.current!;
    const before = document.activeElement;
    shown.showModal();
    return () => {
      shown.close();
      // The step may have gone on meanwhile, at another device: then one stands at the new one.
      const here = before instanceof HTMLElement && before.isConnected && before !== document.body;
      const to = here ? before : document.querySelector<HTMLElement>('.at-bench h1');
      to?.focus({ preventScroll: true });
    };
  }, []);
  return (
    <dialog
      ref={dialog}
      class="bench-lock"
      aria-modal="true"
      aria-label="Locked for wiping"
      onCancel={(event) => event.preventDefault()}
      // A second Escape shuts a dialog whatever the page says; only the button is to.
      onClose={() => locked.peek() && dialog.current?.showModal()}
    >
      <p class="step">Locked for wiping. Nothing counts until the button is held.</p>
      <HoldPress
        class="main"
        act={() => {
          locked.value = false;
        }}
      >
        Unlock
      </HoldPress>
    </dialog>
  );
}
