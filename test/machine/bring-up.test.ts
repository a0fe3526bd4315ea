/** Files of earlier versions of the machine file open, and what they say stays where and as it was. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { bringUp, VERSION } from '../../src/machine/bring-up.ts';
import { readJson } from '../../src/machine/json-text.ts';
import { jsonOf, writeJson } from '../../src/machine/json-value.ts';
import { readMachine } from '../../src/machine/read-machine.ts';

const NOW = readFileSync('machines/ardmoor-650-pathway.json', 'utf8');
const FIRST = NOW.replace(`"version": ${VERSION}`, '"version": 1');

describe('a machine file of an earlier version', () => {
  test('opens, and says what it says in this version', () => {
    expect(FIRST).not.toBe(NOW);
    const old = readMachine(FIRST, 'old.json');
    const now = readMachine(NOW, 'now.json');
    expect(old.ok && now.ok && JSON.stringify(old.machine) === JSON.stringify(now.machine)).toBe(true);
  });

  test('is complained of at its own lines', () => {
    const text = FIRST.replace('"17.0 V AC ± 10 %"', '"17.0 N·m"');
    const line = text.split('\n').findIndex((one) => one.includes('17.0 N·m')) + 1;
    const read = readMachine(text, 'old.json');
    expect(read.ok ? [] : read.problems.map((problem) => problem.line)).toEqual([line]);
  });

  test('climbs one step after another, in order, and only from where it stands', () => {
    const renamed = (from: string, to: string) => (entries: readonly { key: string }[]) =>
      entries.map((entry) => (entry.key === from ? { ...entry, key: to } : entry)) as never;
    const steps = { 1: renamed('a', 'b'), 2: renamed('b', 'c') };
    const climb = (text: string) => jsonOf(bringUp(readJson(text).root!, 3, steps));
    expect(climb('{ "version": 1, "a": 7 }')).toEqual({ version: 3, c: 7 });
    expect(climb('{ "version": 2, "b": 7, "a": 8 }')).toEqual({ version: 3, c: 7, a: 8 });
    expect(climb('{ "version": 4, "a": 7 }')).toEqual({ version: 4, a: 7 });
    expect(() => bringUp(readJson('{ "version": 1 }').root!, 3, {})).toThrow(RangeError);
  });
});

test.each(['ardmoor-650-pathway', 'oskerlund-420-fellgate', 'pemburrow-900-carillon'])(
  '%s written anew says the same, and written again is the same text',
  (id) => {
    const text = readFileSync(`machines/${id}.json`, 'utf8');
    const written = writeJson(jsonOf(readJson(text).root!));
    expect(JSON.parse(written)).toEqual(JSON.parse(text));
    expect(writeJson(jsonOf(readJson(written).root!))).toBe(written);
    expect(Math.max(...written.split('\n').map((line) => line.length))).toBeLessThan(2200);
  },
);
