/**
 * The long form of test/verdict/sbc.test.ts: `node scripts/run-ts.mjs test/soak/sbc.ts [BIKES] [FIRST] [noslips]`, on two
 * circuits. Prints what was claimed against what was so, ranks, and z-scores of unknowns and of readings kept back.
 */
import { against, evenness, type Trial, trials } from '../verdict/sbc.ts';
import { SBC_BACKS, SBC_KEYS, SBC_SPECS } from '../verdict/sbc-readings.ts';

const [, , many = '100', first = '1', ...words] = process.argv;
const slips = !words.includes('noslips');
const all: Trial[] = [];
const start = performance.now();
for (const spec of SBC_SPECS) {
  let n = 0;
  for (const trial of trials(spec, SBC_KEYS, SBC_BACKS, Number(many), Number(first), slips)) {
    all.push(trial);
    if (trial.probability < 1e-3)
      console.log(
        `  ${spec.name} ${Number(first) + n}: ${trial.truth} given ${trial.probability.toExponential(1)}`,
      );
    if (++n % 25 === 0)
      console.error(`${spec.name}: ${n}, ${((performance.now() - start) / 1000).toFixed(0)} s`);
  }
}
const f = (value: number, digits = 2) => value.toFixed(digits).padStart(8);
for (const [name, pick] of [
  ['sets', (t: Trial) => t.claims],
  ['repairs', (t: Trial) => t.repairs],
] as const) {
  const claims = all.flatMap(pick);
  console.log(`\n${name}: claimed, so, deviations`);
  const edges = [0, 0.001, 0.01, 0.05, 0.2, 0.4, 0.6, 0.8, 0.9, 0.95, 0.99, 1.0001];
  edges.slice(1).forEach((to, n) => {
    const from = edges[n]!;
    const those = claims.filter(([p]) => p >= from && p < to);
    if (those.length === 0) return;
    const a = against(those);
    console.log(
      `  ${f(from, 3)} –${f(Math.min(1, to), 3)}  n ${String(a.count).padStart(6)}  claimed ${f(a.expected)}  so ${f(a.so, 0)}  ${f(a.z)}`,
    );
  });
  const a = against(claims);
  console.log(
    `  Brier ${a.brier.toFixed(5)}, foretold ${a.foretold.toFixed(5)}: ${a.brierZ.toFixed(2)} deviations (+ = too sure)`,
  );
}
const log = all.reduce((sum, t) => sum - Math.log(Math.max(t.probability, 1e-12)), 0) / all.length;
const entropy =
  all.reduce((sum, t) => sum - t.claims.reduce((s, [p]) => s + (p > 0 ? p * Math.log(p) : 0), 0), 0) /
  all.length;
console.log(`\nlog score ${log.toFixed(3)} nats a bike, foretold ${entropy.toFixed(3)}`);
for (const [name, pick] of [
  ['rank by name', (t: Trial) => t.byName],
  ['rank by falling probability', (t: Trial) => t.byProbability],
] as const) {
  const e = evenness(all.map(pick));
  console.log(`${name}: ${e.counts.join(' ')}, z ${e.z.toFixed(2)}`);
}
const table = (title: string, rows: Map<string, number[]>) => {
  console.log(`\n${title}: n, mean, sd, beyond 3`);
  for (const [name, zs] of rows) {
    const mean = zs.reduce((s, z) => s + z, 0) / zs.length;
    const sd = Math.sqrt(zs.reduce((s, z) => s + (z - mean) ** 2, 0) / zs.length);
    console.log(
      `  ${name.padEnd(36)} ${String(zs.length).padStart(5)} ${f(mean)} ${f(sd)} ${f((100 * zs.filter((z) => Math.abs(z) > 3).length) / zs.length, 1)} %`,
    );
  }
};
const group = (pairs: readonly (readonly [string, number])[]) => {
  const rows = new Map<string, number[]>();
  for (const [name, z] of pairs) rows.set(name, [...(rows.get(name) ?? []), z]);
  return rows;
};
table('unknowns', group(all.flatMap((t) => Object.entries(t.unknowns))));
table('readings kept back', group(all.flatMap((t) => t.kept.map((k) => [k.key, k.z] as const))));
