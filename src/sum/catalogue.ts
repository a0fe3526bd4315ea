/** The list of sums, in the order they are shown. */
import { BOOK_STAGES } from './book-stages.ts';
import { BREAK_LOOSE } from './break-loose.ts';
import { CHAIN_LENGTH, CHAIN_SLACK, CHAIN_WEAR } from './chain.ts';
import { LOCKER, SEALANT } from './clocks.ts';
import { ENGAGEMENT } from './engagement.ts';
import { JOINT } from './joint.ts';
import { LOAD_BALANCE } from './load-balance.ts';
import { LOCK_BAR } from './lock-bar.ts';
import { OTHER_LOCKER } from './other-locker.ts';
import { SHIMS } from './shims.ts';
import { STACK_UP } from './stack-up.ts';
import { STAGES } from './stages.ts';
import type { Sum } from './sum.ts';
import { TIGHT_SPOT } from './tight-spot.ts';
import { WIRE } from './wire.ts';
import { WRENCH } from './wrench.ts';
import { WRENCH_CHOICE } from './wrench-choice.ts';

export const SUMS: readonly Sum[] = [
  WRENCH,
  WRENCH_CHOICE,
  BOOK_STAGES,
  STAGES,
  JOINT,
  ENGAGEMENT,
  CHAIN_LENGTH,
  CHAIN_SLACK,
  TIGHT_SPOT,
  CHAIN_WEAR,
  SHIMS,
  STACK_UP,
  LOCKER,
  OTHER_LOCKER,
  SEALANT,
  BREAK_LOOSE,
  LOCK_BAR,
  WIRE,
  LOAD_BALANCE,
];
