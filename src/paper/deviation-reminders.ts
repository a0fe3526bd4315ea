/** What was done otherwise, as something to look at again: by its kind and its step, without a word that somebody typed. */
import { consequence, deviationsOf } from '../bench/deviations.ts';
import { type JobBench, stepWords } from './job-bench.ts';
import type { Reminder } from './reminders.ts';

type Said = Pick<Reminder, 'id' | 'title' | 'does' | 'source'>;

const SEALS = /gasket|seal|o-?ring|sealing|crush|washer/i;
/** Words that the program itself offers for choice: they tell nothing of anybody. */
const OFFERED: ReadonlySet<string> = new Set(
  'none low medium high neutral acid steel aluminium stainless plated yes no'.split(' '),
);
const FIGURE = /^[\d\s.,;/×x·+−-]+[\p{L}·°"”%Ω]{0,8}$/u;

/** One reminder for each step at which something was done otherwise, in the order in which it was first noted. */
export function deviationReminders(bench: JobBench): readonly Said[] {
  const { state, places, askingOf } = bench;
  const byStep = new Map<string, string[]>();
  for (const deviation of deviationsOf(state.bench, askingOf)) {
    const says = plainly(bench, deviation.event, deviation.says);
    byStep.set(deviation.step, [...(byStep.get(deviation.step) ?? []), ...says]);
  }
  return [...byStep].map(([step, says]) => ({
    id: `otherwise.${step}`,
    title: 'Look again: done otherwise',
    does: [`At the step “${stepWords(places, step)}”:`, ...new Set(says)],
    source: 'From this job’s own log; what follows from it is told in its record.',
  }));
}

const UNSAID =
  'Something was done otherwise than the book wants: look at it, the record of the job says what.';

function plainly({ state, askingOf }: JobBench, event: string, says: readonly string[]): readonly string[] {
  const noted = state.bench.deviations.find((one) => one.event === event);
  if (noted) {
    const { what, used, step } = noted;
    if (what === 'used-again')
      return [
        SEALS.test(used)
          ? 'A gasket or seal that is meant to be used once went on again: look for leaks, replace it when it is next open.'
          : 'A part that is meant to be used once went on again: look at it, replace it when it is next open.',
      ];
    if (what === 'torque')
      return ['It was tightened otherwise than the book wants: check it with the wrench.'];
    return OFFERED.has(used) ? consequence(askingOf(step), { what, used }) : [UNSAID];
  }
  const record = state.bench.records.find((one) => one.event === event);
  const typed = Object.values(record?.words ?? {})
    .map((word) => word.trim())
    .filter((word) => word !== '' && !OFFERED.has(word) && !FIGURE.test(word));
  const safe = says.filter((one) => !typed.some((word) => one.includes(word)));
  return safe.length > 0 ? safe : [UNSAID];
}
