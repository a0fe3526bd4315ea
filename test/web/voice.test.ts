/** Speaking and hearing with a browser's voice and ear played by stubs: both give up in time, and say so once. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { canHear, canSpeak, hush, listen, speak } from '../../src/web/voice.ts';

interface Utterance {
  readonly text: string;
  onstart?: () => void;
  onerror?: (event: { readonly error: string }) => void;
}

class Ear {
  static newest: Ear | null = null;
  onresult: ((event: unknown) => void) | null = null;
  onend: (() => void) | null = null;
  onerror: (() => void) | null = null;
  started = 0;
  aborted = 0;
  constructor() {
    Ear.newest = this;
  }
  start(): void {
    this.started += 1;
  }
  abort(): void {
    this.aborted += 1;
    this.onend?.();
  }
  hear(words: string): void {
    this.onresult?.({ results: [[{ transcript: 'what was before' }], [{ transcript: words }]] });
  }
}

beforeEach(() => void vi.useFakeTimers());
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe('reading aloud', () => {
  const voice = () => {
    const said: Utterance[] = [];
    const cancel = vi.fn();
    vi.stubGlobal('speechSynthesis', { cancel, speak: (one: Utterance) => said.push(one) });
    vi.stubGlobal(
      'SpeechSynthesisUtterance',
      class {
        readonly text: string;
        constructor(text: string) {
          this.text = text;
        }
      },
    );
    return { said, cancel };
  };

  it('fails once where no voice begins within four seconds', () => {
    const { said } = voice();
    const failed = vi.fn();
    speak('Undo the nut', failed);
    expect(said.map(({ text }) => text)).toEqual(['Undo the nut']);
    vi.advanceTimersByTime(3999);
    expect(failed).not.toHaveBeenCalled();
    vi.advanceTimersByTime(60_000);
    expect(failed).toHaveBeenCalledTimes(1);
  });

  it('is content with a voice that begins in time', () => {
    const { said } = voice();
    const failed = vi.fn();
    speak('Undo the nut', failed);
    vi.advanceTimersByTime(3000);
    said[0]!.onstart!();
    vi.advanceTimersByTime(60_000);
    expect(failed).not.toHaveBeenCalled();
  });

  it('fails at once on an error, and not where the next step cut it short', () => {
    const { said, cancel } = voice();
    const [cut, broken] = [vi.fn(), vi.fn()];
    speak('one', cut);
    said[0]!.onerror!({ error: 'interrupted' });
    speak('two', broken);
    said[1]!.onerror!({ error: 'synthesis-failed' });
    vi.advanceTimersByTime(60_000);
    expect(cut).not.toHaveBeenCalled();
    expect(broken).toHaveBeenCalledTimes(1);
    hush();
    expect(cancel).toHaveBeenCalledTimes(3);
  });

  it('says at once that a browser has no voice', () => {
    const failed = vi.fn();
    expect(canSpeak()).toBe(false);
    speak('one', failed);
    expect(failed).toHaveBeenCalledTimes(1);
    hush();
  });
});

describe('listening', () => {
  const ear = (heard = vi.fn(), ended = vi.fn()) => {
    vi.stubGlobal('webkitSpeechRecognition', Ear);
    const stop = listen(heard, ended);
    return { heard, ended, stop, is: Ear.newest! };
  };

  it('hears the newest phrase, and stops after half a minute of nothing', () => {
    const { heard, ended, is } = ear();
    expect([canHear(), is.started]).toEqual([true, 1]);
    vi.advanceTimersByTime(29_000);
    is.hear('next');
    expect(heard).toHaveBeenCalledWith('next');
    vi.advanceTimersByTime(29_999);
    expect(ended).not.toHaveBeenCalled();
    vi.advanceTimersByTime(1);
    expect(ended).toHaveBeenCalledTimes(1);
    expect(is.aborted).toBe(1);
    // What comes late is not heard any more.
    is.hear('done');
    expect(heard).toHaveBeenCalledTimes(1);
  });

  it('ends once when the browser ends it, fails, or is told to stop twice', () => {
    for (const end of ['onend', 'onerror'] as const) {
      const { ended, is, stop } = ear();
      is[end]!();
      stop();
      vi.advanceTimersByTime(60_000);
      expect(ended).toHaveBeenCalledTimes(1);
    }
  });

  it('ends at once where it may not start, and where there is no ear', () => {
    vi.stubGlobal(
      'SpeechRecognition',
      class extends Ear {
        override start(): void {
          throw new Error('not allowed');
        }
      },
    );
    const [refused, none] = [vi.fn(), vi.fn()];
    listen(vi.fn(), refused);
    expect(refused).toHaveBeenCalledTimes(1);
    vi.unstubAllGlobals();
    expect(canHear()).toBe(false);
    listen(vi.fn(), none)();
    expect(none).toHaveBeenCalledTimes(1);
  });
});
