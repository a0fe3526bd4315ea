/** The repairs as they may be advised: none on readings that nothing in the catalogue explains. */
import type { Answer, RepairLine } from '../verdict/answer.ts';

/** Above this the readings are rather of another bike, or set up otherwise, than of any fault known, 0–1. */
const UNEXPLAINED = 0.5;

/** Whether the readings are explained well enough to act on what they say of single parts. */
export function isExplained(answer: Answer): boolean {
  return !answer.misfit && answer.noneOfThese <= UNEXPLAINED;
}

/** The lines of the answer; where nothing explains the readings each of them is to be left. */
export function advisedLines(answer: Answer): readonly RepairLine[] {
  if (isExplained(answer)) return answer.repairs;
  return answer.repairs.map((line) => ({ ...line, worthDoing: false, whileOpen: false, saves: 0 }));
}
