/** `check`: whether machine files are in order, what blunders are in them, and what to know about them. */
import { LEVELS, type Level, type PlacedFinding, writeFinding } from '../machine/finding.ts';
import { judgeFile } from '../machine/judge-file.ts';
import { writeProblem } from '../machine/problem.ts';
import { readMachine } from '../machine/read-machine.ts';
import type { Command } from './command.ts';
import { Refusal } from './refusal.ts';

const MEANS: Readonly<Record<Level, string>> = {
  impossible: 'Impossible (no bike is like that)',
  danger: 'Danger (done as written it breaks or loses something)',
  doubt: 'Doubt (look again)',
  hint: 'Hint (nothing need be wrong)',
};

export const check: Command = {
  name: 'check',
  about: 'Check machine files for blunders, and say where their sources differ',
  takes: 'MACHINE…',
  more: [
    'Every problem is named with its file, line, place and remedy, and the exit code is 2. A file in order is listed with its notes.',
    'Then come the blunders, worst first, each with its line, its reason and what to look up. Nothing is corrected. Only an impossible one makes the exit code 2.',
  ],
  options: [{ name: '--json', about: 'write one JSON object a file' }],
  example: {
    line: 'check machines/ardmoor-650-pathway.json',
    shows: 'that the file is in order, and its notes',
  },
  words: [1, 100],
  run: async (given, world) => {
    const problems: string[] = [];
    const lines: string[] = [];
    let impossible = false;
    const thisYear = new Date().getFullYear();
    for (const file of given.words) {
      const text = await world.read(file);
      const { mark, findings } = judgeFile(text, file, thisYear);
      const read = readMachine(text, file);
      if (!read.ok) {
        problems.push(...read.problems.map(writeProblem));
        // Contradictions are among the problems already; hints can wait until the file can be read.
        const others = findings.filter(({ topic, level }) => topic !== 'contradiction' && level !== 'hint');
        problems.push(...others.map((one) => `${file}, ${one.level}, ${writeFinding(one)}`));
        continue;
      }
      if (mark === 'impossible') impossible = true;
      if (given.has('--json')) {
        lines.push(JSON.stringify({ file, about: read.machine.about, mark, findings, notes: read.notes }));
      } else lines.push(...report(file, findings), ...read.notes.map((note) => `  ${note}`));
    }
    if (problems.length > 0) throw new Refusal(...problems);
    if (impossible) process.exitCode = 2;
    return `${lines.join('\n')}\n`;
  },
};

function report(file: string, all: readonly PlacedFinding[]): readonly string[] {
  // Where sources of the charging circuit differ, the notes say so.
  const findings = all.filter(({ level, path }) => level !== 'hint' || !path.startsWith('$.charging'));
  const grave = findings.some(({ level }) => level !== 'hint');
  const lines = [grave ? `${file}: it can be read, but look at these.` : `${file}: in order.`];
  for (const level of LEVELS) {
    const here = findings.filter((finding) => finding.level === level);
    if (here.length === 0) continue;
    lines.push(
      `  ${MEANS[level]}, ${here.length}:`,
      ...here.map((finding) => `    ${writeFinding(finding)}`),
    );
  }
  return lines;
}
