/** What the app needs of the browser around it, in one place: storage, timers, this device's name. */
import { isDevice } from '../job/stamp.ts';
import type { Shelf } from './outbox.ts';

/** The browser's own storage; it throws where storage is full or forbidden, and the outbox then holds on itself. */
export const browserShelf: Shelf = {
  keys: () => {
    try {
      return Array.from({ length: localStorage.length }, (_, index) => localStorage.key(index) ?? '');
    } catch {
      return [];
    }
  },
  get: (key) => {
    try {
      return localStorage.getItem(key);
    } catch {
      return null;
    }
  },
  set: (key, text) => localStorage.setItem(key, text),
  remove: (key) => {
    try {
      localStorage.removeItem(key);
    } catch {
      // Nothing was stored then.
    }
  },
};

/** Keeps a small setting; a browser that stores nothing merely forgets it. */
export function keepSetting(name: string, value: string): void {
  try {
    localStorage.setItem(`chargewright.${name}`, value);
  } catch {
    // Forgotten at the next start, as the browser wants it.
  }
}

export function readSetting(name: string): string | null {
  return browserShelf.get(`chargewright.${name}`);
}

export function later(act: () => void, ms: number): () => void {
  const timer = setTimeout(act, ms);
  return () => clearTimeout(timer);
}

/** This browser's name in event ids: made once and kept. */
export function deviceName(): string {
  const kept = readSetting('device');
  if (kept !== null && isDevice(kept)) return kept;
  const letters = crypto.getRandomValues(new Uint8Array(8));
  const made = `w${Array.from(letters, (byte) => (byte % 36).toString(36)).join('')}`;
  keepSetting('device', made);
  return made;
}
