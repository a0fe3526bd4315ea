/** Random works of an invented bike: parts over parts, ways round, partial loosening, cures, windows, tools. */
import type { Action, BuildStep, Fact, Work } from '../../src/way/work.ts';
import { step } from './small-work.ts';

/** A stream of whole numbers below n (mulberry32). */
function stream(seed: number): (n: number) => number {
  let state = seed | 0;
  return (n) => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return Math.floor((((t ^ (t >>> 14)) >>> 0) / 4294967296) * n);
  };
}

/** A work whose targets can all be reached; of so many parts, or a few. */
export function randomWork(seed: number, size?: number): Work {
  const draw = stream(seed);
  const parts = size ?? 3 + draw(4);
  const actions: Action[] = [];
  const add = (id: string, needs: readonly Fact[], gives: readonly Fact[]) => {
    const back: BuildStep[] = [];
    for (let k = 0, n = draw(4); k < n; k++) {
      const before = back.at(-1);
      const window = before && before.hands > 0 && draw(3) === 0;
      back.push(
        step(`${id}-${k}`, 1 + draw(20), {
          hands: draw(4) === 0 ? 0 : 1,
          tools: draw(3) === 0 ? ['wrench'] : [],
          uses: draw(5) === 0 ? [{ supply: 'part', amount: 1 }] : [],
          cold: draw(6) === 0,
          lags: before
            ? [
                {
                  after: before.id,
                  from: draw(2) ? 'end' : 'start',
                  least: draw(3),
                  ...(window ? { most: 25 + draw(30) } : {}),
                },
              ]
            : [],
        }),
      );
    }
    const likely = 1 + draw(20);
    actions.push({
      id,
      does: `Take ${id}`,
      needs,
      gives,
      minutes: { low: likely, likely, high: likely + draw(9) },
      hands: draw(6) === 0 ? 0 : 1,
      tools: draw(4) === 0 ? ['puller'] : [],
      back,
      ...(draw(4) === 0 ? { seizes: { chance: 0.2, adds: { low: 10, likely: 20, high: 60 } } } : {}),
    });
  };
  for (let p = 0; p < parts; p++) {
    for (let w = 0, ways = 1 + draw(2); w < ways; w++) {
      const needs = new Set<Fact>();
      for (let k = draw(3); k > 0 && p > 0; k--) needs.add(`p${draw(p)} ${draw(3) === 0 ? 'slack' : 'off'}`);
      const also = draw(6) === 0 && p > 0 ? [`p${draw(p)} slack`] : [];
      add(`p${p}-${w}`, [...needs], [`p${p} off`, ...also.filter((f) => !needs.has(f))]);
    }
    if (draw(3) === 0) add(`p${p}-loose`, [], [`p${p} slack`]);
  }
  const target = (id: string, p: number) => ({
    id,
    name: `the ${id}`,
    needs: [`p${p} off`],
    work: Array.from({ length: 1 + draw(2) }, (_, k) => step(`${id}-${k}`, 1 + draw(15))),
    repairs: [],
  });
  return {
    actions,
    targets: [target('deep', parts - 1), ...(draw(2) ? [target('other', draw(parts - 1))] : [])],
    tools: [
      { id: 'wrench', name: 'wrench', count: 1 },
      { id: 'puller', name: 'puller', count: 1 + draw(2) },
    ],
    supplies: [{ id: 'part', name: 'a part', kind: 'part', unit: 'piece', singleUse: false, canWait: false }],
    closing: [step('fill', 5), step('prove', 8)],
    levels: [{ name: 'whole', facts: [] }],
  };
}
