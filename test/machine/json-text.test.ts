import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type JsonNode, MAX_BYTES, MAX_DEPTH, readJson, utf8Length } from '../../src/machine/json-text.ts';

/** The value that a node stands for. */
function standsFor(node: JsonNode): unknown {
  switch (node.type) {
    case 'object':
      return Object.fromEntries(node.entries.map((entry) => [entry.key, standsFor(entry.value)]));
    case 'array':
      return node.items.map(standsFor);
    case 'null':
      return null;
    case 'bad':
      return undefined;
    default:
      return node.value;
  }
}

describe('readJson', () => {
  it('reads what the language itself reads (RFC 8259)', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 5 }), fc.constantFrom(0, 1, 4), (value, indent) => {
        const text = JSON.stringify(value, null, indent);
        const { root, faults } = readJson(text);
        expect(faults).toEqual([]);
        expect(JSON.stringify(standsFor(root!))).toBe(JSON.stringify(JSON.parse(text)));
      }),
      { numRuns: 300, seed: 41 },
    );
  });

  it('refuses what the language itself refuses', () => {
    fc.assert(
      fc.property(
        fc.jsonValue({ maxDepth: 3 }),
        fc.nat(),
        fc.constantFrom('', ',', '}', ']', '"', ':', 'x', '1'),
        (value, seed, bit) => {
          const good = JSON.stringify(value);
          const at = seed % (good.length + 1);
          const text = good.slice(0, at) + bit + good.slice(at + (bit === '' ? 1 : 0));
          let parses = true;
          try {
            // A number too large for a double passes there and is refused here.
            if (
              JSON.stringify(JSON.parse(text), (_, v) =>
                Math.abs(v) === Number.POSITIVE_INFINITY ? 'huge' : v,
              ).includes('huge')
            )
              return;
          } catch {
            parses = false;
          }
          expect(readJson(text).faults.length === 0).toBe(parses);
        },
      ),
      { numRuns: 1500, seed: 42 },
    );
  });

  it('knows where everything stood', () => {
    const { root } = readJson('{\n  "a": [\n    1,\n    "zwei"\n  ]\n}');
    if (root?.type !== 'object') throw new Error('not an object');
    const list = root.entries[0]!.value;
    if (list.type !== 'array') throw new Error('not a list');
    expect(root.entries[0]!.at).toEqual({ line: 2, column: 3 });
    expect(list.items.map((item) => item.at)).toEqual([
      { line: 3, column: 5 },
      { line: 4, column: 5 },
    ]);
  });

  const FAULTS: readonly [string, string, number, RegExp, RegExp][] = [
    ['a trailing comma', '{\n "a": 1,\n}', 2, /comma before the closing }/, /Take it out/],
    ['a forgotten comma', '{\n "a": 1\n "b": 2\n}', 2, /comma is missing/, /Put a comma/],
    ['a comment', '{\n // why\n "a": 1\n}', 2, /comment/, /"note"/],
    ['a block comment', '{ "a": /* one\n */ 1 }', 1, /comment/, /"note"/],
    ['single quotes', "{\n 'a': 1\n}", 2, /single quote/, /straight double quotes/],
    ['curly quotes', '{\n “a”: 1\n}', 2, /curly quote/, /straight double quotes/],
    ['a key without quotes', '{\n a: 1\n}', 2, /key a stands without quotes/, /"a"/],
    ['a value without quotes', '{\n "a": 14.2 V\n}', 2, /"14.2 V" stands without quotes/, /double quotes/],
    ['a decimal comma', '{\n "a": 14,2\n}', 2, /./, /./],
    ['a leading zero', '{\n "a": 014\n}', 2, /not a number as JSON writes one/, /no leading zeros/],
    ['a missing value', '{\n "a": ,\n "b": 1\n}', 2, /value is missing/, /take the key out/],
    ['a missing colon', '{\n "a" 1\n}', 2, /colon after the key "a"/, /"key": value/],
    ['an open text', '{\n "a": "one\n}', 2, /no closing quote/, /same line/],
    ['an unclosed bracket', '{\n "a": [\n  1\n', 2, /\[ opened here is never closed/, /missing \]/],
    ['crossed brackets', '{\n "a": [1}\n', 2, /closes what line 2 opened with \[/, /Write \]/],
    ['more after the end', '{ "a": 1 }\n{ "b": 2 }', 2, /more after the end/, /one object/],
    ['a tab in a text', '{ "a": "x\ty" }', 1, /control character/, /\\t/],
    ['a bad escape', '{ "a": "\\q" }', 1, /no escape/, /\\\\/],
    ['nothing', '\n\n', 3, /empty/, /machines/],
  ];

  it.each(FAULTS)('reports %s at its line with its remedy', (_name, text, line, what, fix) => {
    const { faults } = readJson(text);
    const first = faults.find((fault) => fault.line === line);
    expect(faults.length).toBeGreaterThan(0);
    expect(first?.what).toMatch(what);
    expect(first?.fix).toMatch(fix);
  });

  it('mends and reads on, so that several faults are reported together', () => {
    const { root, faults } = readJson('{\n "a": 1,\n // note\n b: 2\n "c": [1, 2,],\n}');
    expect(faults.map((fault) => fault.line)).toEqual([3, 4, 4, 5, 5]);
    expect(standsFor(root!)).toEqual({ a: 1, b: 2, c: [1, 2] });
  });

  it('stops at 1 MB, at 32 levels and at 50 faults', () => {
    expect(readJson(`"${'ü'.repeat(MAX_BYTES / 2)}"`).faults[0]!.what).toMatch(/larger than 1 MB/);
    expect(readJson(`"${'x'.repeat(MAX_BYTES - 2)}"`).faults).toEqual([]);
    expect(readJson('['.repeat(MAX_DEPTH + 1)).faults.some((f) => /levels deep/.test(f.what))).toBe(true);
    expect(readJson('['.repeat(MAX_DEPTH) + ']'.repeat(MAX_DEPTH)).faults).toEqual([]);
    expect(readJson('['.repeat(500_000)).faults.length).toBeLessThanOrEqual(50);
    expect(readJson(`[${'x,'.repeat(1000)}]`).faults).toHaveLength(50);
  });

  it('counts bytes as UTF-8 does', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        expect(utf8Length(text)).toBe(new TextEncoder().encode(text).length);
      }),
      { seed: 43 },
    );
  });
});
