/** What a figure would narrow: computed from the circuit, held against a file in which it really is known. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { chargingSpec } from '../../src/machine/charging-spec.ts';
import type { Machine } from '../../src/machine/definition.ts';
import { readMachine } from '../../src/machine/read-machine.ts';
import type { Answers } from '../../src/start/answers.ts';
import { fileFromAnswers } from '../../src/start/file-from-answers.ts';
import { sharpen } from '../../src/start/sharpen.ts';
import { covarianceOf, mistakeChance, soundLines, whitened } from '../../src/start/sharpen-model.ts';
import { TEMPLATE_IDS } from '../../src/start/template.ts';

function read(text: string): Machine {
  const made = readMachine(text, 'own.json');
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.machine;
}
function own(answers: Answers): Machine {
  const file = fileFromAnswers(answers, '2026-11-28');
  if (!file.ok) throw new Error(JSON.stringify(file.problems));
  return read(file.text);
}
const shipped = (name: string) =>
  readFileSync(new URL(`../../machines/${name}.json`, import.meta.url), 'utf8');

const AC = '$.charging.alternator.openVolts';

describe('sharpen', () => {
  test.each(TEMPLATE_IDS)('%s: a file that knows nothing wants its AC volts first', (template) => {
    const list = sharpen(own({ template }));
    expect(list[0]!.path).toBe(AC);
    expect(list[0]!.why).toMatch(/weak rotor magnets.*from a sound bike: look them up/);
    expect(list[0]!.now).toMatch(/^\d+–\d+ V AC \(Guess/);
    expect(list[0]!.gain.apart).toBeGreaterThan(5);
    expect(list[0]!.gain.bands[0]!.key).toMatch(/^stator_ac/);
    expect(list.map(({ gain }) => gain.told)).toEqual(
      list.map(({ gain }) => gain.told).sort((a, b) => b - a),
    );
    expect(list.length).toBeGreaterThan(5);
    for (const { why, gain } of list) {
      expect(why).toMatch(/^The (?:[^.]|\.\d)*: (?:[^.]|\.\d)*\.$/);
      expect(gain.pairs).toBeGreaterThan(100);
    }
  });

  test('what has been answered leaves the list, and what it would narrow is what it did narrow', () => {
    const before = sharpen(own({ template: 'primary' }));
    const known = own({ template: 'primary', acVolts: '17 V at 1000 rpm', phases: '3' });
    const after = sharpen(known);
    expect(after.map(({ path }) => path)).not.toContain(AC);
    expect(after.map(({ path }) => path)).not.toContain('$.charging.alternator.phases');
    const promised = before[0]!.gain.bands[0]!;
    const covariance = covarianceOf(soundLines(chargingSpec(known)), {}, []);
    const really = 2 * 1.96 * Math.sqrt(covariance[2]![2]!);
    expect(Math.abs(promised.known / really - 1)).toBeLessThan(0.25);
    expect(promised.now / really).toBeGreaterThan(2.5);
  });

  test('a file that was read off book and labels asks for nothing', () => {
    for (const name of ['ardmoor-650-pathway', 'oskerlund-420-fellgate'])
      expect(sharpen(read(shipped(name)))).toEqual([]);
  });

  test('a figure of such a file that becomes a guess is asked for', () => {
    const text = shipped('oskerlund-420-fellgate');
    const wide = text.replace('"is": "21–25 A"', '"is": "9–37 A"');
    const unsure = text.replace(
      '"type": { "is": "shunt", "from": "book" }',
      '"type": { "is": "shunt", "from": "guess" }',
    );
    expect(wide).not.toBe(text);
    expect(unsure).not.toBe(text);
    expect(sharpen(read(wide)).map(({ path }) => path)).toEqual(['$.charging.alternator.ratedAmps']);
    expect(sharpen(read(unsure)).map(({ path }) => path)).toEqual(['$.charging.regulator.type']);
  });

  test('the more is known, the less a further figure can tell', () => {
    const sum = (answers: Answers) => sharpen(own(answers)).reduce((all, { gain }) => all + gain.told, 0);
    const nothing = sum({ template: 'primary' });
    const some = sum({ template: 'primary', acVolts: '17 V', rated: '34 A' });
    const more = sum({
      template: 'primary',
      acVolts: '17 V',
      rated: '34 A',
      phases: '3',
      regulator: 'shunt',
      batteryCapacity: '18 Ah',
    });
    expect(some).toBeLessThan(nothing);
    expect(more).toBeLessThan(some);
  });

  test('takes less than a second', () => {
    const machine = own({ template: 'crank-cover' });
    sharpen(machine);
    // Time of the processor, not of the clock on the wall: others may be at work.
    const times = [0, 1, 2].map(() => {
      const start = process.cpuUsage();
      sharpen(machine);
      const { user, system } = process.cpuUsage(start);
      return (user + system) / 1000;
    });
    expect(Math.min(...times)).toBeLessThan(1000);
  });
});

describe('the measure', () => {
  test('two normals two deviations apart are mistaken in 15.87 of 100 (table of the normal distribution)', () => {
    expect(mistakeChance(Float64Array.of(0), Float64Array.of(2))).toBeCloseTo(0.1587, 4);
    expect(mistakeChance(Float64Array.of(1, 1), Float64Array.of(1, 1))).toBeCloseTo(0.5, 6);
  });

  test('readings that err together count by what is left between them', () => {
    // Variances 4 and 1, correlation 0.6: the squared distance of (2, 0) is 4/(4·(1 − 0.36)) (by hand).
    const covariance = [Float64Array.of(4, 1.2), Float64Array.of(1.2, 1)];
    const [a, b] = whitened(covariance, [Float64Array.of(0, 0), Float64Array.of(2, 0)]) as [
      Float64Array,
      Float64Array,
    ];
    expect(a[0]! ** 2 + a[1]! ** 2).toBe(0);
    expect(b[0]! ** 2 + b[1]! ** 2).toBeCloseTo(4 / (4 * 0.64), 12);
  });
});
