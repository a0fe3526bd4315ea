/** Any touches by pointing, one after another: the file still reads, every target can be got to, undo is exact. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { change, openDraft, undo } from '../../src/draft/draft.ts';
import { closesWith, holdWith, letGo } from '../../src/draft/point-held.ts';
import { comesOffAfter, orElse, slackIsEnough, takeBack } from '../../src/draft/point-order.ts';
import { addPart, removePart, renamePart } from '../../src/draft/point-parts.ts';
import { movesOf, reached } from '../../src/draft/point-reach.ts';
import { stripOf } from '../../src/draft/point-strip.ts';
import { getTo, goalOf, leaveBe, setMinutes } from '../../src/draft/point-work.ts';
import { entriesAt, type Pointed, textsOf } from '../../src/draft/pointing.ts';
import { getAt, type Json, writeJson } from '../../src/machine/json-value.ts';
import { judgeFile } from '../../src/machine/judge-file.ts';
import { ARDMOOR, BARE, wayTo, workIn } from './pointed.ts';

const NAMES = ['seat', 'tank', 'left cover', 'chain', 'clutch', 'rotor', 'stator', 'lid'];
const which = fc.nat(11);
const touch = fc.record({ kind: fc.nat(15), a: which, b: which, c: which });

/** One touch at random on whatever things the file has. */
function point(file: Json, { kind, a, b, c }: { kind: number; a: number; b: number; c: number }): Pointed {
  const things = stripOf(file);
  const part = (n: number) => things[n % Math.max(1, things.length)]?.id ?? 'nothing';
  const actions = entriesAt(file, ['work', 'actions']).map(([id]) => id);
  const action = actions[a % Math.max(1, actions.length)] ?? 'nothing';
  switch (kind) {
    case 0:
    case 1:
      return addPart(file, `${NAMES[a % NAMES.length]}${b > 5 ? ` ${c}` : ''}`);
    case 2:
    case 3:
    case 4:
      return comesOffAfter(file, part(a), part(b));
    case 5:
    case 6:
      return slackIsEnough(file, part(a), part(b), c > 8 ? action : undefined);
    case 7:
      return takeBack(file, part(a), part(b));
    case 8:
      return orElse(file, part(a), part(b), part(c), (a + b) % 2 === 0);
    case 9:
      return removePart(file, part(a));
    case 10:
      return renamePart(file, part(a), `renamed ${b}`);
    case 11:
      return holdWith(file, part(a), {
        name: 'screws',
        count: b + 1,
        ...(c > 5 ? { torque: '10 N·m' } : {}),
      });
    case 12:
      return letGo(file, part(a), textsOf(getAt(file, ['parts', part(a), 'heldBy']))[0] ?? 'none');
    case 13:
      return closesWith(file, part(a), [null, 'gasket', 'seal'][b % 3] as null | 'gasket' | 'seal');
    case 14:
      return goalOf(file, part(a)) === null
        ? getTo(file, part(a), ['replace-stator'])
        : leaveBe(file, part(a));
    default:
      return setMinutes(file, action, { low: a, likely: a + b, high: a + b + c });
  }
}

describe.each([
  ['a bare file', BARE, 60],
  ['the primary-case twin', ARDMOOR, 4],
] as const)('any touches on %s', (_name, start, runs) => {
  test('leave a file that reads, a way to every target that had one, and undo to what it was', () => {
    const granted = new Set<number>();
    const lists = fc.array(touch, { minLength: 20, maxLength: 60 });
    fc.assert(
      fc.property(lists, (touches) => {
        let draft = openDraft(start);
        for (const one of touches) {
          const pointed = point(draft.value, one);
          if (pointed.ok) {
            draft = change(draft, pointed.puts);
            granted.add(one.kind);
          } else expect(pointed.why).toMatch(/\.$/);
        }
        const { mark, problems, findings } = judgeFile(writeJson(draft.value), 'touched', 2026);
        expect(problems).toEqual([]);
        expect(mark).not.toBe('broken');
        // Nothing that the check of the way in calls impossible: no ring, no fact without giver, no lost id.
        expect(findings.filter(({ topic, level }) => topic === 'work' && level === 'impossible')).toEqual([]);
        expect(findings.filter(({ topic, what }) => topic === 'parts' && !what.includes('one name'))).toEqual(
          [],
        );
        const work = workIn(draft.value);
        const holds = reached(movesOf(draft.value));
        for (const { id, needs } of work?.targets ?? []) {
          expect(
            needs.every((fact) => holds.has(fact)),
            id,
          ).toBe(true);
          if (start === BARE) expect(wayTo(draft.value, id), id).not.toBeNull();
        }
        while (draft.done.length > 0) draft = undo(draft);
        expect(draft.value).toBe(start);
      }),
      { numRuns: runs },
    );
    // Every kind of touch is granted somewhere: none of them only ever refuses. What luck left out is looked for further.
    if (start !== BARE) return;
    for (const touches of fc.sample(lists, { numRuns: 60, seed: 1 })) {
      let draft = openDraft(start);
      for (const one of touches) {
        if (granted.size === 16) break;
        const pointed = point(draft.value, one);
        if (!pointed.ok) continue;
        draft = change(draft, pointed.puts);
        granted.add(one.kind);
      }
    }
    expect(granted.size).toBe(16);
  });
});
