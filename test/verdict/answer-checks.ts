/** What must hold of every answer, whatever was asked: a list of what does not. */

import { openNamed } from '../../src/cases/draw-stream.ts';
import { type DrawnBike, drawBike } from '../../src/cases/drawn-bike.ts';
import { FAULT_IDS, FAULTS } from '../../src/fault/faults.ts';
import { REPAIR_IDS } from '../../src/fault/repairs.ts';
import { checkKey, KINDS } from '../../src/reading/catalogue.ts';
import { readKey, type Value } from '../../src/reading/key.ts';
import { offeredKeys } from '../../src/reading/offers.ts';
import { POINT_KINDS } from '../../src/reading/show.ts';
import type { Answer, Evidence } from '../../src/verdict/answer.ts';
import { openAssessor } from '../../src/verdict/assess.ts';

export const EVERY_TOOL = { clamp: true, loadTester: true, hydrometer: true, supply: true } as const;

/** Evidence of a bike: these keys read, symptoms as told, or none. */
export function evidenceOf(
  bike: DrawnBike,
  keys: readonly string[],
  symptoms: readonly string[] = bike.symptoms,
): Evidence {
  return {
    symptoms,
    readings: Object.fromEntries(keys.map((key) => [key, bike.read(key)])),
    again: [],
    tools: EVERY_TOOL,
  };
}

const share = (p: number) => Number.isFinite(p) && p >= 0 && p <= 1 + 1e-9;

/** One sentence for each thing that is wrong with an answer. */
export function wrongWith(answer: Answer, evidence: Evidence): string[] {
  const wrong: string[] = [];
  const must = (fine: boolean, what: string) => {
    if (!fine) wrong.push(what);
  };
  let total = answer.noneOfThese;
  let last = Number.POSITIVE_INFINITY;
  const names = new Set<string>();
  for (const { faults, probability } of answer.sets) {
    must(share(probability), `set ${faults.join('+') || 'sound'} has probability ${probability}`);
    must(probability <= last + 1e-12, 'sets are not in order');
    must(faults.length <= 3 && faults.every((id) => FAULT_IDS.includes(id)), `odd set ${faults.join('+')}`);
    names.add(faults.toSorted().join('+'));
    last = probability;
    total += probability;
  }
  must(answer.sets.length > 0, 'no sets');
  must(names.size === answer.sets.length, 'a set is named twice');
  must(share(answer.noneOfThese), `noneOfThese is ${answer.noneOfThese}`);
  must(total <= 1 + 1e-9, `probabilities sum to ${total}`);
  must(total >= 1 - 1e-6, `probabilities sum to ${total} only`);
  for (const [member, p] of Object.entries(answer.suspicion))
    must(share(p), `suspicion of ${member} is ${p}`);
  must(
    answer.repairs
      .map((line) => line.repair)
      .toSorted()
      .join() === [...REPAIR_IDS].sort().join(),
    'repairs are not all repairs',
  );
  for (const { repair, probability } of answer.repairs) {
    must(share(probability), `repair ${repair} has probability ${probability}`);
    // A repair is as probable as the sets that need it.
    const sum = answer.sets.reduce(
      (all, set) => all + (set.faults.some((id) => FAULTS[id].repair === repair) ? set.probability : 0),
      0,
    );
    must(Math.abs(sum - probability) < 1e-6, `repair ${repair} has ${probability}, its sets ${sum}`);
  }
  for (const { key, minutes, bits } of [...(answer.next ? [answer.next] : []), ...answer.alternatives]) {
    const checked = checkKey(key);
    must(checked.ok, `next reading "${key}" is no reading`);
    must(minutes > 0 && Number.isFinite(minutes), `"${key}" takes ${minutes} minutes`);
    must(bits >= 0 && bits < 10, `"${key}" tells ${bits} bits`);
    if (checked.ok && key !== answer.next?.key)
      must(!(key in evidence.readings), `"${key}" is offered though it is known`);
    const tool = KINDS[readKey(key)!.kind]!.tool;
    const { clamp, loadTester, hydrometer, supply } = evidence.tools;
    must(
      (tool !== 'clamp-meter' || clamp) &&
        (tool !== 'load-tester' || loadTester) &&
        (tool !== 'hydrometer' || hydrometer) &&
        (tool !== 'supply' || supply),
      `"${key}" needs a tool that is not there`,
    );
  }
  if (answer.next) {
    must(answer.next.why.length > 5, 'next reading without a why');
    const branches = answer.next.branches.reduce((sum, branch) => sum + branch.probability, 0);
    must(branches <= 1 + 1e-6, `branches sum to ${branches}`);
    for (const { probability, moves } of answer.next.branches) {
      must(share(probability), `a branch has probability ${probability}`);
      for (const move of moves)
        must(share(move.from) && share(move.to), `a branch moves ${move.member} to ${move.to}`);
    }
  }
  for (const { key, probability, meant } of answer.doubtful) {
    must(key in evidence.readings, `"${key}" is doubted though nobody took it`);
    must(share(probability), `doubt of "${key}" is ${probability}`);
    must(meant === null || Number.isFinite(meant), `"${key}" meant ${meant}`);
  }
  return wrong;
}

/** Offered readings that need no running engine's physics: cheap. */
export function stillKeys(bike: DrawnBike): string[] {
  return offered(bike).filter((text) => !POINT_KINDS.has(readKey(text)!.kind));
}

export function offered(bike: DrawnBike): readonly string[] {
  return offeredKeys({
    phases: bike.spec.alternator.phases,
    senses: bike.spec.regulator.senses,
    flooded: bike.spec.battery.chemistry === 'flooded',
  });
}

/**
 * One drawn bike put through an assessor of its own, readings growing at random, up to `nonsense` of them grossly
 * wrong. What is wrong with its answers, each with the evidence that shows it.
 */
export function tryBike(seed: number, running: boolean, nonsense: number, sizes = [0, 2, 5, 9]): string[] {
  const bike = drawBike(seed);
  const stream = openNamed(seed, 'try');
  const keys = [
    ...(running ? offered(bike).filter((key) => /^\S+ lights=low( pin=.)? rpm=3000$/.test(key)) : []),
    ...stillKeys(bike),
  ];
  const assessor = openAssessor(bike.spec);
  const readings: Record<string, Value> = {};
  const wrong: string[] = [];
  let spoiled = 0;
  for (const many of sizes) {
    while (Object.keys(readings).length < many) {
      const pool = running && stream() < 0.4 ? keys.slice(0, 12) : keys;
      const key = pool[Math.floor(stream() * pool.length)]!;
      const value = bike.read(key);
      const luck = spoiled < nonsense ? stream() : 1;
      if (luck < 0.15) spoiled++;
      if (typeof value !== 'number') readings[key] = value;
      else if (luck < 0.06) readings[key] = value * 10;
      else if (luck < 0.1) readings[key] = -1000 * (value + 1);
      else if (luck < 0.13) readings[key] = null;
      else if (luck < 0.15) readings[key] = 0;
      else readings[key] = value;
    }
    const evidence: Evidence = {
      symptoms: stream() < 0.2 ? ['no such symptom'] : bike.symptoms,
      readings: { ...readings },
      again: Object.keys(readings).filter(() => stream() < 0.15),
      tools: {
        clamp: stream() < 0.5,
        loadTester: stream() < 0.5,
        hydrometer: stream() < 0.5,
        supply: stream() < 0.5,
      },
    };
    let said: string[];
    try {
      said = wrongWith(assessor.assess(evidence), evidence);
    } catch (error) {
      said = [`threw ${error instanceof Error ? `${error.message} ${error.stack}` : error}`];
    }
    const more = said.length > 3 ? `; and ${said.length - 3} more` : '';
    if (said.length > 0)
      wrong.push(`bike ${seed}: ${said.slice(0, 3).join('; ')}${more}; evidence ${JSON.stringify(evidence)}`);
  }
  return wrong;
}
