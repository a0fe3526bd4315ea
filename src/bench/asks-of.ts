/** Everything a step asks for, in the order in which the hand meets it. */
import type { Texts } from '../sum/sum.ts';
import type { Ask, AskId, Asking, AskKind, Judged } from './ask.ts';
import { COUNT_ASK, FILL_ASK, INSULATION_ASK, NEW_ASK } from './close-asks.ts';
import { CLEAR_ASK, DRY_ASK, GAP_ASK, MAGNETS_ASK, PLUG_ASK, RETAINED_ASK, RUN_ASK } from './look-asks.ts';
import { SLACK_AGAIN_ASK, SLACK_ASK } from './slack-ask.ts';
import { STACK_BACK_ASK, STACK_FOUND_ASK } from './stack-asks.ts';
import { TORQUE_ASK } from './torque-ask.ts';
import { DIRECTION_ASK, LENGTHS_ASK } from './undo-asks.ts';
import { BEAD_ASK, LOCKER_ASK } from './wet-asks.ts';

const KINDS: Readonly<Record<AskId, AskKind>> = {
  direction: DIRECTION_ASK,
  lengths: LENGTHS_ASK,
  'stack-found': STACK_FOUND_ASK,
  run: RUN_ASK,
  plug: PLUG_ASK,
  new: NEW_ASK,
  dry: DRY_ASK,
  magnets: MAGNETS_ASK,
  gap: GAP_ASK,
  bead: BEAD_ASK,
  locker: LOCKER_ASK,
  torque: TORQUE_ASK,
  slack: SLACK_ASK,
  'slack-again': SLACK_AGAIN_ASK,
  retained: RETAINED_ASK,
  clear: CLEAR_ASK,
  insulation: INSULATION_ASK,
  'stack-back': STACK_BACK_ASK,
  fill: FILL_ASK,
  count: COUNT_ASK,
};

/** What this step asks for; empty for most. */
export function asksOf(asking: Asking): readonly Ask[] {
  return Object.values(KINDS).flatMap(({ ask }) => ask(asking) ?? []);
}

/** What a record would be: sound, or what it lacks. Throws RangeError for an ask that this version does not know. */
export function judge(asking: Asking, id: string, texts: Texts, yes: readonly string[]): Judged {
  if (!isAsk(id)) throw new RangeError(`id must be an ask of the bench, got ${id}`);
  return KINDS[id].judge(asking, texts, yes);
}

export function isAsk(id: string): id is AskId {
  return Object.hasOwn(KINDS, id);
}
