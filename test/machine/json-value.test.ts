/** A machine file as a value that is changed at one place. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readJson } from '../../src/machine/json-text.ts';
import {
  getAt,
  type Json,
  jsonOf,
  type Path,
  pathText,
  putAt,
  readPath,
  sameJson,
  writeJson,
} from '../../src/machine/json-value.ts';

const json = fc.jsonValue({ maxDepth: 4 }) as fc.Arbitrary<Json>;
const path = fc.array(fc.oneof(fc.string(), fc.nat(5)), { maxLength: 6 }) as fc.Arbitrary<Path>;

describe('a value of a machine file', () => {
  test('is what the language itself reads from the text that is written', () => {
    fc.assert(
      fc.property(json, (value) => {
        expect(JSON.parse(writeJson(value))).toEqual(JSON.parse(JSON.stringify(value)));
      }),
      { numRuns: 400 },
    );
  });

  test('is read back by our own reader', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.stringMatching(/^[a-z]{1,8}$/), json), (value) => {
        const { root, faults } = readJson(writeJson(value));
        expect(faults).toEqual([]);
        expect(sameJson(jsonOf(root!), JSON.parse(JSON.stringify(value)) as Json)).toBe(true);
      }),
      { numRuns: 200 },
    );
  });

  test('paths are written as the check writes them, and read back', () => {
    expect(pathText(['charging', 'wiring', 'output', 'joints', 1, 'at'])).toBe(
      '$.charging.wiring.output.joints[1].at',
    );
    expect(pathText(['parts', 'left-footrest'])).toBe('$.parts["left-footrest"]');
    expect(readPath('charging')).toBeNull();
    expect(readPath('$.a b')).toBeNull();
    fc.assert(
      fc.property(path, (one) => {
        expect(readPath(pathText(one))).toEqual(one);
      }),
    );
  });

  test('put and taken away again is as it was; the rest stays the same object', () => {
    const value = { a: { b: [1, 2] }, c: { d: 4 } };
    const put = putAt(value, ['a', 'e', 'f'], 'x')!;
    expect(put).toEqual({ a: { b: [1, 2], e: { f: 'x' } }, c: { d: 4 } });
    expect(getAt(put, ['c'])).toBe(value.c);
    expect(putAt(put, ['a', 'e'], undefined)).toEqual(value);
    expect(putAt(value, ['a', 'b', 0], undefined)).toEqual({ a: { b: [2] }, c: { d: 4 } });
    expect(putAt(value, ['a', 'b', 9], 3)).toEqual({ a: { b: [1, 2, 3] }, c: { d: 4 } });
    expect(putAt(value, ['z', 'y'], undefined)).toEqual(value);
    expect(value).toEqual({ a: { b: [1, 2] }, c: { d: 4 } });
  });

  test('what is put stands there, wherever it is put, and nothing reaches the language', () => {
    fc.assert(
      fc.property(json, path, fc.string(), (value, where, is) => {
        const put = putAt(value, where, is);
        // A place behind the end of a list is the place after its last.
        const found = getAt(put, where);
        if (found === undefined) expect(where.some((key) => typeof key === 'number')).toBe(true);
        else expect(found).toBe(is);
      }),
    );
    putAt({}, ['__proto__', 'spoilt'], 1);
    expect(({} as { spoilt?: unknown }).spoilt).toBeUndefined();
    expect(getAt(putAt({}, ['__proto__'], 1), ['__proto__'])).toBe(1);
  });

  test('two values are the same whatever the order of their keys', () => {
    expect(sameJson({ a: 1, b: [1, { c: null }] }, { b: [1, { c: null }], a: 1 })).toBe(true);
    expect(sameJson({ a: 1 }, { a: 1, b: null })).toBe(false);
    expect(sameJson([1, 2], [2, 1])).toBe(false);
    expect(sameJson({}, [])).toBe(false);
  });
});
