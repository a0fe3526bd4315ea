/** The way into the shipped machines: complete, planned for every target, and looked over for mistakes. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { REPAIR_IDS } from '../../src/fault/repairs.ts';
import { judgeFile } from '../../src/machine/judge-file.ts';
import { seizingChance, workOf } from '../../src/machine/work.ts';
import { planJob } from '../../src/way/plan.ts';
import { planClock } from '../../src/way/plan-clock.ts';
import { scheduleProject } from '../../src/way/schedule.ts';
import { shoppingOf } from '../../src/way/shopping.ts';
import { shutNights } from '../../src/way/to-project.ts';
import { swap } from './spoil.ts';

const NAMES = ['ardmoor-650-pathway', 'oskerlund-420-fellgate', 'pemburrow-900-carillon'] as const;
const textOf = (name: string) =>
  readFileSync(new URL(`../../machines/${name}.json`, import.meta.url), 'utf8');
const YEAR = 2026;
/** Repairs that need no way in: they are looked for or ridden around, or this bike has no such wire. */
const NO_WAY_IN = ['find-drain', 'reduce-load', 'remake-sense-wire'];

describe.each(NAMES)('%s', (name) => {
  const { machine, findings } = judgeFile(textOf(name), name, YEAR);
  const work = workOf(machine!, YEAR)!;

  it('has nothing that the check of the way in finds', () => {
    expect(findings.filter(({ topic }) => topic === 'work')).toEqual([]);
  });

  it('serves every repair that needs a way in', () => {
    const served = new Set(work.targets.flatMap(({ repairs }) => repairs));
    expect(REPAIR_IDS.filter((id) => !served.has(id) && !NO_WAY_IN.includes(id))).toEqual([]);
  });

  it('has a plan for every target, proved, with a clock and a list', () => {
    const shut = shutNights(18 * 60, 22 * 60, 7 * 60);
    for (const { id } of work.targets)
      for (const people of [1, 2] as const) {
        const made = planJob({ work, targets: [id], people, shut }, (project) =>
          scheduleProject(project, { steps: 2000 }),
        );
        if (!made.ok) throw new Error(`${id}: ${made.says}`);
        const { least } = made;
        expect(least.work.proved, id).toBe(true);
        expect(least.steps.at(-1)!.end).toBeLessThanOrEqual(least.ride.at);
        const { p50, p90 } = planClock(least, work, { runs: 500 });
        expect(p90).toBeGreaterThanOrEqual(p50);
        expect(() => shoppingOf(least, work)).not.toThrow();
      }
  });

  it('puts battery negative off first where electrics are opened, and on again after them', () => {
    const made = planJob({ work, targets: ['stator'], people: 1 });
    if (!made.ok) throw new Error(made.says);
    const at = (step: string) => made.least.steps.findIndex(({ id }) => id === step);
    expect(at('battery-negative')).toBeLessThan(
      made.least.steps.findIndex(({ id }) => id.startsWith('plug')),
    );
    expect(at('negative-on')).toBeGreaterThan(at('stator-in'));
  });
});

describe('the primary-case twin', () => {
  const work = workOf(judgeFile(textOf(NAMES[0]), 'a', YEAR).machine!, YEAR)!;
  const made = planJob({ work, targets: ['stator'], people: 2 });
  if (!made.ok) throw new Error(made.says);
  const order = made.least.steps.map(({ id }) => id);
  const comesFirst = (a: string, b: string) => {
    expect(order, a).toContain(a);
    expect(order.indexOf(a), `${a} before ${b}`).toBeLessThan(order.indexOf(b));
  };

  it('has forty actions or more, with alternatives', () => {
    expect(work.actions.length).toBeGreaterThanOrEqual(40);
    const given = work.actions.flatMap(({ gives }) => gives);
    const ways = given.filter((fact, n) => given.indexOf(fact) !== n);
    expect(new Set(ways).size).toBeGreaterThanOrEqual(6);
  });

  it('keeps the order that hands forget', () => {
    comesFirst('drain-plug', 'fill');
    comesFirst('grommet-skin', 'fill');
    comesFirst('rotor-wipe', 'rotor-on');
    comesFirst('stator-stage-1', 'stator-stage-2');
    comesFirst('slack-set', 'shoe-nut');
    comesFirst('joint-clean', 'cover-gasket');
    comesFirst('retainer-on', 'cover-on');
    comesFirst('fill', 'prove-volts');
  });

  it('leaves the clutch on where that is asked, and says what it costs', () => {
    const left = planJob({ work, targets: ['stator'], people: 2, leave: ['clutch off'] });
    if (!left.ok) throw new Error(left.says);
    expect(left.least.actions).toContain('rotor-past-clutch');
    expect(left.left!.dearer).toBeGreaterThanOrEqual(0);
  });
});

describe('planted mistakes', () => {
  const text = textOf(NAMES[0]);
  it.each([
    [
      'a tool that is none',
      '"tools": ["straightedge"]',
      '"tools": ["straigtedge"]',
      /no tool "straigtedge".*nearest is "straightedge"/,
    ],
    [
      'a supply that is none',
      '"supply": "drain-seal"',
      '"supply": "drain-seel"',
      /no supply "drain-seel".*"drain-seal"/,
    ],
    [
      'a fastener that is none',
      '"fastener": "clutch-nut"',
      '"fastener": "clutch-nutt"',
      /no fastener "clutch-nutt"/,
    ],
    [
      'a part that is none',
      '"part": "engine-sprocket"',
      '"part": "engine-sprokcet"',
      /no part "engine-sprokcet"/,
    ],
    [
      'a wait for a step that is none',
      '"after": "grommet-skin"',
      '"after": "gromet-skin"',
      /no step "gromet-skin"/,
    ],
    [
      'a fact that nothing gives',
      '"needs": ["rotor off"]',
      '"needs": ["rotor of"]',
      /nothing makes "rotor of" true/,
    ],
    ['a step that stands twice', '"id": "fill"', '"id": "drain-plug"', /"drain-plug" stands twice/],
    [
      'a likely time outside its range',
      '"likely": "26 min"',
      '"likely": "60 min"',
      /likely time lies outside/,
    ],
  ])('%s', (_, old, fresh, why) => {
    // What stands in the way in stands last in the file.
    const at = text.lastIndexOf(old);
    expect(at).toBeGreaterThan(0);
    const spoilt = text.slice(0, at) + fresh + text.slice(at + old.length);
    const { findings } = judgeFile(spoilt, 'a', YEAR);
    const said = findings
      .filter(({ topic }) => topic === 'work')
      .map(({ what, why: because }) => `${what}. ${because}`);
    expect(said.join('\n')).toMatch(why);
  });

  it('a circle names its members and the target it keeps out', () => {
    const spoilt = swap(text, '"needs": ["rotor slack"]', '"needs": ["rotor slack", "stator off"]');
    const { findings } = judgeFile(spoilt, 'a', YEAR);
    const said = findings.filter(({ topic }) => topic === 'work').map(({ what, why }) => `${what}. ${why}`);
    expect(said.join('\n')).toMatch(
      /no way to stator.*circle: .*"rotor off"|no way to stator.*circle: .*"stator off"/s,
    );
  });
});

it('seizes more with age and by the exhaust, less in oil; the chance is one', () => {
  expect(seizingChance(0.1, 'outside', 10)).toBeCloseTo(0.1, 9);
  expect(seizingChance(0.1, 'outside', 30)).toBeCloseTo(1 - 0.9 ** 3, 9);
  expect(seizingChance(0.1, 'inside-oil', 10)).toBeLessThan(seizingChance(0.1, 'exhaust-side', 10));
  expect(seizingChance(0.9, 'exhaust-side', 60)).toBeLessThanOrEqual(0.95);
  expect(() => seizingChance(2, 'outside', 10)).toThrow(/base must be from 0 to 1/);
});
