/** Plays a case to its end: asks the answerer, takes the reading it wants, until it wants none. */
import { Player, type PracticeCase } from './player.ts';
import { type GivenAnswer, type ScoreRow, scoreCase } from './score.ts';

/** What came out of one case. */
export interface Played {
  readonly row: ScoreRow;
  readonly player: Player;
  /** The last answer, as it was given. */
  readonly answer: GivenAnswer;
}

/**
 * Plays one case. `ask` puts one line to the line mode and gives back its answer line; at most `most` answers are
 * asked for. With `slips` false every reading is handed over right.
 */
export async function playCase(
  practice: PracticeCase,
  ask: (line: string) => string | Promise<string>,
  { most = 80, slips = true }: { readonly most?: number; readonly slips?: boolean } = {},
): Promise<Played> {
  const player = new Player(practice, slips);
  let answer: GivenAnswer = {};
  let blamed = false;
  for (let n = 0; n < most; n++) {
    answer = parseAnswer(await ask(player.question()));
    blamed ||=
      player.spoiled !== null && (answer.doubtful ?? []).some((doubt) => doubt.key === player.spoiled);
    if (!answer.next) break;
    player.ask(answer.next.key);
  }
  return { row: scoreCase(player, answer, blamed), player, answer };
}

function parseAnswer(line: string): GivenAnswer {
  try {
    const answer: unknown = JSON.parse(line);
    if (typeof answer === 'object' && answer !== null) return answer;
  } catch {
    // Said below: a half line and a number are the same mistake to the reader.
  }
  throw new RangeError(
    `The command answered ${JSON.stringify(line.slice(0, 80))}, which is no JSON object; it must answer one a line.`,
  );
}

/** One line of the log of a run: the scores, and what a person needs to see why. */
export function logLine({ row, player, answer }: Played): string {
  return JSON.stringify({
    ...row,
    readings: Object.fromEntries(player.have),
    truth: player.practice.truth.detail,
    answer,
  });
}
