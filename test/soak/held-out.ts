/**
 * Readings kept back, foretold under the true faults, kind by kind: on bikes of our own
 * (`node scripts/run-ts.mjs test/soak/held-out.ts own [BIKES] [FIRST] [rough]`) or on the odd practice cases
 * (`… odd [rough]`). Mean and deviation of the z-scores: 0 and 1 where the model is right; a deviation of 2 means that
 * readings of this kind lie twice as far off as the model believes.
 */
import { readFileSync } from 'node:fs';
import { openNamed } from '../../src/cases/draw-stream.ts';
import { drawBike } from '../../src/cases/drawn-bike.ts';
import { faultOfName } from '../../src/cases/exchange.ts';
import { specOfNameplate } from '../../src/cases/nameplate.ts';
import { readCases } from '../../src/cases/read-cases.ts';
import type { FaultId } from '../../src/fault/catalogue.ts';
import { completeKey } from '../../src/reading/catalogue.ts';
import { readKey, type Value } from '../../src/reading/key.ts';
import { POINT_KINDS, stateWords } from '../../src/reading/show.ts';
import { prepare } from '../../src/verdict/evidence.ts';
import { catalogueWeights, openField } from '../../src/verdict/field.ts';
import { offered } from '../verdict/answer-checks.ts';
import { type Kept, keptBack } from '../verdict/held-out.ts';

/** Engine states that are read: what the verdict itself offers. */
const STATES = new Set([
  ...['idle|low|cold|False|True', '3000|low|cold|False|True', '5000|low|cold|False|True'],
  ...['5000|off|cold|False|True', '3000|low|cold|False|False', 'idle|low|hot|False|True'],
  ...[
    '3000|low|hot|False|True',
    '5000|off|cold|True|True',
    'idle|low|cold|True|True',
    '3000|low|cold|True|True',
  ],
]);

interface Found extends Kept {
  readonly where: string;
}

function wanted(text: string): boolean {
  const key = readKey(text);
  if (!key || key.kind === 'visual' || key.state.wiggle === 'True') return false;
  return !POINT_KINDS.has(key.kind) || STATES.has(stateWords(completeKey(key)));
}

function ofBike(
  where: string,
  seed: number,
  spec: ReturnType<typeof specOfNameplate>,
  readings: Record<string, Value>,
  faults: readonly FaultId[],
  spend: boolean,
): Found[] {
  const taken = prepare(
    {
      symptoms: [],
      readings,
      again: [],
      tools: { clamp: true, loadTester: true, hydrometer: true, supply: true },
    },
    spec.alternator.phases,
  );
  const field = openField(spec, catalogueWeights(), 1);
  return keptBack(field, taken, faults, openNamed(seed, 'kept back'), { spend }).map((kept) => ({
    ...kept,
    where,
  }));
}

function* own(count: number, first: number, spend: boolean): Generator<Found[]> {
  for (let seed = first; seed < first + count; seed++) {
    const bike = drawBike(seed, { wider: 1 });
    const readings = Object.fromEntries(
      offered(bike)
        .filter(wanted)
        .map((key) => [key, bike.read(key)]),
    );
    const faults = bike.faults.map((fault) => fault.id);
    yield ofBike(`${seed} ${faults.join('+') || 'sound'}`, seed, bike.spec, readings, faults, spend);
  }
}

function* odd(spend: boolean): Generator<Found[]> {
  const cases = readCases(readFileSync('test/cases/open.jsonl', 'utf8'));
  for (let n = 1; n < cases.length; n += 2) {
    const practice = cases[n]!;
    const faults = practice.truth.faults.map((name) => faultOfName(name)!);
    const readings = Object.fromEntries(
      Object.entries(practice.readings)
        .filter(([key]) => wanted(key))
        .map(([key, [value]]) => [key, value]),
    );
    yield ofBike(
      `${n} ${faults.join('+') || 'sound'}`,
      n,
      specOfNameplate(practice.nameplate),
      readings,
      faults,
      spend,
    );
  }
}

const figure = (value: number, digits = 2) =>
  (Number.isFinite(value) ? value.toFixed(digits) : '–').padStart(7);

/** Mean, deviation, deviation that outliers do not move, and how many are beyond 3. */
function spread(list: readonly number[]): string {
  const good = list.filter((z) => !Number.isNaN(z));
  if (good.length === 0)
    return `${figure(Number.NaN)}${figure(Number.NaN)}${figure(Number.NaN)}${figure(Number.NaN)}`;
  const mean = good.reduce((sum, z) => sum + z, 0) / good.length;
  const sd = Math.sqrt(good.reduce((sum, z) => sum + (z - mean) ** 2, 0) / good.length);
  const sorted = good.map((z) => Math.abs(z)).sort((a, b) => a - b);
  const middle = sorted[Math.floor(sorted.length / 2)]! / 0.6745;
  const far = (100 * good.filter((z) => Math.abs(z) > 3).length) / good.length;
  return `${figure(mean)}${figure(sd)}${figure(middle)}${figure(far, 1)}`;
}

function table(title: string, found: readonly Found[], groupOf: (one: Found) => string): void {
  console.log(`\n${title}`);
  const head = ['mean', 'sd', 'mid', '%>3'].map((word) => word.padStart(7)).join('');
  console.log(`${''.padEnd(34)}${'n'.padStart(6)} |${head} |${head} |${head} | OL seen / foretold`);
  console.log(
    `${''.padEnd(40)} | ${'from the faults alone'.padEnd(27)} | ${'and 12 readings'.padEnd(27)} | and all others`,
  );
  const groups = new Map<string, Found[]>();
  for (const one of found) {
    const name = groupOf(one);
    groups.set(name, [...(groups.get(name) ?? []), one]);
  }
  for (const [name, list] of [...groups].sort(([a], [b]) => a.localeCompare(b))) {
    const opens = list.filter((one) => !Number.isNaN(one.open));
    const seen = opens.filter((one) => one.value === null).length;
    const foretold = opens.reduce((sum, one) => sum + one.open, 0);
    const open = seen > 0 || foretold > 0.5 ? `${seen} / ${foretold.toFixed(1)}` : '';
    console.log(
      `${name.padEnd(34)}${String(list.filter((one) => one.value !== null).length).padStart(6)} |${spread(list.map((one) => one.alone))} |${spread(list.map((one) => one.some))} |${spread(list.map((one) => one.rest))} | ${open}`,
    );
  }
}

const [, , which = 'own', ...rest] = process.argv;
const numbers = rest.filter((word) => word !== 'rough').map(Number);
const spend = !rest.includes('rough');
const found: Found[] = [];
const start = performance.now();
for (const list of which === 'own' ? own(numbers[0] ?? 40, numbers[1] ?? 1, spend) : odd(spend)) {
  found.push(...list);
  const zs = list.map((one) => one.some).filter((z) => !Number.isNaN(z));
  const sd = Math.sqrt(zs.reduce((sum, z) => sum + z * z, 0) / zs.length);
  console.error(
    `${list[0]?.where}: rms ${sd.toFixed(2)}, ${((performance.now() - start) / 1000).toFixed(0)} s`,
  );
}
console.log(
  `${which === 'own' ? 'own drawn bikes, wear as believed' : 'odd practice cases'}; lines ${spend ? 'moved onto the set’s own physics' : 'put together from single faults'}`,
);
table('by kind', found, (one) => one.kind);
table('by kind and state', found, (one) => {
  const s = completeKey(readKey(one.key)!).state;
  const words = ['rpm', 'lights', 'temp', 'charged', 'acc', 'probe', 'state', 'through_plug', 'loaded'];
  return `${one.kind} ${words
    .map((w) =>
      s[w] === undefined || ['cold', 'False'].includes(s[w]!) || (w === 'acc' && s[w] === 'True')
        ? ''
        : w === 'temp' || w === 'rpm' || w === 'lights'
          ? s[w]
          : `${w}=${s[w]}`,
    )
    .filter(Boolean)
    .join(' ')}`;
});
table('by faults', found, (one) => one.where.replace(/^\d+ /, ''));
table(
  'by each fault present',
  found.flatMap((one) => (one.where.split(' ')[1] ?? '').split('+').map((id) => ({ ...one, where: id }))),
  (one) => one.where,
);
console.log('\nfurthest off, given 12 readings');
for (const one of [...found]
  .filter((k) => !Number.isNaN(k.some))
  .sort((a, b) => Math.abs(b.some) - Math.abs(a.some))
  .slice(0, 60))
  console.log(
    `${one.some.toFixed(1).padStart(8)}  ${one.key.padEnd(44)} ${one.value} (expected ${one.mean.toPrecision(4)} ± ${one.sd.toPrecision(3)})  ${one.where}`,
  );
