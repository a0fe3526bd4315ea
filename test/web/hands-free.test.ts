/** Keys, spoken words and spoken steps at the bench. */
import { describe, expect, it } from 'vitest';
import { sayLeft } from '../../src/web/clock-words.ts';
import { keyAct } from '../../src/web/hands-free.ts';
import { heardAct, spoken } from '../../src/web/voice-words.ts';

describe('a key at the bench', () => {
  it('ticks and turns; a pedal does so wherever the focus is, but never into a field', () => {
    expect(keyAct(' ', false, false)).toBe('done');
    expect(keyAct('PageDown', true, false)).toBe('done');
    expect(keyAct('PageUp', true, false)).toBe('back');
    // Space on a button is the button's.
    expect(keyAct(' ', true, false)).toBeNull();
    expect(keyAct('PageDown', false, true)).toBeNull();
    expect(keyAct('a', false, false)).toBeNull();
  });
});

describe('a word at the bench', () => {
  it('is taken when it means one thing', () => {
    expect(heardAct('OK, done')).toBe('done');
    expect(heardAct('Next please')).toBe('next');
    expect(heardAct('go back')).toBe('back');
    expect(heardAct('say that again')).toBe('again');
    expect(heardAct('the background')).toBeNull();
    expect(heardAct('done, next')).toBeNull();
  });
});

describe('a step read aloud', () => {
  it('says the caution first and units as words', () => {
    expect(spoken({ does: 'Torque it', caution: 'Long bar.', torque: '19–28.5 N·m (14–21 lbf·ft)' })).toBe(
      'Caution. Long bar.. Torque it. 19 to 28.5  newton metres (14 to 21  foot pounds)',
    );
  });
});

describe('what is left of a time', () => {
  it.each([
    [0, '0:00'],
    [-5, '0:00'],
    [61, '1:01'],
    [3600, '1 h 00'],
    [26 * 3600, '1 d 2 h'],
  ])('%i s is %s', (seconds, words) => expect(sayLeft(seconds)).toBe(words));
});
