/** `merge`: one machine file made of two, difference by difference. */
import { compare } from '../draft/compare.ts';
import { choicesAt, merge, type Whose } from '../draft/merge.ts';
import { pathText, readPath, writeJson } from '../machine/json-value.ts';
import { nearest } from '../machine/nearest.ts';
import { writeProblem } from '../machine/problem.ts';
import { readMachine } from '../machine/read-machine.ts';
import type { Command } from './command.ts';
import { openMachineFile } from './open-machine-file.ts';
import type { Given } from './options.ts';
import { Refusal } from './refusal.ts';

type Differences = ReturnType<typeof compare>;

export const mergeMachines: Command = {
  name: 'merge',
  about: 'Make one machine file of two: mine, with what is taken of theirs',
  takes: 'MINE THEIRS',
  more: [
    'What is not taken stays mine. PATH is a place as "compare" writes it, such as $.charging.fuse; sources that a taken figure names come with it. The merged file goes to standard output; neither file is changed.',
  ],
  options: [
    { name: '--take', value: 'PATH', many: true, about: 'take what theirs says there' },
    {
      name: '--both',
      value: 'PATH',
      many: true,
      about: 'keep mine there, with theirs beside it as another source',
    },
    { name: '--all', about: 'take everything that differs' },
    {
      name: '--json',
      about: 'write one JSON object: the file, what was taken, how many differences are left',
    },
  ],
  example: {
    line: 'merge machines/ardmoor-650-pathway.json machines/oskerlund-420-fellgate.json --take $.about.year',
    shows: 'the first file with the year of the second',
  },
  words: [2, 2],
  run: async (given, world) => {
    const mine = await openMachineFile(given.words[0]!, world);
    const theirs = await openMachineFile(given.words[1]!, world);
    const found = compare(mine.value, theirs.value);
    const picks = picksOf(given, found, `${mine.from} and ${theirs.from}`);
    const value = merge(mine.value, theirs.value, picks);
    const text = writeJson(value);
    const read = readMachine(text, 'The merged file');
    if (!read.ok)
      throw new Refusal(
        ...read.problems.map(writeProblem),
        'Nothing was written: take more of theirs, or less, so that the file holds together.',
      );
    if (!given.has('--json')) return text;
    return `${JSON.stringify({ file: value, taken: [...picks.keys()], left: compare(value, theirs.value).length })}\n`;
  },
};

function picksOf(given: Given, found: Differences, files: string): ReadonlyMap<string, Whose> {
  const picks = new Map<string, Whose>();
  if (given.has('--all')) {
    if (given.has('--take')) throw new Refusal('--all and --take cannot go together: choose one.');
    for (const { at } of found) picks.set(at, 'theirs');
  }
  for (const path of given.all('--take')) picks.set(placeAt(path, found, files).at, 'theirs');
  for (const path of given.all('--both')) {
    const place = placeAt(path, found, files);
    if (!choicesAt(place).includes('both'))
      throw new Refusal(
        `At ${place.at} there are no two figures to keep side by side: use --take, or leave it.`,
      );
    picks.set(place.at, 'both');
  }
  return picks;
}

function placeAt(word: string, found: Differences, files: string): Differences[number] {
  const path = readPath(word.startsWith('$') ? word : `$.${word}`);
  const at = path === null ? word : pathText(path);
  const place = found.find((one) => one.at === at);
  if (place) return place;
  const near = nearest(
    at,
    found.map((one) => one.at),
  );
  throw new Refusal(
    `${files} do not differ at "${word.slice(0, 80)}": ${near === null ? 'see "chargewright compare" for where they do' : `did you mean ${near}?`}${near === null ? '.' : ''}`,
  );
}
