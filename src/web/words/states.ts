/** The state words of a reading key as questions and answers on big segments. */

interface Words {
  readonly ask: string;
  readonly answers: Readonly<Record<string, string>>;
}

const YES_NO = (yes: string, no: string): Readonly<Record<string, string>> => ({
  True: yes,
  False: no,
  true: yes,
  false: no,
});

const WORDS: Readonly<Record<string, Words>> = {
  rpm: { ask: 'Engine speed, rpm', answers: { idle: 'idle' } },
  lights: { ask: 'Lights', answers: { off: 'off', low: 'low beam', high: 'high beam' } },
  temp: { ask: 'Engine', answers: { cold: 'cold', hot: 'at heat' } },
  pair: { ask: 'Between which pins', answers: { ab: 'a–b', bc: 'b–c', ca: 'c–a' } },
  pin: { ask: 'Which pin', answers: {} },
  red: { ask: 'Red tip on', answers: { pos: 'DC +', neg: 'DC −' } },
  black: { ask: 'Black tip on', answers: { pos: 'DC +', neg: 'DC −' } },
  cell: { ask: 'Cell, counted from the + post', answers: {} },
  probe: { ask: 'Tips on', answers: { post: 'the posts', clamp: 'the clamps' } },
  state: { ask: 'While', answers: { crank: 'cranking', lights: 'lights on' } },
  charged: { ask: 'Battery', answers: YES_NO('charged on the bench', 'as it came') },
  acc: { ask: 'Accessories', answers: YES_NO('on', 'off') },
  wiggle: { ask: 'Harness', answers: YES_NO('moved by hand', 'left alone') },
  loaded: { ask: '220 Ω across the meter', answers: YES_NO('yes', 'no') },
  through_plug: { ask: 'Measured', answers: YES_NO('through the mated plug', 'at the stator itself') },
  what: { ask: 'Look for', answers: {} },
};

/** The question a state word asks. */
export function askOf(name: string): string {
  return WORDS[name]?.ask ?? name.replaceAll('_', ' ');
}

/** An answer in words. */
export function answerOf(name: string, value: string): string {
  return WORDS[name]?.answers[value] ?? value.replaceAll('_', ' ');
}
