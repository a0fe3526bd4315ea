/** Speaking and hearing, where the browser has them; both give up quietly, and nothing waits for them. */

/** How long a voice may take to begin, ms: home-screen apps have the function and no voice. */
const VOICE_MS = 4000;
/** How long it listens for one word, ms. */
const LISTEN_MS = 30_000;

interface Heard {
  readonly results: ArrayLike<ArrayLike<{ readonly transcript: string }>>;
}
interface Recognition {
  lang: string;
  continuous: boolean;
  onresult: ((event: Heard) => void) | null;
  onend: (() => void) | null;
  onerror: (() => void) | null;
  start(): void;
  abort(): void;
}
type RecognitionClass = new () => Recognition;

function recognitionClass(): RecognitionClass | null {
  const has = globalThis as {
    SpeechRecognition?: RecognitionClass;
    webkitSpeechRecognition?: RecognitionClass;
  };
  return has.SpeechRecognition ?? has.webkitSpeechRecognition ?? null;
}

export const canSpeak = (): boolean => 'speechSynthesis' in globalThis;
export const canHear = (): boolean => recognitionClass() !== null;

/** Speaks a text; `failed` is called once when no voice begins in time. */
export function speak(text: string, failed: () => void): void {
  if (!canSpeak()) {
    failed();
    return;
  }
  speechSynthesis.cancel();
  const said = new SpeechSynthesisUtterance(text);
  said.lang = 'en';
  const timer = setTimeout(failed, VOICE_MS);
  said.onstart = () => clearTimeout(timer);
  said.onerror = (event) => {
    clearTimeout(timer);
    if (event.error !== 'canceled' && event.error !== 'interrupted') failed();
  };
  speechSynthesis.speak(said);
}

export function hush(): void {
  if (canSpeak()) speechSynthesis.cancel();
}

/** Listens, phrase by phrase, until nothing was heard for a while; gives the way to stop. */
export function listen(heard: (words: string) => void, ended: () => void): () => void {
  const Made = recognitionClass();
  if (!Made) {
    ended();
    return () => undefined;
  }
  let open = true;
  let timer: ReturnType<typeof setTimeout>;
  const ear = new Made();
  const stop = (): void => {
    if (!open) return;
    open = false;
    clearTimeout(timer);
    ear.onresult = ear.onend = ear.onerror = null;
    try {
      ear.abort();
    } catch {
      // It had ended already.
    }
    ended();
  };
  const wait = (): void => {
    clearTimeout(timer);
    timer = setTimeout(stop, LISTEN_MS);
  };
  ear.lang = 'en';
  ear.continuous = true;
  ear.onresult = ({ results }) => {
    wait();
    heard(results[results.length - 1]?.[0]?.transcript ?? '');
  };
  ear.onend = stop;
  ear.onerror = stop;
  wait();
  try {
    ear.start();
  } catch {
    stop();
  }
  return stop;
}
