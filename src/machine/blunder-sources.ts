/** Sources that differ about one figure, and dates that cannot be. */
import type { Checkable } from './blunder.ts';
import { type AnyFigure, type AnySaid, counting, sameValue, writeSaid } from './counts.ts';
import { middle, type Quantity } from './figure.ts';
import { type Finding, say } from './finding.ts';
import { memberPath } from './problem.ts';

/** Sources that differ by this factor do not both mean what they say, dimensionless. */
const FAR_APART = 3;
/** Charge volts that differ by more than this leave one of the two wrong for the other's part, V. */
const VOLTS_APART = 0.4;

/** Every figure under a value with its path. */
function figures(value: unknown, path: string, out: { path: string; figure: AnyFigure }[] = []) {
  if (typeof value !== 'object' || value === null) return out;
  if (Array.isArray(value)) {
    for (const [n, item] of value.entries()) figures(item, `${path}[${n}]`, out);
  } else if ('is' in value && 'from' in value && 'also' in value) {
    out.push({ path, figure: value as unknown as AnyFigure });
  } else {
    for (const [key, inner] of Object.entries(value)) figures(inner, memberPath(path, key), out);
  }
  return out;
}

function isQuantity(value: unknown): value is Quantity {
  return typeof value === 'object' && value !== null && 'low' in value && 'high' in value;
}

const digits = (text: string) => (text.match(/\d+(?:[.,]\d+)?/g) ?? []).join(' ');

export function sourceFindings(machine: Checkable): readonly Finding[] {
  const out: Finding[] = [];
  const titled = (said: AnySaid) => `"${machine.sources[said.from]?.title ?? said.from}"`;
  for (const section of ['charging', 'parts', 'fasteners', 'chains', 'shims', 'fluids'] as const) {
    for (const { path, figure } of figures(machine[section], `$.${section}`)) {
      const counts = counting(machine, figure);
      [figure, ...figure.also].forEach((said, n) => {
        if (said === counts || sameValue(said, counts)) return;
        const at = n === 0 ? path : `${path}.also[${n - 1}]`;
        const why = `${titled(said)} says ${writeSaid(said)}, ${titled(counts)} says ${writeSaid(counts)}`;
        out.push(difference(machine, at, said, counts, why));
      });
    }
  }
  return out;
}

function difference(machine: Checkable, path: string, said: AnySaid, counts: AnySaid, why: string): Finding {
  const [a, b] = [said.is, counts.is];
  const lookUp = 'Look both up again, with their units';
  if (isQuantity(a) && isQuantity(b)) {
    const ratio = middle(a) / middle(b);
    const factor = Math.max(ratio, 1 / ratio);
    if (digits(a.text) === digits(b.text) && factor > 1.2) {
      const what = 'two sources give one figure in two units';
      return { level: 'doubt', topic: 'unit', path, what, why: `${why}, ${say(factor)} times apart`, lookUp };
    }
    const volts = path.startsWith('$.charging.regulator.chargeVolts');
    const gap = Math.max(a.low - b.high, b.low - a.high);
    // A figure at another engine speed may be far off and right.
    if ((factor > FAR_APART && !('at' in said)) || (volts && gap > VOLTS_APART)) {
      const what = 'two sources are too far apart for both to be right';
      return { level: 'doubt', topic: 'sources', path, what, why, lookUp };
    }
  }
  const [winner, loser] = [machine.sources[counts.from], machine.sources[said.from]];
  const reason =
    winner?.kind === 'part-sheet'
      ? `that ${winner.for} is fitted, and a new part's own sheet counts for it`
      : loser?.kind === 'part-sheet'
        ? `the ${loser.for} of the sheet is not fitted yet; once it is, its own sheet counts`
        : 'it is named first';
  const what = `sources differ; ${writeSaid(counts)} counts`;
  return {
    level: 'hint',
    topic: 'sources',
    path,
    what,
    why: `${why}; ${reason}`,
    lookUp: 'Look at both before buying or tightening',
  };
}

/** Month and day that no calendar has. */
function badDate(text: string): string | null {
  const found = /^(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?$/.exec(text);
  if (!found) return 'it is not written as year, year-month or year-month-day';
  const [year, month, day] = [Number(found[1]), Number(found[2] ?? 1), Number(found[3] ?? 1)];
  if (month < 1 || month > 12) return `there is no month ${found[2]}`;
  const last =
    month === 2
      ? year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0)
        ? 29
        : 28
      : [4, 6, 9, 11].includes(month)
        ? 30
        : 31;
  return day < 1 || day > last ? `that month has ${last} days` : null;
}

/** Years and dates that cannot be. `thisYear` is null where nobody knows it. */
export function dateFindings(machine: Checkable, thisYear: number | null): readonly Finding[] {
  const out: Finding[] = [];
  const built = machine.about?.year ?? null;
  const add = (path: string, what: string, why: string) => {
    out.push({
      level: 'doubt',
      topic: 'date',
      path,
      what,
      why,
      lookUp: 'Look up the year on the frame, the book or your notes',
    });
  };
  // Next year's models are sold this year.
  if (built !== null && thisYear !== null && built > thisYear + 1)
    add('$.about.year', 'the bike is not built yet', `It says ${built}, and this is ${thisYear}`);
  for (const [id, source] of Object.entries(machine.sources)) {
    if (source.date === null) continue;
    const path = `${memberPath('$.sources', id)}.date`;
    const bad = badDate(source.date.trim());
    if (bad !== null) {
      add(
        path,
        `"${source.date}" is no date`,
        bad.replace(/^./, (letter) => letter.toUpperCase()),
      );
      continue;
    }
    const year = Number(source.date.trim().slice(0, 4));
    if (thisYear !== null && year > thisYear)
      add(path, 'the source is of the future', `It says ${source.date}, and this is ${thisYear}`);
    else if (year < 1900) add(path, 'the source is too old', `It says ${source.date}`);
    else if (source.kind === 'measured' && built !== null && year < built - 1)
      add(path, 'it was measured before the bike was built', `Measured in ${year}, built in ${built}`);
  }
  return out;
}
