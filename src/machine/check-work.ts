/**
 * The way in looked over: ids that lead nowhere, facts that nothing makes true, circles, targets out of reach, waits that
 * contradict themselves. What the plan would refuse later is said here, at its place in the file.
 */
import { cheapestWay } from '../way/cheapest-way.ts';
import { stripProblem } from '../way/strip-problem.ts';
import type { Work } from '../way/work.ts';
import type { Checkable } from './blunder.ts';
import type { Machine } from './definition.ts';
import type { Finding } from './finding.ts';
import { nearest } from './nearest.ts';
import { memberPath } from './problem.ts';
import { workOf } from './work.ts';

type Section = NonNullable<Machine['work']>;
type Step = NonNullable<Section['closing']>[number];

/** Findings of the section `work`. */
export function workFindings(machine: Checkable, thisYear: number | null): readonly Finding[] {
  const section = machine.work;
  if (!section) return [];
  const out: Finding[] = [];
  const steps = stepsOf(section);
  const ids = (of: object | null | undefined) => Object.keys(of ?? {});
  const known = {
    tool: ids(section.tools),
    supply: ids(section.supplies),
    fastener: ids(machine.fasteners),
    part: ids(machine.parts),
    chain: ids(machine.chains),
    shims: ids(machine.shims),
    fluid: ids(machine.fluids),
    step: steps.map(({ step }) => step.id),
  };
  const must = (kind: keyof typeof known, id: string | null, path: string): void => {
    // A section that could not be read hides its ids: what leads there is no blunder.
    if (id === null || known[kind].includes(id) || (kind !== 'step' && known[kind].length === 0)) return;
    const near = nearest(id, known[kind]);
    out.push({
      level: 'impossible',
      topic: 'work',
      path,
      what: `there is no ${kind} "${id}"`,
      why:
        near === null
          ? `The file lists ${known[kind].length} of that kind, none like it`
          : `The nearest is "${near}"`,
      lookUp: `Write the id of a ${kind} of this file, or add it there`,
    });
  };
  for (const { step, path } of steps) {
    for (const [n, tool] of (step.tools ?? []).entries()) must('tool', tool, `${path}.tools[${n}]`);
    for (const [n, { supply }] of (step.uses ?? []).entries())
      must('supply', supply, `${path}.uses[${n}].supply`);
    must('fastener', step.fastener, `${path}.fastener`);
    for (const kind of ['chain', 'shims', 'fluid'] as const) must(kind, step[kind], `${path}.${kind}`);
    out.push(...lagFindings(step, path, (id, at) => must('step', id, at)), ...likelyFindings(step, path));
  }
  for (const [id, action] of Object.entries(section.actions)) {
    const path = memberPath('$.work.actions', id);
    for (const [n, tool] of (action.tools ?? []).entries()) must('tool', tool, `${path}.tools[${n}]`);
    must('fastener', action.fastener, `${path}.fastener`);
    must('part', action.part, `${path}.part`);
    must('shims', action.shims, `${path}.shims`);
    out.push(...likelyFindings(action, path));
  }
  out.push(...twiceFindings(steps));
  const work = workOf({ about: machine.about, work: section }, thisYear ?? machine.about?.year ?? 2000);
  if (work) out.push(...factFindings(work, section), ...reachFindings(work));
  return out;
}

/** Every build step of the section with its place. */
function stepsOf(section: Section): { readonly step: Step; readonly path: string }[] {
  const list = (steps: readonly Step[] | null, path: string) =>
    (steps ?? []).map((step, n) => ({ step, path: `${path}[${n}]` }));
  return [
    ...Object.entries(section.actions).flatMap(([id, { back }]) =>
      list(back, `${memberPath('$.work.actions', id)}.back`),
    ),
    ...Object.entries(section.targets).flatMap(([id, { work }]) =>
      list(work, `${memberPath('$.work.targets', id)}.work`),
    ),
    ...list(section.closing, '$.work.closing'),
  ];
}

function lagFindings(step: Step, path: string, must: (id: string, path: string) => void): Finding[] {
  return (step.lags ?? []).flatMap(({ after, least, most }, n) => {
    must(after, `${path}.lags[${n}].after`);
    if (!least || !most || most.low >= least.low) return [];
    const minutes = (seconds: number) => `${Number((seconds / 60).toPrecision(3))} min`;
    return [
      {
        level: 'impossible' as const,
        topic: 'work' as const,
        path: `${path}.lags[${n}].most`,
        what: `"${step.id}" may start at most ${minutes(most.low)} after "${after}" and at least ${minutes(least.low)}`,
        why: 'The wait is longer than the window',
        lookUp: 'Which of the two the product or the book gives',
      },
    ];
  });
}

function likelyFindings({ minutes, likely }: Pick<Step, 'minutes' | 'likely'>, path: string): Finding[] {
  if (!likely || (likely.low >= minutes.low && likely.low <= minutes.high)) return [];
  return [
    {
      level: 'doubt',
      topic: 'work',
      path: `${path}.likely`,
      what: 'the likely time lies outside its range',
      why: `The range goes from ${minutes.low / 60} to ${minutes.high / 60} min, and ${likely.low / 60} min is called likely`,
      lookUp: 'Which of them is meant',
    },
  ];
}

function twiceFindings(steps: readonly { readonly step: Step; readonly path: string }[]): Finding[] {
  const seen = new Map<string, string>();
  return steps.flatMap(({ step, path }) => {
    const before = seen.get(step.id);
    seen.set(step.id, path);
    if (before === undefined) return [];
    return [
      {
        level: 'impossible' as const,
        topic: 'work' as const,
        path: `${path}.id`,
        what: `the step "${step.id}" stands twice`,
        why: `The other one is ${before}`,
        lookUp: 'Give each step an id of its own',
      },
    ];
  });
}

/** Facts that are needed and that no action gives. */
function factFindings(work: Work, section: Section): Finding[] {
  const given = new Set(work.actions.flatMap(({ gives }) => gives));
  const holds = (fact: string) => given.has(fact) || given.has(fact.replace(/ slack$/, ' off'));
  const nothing = (fact: string, path: string): Finding[] => {
    if (holds(fact)) return [];
    const near = nearest(fact, [...given]);
    return [
      {
        level: 'impossible',
        topic: 'work',
        path,
        what: `nothing makes "${fact}" true`,
        why: near === null ? 'No action gives it' : `The nearest that an action gives is "${near}"`,
        lookUp: 'Write a fact as an action gives it, or add the action',
      },
    ];
  };
  return [
    ...work.actions.flatMap(({ id, needs }) =>
      needs.flatMap((fact, n) => nothing(fact, `${memberPath('$.work.actions', id)}.needs[${n}]`)),
    ),
    ...Object.entries(section.wear ?? {}).flatMap(([id, { needs }]) =>
      needs.flatMap((fact, n) => nothing(fact, `${memberPath('$.work.wear', id)}.needs[${n}]`)),
    ),
    ...work.targets.flatMap(({ id, needs }) =>
      needs.flatMap((fact, n) => nothing(fact, `${memberPath('$.work.targets', id)}.needs[${n}]`)),
    ),
  ];
}

/** Targets that no order of actions reaches, with the circle that keeps them out. */
function reachFindings(work: Work): Finding[] {
  const now = { at: 0, did: [], facts: [] };
  return work.targets.flatMap((target): Finding[] => {
    const { problem } = stripProblem(work, [target.id], now);
    const way = cheapestWay(problem, { effort: 2e7 });
    if (way.ok) return [];
    const names = (facts: readonly number[]) => facts.map((fact) => `"${problem.facts[fact]}"`).join(', ');
    return [
      {
        level: 'impossible',
        topic: 'work',
        path: memberPath('$.work.targets', target.id),
        what: `there is no way to ${target.name}`,
        why:
          way.cycle.length > 0
            ? `These need each other in a circle: ${names(way.cycle)}`
            : `Nothing gives ${names(way.missing)}`,
        lookUp: 'What really comes off first on the bike',
      },
    ];
  });
}
