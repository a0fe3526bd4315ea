import { readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { ARDMOOR, build, file, OSKERLUND, PEMBURROW, ROOT, run, runProcess } from './run.ts';

beforeAll(build, 120_000);

const good = readFileSync(join(ROOT, ARDMOOR), 'utf8');
const spoilt = file('spoilt.json', good.replace('"40 A"', '"40 W"').replace('"14.1–14.9 V"', '"400 V"'));
const line = (piece: string) => good.slice(0, good.indexOf(piece)).split('\n').length;
const readings = (text: string) => file(`r${Math.abs(hash(text))}.txt`, text);
const hash = (text: string) => [...text].reduce((sum, c) => (sum * 31 + c.codePointAt(0)!) | 0, 7);

/** Arguments, and what standard error must hold. */
const CASES: readonly [string, readonly string[], RegExp][] = [
  ['no such command', ['verdit', ARDMOOR], /"verdit" is no command: write verdict if that is meant; see/],
  ['a command like no other', ['repair'], /"repair" is no command: it may be verdict, why, sound/],
  ['no machine', ['verdict'], /"verdict" wants MACHINE \[READINGS\] after it/],
  ['a word too many', ['point', ARDMOOR, '3000'], /"3000" is one word too many for "point"/],
  [
    'an unknown option',
    ['point', ARDMOOR, '--rmp', '3000'],
    /--rmp is no option of "point": did you mean --rpm\?/,
  ],
  ['a short option', ['point', ARDMOOR, '-r', '3000'], /options are written with two dashes/],
  ['an option without its value', ['point', ARDMOOR, '--rpm'], /--rpm wants RPM after it/],
  ['a switch with a value', ['point', ARDMOOR, '--json=yes'], /--json takes no value/],
  ['an option given twice', ['point', ARDMOOR, '--rpm', '900', '--rpm', '800'], /--rpm is given twice/],
  [
    'an impossible speed',
    ['point', ARDMOOR, '--rpm', '90000'],
    /--rpm may be a number from 300 to 15000 rpm, not "90000"/,
  ],
  ['a speed that is no number', ['point', ARDMOOR, '--rpm', 'fast'], /not "fast"/],
  [
    'lights that are no lights',
    ['point', ARDMOOR, '--lights', 'dim'],
    /--lights may be off, low, high, not "dim"/,
  ],
  [
    'an unknown fault',
    ['point', ARDMOOR, '--fault', 'plug-pn'],
    /no fault is called "plug-pn"; write plug-pin/,
  ],
  [
    'a severity beyond bad',
    ['point', ARDMOOR, '--fault', 'plug-pin:2'],
    /"2" is no severity; write a number from 0/,
  ],
  ['a pin this bike has not', ['point', OSKERLUND, '--fault', 'plug-pin:0.5:c'], /one pin, a or b/],
  ['a fault this bike cannot have', ['point', ARDMOOR, '--fault', 'sense-drop'], /this bike cannot have it/],
  [
    'a sweep the wrong way round',
    ['sweep', ARDMOOR, '--from', '5000', '--to', '1000'],
    /lies above --to 1000: swap/,
  ],
  [
    'a sweep with too many rows',
    ['sweep', ARDMOOR, '--step', '1'],
    /would make 5201 rows: choose a step of at least 14/,
  ],
  ['two forms at once', ['sweep', ARDMOOR, '--csv', '--svg'], /--csv and --svg cannot go together/],
  ['a part that is none', ['verdict', ARDMOOR, '--new', 'engine'], /--new may be alternator, regulator/],
  ['a tool that is none', ['verdict', ARDMOOR, '--without', 'hammer'], /--without may be clamp, load-tester/],
  ['an unknown topic', ['words', 'repairs'], /"words" knows readings, faults, symptoms, not "repairs"/],
  [
    'no such file',
    ['check', 'machines/nobody.json'],
    /machines\/nobody\.json does not exist: check the name/,
  ],
  ['a folder', ['check', 'machines'], /machines is a folder: name a file in it/],
  [
    'a file beyond 1 MB',
    ['check', file('big.json', `"${'x'.repeat(1_000_001)}"`)],
    /big\.json is larger than 1 MB/,
  ],
  [
    'a file that is not UTF-8',
    ['check', file('latin.json', new Uint8Array([0x7b, 0xe9, 0x7d]))],
    /latin\.json is not text in UTF-8/,
  ],
  [
    'an empty machine file',
    ['check', file('empty.json', '')],
    /empty\.json, line 1, \$: the file is empty\. Start from/,
  ],
  [
    'a reading of no kind',
    ['verdict', ARDMOOR, readings('bat_volts : 12 V')],
    /line 1: no kind of reading is called "bat_volts"; write batt_volts/,
  ],
  [
    'a state that is none',
    ['verdict', ARDMOOR, readings('batt_volts rpm=warp : 12 V')],
    /line 1: "rpm=warp" is not possible/,
  ],
  [
    'a reading without a colon',
    ['verdict', ARDMOOR, readings('batt_volts 12 V')],
    /line 1: "batt_volts 12 V" has no colon/,
  ],
  [
    'a reading in the wrong unit',
    ['verdict', ARDMOOR, readings('# one\n\nbatt_volts : 12 A')],
    /line 3, batt_volts: "12 A": A is a current, a voltage is wanted/,
  ],
  [
    'a reading without a unit',
    ['verdict', ARDMOOR, readings('batt_volts : 12')],
    /line 1, batt_volts: "12" has no unit/,
  ],
  [
    'a reading in an unknown unit',
    ['verdict', ARDMOOR, readings('batt_volts : 12 Volks')],
    /unknown unit "Volks"/,
  ],
  [
    'a reading no meter shows',
    ['verdict', ARDMOOR, readings('batt_volts : 12000 V')],
    /cannot be: no meter shows more than 1000 V/,
  ],
  ['an ambiguous comma', ['verdict', ARDMOOR, readings('batt_volts : 1,234 V')], /can be 1\.234 or 1234/],
  [
    'a value that is missing',
    ['verdict', ARDMOOR, readings('batt_volts :')],
    /the value is missing: write what the meter showed, e\.g\. 12\.6 V/,
  ],
  [
    'a thing seen as a figure',
    ['verdict', ARDMOOR, readings('visual what=plug_burnt : 3')],
    /neither yes nor no/,
  ],
  [
    'an acid figure that is none',
    ['verdict', ARDMOOR, readings('sg cell=1 : 12.65')],
    /no specific gravity from 0\.9 to 1\.5/,
  ],
  [
    'acid drawn from a sealed battery',
    ['verdict', PEMBURROW, readings('sg cell=1 : 1.26')],
    /this battery is sealed/,
  ],
  [
    'a third wire on a two-wire stator',
    ['verdict', OSKERLUND, readings('stator_ac pair=bc : 20 V')],
    /this bike has two/,
  ],
  [
    'a sense wire that is not there',
    ['verdict', ARDMOOR, readings('drop_sense : 0.1 V')],
    /senses at its own output/,
  ],
  [
    'a symptom that is none',
    ['verdict', ARDMOOR, readings('symptom : slow_crnk')],
    /no symptom known here: write slow_crank/,
  ],
  [
    'a JSON reading twice',
    ['verdict', ARDMOOR, readings('{ "batt_volts": 12.6,\n "batt_volts": 12.7 }')],
    /line 2: batt_volts stands here a second time \(first on line 1\)/,
  ],
  [
    'a JSON reading of the wrong type',
    ['verdict', ARDMOOR, readings('{ "batt_volts": [12.6] }')],
    /line 1, batt_volts: a reading is a text such as/,
  ],
  [
    'readings that are not JSON',
    ['verdict', ARDMOOR, readings('{ "batt_volts": 12.6')],
    /line 1: the \{ opened here is never closed/,
  ],
  [
    'a reading asked of a sound bike that is none',
    ['sound', ARDMOOR, 'bat_volts'],
    /no kind of reading is called "bat_volts"/,
  ],
];

/** Refused by a process of its own too: at the word, at the file, in the file. */
const STARTED = ['no such command', 'no such file', 'a reading in the wrong unit'];

describe('bad input', () => {
  it.each(CASES)(
    '%s: one clear sentence, exit 2, nothing on standard output',
    async (name, args, sentence) => {
      const { code, out, err } = await (STARTED.includes(name) ? runProcess : run)(args);
      expect(err).toMatch(sentence);
      expect(code).toBe(2);
      expect(out).toBe('');
      expect(err.trim().split('\n')).toHaveLength(1);
      expect(err).toMatch(/\.\n$|\?[^?]*\.\n$/);
      expect(err).not.toMatch(/\bat .*\.js:\d+/);
    },
  );

  it.each(['verdict', 'point', 'sweep', 'netlist', 'check', 'sound'])(
    '%s names every problem of a machine file, each at its line',
    async (command) => {
      const { code, out, err } = await run([command, spoilt, ...(command === 'sound' ? ['rest_volts'] : [])]);
      expect(code).toBe(2);
      expect(out).toBe('');
      const lines = err.trim().split('\n');
      expect(lines).toHaveLength(2);
      expect(lines[0]).toMatch(
        new RegExp(
          `spoilt\\.json, line ${line('"14.1–14.9 V"')}, \\$\\.charging\\.regulator\\.chargeVolts\\.is: "400 V" cannot be`,
        ),
      );
      expect(lines[1]).toMatch(
        new RegExp(`spoilt\\.json, line ${line('"40 A"')}, \\$\\.charging\\.fuse\\.is: "40 W": W is a power`),
      );
    },
  );

  it('names every faulty line of a readings file', async () => {
    const name = readings('batt_volts : 12 A\nrest_volts : 12.6 V\nohms_pair pair=ab : 3 V\n');
    const { code, out, err } = await run([
      'verdict',
      ARDMOOR,
      name,
      '--reading',
      'ripple : 3 Q',
      '--symptom',
      'sad',
    ]);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(
      err
        .trim()
        .split('\n')
        .map((one) => one.replace(/^.*?(line \d+|--\w+).*$/, '$1')),
    ).toEqual(['line 1', 'line 3', '--reading', '--symptom']);
  });

  it('stays a whole file when it is refused: nothing is written anywhere', async () => {
    const before = readFileSync(spoilt, 'utf8');
    await run(['check', spoilt, join(tmpdir(), 'nobody.json')]);
    expect(readFileSync(spoilt, 'utf8')).toBe(before);
  });
});
