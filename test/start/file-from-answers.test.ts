/** A file from a few answers. Random answers are property tests; what is sensible is common practice, no source. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chargingSpec } from '../../src/machine/charging-spec.ts';
import { judgeFile } from '../../src/machine/judge-file.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { workOf } from '../../src/machine/work.ts';
import type { Answers } from '../../src/start/answers.ts';
import { writeInterval } from '../../src/start/estimate.ts';
import { openVoltsFrom, speedOf } from '../../src/start/estimate-alternator.ts';
import { fileFromAnswers } from '../../src/start/file-from-answers.ts';
import { FIRST_QUESTIONS, otherwiseOf, QUESTION_IDS } from '../../src/start/questions.ts';
import { TEMPLATE_IDS, TEMPLATES } from '../../src/start/template.ts';
import { cheapestWay } from '../../src/way/cheapest-way.ts';
import { stripProblem } from '../../src/way/strip-problem.ts';

const DAY = '2026-11-28';

function written(answers: Answers) {
  const file = fileFromAnswers(answers, DAY);
  if (!file.ok) throw new Error(JSON.stringify(file.problems));
  return file.text;
}

function machineOf(answers: Answers) {
  const read = readMachine(written(answers), 'own.json');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.machine;
}

const maybe = <T>(one: fc.Arbitrary<T>) => fc.option(one, { nil: undefined });
const from = fc.constantFrom('labels', 'book', 'measured', 'guess' as const);
const figure = (text: fc.Arbitrary<string>) =>
  maybe(fc.oneof(text, fc.record({ value: text, from, page: fc.constant('p. 3') }) as fc.Arbitrary<never>));

/** Answers that a sound bike could give. */
const sensible = fc.record({
  template: fc.constantFrom(...TEMPLATE_IDS),
  maker: maybe(fc.constantFrom('Ardmoor', 'one "quoted"', 'é\\n', '')),
  model: maybe(fc.string({ maxLength: 60 })),
  year: maybe(fc.integer({ min: 1950, max: 2026 }).map(String)),
  phases: maybe(fc.constantFrom('1', '3')),
  rated: figure(
    fc.oneof(
      fc.integer({ min: 12, max: 55 }).map((n) => `${n} A`),
      fc.integer({ min: 12, max: 55 }).map(String),
      fc.integer({ min: 180, max: 700 }).map((n) => `${n} W`),
      fc.integer({ min: 12, max: 50 }).map((n) => `${n}–${n + 4} A`),
      fc.integer({ min: 12, max: 50 }).map((n) => `${n} A @ 4500 rpm`),
    ),
  ),
  acVolts: figure(
    fc.oneof(
      fc.integer({ min: 9, max: 30 }).map((n) => `${n} V`),
      fc.integer({ min: 9, max: 30 }).map((n) => `${n} V at 1000 rpm`),
      fc.integer({ min: 9, max: 30 }).map((n) => `${n * 3}–${n * 3 + 6} V AC at 3000 rpm`),
      fc.integer({ min: 9, max: 30 }).map((n) => `${n} V per 1000 rpm`),
    ),
  ),
  regulator: maybe(fc.constantFrom('shunt', 'series', "I don't know", 'unknown')),
  batteryKind: maybe(fc.constantFrom('flooded', 'agm')),
  batteryCapacity: figure(fc.integer({ min: 7, max: 32 }).map((n) => `${n} Ah`)),
  headlamp: figure(fc.constantFrom('55 W', '35', '60/55 W', '45/40', '12 W', '55–60 W')),
  accessories: figure(fc.constantFrom('none', '0', '20 W', '3.5 A', '60')),
});

describe('a file from answers', () => {
  test('reads clean for every sensible set of answers', () => {
    fc.assert(
      fc.property(sensible, (answers) => {
        const text = written(answers as Answers);
        const judged = judgeFile(text, 'own.json', 2026);
        expect(judged.problems).toEqual([]);
        expect(judged.findings.filter(({ level }) => level !== 'hint')).toEqual([]);
        expect(judged.mark).toBe('clean');
        expect(readMachine(text, 'own.json').ok).toBe(true);
      }),
      { numRuns: 60, seed: 7 },
    );
  });

  test('never throws on any text, and names the question and a remedy', () => {
    const anything = fc.record(
      Object.fromEntries(
        QUESTION_IDS.map((id) => [
          id,
          maybe(fc.oneof(fc.string(), fc.constantFrom('-3 A', '1/0', '9 kV', '12 V at', 'shunt'))),
        ]),
      ),
    );
    let refused = 0;
    fc.assert(
      fc.property(anything, (answers) => {
        const file = fileFromAnswers({ ...answers, template: 'single' } as Answers, DAY);
        if (file.ok) {
          expect(judgeFile(file.text, 'own.json').problems).toEqual([]);
          return;
        }
        refused++;
        for (const { question, why } of file.problems) {
          expect(QUESTION_IDS).toContain(question);
          expect(why).toMatch(/^["'A-Z].*\.$/s);
        }
      }),
      { numRuns: 200, seed: 11 },
    );
    expect(refused).toBeGreaterThan(60);
  });

  test('keeps what was said, with who said it', () => {
    const { about, charging, sources } = machineOf({
      template: 'primary',
      maker: 'Ardmoor',
      model: '650 Pathway',
      year: '1988',
      rated: { value: '34', page: '8-3' },
      acVolts: { value: '51 V at 3000 rpm', from: 'measured' },
      batteryCapacity: '18 Ah',
      headlamp: '60/55 W',
      accessories: 'none',
      regulator: { value: 'series', note: 'on its box' },
    });
    expect(about).toMatchObject({ maker: 'Ardmoor', model: '650 Pathway', year: 1988, invented: false });
    expect(charging.alternator.ratedAmps).toMatchObject({
      from: 'book',
      page: '8-3',
      at: { text: '5000 rpm' },
    });
    expect(charging.alternator.ratedAmps.is.text).toBe('34 A ± 10 %');
    expect(charging.alternator.openVolts.is.text).toBe('51 V AC ± 8 %');
    expect(charging.alternator.openVolts).toMatchObject({ from: 'measured', at: { low: 3000 } });
    expect(charging.loads.low.is.text).toBe('55 W');
    expect(charging.loads.high.is.text).toBe('60 W');
    expect(charging.loads.accessories.is.high).toBe(0);
    expect(charging.regulator.type).toMatchObject({ is: 'series', from: 'labels', note: 'on its box' });
    expect(sources.measured).toMatchObject({ kind: 'measured', date: DAY });
  });

  test('an engine speed behind rated amps is kept, 5000 rpm without one', () => {
    const { alternator } = machineOf({ template: 'single', rated: '250 W at 4000 rpm' }).charging;
    expect(alternator.ratedAmps).toMatchObject({ at: { low: 4000 }, is: { text: '17.9 A ± 10 %' } });
    const file = fileFromAnswers({ template: 'single', rated: '22 A at 4000–5000 rpm' }, DAY);
    expect(file).toMatchObject({ ok: false, problems: [{ question: 'rated' }] });
  });

  test('an estimate is an answer as it is written', () => {
    const estimate = openVoltsFrom({ volts: 51, rpm: speedOf(3000, 'ear'), engine: 'cold' });
    if (!estimate.ok) throw new Error(estimate.why);
    const value = `${writeInterval(estimate, 'V AC')} at 1000 rpm`;
    const { openVolts } = machineOf({ template: 'primary', acVolts: { value, from: 'measured' } }).charging
      .alternator;
    expect(openVolts.is.low).toBeLessThan(17);
    expect(openVolts.is.high).toBeGreaterThan(17);
    expect(openVolts.is.text).toBe(writeInterval(estimate, 'V AC'));
  });

  test('takes watts at 14 V: 480 W are 34.3 A', () => {
    const { ratedAmps } = machineOf({ template: 'primary', rated: '480 W' }).charging.alternator;
    expect(ratedAmps.is.text).toBe('34.3 A ± 10 %');
    expect(ratedAmps.note).toContain('480 W');
  });

  test('what nobody has said is wide and comes from a guess or common practice', () => {
    for (const template of TEMPLATE_IDS) {
      const machine = machineOf({ template });
      const { alternator } = chargingSpec(machine);
      expect(alternator.openVolts.tolerance).toBeGreaterThan(0.2);
      expect(alternator.ratedAmps.tolerance).toBeGreaterThan(0.3);
      const said = JSON.stringify(machine.charging).matchAll(/"from":"([a-z]+)"/g);
      expect([...new Set([...said].map(([, one]) => one))].sort()).toEqual(['guess', 'trade']);
      expect(machine.about).toMatchObject({ maker: 'Own', model: 'bike', year: 2001 });
    }
  });

  test('no torque, thread or amount of oil is invented', () => {
    for (const template of TEMPLATE_IDS) {
      const machine = machineOf({ template });
      for (const one of Object.values(machine.fasteners!)) {
        expect(one).toMatchObject({ torque: null, stages: null, thread: null, locker: null });
        expect(one.note).toContain('book');
      }
      expect(machine.fluids).toBeNull();
      const turns = Object.values(machine.work!.actions).flatMap(({ back }) => back ?? []);
      const torques = turns.filter(({ kind }) => kind === 'torque');
      expect(torques.length).toBeGreaterThan(4);
      for (const { does } of torques) expect(does).toContain('by the book');
    }
  });

  test('there is a way to every target, and rotor and stator lie behind their cover', () => {
    for (const template of TEMPLATE_IDS) {
      const whole = workOf(machineOf({ template }), 2026)!;
      // One pair of hands must be enough, on the way back too.
      const alone = ({ hands, back }: (typeof whole.actions)[number]) =>
        hands <= 1 && back.every((one) => one.hands <= 1);
      const work = { ...whole, actions: whole.actions.filter(alone) };
      const repairs = new Set(work.targets.flatMap(({ repairs }) => repairs));
      for (const id of [
        'replace-stator',
        'replace-rotor',
        'replace-regulator',
        'replace-battery',
        'remake-ground',
      ])
        expect(repairs).toContain(id);
      for (const { id } of work.targets) {
        const { problem } = stripProblem(work, [id], { at: 0, did: [], facts: [] });
        const way = cheapestWay(problem, { effort: 2e7 });
        expect(way.ok, `${template} ${id}`).toBe(true);
      }
    }
  });

  test('is written canonically: two spaces, nothing long that could be short', () => {
    const text = written({ template: 'single' });
    expect(text.endsWith('}\n')).toBe(true);
    expect(text).toContain(
      '\n      "phases": { "is": 1, "from": "guess", "note": "Count the wires at the stator plug." },\n',
    );
    expect(text.split('\n').every((line) => /^(?: {2})*\S/.test(line) || line === '')).toBe(true);
    // The sections of a template stay small enough to be sent to a phone.
    expect(JSON.stringify(JSON.parse(text)).length).toBeLessThan(25_000);
  });

  test('refuses in one sentence each, all at once', () => {
    const file = fileFromAnswers({ rated: '34 V', year: '1066', headlamp: '900 W', template: 'boxer' }, DAY);
    expect(file.ok).toBe(false);
    const problems = file.ok ? [] : file.problems;
    expect(problems.map(({ question }) => question)).toEqual(['template', 'year', 'rated', 'headlamp']);
    expect(problems[1]!.why).toBe(
      '"1066" is no year from 1950 to 2027: write four digits, or leave it open.',
    );
    expect(() => fileFromAnswers({ template: 'single' }, 'today')).toThrow(RangeError);
  });
});

describe('the first questions', () => {
  test('each says why, where, and what is taken otherwise', () => {
    expect(FIRST_QUESTIONS.map(({ id }) => id)).toEqual([...QUESTION_IDS]);
    for (const one of FIRST_QUESTIONS) {
      expect(one.asks).toMatch(/\?$/);
      expect(one.why).toMatch(/\.$/);
      expect(one.where).toMatch(/\.$/);
      for (const template of TEMPLATE_IDS) expect(otherwiseOf(one.id, template)).toMatch(/\.$/);
      expect(one.kind === 'choice').toBe(one.choices !== undefined);
    }
    expect(FIRST_QUESTIONS.filter(({ optional }) => !optional).map(({ id }) => id)).toEqual(['template']);
  });

  test('every example is an answer that is taken as it stands', () => {
    for (const { id, example, kind } of FIRST_QUESTIONS) {
      if (kind !== 'quantity') continue;
      for (const value of example!.split(', or '))
        expect(fileFromAnswers({ template: 'primary', [id]: value }, DAY).ok, `${id} ${value}`).toBe(true);
    }
  });

  test('what is said to be taken is what the file holds', () => {
    for (const template of TEMPLATE_IDS) {
      const { charging } = machineOf({ template });
      expect(otherwiseOf('rated', template)).toContain(charging.alternator.ratedAmps.is.text);
      expect(otherwiseOf('acVolts', template)).toContain(charging.alternator.openVolts.is.text);
      expect(otherwiseOf('headlamp', template)).toContain(charging.loads.low.is.text);
      expect(otherwiseOf('accessories', template)).toContain(charging.loads.accessories.is.text);
      expect(otherwiseOf('batteryCapacity', template)).toContain(charging.battery.capacity.is.text);
      expect(charging.alternator.phases.is).toBe(TEMPLATES[template].phases);
    }
  });
});
