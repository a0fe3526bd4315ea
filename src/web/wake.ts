/** Keeps the screen on while a page is open, where the browser can; asked for again at a touch, as browsers want it. */

export type Awake = 'asking' | 'on' | 'cannot';

/** Asks at once, at each touch and whenever the page comes back; gives the way to stop. */
export function keepAwake(tell: (awake: Awake) => void): () => void {
  if (!('wakeLock' in navigator)) {
    tell('cannot');
    return () => undefined;
  }
  let lock: WakeLockSentinel | null = null;
  let open = true;
  const ask = (): void => {
    if (!open || (lock && !lock.released) || document.visibilityState !== 'visible') return;
    navigator.wakeLock.request('screen').then(
      (got) => {
        if (!open) {
          void got.release();
          return;
        }
        lock = got;
        tell('on');
        got.addEventListener('release', () => open && tell('asking'));
      },
      // Low battery, or no touch yet: the next touch asks again.
      () => open && tell('asking'),
    );
  };
  document.addEventListener('visibilitychange', ask);
  document.addEventListener('pointerup', ask);
  ask();
  return () => {
    open = false;
    document.removeEventListener('visibilitychange', ask);
    document.removeEventListener('pointerup', ask);
    void lock?.release();
  };
}
