import { describe, expect, test } from 'vitest';
import type { ChargingSpec } from '../../src/circuit/spec.ts';
import type { Answer, Evidence } from '../../src/verdict/answer.ts';
import type { Explanation } from '../../src/verdict/explanation.ts';
import { type Ask, type Chances, openThinker, type Reply } from '../../src/web/think.ts';

const spec = { name: 'any' } as unknown as ChargingSpec;
const evidence = (volts: number): Evidence => ({
  symptoms: [],
  readings: { rest_volts: volts },
  again: [],
  tools: { clamp: false, loadTester: false, hydrometer: false, supply: false },
});
const answer = (noneOfThese: number): Answer => ({ noneOfThese }) as unknown as Answer;

function world() {
  const asked: Ask[] = [];
  const answers: number[] = [];
  const bands: string[] = [];
  const busy: boolean[] = [];
  const failed: string[] = [];
  const reasons: [Explanation, Evidence][] = [];
  const opened: Chances[] = [];
  let take: (reply: Reply) => void = () => undefined;
  const thinker = openThinker(
    {
      post: (ask) => asked.push(ask),
      receive: (receiver) => {
        take = receiver;
      },
    },
    {
      answer: (got) => answers.push(got.noneOfThese),
      opened: (now) => opened.push(now),
      explained: (why, of) => reasons.push([why, of]),
      shows: (key) => bands.push(key),
      thinking: (now) => busy.push(now),
      failed: (why) => failed.push(why),
    },
  );
  const of = <K extends Ask['kind']>(kind: K) =>
    asked.filter((ask) => ask.kind === kind) as Extract<Ask, { kind: K }>[];
  const reply = (ask: Extract<Ask, { kind: 'assess' }> | undefined, value: number): void => {
    if (!ask) throw new Error('nothing was asked');
    take({ kind: 'answer', bike: ask.bike, id: ask.id, answer: answer(value) });
  };
  return {
    thinker,
    asked,
    answers,
    bands,
    busy,
    failed,
    reasons,
    opened,
    of,
    reply,
    take: (r: Reply) => take(r),
  };
}

describe('asking the worker', () => {
  test('only the newest question waits behind the one on its way, and a stale answer is dropped', () => {
    const w = world();
    w.thinker.open(spec, []);
    for (const volts of [12.1, 12.2, 12.3, 12.4]) w.thinker.assess(evidence(volts));
    expect(w.of('assess')).toHaveLength(1);
    w.reply(w.of('assess')[0], 0.1);
    expect(w.answers).toEqual([]);
    expect(w.of('assess').map((ask) => ask.evidence.readings.rest_volts)).toEqual([12.1, 12.4]);
    expect(w.busy.at(-1)).toBe(true);
    w.reply(w.of('assess')[1], 0.4);
    expect(w.answers).toEqual([0.4]);
    expect(w.busy.at(-1)).toBe(false);
  });

  test('answers about another bike are dropped', () => {
    const w = world();
    w.thinker.open(spec, []);
    w.thinker.assess(evidence(12.1));
    w.thinker.open(spec, []);
    w.thinker.assess(evidence(12.5));
    w.reply(w.of('assess')[0], 0.1);
    expect(w.answers).toEqual([]);
    w.reply(w.of('assess')[1], 0.5);
    expect(w.answers).toEqual([0.5]);
  });

  test('a failure is told and the next question still goes out', () => {
    const w = world();
    w.thinker.open(spec, []);
    w.thinker.assess(evidence(12.1));
    w.thinker.assess(evidence(12.2));
    const first = w.of('assess')[0];
    w.take({ kind: 'failed', bike: first?.bike ?? 0, id: first?.id ?? 0, why: 'broken' });
    expect(w.failed).toEqual(['broken']);
    w.reply(w.of('assess')[1], 0.2);
    expect(w.answers).toEqual([0.2]);
    expect(w.busy.at(-1)).toBe(false);
  });

  test('a band is kept for its key even when another was asked since', () => {
    const w = world();
    w.thinker.open(spec, []);
    w.thinker.sound('rest_volts');
    w.thinker.sound('keyoff_mA');
    const first = w.of('sound')[0];
    const shows = { band: null, openShare: 1 };
    w.take({ kind: 'shows', bike: first?.bike ?? 0, id: first?.id ?? 0, key: 'rest_volts', shows });
    expect(w.bands).toEqual(['rest_volts']);
    expect(w.of('sound').map((ask) => ask.key)).toEqual(['rest_volts', 'keyoff_mA']);
  });

  test('reasons come with the evidence they are for, and those nobody waits for any more are dropped', () => {
    const w = world();
    const why: Explanation = { suspects: [], alike: [] };
    w.thinker.open(spec, []);
    for (const volts of [12.1, 12.2, 12.3]) w.thinker.explain(evidence(volts));
    const tell = (ask: Extract<Ask, { kind: 'explain' }> | undefined): void =>
      w.take({ kind: 'explained', bike: ask?.bike ?? 0, id: ask?.id ?? 0, explanation: why });
    tell(w.of('explain')[0]);
    expect(w.reasons).toEqual([]);
    expect(w.of('explain').map((ask) => ask.evidence.readings.rest_volts)).toEqual([12.1, 12.3]);
    tell(w.of('explain')[1]);
    expect(w.reasons).toEqual([[why, evidence(12.3)]]);
    // An answer does not wait for reasons: each has its own place.
    w.thinker.explain(evidence(12.4));
    w.thinker.assess(evidence(12.4));
    expect(w.of('assess')).toHaveLength(1);
    expect(w.busy.at(-1)).toBe(true);
    tell(w.of('explain')[2]);
    expect(w.busy.at(-1)).toBe(true);
  });

  test('chances set in the job go to the worker with the bike, and what they come to is heard for this bike only', () => {
    const w = world();
    const own = [{ fault: 'drain', chance: 0.3, why: '', at: '', who: '' }];
    w.thinker.open(spec, []);
    w.thinker.open(spec, own);
    const [first, second] = w.of('open');
    expect([first?.own, second?.own]).toEqual([[], own]);
    const chances = new Map([['drain', 0.3]]) as Chances;
    w.take({ kind: 'opened', bike: first?.bike ?? 0, chances, catalogue: chances });
    expect(w.opened).toEqual([]);
    w.take({ kind: 'opened', bike: second?.bike ?? 0, chances, catalogue: chances });
    expect(w.opened).toEqual([chances]);
  });
});
