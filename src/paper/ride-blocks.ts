/** Whether the battery stays charged in the owner's life, on paper: the ride as it was told, and what was reckoned of it. */
import { balanceRide, rideMachine } from '../circuit/ride-balance.ts';
import { checkRideLife } from '../circuit/ride-legs.ts';
import {
  ESTIMATE,
  evenWords,
  legWords,
  levelWords,
  lifeWords,
  loadWords,
  reasonWords,
  VERDICT_WORDS,
} from '../circuit/ride-words.ts';
import type { JobState } from '../job/fold.ts';
import type { Machine } from '../machine/definition.ts';
import { allRepairs, repairedSpec } from '../proof/repaired.ts';
import type { Block } from './document.ts';
import { heading, list, words } from './make-block.ts';

const TITLE = 'Does it stay charged in this owner’s life?';

/** Nothing where nobody told how the owner rides, or the machine file is not here. */
export function rideBlocks(state: JobState, machine: Machine | null): readonly Block[] {
  const { life } = state;
  if (life === null || machine === null) return [];
  const looked = checkRideLife(life);
  if (!looked.ok) return [heading(1, TITLE), words(`What was told of it cannot be ridden: ${looked.why}`)];
  const balance = balanceRide(rideMachine(repairedSpec(machine, allRepairs(state))), life);
  return [
    heading(1, TITLE),
    words(`${VERDICT_WORDS[balance.verdict]}. ${lifeWords(life)}`),
    ...list([...life.legs.map(legWords), ...life.loads.map(loadWords)]),
    ...list([...balance.reasons.map(reasonWords), ...levelWords(balance)]),
    ...(balance.worst ? [words(evenWords(balance.worst))] : []),
    words(ESTIMATE),
  ];
}
