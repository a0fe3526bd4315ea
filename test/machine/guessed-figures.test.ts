/** Which figures nobody has said. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { guessedFigures } from '../../src/machine/guessed-figures.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import type { Answers } from '../../src/start/answers.ts';
import { fileFromAnswers } from '../../src/start/file-from-answers.ts';

function guessed(text: string): readonly string[] {
  const read = readMachine(text, 'test.json');
  if (!read.ok) throw new Error(read.problems[0]?.what);
  return guessedFigures(read.machine);
}

function begun(answers: Answers): readonly string[] {
  const made = fileFromAnswers(answers, '2026-11-28');
  if (!made.ok) throw new Error(made.problems[0]?.why);
  return guessed(made.text);
}

test('of a file that knows nothing all of them, of one that was told the ones that were left open', () => {
  expect(begun({ template: 'primary' })).toEqual([
    'AC volts',
    'rated amps',
    'winding',
    'charging volts',
    'battery',
  ]);
  expect(
    begun({ template: 'primary', rated: '34 A', batteryCapacity: '18 Ah', acVolts: '17 V at 1000 rpm' }),
  ).toEqual(['winding', 'charging volts']);
});

test('of a bike whose book and labels say them none; a guess that counts is one, whoever else speaks', () => {
  const text = readFileSync('machines/ardmoor-650-pathway.json', 'utf8');
  expect(guessed(text)).toEqual([]);
  const first = text.replace(
    '"is": "34 A ± 8 %", "at": "5000 rpm", "from": "book"',
    '"is": "34 A ± 8 %", "at": "5000 rpm", "from": "guess"',
  );
  expect(first).not.toBe(text);
  expect(guessed(first)).toEqual(['rated amps']);
});
