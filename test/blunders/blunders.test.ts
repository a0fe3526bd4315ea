import { describe, expect, it } from 'vitest';
import { TOPICS } from '../../src/machine/finding.ts';
import { judgeFile } from '../../src/machine/judge-file.ts';
import { edited, put } from './edit.ts';
import { PLANTS, SOUNDS } from './list.ts';
import { FLOOR, falseAlarms, missed, passes, score, table } from './score.ts';

/** Every third of each: the short form of `npm run blunders`. */
const third = <T>(list: readonly T[]) => list.filter((_, n) => n % 3 === 0);

describe('blunders', () => {
  it('are at least sixty, beside sixty sound files', () => {
    expect(PLANTS.length).toBeGreaterThanOrEqual(60);
    expect(SOUNDS.length).toBeGreaterThanOrEqual(60);
    const names = [...PLANTS, ...SOUNDS].map(({ topic, name }) => `${topic}/${name}`);
    expect(new Set(names).size).toBe(names.length);
  });

  it('are caught for the right reason, and sound files are left alone', () => {
    const found = score(third(PLANTS), third(SOUNDS));
    expect(found.caught, table(found)).toBeGreaterThanOrEqual(FLOOR.caught * found.planted);
    expect(found.alarmed, table(found)).toBeLessThanOrEqual(FLOOR.alarmed * found.sound);
  });

  it('the score counts what it should: a plant that is none is missed, a blunder among the sound is an alarm', () => {
    const none = { ...PLANTS[0]!, edit: () => {} };
    expect(missed(none)).toBe('nothing was said');
    expect(missed({ ...PLANTS[0]!, says: /no such word/ })).not.toBeNull();
    const { topic, name, machine, edit } = PLANTS[0]!;
    expect(falseAlarms({ topic, name, machine, edit }).length).toBeGreaterThan(0);
    const bad = score([none], [{ topic, name, machine, edit }]);
    expect([bad.caught, bad.alarmed, passes(bad)]).toEqual([0, 1, false]);
  });

  it('are found once each member goes missing: no figure that is left out stops the check', () => {
    // Any member of a fastener, chain, set of shims, fluid or part may be gone.
    for (const path of [
      'fasteners/cover-screws/thread',
      'fasteners/cover-screws/grade',
      'fasteners/cover-screws/hole',
      'fasteners/cover-screws/length',
      'fasteners/cover-screws/torque',
      'chains/primary/centre',
      'chains/primary/drivenTeeth',
      'chains/primary/links',
      'shims',
      'fluids/primary-oil/space',
      'parts',
      'charging/wiring',
      'charging/alternator/poles',
    ]) {
      const { mark, problems } = judgeFile(edited('ardmoor', put(path, undefined)), 'a.json', 2026);
      expect([path, mark, problems]).toEqual([path, 'clean', []]);
    }
  });

  it('cover every topic that a finding may have', () => {
    const seen = new Set(
      PLANTS.flatMap(({ machine, edit }) =>
        judgeFile(edited(machine, edit), 'a.json', 2026).findings.map(({ topic }) => topic),
      ),
    );
    expect(TOPICS.filter((topic) => !seen.has(topic))).toEqual([]);
  });
});
