/**
 * One look at the text of a machine file: what does not fit the shape, what is a blunder, and how the file is to be
 * marked. Nothing keeps it from being saved. A section, or an entry of one, that cannot be read does not hide the
 * blunders of the others: the check goes on with what could be read.
 */

import type { Checkable } from './blunder.ts';
import { checkMachine } from './blunder.ts';
import { type Machine, SECTIONS } from './definition.ts';
import { LEVELS, type PlacedFinding } from './finding.ts';
import type { JsonNode } from './json-text.ts';
import { fastenerShape } from './mechanical-definition.ts';
import { memberPath, type Problem } from './problem.ts';
import { byPlace, find, member, readShape } from './read-machine.ts';
import type { Desk, Shape } from './shape.ts';

/** `broken`: it does not fit the shape. `impossible` and so on: the worst finding. `clean`: at most hints. */
export type Mark = 'broken' | 'impossible' | 'danger' | 'doubt' | 'clean';

export interface FileJudged {
  readonly mark: Mark;
  readonly problems: readonly Problem[];
  /** Worst first, within a level in the order of the file. */
  readonly findings: readonly PlacedFinding[];
  /** The machine, when the whole file fits its shape. It may contradict itself: `findings` say so. */
  readonly machine: Machine | null;
}

/** Judges a text; `fileName` is only for the messages, `thisYear` the year of the caller's clock. Never throws. */
export function judgeFile(text: string, fileName: string, thisYear: number | null = null): FileJudged {
  const { root, readable, machine, problems } = readShape(text, fileName);
  const checkable = machine ?? (readable === null ? null : partsThatRead(readable));
  const placed: PlacedFinding[] =
    root === null || checkable === null
      ? []
      : checkMachine(checkable, thisYear).map((finding) => {
          const { line, column } = find(root, finding.path);
          return { ...finding, line, column };
        });
  const findings = placed.sort((a, b) => LEVELS.indexOf(a.level) - LEVELS.indexOf(b.level) || byPlace(a, b));
  const worst = findings[0]?.level ?? 'hint';
  const mark = problems.length > 0 ? 'broken' : worst === 'hint' ? 'clean' : worst;
  return { mark, problems: [...problems].sort(byPlace), findings, machine };
}

/** The sections of a spoilt file that fit their shape, silently; of the fasteners every one that does. */
function partsThatRead(root: JsonNode): Checkable | null {
  const sources = member(root, 'sources');
  const desk: Desk = {
    sourceIds: sources?.type === 'object' ? sources.entries.map(({ key }) => key) : [],
    complain: () => {},
  };
  const read = <T>(key: string, shape: Shape<unknown>): T | null => {
    const node = member(root, key);
    return node === undefined ? null : ((shape.read(node, `$.${key}`, desk) as T | undefined) ?? null);
  };
  const section = <K extends keyof typeof SECTIONS>(key: K) => read<never>(key, SECTIONS[key].shape);
  const named: Machine['sources'] | null = section('sources');
  if (named === null) return null;
  const fasteners = member(root, 'fasteners');
  const whole = Object.fromEntries(
    (fasteners?.type === 'object' ? fasteners.entries : []).flatMap(({ key, value }) => {
      const one = fastenerShape.read(value, memberPath('$.fasteners', key), desk);
      return one === undefined ? [] : [[key, one]];
    }),
  );
  // Where an entry is missing only because it could not be read, ids that lead to it are no blunder.
  const all = fasteners?.type === 'object' && fasteners.entries.length === Object.keys(whole).length;
  const parts: Machine['parts'] = section('parts');
  const fluids: Machine['fluids'] = section('fluids');
  return {
    about: section('about'),
    sources: named,
    charging: section('charging'),
    parts: all ? parts : each(parts, (one) => ({ ...one, heldBy: null })),
    fasteners: Object.keys(whole).length === 0 ? null : whole,
    chains: section('chains'),
    shims: section('shims'),
    fluids: all ? fluids : each(fluids, (one) => ({ ...one, plug: null })),
    work: section('work'),
  };
}

function each<T>(
  entries: Readonly<Record<string, T>> | null,
  change: (one: T) => T,
): Readonly<Record<string, T>> | null {
  return entries && Object.fromEntries(Object.entries(entries).map(([id, one]) => [id, change(one)]));
}
