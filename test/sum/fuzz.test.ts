/**
 * Odd texts in every field of every sum, as the app's worker and the command line get them: each is refused in sentences
 * or answered in figures, and no "NaN", "Infinity" or "undefined" comes out in words or drawing. The texts are our own.
 */
import { Readable } from 'node:stream';
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import type { World } from '../../src/cli/command.ts';
import { readOptions } from '../../src/cli/options.ts';
import { Refusal } from '../../src/cli/refusal.ts';
import { sum as command } from '../../src/cli/sum.ts';
import { svgText } from '../../src/draw/svg.ts';
import { SUMS } from '../../src/sum/catalogue.ts';
import type { Sum, Texts } from '../../src/sum/sum.ts';
import type { SumAsk, SumReply } from '../../src/web/sum-worker.ts';

const UNITS = [
  '',
  'mm',
  'in',
  'm',
  'N·m',
  'lbf·ft',
  'lbf·in',
  'kgf·m',
  'kN',
  'lbf',
  'kg',
  '°',
  '°C',
  '°F',
  'K',
  'V',
  'A',
  'Ω',
  'mΩ',
  'rpm',
  'h',
  'min',
  'mm²',
  '%',
  'W',
  'furlong',
];
const FIGURES = [
  '0',
  '-0',
  '-1',
  '-5',
  '1',
  '2',
  '3',
  '8',
  '10',
  '12',
  '24',
  '40',
  '100',
  '330',
  '1e-300',
  '1e-9',
  '0.0001',
  '1e9',
  '1e300',
  '1e999',
  '99999999999999999999',
  '5/8',
  '1 1/2',
  '0/0',
  '1/0',
  '1,5',
  '1,2,3',
  '5–7',
  '7–5',
  '3 ± 4',
  '.5',
  '١٢',
];
const WORDS = [
  '',
  ' ',
  'NaN',
  'Infinity',
  '-Infinity',
  'NaN mm',
  'Infinity N·m',
  'undefined',
  'null',
  'true',
  '[object Object]',
  '__proto__',
  'constructor',
  'toString',
  '<b>',
  '"',
  '\u0000',
  'yes',
  'no',
  'M6',
  '1/4-20',
  'M11 x 9',
  '8.8',
  'grade 8',
  'steel',
  '#40',
  '520',
  '0,0 0,0 1,1',
  '0,0 1,0 2,0',
  '1e400,1 2,2',
  '1-2-3',
  'x'.repeat(500),
];
const figure = fc
  .tuple(fc.constantFrom(...FIGURES), fc.constantFrom(...UNITS))
  .map(([a, b]) => `${a} ${b}`.trim());
const row = fc.array(figure, { minLength: 1, maxLength: 5 }).map((all) => all.join(', '));
const odd = fc.oneof(
  { weight: 5, arbitrary: figure },
  { weight: 3, arbitrary: fc.constantFrom(...WORDS) },
  { weight: 1, arbitrary: row },
  { weight: 1, arbitrary: fc.string({ unit: 'grapheme', maxLength: 30 }) },
);

/** The example with some fields changed: a text that is odd, the example of the field, or nothing at all. */
function texts(sum: Sum): fc.Arbitrary<Texts> {
  const change = (example: string, choices: readonly string[]) =>
    fc.oneof(
      odd,
      fc.constant(example),
      fc.constant(''),
      ...(choices.length > 0 ? [fc.constantFrom(...choices)] : []),
    );
  const changes = sum.fields.map(({ id, example, choices }) =>
    fc.tuple(
      fc.constant(id),
      change(
        example,
        (choices ?? []).map((one) => one.id),
      ),
    ),
  );
  return fc.tuple(...changes.map((one) => fc.option(one, { freq: 3 })), fc.boolean()).map((all) => {
    const drawn = all.slice(0, -1).filter((one) => one !== null) as [string, string][];
    // Mostly few fields are odd at once, else nothing but refusals is seen.
    const kept = all.at(-1) ? drawn.slice(0, 2) : drawn;
    return { ...sum.example, ...Object.fromEntries(kept) };
  });
}

const BAD = /\bNaN\b|Infinity|\bundefined\b|\[object|\bnull\b/;

/** What came out, without the words a person wrote, which a sentence may quote. */
function clean(text: string, said: Texts): string {
  const quoted = Object.values(said).flatMap((one) => {
    const bare = one.trim();
    return [
      bare,
      bare.slice(0, 40),
      bare.slice(0, 30),
      ...bare.split(/\s*[,;\n]\s*|\s+/),
      ...bare.split(/\W+/),
    ];
  });
  return quoted
    .filter((one) => BAD.test(one))
    .sort((a, b) => b.length - a.length)
    .reduce((left, one) => left.replaceAll(one, '…').replaceAll(one.toLowerCase(), '…'), text);
}

/** The worker's own entry: the listener it adds, asked as the page asks. */
async function worker(): Promise<(ask: SumAsk) => SumReply> {
  let listener: ((event: { data: SumAsk }) => void) | null = null;
  const replies: SumReply[] = [];
  vi.stubGlobal('addEventListener', (_: string, given: typeof listener) => {
    listener = given;
  });
  vi.stubGlobal('postMessage', (reply: SumReply) => replies.push(reply));
  vi.resetModules();
  await import('../../src/web/sum-worker.ts');
  return (ask) => {
    listener!({ data: ask });
    return structuredClone(replies.pop()!);
  };
}

const NOTHING: World = {
  read: () => Promise.reject(new Error('a sum reads no file')),
  bytes: () => Promise.reject(new Error('a sum reads no file')),
  input: Readable.from([]),
  print: () => Promise.reject(new Error('a sum prints when it has ended')),
};

describe('odd texts', () => {
  const asked = worker();
  it.each(SUMS.map((sum) => [sum.id, sum] as const))(
    '%s: sentences and finite figures',
    async (_, sum) => {
      const ask = await asked;
      fc.assert(
        fc.property(texts(sum), fc.constantFrom('wide' as const, 'narrow' as const), (said, shape) => {
          const { found, picture } = ask({ id: 1, sum: sum.id, texts: said, shape });
          if (found.ok) {
            for (const { metric, inch, says, words } of found.lines) {
              expect(clean(`${words}: ${metric}, ${inch}. ${says}`, said)).not.toMatch(BAD);
              expect(metric.trim() && inch.trim() && says.trim()).not.toBe('');
            }
            expect(clean(found.cautions.join('\n'), said)).not.toMatch(BAD);
            if (picture) expect(clean(svgText(picture), said)).not.toMatch(BAD);
            return;
          }
          expect(found.faults.length).toBeGreaterThan(0);
          for (const { field, why } of found.faults) {
            expect(clean(why, said)).not.toMatch(BAD);
            expect(why).toMatch(/[.?!]$/);
            // The worker's last resort and a caller's mistake: neither is a sentence for a mechanic.
            expect(why).not.toMatch(/cannot be worked out: |must be .*, got /);
            expect(field === null || sum.fields.some(({ id }) => id === field)).toBe(true);
          }
        }),
        { numRuns: Number(process.env.FUZZ ?? 300) },
      );
    },
    60_000,
  );

  it.each([
    ['load-balance', { openAt: '' }, 'openAt', /nothing is entered/],
    ['wrench', { length: '1e-300 mm' }, 'length', /too small to be meant/],
    ['wrench-choice', { torque: '1e-300 N·m' }, 'torque', /too small to be meant/],
    ['break-loose', { fitted: '1e-300 kgf·m' }, 'fitted', /too small to be meant/],
    ['shims', { stock: '!\u2028!' }, 'stock', /length/],
  ] as const)('%s: what once came out as a fault of the program', (id, change, field, why) => {
    const sum = SUMS.find((one) => one.id === id)!;
    const found = sum.reckon({ ...sum.example, ...change });
    if (found.ok) throw new Error('not refused');
    expect(found.faults.map((fault) => fault.field)).toEqual([field]);
    expect(found.faults[0]!.why).toMatch(why);
  });

  it.each(SUMS.map((sum) => [sum.id, sum] as const))(
    '%s on the command line',
    async (_, sum) => {
      await fc.assert(
        fc.asyncProperty(texts(sum), fc.constantFrom([], ['--json'], ['--svg']), async (said, options) => {
          const pairs = Object.entries(said).map(([id, text]) => `${id}=${text}`);
          const told = await command
            .run(readOptions(command, [sum.id, ...pairs, ...options]), NOTHING)
            .catch((error: unknown) => {
              if (error instanceof Refusal) return error.sentences.join('\n');
              throw error;
            });
          const bare = clean(told, said).replaceAll(/"\w+":null/g, '');
          expect(bare).not.toMatch(BAD);
          expect(bare.trim()).not.toBe('');
        }),
        { numRuns: Number(process.env.FUZZ ?? 100) },
      );
    },
    60_000,
  );
});
