/** What this browser can do for the work at the lift: tried out where that is possible without asking anything of anyone. */

export interface Tried {
  readonly what: string;
  readonly can: 'yes' | 'no' | 'asks';
  /** What follows from it for the mechanic. */
  readonly means: string;
}

const yesNo = (can: boolean): 'yes' | 'no' => (can ? 'yes' : 'no');

/** Tries to keep a few letters in IndexedDB and read them back. */
async function keeps(): Promise<boolean> {
  try {
    const { openBrowserStore } = await import('./browser-store.ts');
    const store = openBrowserStore('chargewright-self-test');
    await store.setText('tried', 'yes');
    const back = await store.text('tried');
    await store.close();
    indexedDB.deleteDatabase('chargewright-self-test');
    return back === 'yes';
  } catch {
    return false;
  }
}

async function worker(): Promise<Tried['can']> {
  if (!('serviceWorker' in navigator)) return 'no';
  const registration = await navigator.serviceWorker.getRegistration().catch(() => undefined);
  return registration ? 'yes' : 'asks';
}

export async function testBrowser(): Promise<readonly Tried[]> {
  const [stored, service, room] = await Promise.all([
    keeps(),
    worker(),
    navigator.storage?.estimate?.().catch(() => null) ?? null,
  ]);
  const free = room?.quota === undefined ? null : Math.round((room.quota - (room.usage ?? 0)) / 1e6);
  return [
    {
      what: 'Private connection',
      can: yesNo(isSecureContext),
      means: isSecureContext
        ? 'The browser trusts this address, or lets it count as trusted.'
        : 'Open the encrypted address: without it the browser withholds half of what follows.',
    },
    {
      what: 'Opens with the laptop switched off',
      can: service,
      means:
        service === 'yes'
          ? 'The app is kept in this browser.'
          : 'The app is not kept here. On a phone, trust the garage’s authority (second way on the page that the code opens).',
    },
    {
      what: 'Keeps jobs and entries',
      can: yesNo(stored),
      means: stored
        ? `Tried just now.${free === null ? '' : ` About ${free} MB are free.`}`
        : 'This browser stores nothing (a private window?): entries live only while the page is open.',
    },
    {
      what: 'Hears at once what others write',
      can: yesNo('EventSource' in globalThis),
      means: 'Without it the page looks again whenever you come back to it.',
    },
    {
      what: 'Screen kept awake',
      can: 'wakeLock' in navigator ? 'asks' : 'no',
      means: 'Without it, set the screen to stay on in the settings of the device.',
    },
    {
      what: 'Camera',
      can: 'mediaDevices' in navigator ? 'asks' : 'no',
      means: 'A picture can be taken through the file chooser everywhere.',
    },
    {
      what: 'Vibration',
      can: yesNo('vibrate' in navigator),
      means: 'Without it a clock that runs out flashes and sounds only.',
    },
    {
      what: 'Speaks',
      can: yesNo('speechSynthesis' in globalThis),
      means: 'An extra: everything works without.',
    },
  ];
}
