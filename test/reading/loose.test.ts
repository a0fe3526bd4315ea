/** A joint that is bad only while the harness is moved, and a meter whose AC range rolls off. */
import { describe, expect, it } from 'vitest';
import { FINE } from '../../src/circuit/stepper.ts';
import type { Instance } from '../../src/fault/build.ts';
import { completeKey } from '../../src/reading/catalogue.ts';
import { readKey } from '../../src/reading/key.ts';
import { type Hands, newSubject, show, USUAL } from '../../src/reading/show.ts';
import { built, instance, REFERENCE } from '../fault/three-machines.ts';

const reader = (hands: Hands, ...faults: Instance[]) => {
  const subject = newSubject(REFERENCE, built(REFERENCE, ...faults), hands, FINE);
  return (text: string) => show(subject, completeKey(readKey(text)!));
};
const sound = reader(USUAL);

describe('a loose joint', () => {
  it.each([
    ['breaker-joint', 'drop_breaker'],
    ['output-joint', 'drop_dcplug'],
    ['ground-joint', 'drop_neg'],
  ] as const)('%s: loses volts while the harness is moved, and only then', (id, kind) => {
    const loose = reader(USUAL, instance(id, 0.9, 0, 2));
    const key = `${kind} lights=low rpm=3000`;
    expect(loose(key)).toBe(sound(key));
    expect(loose(`${key} wiggle=True`)).toBeGreaterThan(sound(key) + 0.3);
    expect(loose(`batt_volts lights=low rpm=3000 wiggle=True`)).not.toBe(
      loose('batt_volts lights=low rpm=3000'),
    );
  });

  it('moving the harness of a sound bike changes nothing', () => {
    expect(sound('drop_breaker lights=low rpm=3000 wiggle=True')).toBe(
      sound('drop_breaker lights=low rpm=3000'),
    );
  });
});

describe('a meter with a roll-off', () => {
  it('shows 1/√2 of the volts at its corner (first-order low-pass, textbook)', () => {
    // The book names no poles, so 14 are taken: 7 · 3000 / 60 = 350 Hz.
    const dull = reader({ ...USUAL, acHertz: 350 });
    const key = 'stator_ac pair=ab rpm=3000 temp=cold';
    expect(dull(key) / sound(key)).toBeCloseTo(Math.SQRT1_2, 9);
  });
});
