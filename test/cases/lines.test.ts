import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import {
  FAULT_EXCHANGE_NAMES,
  faultName,
  faultOfName,
  REPAIR_EXCHANGE_NAMES,
  repairName,
  repairOfName,
} from '../../src/cases/exchange.ts';
import { EXCHANGE_KINDS } from '../../src/cases/key-words.ts';
import { answerLine, openLineMode, runLines } from '../../src/cases/lines.ts';
import { specOfNameplate } from '../../src/cases/nameplate.ts';
import { printed } from '../../src/cases/score.ts';
import type { ChargingSpec } from '../../src/circuit/spec.ts';
import { FAULT_IDS, FAULTS } from '../../src/fault/faults.ts';
import { REPAIR_IDS } from '../../src/fault/repairs.ts';
import type { Answer, Evidence } from '../../src/verdict/answer.ts';

const read = (name: string) => readFileSync(fileURLToPath(new URL(name, import.meta.url)), 'utf8');
const LINES = read('open.jsonl').trimEnd().split('\n');
const FIRST = JSON.parse(LINES[0]!);

/** An assessor that answers a fixed verdict and keeps what it was asked. */
function listener(answer: Partial<Answer> = {}) {
  const opened: ChargingSpec[] = [];
  const asked: Evidence[] = [];
  const open = (spec: ChargingSpec) => {
    opened.push(spec);
    return {
      assess: (evidence: Evidence): Answer => {
        asked.push(evidence);
        return {
          sets: [
            { faults: ['battery-flat', 'plug-pins'], probability: 0.8 },
            { faults: [], probability: 1e-9 },
          ],
          suspicion: {} as Answer['suspicion'],
          repairs: [{ repair: 'replace-stator-plug', probability: 0.9, worthDoing: true }],
          next: {
            key: 'batt_volts lights=low rpm=3000',
            minutes: 3,
            bits: 1,
            why: 'it tells the most',
            branches: [],
          },
          alternatives: [],
          doubtful: [
            { key: 'ohms_pair pair=ab temp=hot', probability: 0.7, mistake: 'ten times out', meant: 0.3 },
          ],
          noneOfThese: 0.01,
          ...answer,
        };
      },
      sound: () => ({ band: null, openShare: 0 }),
    };
  };
  return { open, opened, asked };
}

const line = (change: object) =>
  JSON.stringify({
    id: 'x',
    nameplate: FIRST.nameplate,
    complaint: FIRST.complaint,
    readings: {},
    ...change,
  });
const answered = (text: string, open = listener().open) => JSON.parse(answerLine(text, open));

describe('names', () => {
  it('translate both ways, one for one', () => {
    for (const id of FAULT_IDS) expect(faultOfName(faultName(id))).toBe(id);
    for (const id of REPAIR_IDS) expect(repairOfName(repairName(id))).toBe(id);
    expect(new Set(FAULT_EXCHANGE_NAMES).size).toBe(FAULT_IDS.length);
    expect(new Set(REPAIR_EXCHANGE_NAMES).size).toBe(REPAIR_IDS.length);
    expect(faultOfName('constructor')).toBeNull();
    expect(repairOfName('stators')).toBeNull();
  });

  it('pair each fault with the repair that the scorer pairs it with', () => {
    const table = read('play.py').match(/^REPAIR = \{([^}]*)\}/m)![1]!;
    const pairs = [...table.matchAll(/'(\w+)': '(\w+)'/g)].map((match) => [match[1]!, match[2]!] as const);
    expect(pairs).toHaveLength(FAULT_IDS.length);
    for (const [fault, repair] of pairs) expect(repairName(FAULTS[faultOfName(fault)!].repair)).toBe(repair);
  });
});

describe('the owner’s book', () => {
  it('becomes the product’s own figures, A for mA', () => {
    expect(specOfNameplate(FIRST.nameplate)).toEqual({
      name: 'Bramolt 1200 Tourer',
      alternator: {
        phases: 3,
        poles: 16,
        openVolts: { rpm: 3000, volts: 50, tolerance: 0.12 },
        ratedAmps: { rpm: 5000, amps: 37, tolerance: 0.1 },
        pairOhms: [0.2, 0.41],
      },
      regulator: { kind: 'shunt', chargeVolts: [14.1, 15], senses: 'output' },
      battery: { chemistry: 'flooded', ampHours: 21, crankAmps: 300 },
      loads: { ignition: 5.87, low: 9.2, high: 10.91, tail: 0.66, accessories: 1.48 },
      loadsFedFrom: 'battery',
      fuseAmps: 40,
      restDrainAmps: 0.011,
      tachometer: true,
    });
  });

  it('names the figure that is missing or impossible', () => {
    const tries: [string, unknown, RegExp][] = [
      ['phases', 2, /nameplate\.phases must be 1 or 3, got 2\./],
      ['poles', 7, /nameplate\.poles must be an even whole number/],
      ['regulator', 'big', /nameplate\.regulator must be "shunt" or "series", got "big"/],
      ['rated_A_5000', '37', /nameplate\.rated_A_5000 must be a number from 1 to 200 A, got "37"/],
      ['stator_ohm', [0.5, 0.2], /smaller number first/],
      ['stator_ohm', 0.5, /two numbers \[low, high\] in Ω/],
      ['ac_volts_at_rpm', 50, /nameplate\.ac_volts_at_rpm must be \[rpm, volts\]/],
      ['loads_A', { ign: 5 }, /nameplate\.loads_A\.low must be a number from 0 to 60 A, got nothing/],
      [
        'voltage_sense',
        'somewhere',
        /nameplate\.voltage_sense must be "at its own output" or "separate sense wire"/,
      ],
      ['keyoff_mA_max', undefined, /nameplate\.keyoff_mA_max .* got nothing/],
      ['tachometer', 'yes', /nameplate\.tachometer must be true or false/],
    ];
    for (const [field, value, sentence] of tries) {
      expect(() => specOfNameplate({ ...FIRST.nameplate, [field]: value })).toThrow(sentence);
    }
    expect(() => specOfNameplate(null)).toThrow(/nameplate must be an object, got null/);
  });
});

describe('line mode', () => {
  it('takes the lines of the cases as they are, every one', () => {
    const { open, asked, opened } = listener();
    const mode = openLineMode(open);
    LINES.forEach((text, index) => {
      const answer = JSON.parse(mode.answer(text));
      const practice = JSON.parse(text);
      expect(answer.error).toBeUndefined();
      expect(answer.id).toBe(practice.id);
      expect(asked[index]!.symptoms).toEqual(practice.complaint.tags);
      expect(Object.keys(asked[index]!.readings)).toHaveLength(Object.keys(practice.readings).length);
      expect(asked[index]!.readings.rest_volts).toBe(practice.readings.rest_volts[0]);
    });
    expect(new Set(opened.map((spec) => spec.alternator.phases))).toEqual(new Set([1, 3]));
    const kinds = new Set(
      LINES.flatMap((text) => Object.keys(JSON.parse(text).readings).map((key) => key.split(' ')[0])),
    );
    expect(kinds).toEqual(new Set(EXCHANGE_KINDS));
  });

  it('answers in the exchange format, with the keys as the line writes them', () => {
    const readings = { 'ohms_pair temp=hot pair=ab': 3.1, 'batt_volts rpm=3000  lights=low': 12.9 };
    expect(answered(line({ readings, tried: [] }))).toEqual({
      id: 'x',
      sets: [{ faults: ['batt_discharged', 'plug_multi'], p: 0.8 }],
      repairs: [{ repair: 'stator_plug', p: 0.9, do: true }],
      next: { key: 'batt_volts rpm=3000  lights=low', minutes: 3, why: 'it tells the most' },
      doubtful: [{ key: 'ohms_pair temp=hot pair=ab', p: 0.7, mistake: 'ten times out', meant: 0.3 }],
      noneOfThese: 0.01,
    });
    expect(answered(line({}), listener({ next: null }).open).next).toBeNull();
  });

  it('hands on readings, repeats and tools', () => {
    const { open, asked, opened } = listener();
    const tools = { clamp: false, loadTester: true, tachometer: false };
    answered(
      line({
        readings: { 'visual what=plug_burnt': true, 'ohms_case pin=a': null, rest_volts: -12.1 },
        tried: ['rest_volts'],
        tools,
      }),
      open,
    );
    expect(asked[0]).toEqual({
      symptoms: ['flat_after_standing'],
      readings: { 'visual what=plug_burnt': true, 'ohms_case pin=a': null, rest_volts: -12.1 },
      again: ['rest_volts'],
      tools: { clamp: false, loadTester: true, hydrometer: true, supply: true },
    });
    expect(opened[0]!.tachometer).toBe(false);
    expect(FIRST.nameplate.tachometer).toBe(true);
  });

  it('opens one assessor a bike and keeps it while a few others are asked about', () => {
    const { open, opened } = listener();
    const mode = openLineMode(open);
    const bike = (year: number, name: string) => line({ nameplate: { ...FIRST.nameplate, name, year } });
    for (const name of ['a', 'b', 'a', 'c', 'd', 'a', 'b']) mode.answer(bike(2000, name));
    expect(opened.map((spec) => spec.name)).toEqual(['a', 'b', 'c', 'd']);
    mode.answer(bike(2000, 'e'));
    mode.answer(bike(2000, 'a'));
    mode.answer(bike(2000, 'c'));
    expect(opened.map((spec) => spec.name)).toEqual(['a', 'b', 'c', 'd', 'e', 'c']);
  });

  it('answers a bad line with one clear sentence and the id where it can be read', () => {
    const tries: [string, unknown, RegExp][] = [
      ['{"id": "x", ', null, /^The line is not JSON/],
      ['[1]', null, /must be a JSON object, got \[1\]/],
      ['{"id":"x"}', 'x', /nameplate must be an object, got nothing/],
      [line({ readings: [] }), 'x', /readings must be an object/],
      [line({ readings: { bat_volts: 12 } }), 'x', /unknown kind "bat_volts"; did you mean batt_volts\?/],
      [line({ readings: { 'batt_volts rpm=': 12 } }), 'x', /write the kind and then name=value words/],
      [line({ readings: { 'batt_volts speed=3': 12 } }), 'x', /unknown state word "speed"/],
      [line({ readings: { 'batt_volts constructor=3': 12 } }), 'x', /unknown state word "constructor"/],
      [line({ readings: { 'batt_volts lights=on': 12 } }), 'x', /lights must be off or low or high/],
      [line({ readings: { 'batt_volts rpm=fast': 12 } }), 'x', /rpm must be idle or a number/],
      [
        line({ readings: { batt_volts: '12 V' } }),
        'x',
        /readings\["batt_volts"\] must be a number, or null.*got "12 V"/,
      ],
      [line({ readings: { 'visual what=plug_burnt': 1 } }), 'x', /must be true, false or null/],
      [
        line({ readings: { 'batt_volts rpm=2000 lights=low': 12, 'batt_volts lights=low rpm=2000': 13 } }),
        'x',
        /are one reading; leave one out/,
      ],
      [line({ tried: 'rest_volts' }), 'x', /tried must be a list/],
      [line({ tools: { hammer: true } }), 'x', /unknown tool "hammer"/],
      [line({ tools: { clamp: 1 } }), 'x', /tools\.clamp must be true or false/],
      [line({ complaint: { tags: [3] } }), 'x', /complaint\.tags\[0\] must be a text/],
    ];
    for (const [text, id, sentence] of tries) {
      const answer = answered(text);
      expect(answer.id).toBe(id);
      expect(answer.error).toMatch(sentence);
      expect(answer.error).not.toMatch(/\n/);
      expect(Object.keys(answer)).toEqual(['id', 'error']);
    }
  });

  it('goes on after bad lines and after a failure of its own, in order, one answer a line', async () => {
    let calls = 0;
    const open = (spec: ChargingSpec) => {
      const assessor = listener().open(spec);
      return {
        ...assessor,
        assess: (evidence: Evidence) => {
          if (++calls === 2) throw new TypeError('the roof\nfell in');
          return assessor.assess(evidence);
        },
      };
    };
    async function* input() {
      yield* [line({ id: 1 }), 'nonsense', '', line({ id: 2 }), line({ id: 3 })];
    }
    const out: string[] = [];
    await runLines(
      input(),
      (text) => {
        out.push(text);
      },
      openLineMode(open),
    );
    expect(out.every((text) => text.endsWith('\n') && text.indexOf('\n') === text.length - 1)).toBe(true);
    const answers = out.map((text) => JSON.parse(text));
    expect(answers.map((answer) => answer.id)).toEqual([1, null, 2, 3]);
    expect(answers[2].error).toMatch(/failed on this line \(the roof fell in\)/);
    expect(answers[3].noneOfThese).toBe(0.01);
  });
});

describe('printed figures', () => {
  // What CPython's format() prints for these doubles; an exact tie goes to the even digit.
  it('round as the scorer’s do', () => {
    const tries: [number, number, string][] = [
      [62.25, 1, '62.2'],
      [62.75, 1, '62.8'],
      [0.0625, 3, '0.062'],
      [0.1875, 3, '0.188'],
      [2.5, 0, '2'],
      [3.5, 0, '4'],
      [0.15, 1, '0.1'],
      [0.25, 1, '0.2'],
      [100, 1, '100.0'],
      [-0.0625, 3, '-0.062'],
      [Number.NaN, 1, 'nan'],
      [0.5, 0, '0'],
    ];
    for (const [value, digits, text] of tries) expect(printed(value, digits)).toBe(text);
    expect(printed(0, 3, true)).toBe('+0.000');
    expect(printed(-0.0001, 3, true)).toBe('-0.000');
    expect(printed(Number.NaN, 3, true)).toBe('+nan');
  });
});
