import { describe, expect, it } from 'vitest';
import { writeProblem } from '../../src/machine/problem.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import { ARDMOOR, lineOf, problemsOf, spoil, swap } from './spoil.ts';

/** One spoilt place: exactly one problem, on the line of `on`, at `path`, saying `what` and mending `fix`. */
interface Case {
  readonly name: string;
  readonly swaps: readonly (readonly [string, string, number?])[];
  readonly on: string;
  readonly path: string;
  readonly what: RegExp;
  readonly fix: RegExp;
}

const CHARGE = '"14.1–14.9 V"';

const CASES: readonly Case[] = [
  {
    name: 'unknown unit',
    swaps: [[CHARGE, '"14.1–14.9 Vlots"']],
    on: 'Vlots',
    path: '$.charging.regulator.chargeVolts.is',
    what: /unknown unit "Vlots"/,
    fix: /14\.1–14\.9 V/,
  },
  {
    name: 'wrong kind of unit',
    swaps: [['"40 A"', '"40 W"']],
    on: '"40 W"',
    path: '$.charging.fuse.is',
    what: /W is a power, a current is wanted/,
    fix: /30 A/,
  },
  {
    name: 'no unit',
    swaps: [['"40 A"', '"40"']],
    on: '"40"',
    path: '$.charging.fuse.is',
    what: /has no unit/,
    fix: /30 A/,
  },
  {
    name: 'a bare number for a quantity',
    swaps: [['"40 A"', '40']],
    on: '"is": 40,',
    path: '$.charging.fuse.is',
    what: /quantity with its unit was expected, not the number 40/,
    fix: /as text with its unit/,
  },
  {
    name: 'negative amps',
    swaps: [['"3.2 A"', '"-3.2 A"']],
    on: '"-3.2 A"',
    path: '$.charging.loads.ignition.is',
    what: /cannot be: it lies outside from 0 to 40 A/,
    fix: /decimal point/,
  },
  {
    name: '400 V charging',
    swaps: [[CHARGE, '"400 V"']],
    on: '"400 V"',
    path: '$.charging.regulator.chargeVolts.is',
    what: /"400 V" cannot be/,
    fix: /its unit/,
  },
  {
    name: 'a range that falls',
    swaps: [[CHARGE, '"14.9–14.1 V"']],
    on: '"14.9–14.1 V"',
    path: '$.charging.regulator.chargeVolts.is',
    what: /falls from 14\.9 to 14\.1/,
    fix: /Write the low end first/,
  },
  {
    name: 'a range where one figure belongs',
    swaps: [['"40 A"', '"30–40 A"']],
    on: '"30–40 A"',
    path: '$.charging.fuse.is',
    what: /range where one figure belongs/,
    fix: /Write one/,
  },
  {
    name: 'a figure without its tolerance',
    swaps: [['"34 A ± 8 %"', '"34 A"']],
    on: '"34 A"',
    path: '$.charging.alternator.ratedAmps.is',
    what: /has no tolerance/,
    fix: /34 A ± 10 %/,
  },
  {
    name: 'a missing figure',
    swaps: [['    "fuse": { "is": "40 A", "from": "labels" },\n', '']],
    on: '"charging": {',
    path: '$.charging.fuse',
    what: /"fuse" is missing \(main fuse or breaker\)/,
    fix: /Add "fuse": \{ "is": "30 A", "from": "book" \}/,
  },
  {
    name: 'a figure without a source',
    swaps: [['{ "is": "40 A", "from": "labels" }', '{ "is": "40 A" }']],
    on: '"is": "40 A"',
    path: '$.charging.fuse.from',
    what: /"from" is missing/,
    fix: /Add "from"/,
  },
  {
    name: 'a quantity that is not a figure',
    swaps: [['{ "is": "40 A", "from": "labels" }', '"40 A"']],
    on: '"40 A"',
    path: '$.charging.fuse',
    what: /figure with its source was expected/,
    fix: /"from": "book"/,
  },
  {
    name: 'an unknown source',
    swaps: [['"is": "40 A", "from": "labels"', '"is": "40 A", "from": "lables"']],
    on: '"lables"',
    path: '$.charging.fuse.from',
    what: /no source "lables"/,
    fix: /Did you mean "labels"\?/,
  },
  {
    name: 'an unknown key',
    swaps: [['"restDrain"', '"restDrian"']],
    on: '"restDrian"',
    path: '$.charging.restDrian',
    what: /"restDrian" is not known/,
    fix: /Did you mean "restDrain"\?/,
  },
  {
    name: 'a key that stands twice',
    swaps: [['"tachometer": {', '"fuse": { "is": "30 A", "from": "labels" },\n    "tachometer": {']],
    on: '"is": "30 A"',
    path: '$.charging.fuse',
    what: /a second time \(first on line \d+\)/,
    fix: /Keep one/,
  },
  {
    name: 'an unknown word',
    swaps: [['"is": "shunt"', '"is": "Shunts"']],
    on: '"Shunts"',
    path: '$.charging.regulator.type.is',
    what: /"Shunts" is not known here/,
    fix: /Did you mean "shunt"\?/,
  },
  {
    name: 'an odd number of poles',
    swaps: [['"is": 12', '"is": 13']],
    on: '"is": 13',
    path: '$.charging.alternator.poles.is',
    what: /13 is not a whole even number from 2 to 36/,
    fix: /book/,
  },
  {
    name: 'two phases',
    swaps: [['"phases": { "is": 3', '"phases": { "is": 2']],
    on: '"phases"',
    path: '$.charging.alternator.phases.is',
    what: /1 or 3 was expected, not the number 2/,
    fix: /Write 1 or 3/,
  },
  {
    name: 'three phases through two pins',
    swaps: [['"pins": { "is": 3', '"pins": { "is": 2']],
    on: '"pins"',
    path: '$.charging.alternator.pins',
    what: /three-phase stator cannot feed a plug with two pins/,
    fix: /phases 1/,
  },
  {
    name: 'one phase through three pins',
    swaps: [['"phases": { "is": 3', '"phases": { "is": 1']],
    on: '"pins"',
    path: '$.charging.alternator.pins',
    what: /single-phase stator has two wires/,
    fix: /carry AC/,
  },
  {
    name: 'a sense wire for a regulator that senses at its output',
    swaps: [
      [
        '"ground": {\n',
        '"sense": { "gauge": { "is": "AWG 18", "from": "tape" }, "length": { "is": "1 m", "from": "tape" } },\n      "ground": {\n',
      ],
    ],
    on: '"sense": {',
    path: '$.charging.wiring.sense',
    what: /senses at its own output/,
    fix: /senses "wire"/,
  },
  {
    name: 'a set point that would never fill the battery',
    swaps: [[CHARGE, '"12.6–12.9 V"']],
    on: '"chargeVolts": {',
    path: '$.charging.regulator.chargeVolts',
    what: /would never fill a flooded battery/,
    fix: /chemistry/,
  },
  {
    name: 'a set point that would ruin an AGM battery',
    swaps: [
      [CHARGE, '"14.9–15.4 V"'],
      ['"is": "flooded"', '"is": "agm"'],
    ],
    on: '"chargeVolts": {',
    path: '$.charging.regulator.chargeVolts',
    what: /would ruin an AGM battery/,
    fix: /chemistry/,
  },
  {
    name: 'rated amps that the EMF cannot drive',
    swaps: [['"at": "1000 rpm"', '"at": "10000 rpm"']],
    on: '"ratedAmps"',
    path: '$.charging.alternator.ratedAmps',
    what: /gives 8\.5 V AC at 5000 rpm.*cannot charge a 12 V battery/,
    fix: /rpm of openVolts \(10000\)/,
  },
  {
    name: 'rated amps that the resistance forbids',
    swaps: [['"0.18–0.24 Ω"', '"4.5–5.5 Ω"']],
    on: '"ratedAmps"',
    path: '$.charging.alternator.ratedAmps',
    what: /34 A cannot come from a winding of 4\.5 Ω/,
    fix: /pairOhms/,
  },
  {
    name: 'rated amps at too low a speed',
    swaps: [['"at": "5000 rpm"', '"at": "650 rpm"']],
    on: '"ratedAmps"',
    path: '$.charging.alternator.ratedAmps',
    what: /34 A cannot come from a winding of 0\.18 Ω that gives 11\.1 V AC at 650 rpm/,
    fix: /with their rpm/,
  },
  {
    name: 'rated amps that no winding of this kind would give',
    swaps: [['"34 A ± 8 %"', '"1.2 A ± 8 %"']],
    on: '"ratedAmps"',
    path: '$.charging.alternator.ratedAmps',
    what: /would need a winding of about 1\d\.\d mH/,
    fix: /Check both figures/,
  },
  {
    name: 'loads beyond the fuse',
    swaps: [['"40 A"', '"5 A"']],
    on: '"fuse"',
    path: '$.charging.fuse',
    what: /twice what a 5 A fuse carries/,
    fix: /fuse of their own/,
  },
  {
    name: 'the sheet of one part quoted for another',
    swaps: [['"is": "18 Ah", "from": "labels"', '"is": "18 Ah", "from": "stator-sheet"']],
    on: '"18 Ah"',
    path: '$.charging.battery.capacity.from',
    what: /sheet of the alternator, which cannot say this/,
    fix: /Name the source/,
  },
  {
    name: 'one source quoted with two figures',
    swaps: [['"is": "14.2–14.8 V", "from": "regulator-sheet"', '"is": "14.2–14.8 V", "from": "book"']],
    on: '"14.2–14.8 V"',
    path: '$.charging.regulator.chargeVolts.also[0]',
    what: /"book" is quoted with 14\.1–14\.9 V and with 14\.2–14\.8 V/,
    fix: /keep one/,
  },
  {
    name: 'a part sheet without its part',
    swaps: [['      "for": "regulator",\n', '']],
    on: '"regulator-sheet": {',
    path: '$.sources["regulator-sheet"].for',
    what: /"for" is missing/,
    fix: /Add "for"/,
  },
  {
    name: 'an unknown kind of source',
    swaps: [['"kind": "guess"', '"kind": "hearsay"']],
    on: '"hearsay"',
    path: '$.sources.guess.kind',
    what: /"hearsay" is not known/,
    fix: /"common-practice"/,
  },
  {
    name: 'an unknown wire size',
    swaps: [['"AWG 14"', '"AWG 99"', 1]],
    on: '"AWG 99"',
    path: '$.charging.wiring.output.gauge.is',
    what: /AWG 99 is outside AWG 4 to AWG 24/,
    fix: /AWG 14/,
  },
  {
    name: 'a later version',
    swaps: [['"version": 2', '"version": 3']],
    on: '"version": 3',
    path: '$.version',
    what: /reads machine files up to version 2, not the number 3/,
    fix: /newer program/,
  },
];

describe('a spoilt machine file', () => {
  it.each(CASES)('$name', ({ swaps, on, path, what, fix }) => {
    const { text, read } = spoil(...swaps);
    const problems = problemsOf(read);
    expect(problems.map(writeProblem)).toHaveLength(1);
    const problem = problems[0]!;
    expect(problem).toMatchObject({ file: 'ardmoor.json', path, line: lineOf(text, on) });
    expect(problem.what).toMatch(what);
    expect(problem.fix).toMatch(fix);
    expect(writeProblem(problem)).toBe(
      `ardmoor.json, line ${problem.line}, ${path}: ${problem.what}. ${problem.fix}.`,
    );
    expect(problem.what).not.toMatch(/[.\s]$/);
    expect(problem.fix).not.toMatch(/[.\s]$/);
  });

  it('is reported with all its problems at once, in the order of its lines', () => {
    const { read } = spoil(
      ['"40 A"', '"40 W"'],
      [CHARGE, '"400 V"'],
      ['"is": 12', '"is": 13'],
      ['"restDrain"', '"restDrian"'],
      ['"kind": "guess"', '"kind": "hearsay"'],
    );
    const problems = problemsOf(read);
    expect(problems.map((p) => p.path)).toEqual([
      '$.sources.guess.kind',
      '$.charging.alternator.poles.is',
      '$.charging.regulator.chargeVolts.is',
      '$.charging.fuse.is',
      '$.charging.restDrian',
    ]);
    const lines = problems.map((p) => p.line);
    expect(lines).toEqual([...lines].sort((a, b) => a - b));
  });

  it('names the contradictions together as well', () => {
    const { read } = spoil(
      ['"pins": { "is": 3', '"pins": { "is": 2'],
      ['"40 A"', '"5 A"'],
      ['"0.18–0.24 Ω"', '"4.5–5.5 Ω"'],
    );
    expect(problemsOf(read).map((p) => p.path)).toEqual([
      '$.charging.alternator.pins',
      '$.charging.alternator.ratedAmps',
      '$.charging.fuse',
    ]);
  });
});

describe('readMachine', () => {
  it.each([
    '',
    '   \n',
    '[]',
    'null',
    '7',
    '"text"',
    '{}',
    '{"__proto__": {"version": 1}}',
    '{"version": 1, "sources": []}',
  ])('refuses %j with a problem and no exception', (text) => {
    expect(problemsOf(readMachine(text, 'x.json')).length).toBeGreaterThan(0);
  });

  it('never throws on any cut of a good file, and says where it was cut', () => {
    for (let end = 1; end < ARDMOOR.length - 2; end += 131) {
      const text = ARDMOOR.slice(0, end);
      const problems = problemsOf(readMachine(text, 'cut.json'));
      expect(problems.length, `cut at ${end}`).toBeGreaterThan(0);
      for (const problem of problems) expect(problem.line).toBeLessThanOrEqual(text.split('\n').length);
    }
  });

  it('never throws when any one character is lost or doubled', () => {
    for (let at = 0; at < ARDMOOR.length; at += 113) {
      readMachine(ARDMOOR.slice(0, at) + ARDMOOR.slice(at + 1), 'lost.json');
      readMachine(ARDMOOR.slice(0, at) + ARDMOOR[at] + ARDMOOR.slice(at), 'doubled.json');
    }
  });

  it('accepts figures whichever way they are written', () => {
    const text = swap(swap(ARDMOOR, '"0.45 m"', '"45 cm"'), '"18 Ah"', '"18 A·h"');
    const read = readMachine(text, 'a.json');
    const plain = readMachine(ARDMOOR, 'a.json');
    if (!read.ok || !plain.ok) throw new Error('a good file was refused');
    expect(read.machine.charging.battery.capacity.is.high).toBe(
      plain.machine.charging.battery.capacity.is.high,
    );
    expect(read.machine.charging.wiring?.output?.length.is.low).toBe(0.45);
  });
});
