/**
 * The smallest strip-down in which slack and shared cost matter: 17, found by trying every set of moves; 20 with the
 * adjusters seized (+40). Invented.
 */
import type { StripDown } from '../../src/way/strip-down.ts';

const FACTS = ['guard off', 'slack', 'chain off', 'oil drained', 'cover off', 'clutch off', 'sprocket off'];

export function unitStrip(seized = 0): StripDown {
  const at = (name: string) => FACTS.indexOf(name);
  const move = (id: string, needs: string[], gives: string[], cost: number) => ({
    id,
    needs: needs.map(at),
    gives: gives.map(at),
    cost,
  });
  return {
    facts: FACTS,
    start: [],
    goals: [at('sprocket off')],
    moves: [
      move('guard', [], ['guard off'], 4),
      move('adjusters', ['guard off'], ['slack'], 6 + seized),
      move('link', ['guard off'], ['chain off'], 9),
      move('off is slack', ['chain off'], ['slack'], 0),
      move('drain', [], ['oil drained'], 10),
      move('cover', ['oil drained'], ['cover off'], 14),
      move('clutch', ['cover off'], ['clutch off'], 18),
      move('sprocket', ['slack'], ['sprocket off'], 7),
      move('sprocket behind the clutch', ['clutch off'], ['sprocket off'], 5),
    ],
  };
}
