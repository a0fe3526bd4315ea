/**
 * How long the proof of the cheapest way takes, by kind and size of strip-down, beside glpsol on an integer program of
 * the same problem where that is installed: `node scripts/run-ts.mjs test/speed/way-bench.ts [PROBLEMS] [SMALL]`.
 * PROBLEMS of each kind and size (default 40; a tenth of it from 120 parts on), SMALL ones against the trial of every
 * set of moves (default 10,000). Replanning: the same problem with a tenth of its costs changed and two facts more.
 */
import { openStream } from '../../src/numbers/random.ts';
import { cheapestWay } from '../../src/way/cheapest-way.ts';
import { replay } from '../../src/way/replay.ts';
import type { StripDown } from '../../src/way/strip-down.ts';
import { askGlpsol, versionOfGlpsol } from '../reference/glpsol.ts';
import { FAMILIES, randomStrip } from '../way/random-strip.ts';
import { bruteForce, smallStrip } from '../way/small-strip.ts';

const SECONDS = 5;

/** Processor time of a call, ms: other programs on the machine are not counted. */
function timed(problem: StripDown): { ms: number; proved: boolean } {
  const before = process.cpuUsage();
  const way = cheapestWay(problem);
  const used = process.cpuUsage(before);
  if (way.ok) {
    const again = replay(problem, way.moves);
    if (!again.ok || again.cost !== way.cost) throw new Error('a way does not hold when it is replayed');
  }
  return { ms: (used.user + used.system) / 1000, proved: !way.ok || way.proved };
}

function changed(problem: StripDown, seed: number): StripDown {
  const random = openStream(seed);
  const moves = problem.moves.map((move) =>
    random() < 0.1 ? { ...move, cost: Math.round(move.cost * 3 * random()) } : move,
  );
  const start = [...problem.start];
  const goals = new Set(problem.goals);
  for (let n = 0; n < 2; n++) {
    const f = Math.floor(problem.facts.length * random());
    if (!goals.has(f)) start.push(f);
  }
  return { ...problem, moves, start };
}

function line(name: string, runs: readonly { ms: number; proved: boolean }[]): string {
  const ms = runs.map((run) => run.ms).sort((a, b) => a - b);
  const at = (part: number) => ms[Math.min(ms.length - 1, Math.floor(part * ms.length))]!;
  const figure = (value: number) => value.toFixed(1).padStart(8);
  const share = (100 * runs.filter(({ proved }) => proved).length) / runs.length;
  return `${name.padEnd(28)} p50 ${figure(at(0.5))}  p99 ${figure(at(0.99))}  max ${figure(ms[ms.length - 1]!)} ms  proved ${share.toFixed(1)} %`;
}

function bench(print: (text: string) => void, problems: number, small: number): void {
  const version = versionOfGlpsol();
  print(version === null ? 'glpsol is not installed: own figures only' : version);
  // What the compiler of the engine takes is paid before.
  for (let seed = 1; seed <= 10; seed++)
    for (const family of FAMILIES) timed(randomStrip(family, 30, 5000 + seed));
  for (const parts of [10, 30, 60, 120, 400]) {
    const count = parts >= 120 ? Math.max(1, Math.round(problems / 10)) : problems;
    const all: { ms: number; proved: boolean }[] = [];
    for (const family of FAMILIES) {
      const made = Array.from({ length: count }, (_, n) => randomStrip(family, parts, n + 1));
      const runs = made.map(timed);
      all.push(...runs);
      print(line(`${family}, ${parts} parts`, runs));
      if (parts <= 60)
        print(
          line(
            '  replanned',
            made.map((problem, n) => timed(changed(problem, n + 1))),
          ),
        );
      if (version === null || parts > 60) continue;
      let [own, other, proved] = [0, 0, 0];
      const asked = Math.min(2, made.length);
      for (let n = 0; n < asked; n++) {
        const begun = performance.now();
        const answer = askGlpsol(made[n]!, SECONDS);
        own += runs[n]!.ms;
        other += performance.now() - begun;
        if (answer.proved) proved += 1;
      }
      print(
        `  glpsol with its start, first ${asked}: ${other.toFixed(0)} ms against ${own.toFixed(1)} ms, ratio ${(other / own).toFixed(0)}, proved ${proved} in ${SECONDS} s each`,
      );
    }
    print(line(`all, ${parts} parts`, all));
  }
  let wrong = 0;
  for (let seed = 1; seed <= small; seed++) {
    const problem = smallStrip(1e6 + seed);
    const way = cheapestWay(problem);
    if ((way.ok ? way.cost : null) !== bruteForce(problem) || (way.ok && !way.proved)) wrong += 1;
  }
  print(`${small} small problems against the trial of every set of moves: ${wrong} wrong`);
}

bench((text) => console.log(text), Number(process.argv[2] ?? 40), Number(process.argv[3] ?? 10_000));
