/** A tone that is heard over a compressor: three short ones. Silent where the browser has no sound or no touch yet. */

const TONE_HZ = 880;
const SHORT_S = 0.18;
const GAP_S = 0.14;

let sound: AudioContext | null = null;

/** Sounds three short tones. */
export function beep(): void {
  try {
    sound ??= new AudioContext();
    const context = sound;
    void context.resume().catch(() => undefined);
    for (let n = 0; n < 3; n++) {
      const [tone, gain] = [context.createOscillator(), context.createGain()];
      tone.frequency.value = TONE_HZ;
      gain.gain.value = 0.3;
      tone.connect(gain).connect(context.destination);
      const at = context.currentTime + n * (SHORT_S + GAP_S);
      tone.start(at);
      tone.stop(at + SHORT_S);
    }
  } catch {
    // No sound here: the flash and the words are there all the same.
  }
  // Absent on some phones.
  navigator.vibrate?.([200, 120, 200, 120, 200]);
}
