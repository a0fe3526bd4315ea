/** Parts and what holds them by pointing: the two sections stay one, rings are refused in words, undo is exact. */
import { describe, expect, test } from 'vitest';
import { change, openDraft } from '../../src/draft/draft.ts';
import { closesWith, holdWith, letGo } from '../../src/draft/point-held.ts';
import { comesOffAfter, orElse, slackIsEnough, takeBack } from '../../src/draft/point-order.ts';
import { addPart, goesWith, removePart, renamePart } from '../../src/draft/point-parts.ts';
import { waysOff } from '../../src/draft/point-reach.ts';
import { stripOf } from '../../src/draft/point-strip.ts';
import {
  actionNow,
  addTool,
  getTo,
  leaveBe,
  setHands,
  setMinutes,
  setSeizing,
} from '../../src/draft/point-work.ts';
import { layersOf } from '../../src/draw/strip-layers.ts';
import { getAt, type Json, sameJson, writeJson } from '../../src/machine/json-value.ts';
import { judgeFile } from '../../src/machine/judge-file.ts';
import { planJob } from '../../src/way/plan.ts';
import { ARDMOOR, add, all, BARE, behind, did, shipped, wayTo, workIn } from './pointed.ts';

const SMALL = all(
  BARE,
  add('left footrest'),
  add('primary cover'),
  add('primary chain'),
  add('engine sprocket'),
  behind('primary-cover', 'left-footrest'),
  behind('primary-chain', 'primary-cover'),
  behind('engine-sprocket', 'primary-chain'),
  (file) => getTo(file, 'engine-sprocket', ['replace-rotor']),
);

describe('a small bike by pointing', () => {
  test('reads, and the planner goes in by what was said', () => {
    expect(judgeFile(writeJson(SMALL), 'small').mark).not.toBe('broken');
    expect(wayTo(SMALL, 'engine-sprocket')).toEqual([
      'left-footrest-off',
      'primary-cover-off',
      'primary-chain-off',
      'engine-sprocket-off',
    ]);
    expect(getAt(SMALL, ['parts', 'primary-cover', 'blockedBy'])).toEqual(['left-footrest']);
    const made = planJob({ work: workIn(SMALL)!, targets: ['engine-sprocket'], people: 1 });
    if (!made.ok) throw new Error(made.says);
    // Each part lies a level deeper than the one before it.
    expect(made.least.steps.filter(({ id }) => id.endsWith('-off')).map(({ depth }) => depth)).toEqual([
      1, 2, 3, 4,
    ]);
    expect(workIn(SMALL)!.levels.map(({ name }) => name)).toEqual([
      'bike whole',
      'outside',
      'layer 2',
      'layer 3',
      'layer 4',
    ]);
    // Back in the mirror of the way in.
    const order = made.least.steps.map(({ id }) => id);
    const back = ['engine-sprocket-on', 'primary-chain-on', 'primary-cover-on', 'left-footrest-on'];
    expect(order.filter((id) => back.includes(id))).toEqual(back);
  });

  test('slackening is another action, waits for what it must, and saves taking off', () => {
    const file = did(SMALL, (now) => slackIsEnough(now, 'engine-sprocket', 'primary-chain'));
    expect(wayTo(file, 'engine-sprocket')).toEqual([
      'left-footrest-off',
      'primary-cover-off',
      'primary-chain-slack',
      'engine-sprocket-off',
    ]);
    expect(getAt(file, ['parts', 'engine-sprocket', 'blockedBy'])).toBeUndefined();
    // Said the other way again, the slackening that nobody had touched goes.
    expect(sameJson(did(file, behind('engine-sprocket', 'primary-chain')), SMALL)).toBe(true);
  });

  test('a chain that only comes off after what its slack frees is no ring', () => {
    const file = all(
      BARE,
      add('chain'),
      add('sprocket'),
      behind('chain', 'sprocket'),
      (now) => slackIsEnough(now, 'sprocket', 'chain'),
      (now) => getTo(now, 'chain', []),
    );
    expect(wayTo(file, 'chain')).toEqual(['chain-slack', 'sprocket-off', 'chain-off']);
  });

  test('a ring is refused with its members in words, and so is what is not there', () => {
    const ring = comesOffAfter(SMALL, 'left-footrest', 'engine-sprocket');
    expect(ring).toEqual({ ok: false, why: expect.stringContaining('waits for') });
    for (const name of ['left footrest', 'primary cover', 'primary chain', 'engine sprocket'])
      expect(ring.ok ? '' : ring.why).toContain(name);
    expect(comesOffAfter(SMALL, 'left-footrest', 'left-footrest').ok).toBe(false);
    for (const touch of [comesOffAfter, slackIsEnough])
      expect(touch(SMALL, 'primary-cover', 'sidecar')).toEqual({
        ok: false,
        why: expect.stringContaining('There is no part "sidecar"'),
      });
    expect(removePart(SMALL, 'sidecar').ok).toBe(false);
    expect(takeBack(SMALL, 'primary-cover', 'engine-sprocket').ok).toBe(false);
  });

  test('either this or that: two ways, the cheaper one is gone; taken back, the other stays', () => {
    const file = all(
      SMALL,
      add('inspection lid'),
      (now) => orElse(now, 'primary-chain', 'primary-cover', 'inspection-lid'),
      (now) => setMinutes(now, 'inspection-lid-off', { low: 1, likely: null, high: 2 }),
    );
    expect(waysOff(file, 'primary-chain')).toHaveLength(2);
    expect(getAt(file, ['parts', 'primary-chain', 'blockedBy'])).toBeUndefined();
    expect(wayTo(file, 'engine-sprocket')).toEqual([
      'inspection-lid-off',
      'primary-chain-off-2',
      'engine-sprocket-off',
    ]);
    const dear = did(file, (now) =>
      setMinutes(now, 'inspection-lid-off', { low: 900, likely: null, high: 990 }),
    );
    expect(wayTo(dear, 'engine-sprocket')).toContain('primary-cover-off');
    const one = did(file, (now) => takeBack(now, 'primary-chain', 'inspection-lid'));
    expect(waysOff(one, 'primary-chain').map(({ needs }) => needs)).toEqual([['primary-cover off']]);
    expect(orElse(file, 'primary-chain', 'primary-cover', 'engine-sprocket').ok).toBe(false);
  });

  test('fasteners and gaskets become steps back, in order; a hand-written step stays', () => {
    const held = all(
      SMALL,
      (now) =>
        holdWith(now, 'primary-cover', {
          name: 'cover screws',
          count: 10,
          thread: 'M6 × 1',
          torque: '9–11 N·m',
        }),
      (now) => closesWith(now, 'primary-cover', 'gasket'),
    );
    const path = ['work', 'actions', 'primary-cover-off'];
    const kinds = (file: Json) =>
      (getAt(file, [...path, 'back']) as readonly { kind: string }[]).map(({ kind }) => kind);
    expect(kinds(held)).toEqual(['gasket', 'refit', 'torque']);
    expect(getAt(held, [...path, 'fastener'])).toBe('cover-screws');
    expect(getAt(held, ['fasteners', 'cover-screws', 'torque'])).toEqual({ is: '9–11 N·m', from: 'guess' });
    expect(stripOf(held).find(({ id }) => id === 'primary-cover')!.held).toBe(10);
    expect(judgeFile(writeJson(held), 'held').mark).not.toBe('broken');
    const back = all(
      held,
      (now) => letGo(now, 'primary-cover', 'cover-screws'),
      (now) => closesWith(now, 'primary-cover', null),
    );
    expect(sameJson(getAt(back, ['work']), getAt(SMALL, ['work']))).toBe(true);
    expect(getAt(back, ['fasteners'])).toBeUndefined();
    const written = change(openDraft(SMALL), [
      { path: [...path, 'back', 0, 'does'], is: 'Fit it, wires clear' },
    ]).value;
    const more = did(written, (now) => holdWith(now, 'primary-cover', { name: 'screws', torque: '9 N·m' }));
    expect(getAt(more, [...path, 'back', 0, 'does'])).toBe('Fit it, wires clear');
    expect(kinds(more)).toEqual(['refit', 'torque']);
    expect(holdWith(SMALL, 'primary-cover', { name: 'screws', torque: 'tight' })).toEqual({
      ok: false,
      why: expect.stringMatching(/torque/),
    });
  });

  test('another name reaches every sentence that was made of the old one', () => {
    const file = did(SMALL, (now) => renamePart(now, 'engine-sprocket', 'front sprocket'));
    expect(actionNow(file, 'engine-sprocket-off')!.does).toBe('Take the front sprocket off');
    expect(getAt(file, ['work', 'targets', 'engine-sprocket', 'name'])).toBe('front sprocket');
    expect(writeJson(file)).not.toContain('engine sprocket');
    expect(addPart(file, 'Front  Sprocket!')).toMatchObject({ ok: false, id: null });
  });

  test('what goes with a part is told before, and nothing names it after', () => {
    expect(goesWith(SMALL, 'primary-cover')).toEqual([
      '“Take the primary chain off” will no longer wait for the primary cover.',
    ]);
    const file = did(SMALL, (now) => removePart(now, 'primary-cover'));
    expect(writeJson(file)).not.toContain('primary-cover');
    expect(leaveBe(SMALL, 'engine-sprocket').ok).toBe(true);
    const last = all(
      SMALL,
      (now) => removePart(now, 'left-footrest'),
      (now) => removePart(now, 'engine-sprocket'),
    );
    expect(workIn(last)!.targets).toHaveLength(1);
    const none = all(BARE, add('seat'), (now) => removePart(now, 'seat'));
    expect(sameJson(none, BARE)).toBe(true);
  });

  test('depths that somebody has named stay as they are', () => {
    const named = change(openDraft(SMALL), [
      { path: ['work', 'levels', 1, 'name'], is: 'screens and seat' },
    ]).value;
    const more = did(named, add('seat'));
    expect(getAt(more, ['work', 'levels'])).toEqual(getAt(named, ['work', 'levels']));
    expect(JSON.stringify(getAt(did(SMALL, add('seat')), ['work', 'levels', 1]))).toContain('seat off');
    expect(getAt(did(ARDMOOR, add('screen')), ['work', 'levels'])).toEqual(
      getAt(ARDMOOR, ['work', 'levels']),
    );
  });

  test('minutes, hands, tools and what may seize are what the file says', () => {
    const file = all(
      SMALL,
      (now) => setMinutes(now, 'primary-cover-off', { low: 8, likely: 12, high: 20 }),
      (now) => setHands(now, 'primary-cover-off', 2),
      (now) => addTool(now, 'primary-cover-off', 'hex keys'),
      (now) => setSeizing(now, 'primary-cover-off', { basePercent: 8, place: 'outside' }),
    );
    expect(actionNow(file, 'primary-cover-off')).toMatchObject({
      minutes: { low: 8, likely: 12, high: 20 },
      hands: 2,
      tools: ['hex-keys'],
      seizes: 8,
    });
    const action = workIn(file)!.actions.find(({ id }) => id === 'primary-cover-off')!;
    expect(action.minutes).toEqual({ low: 8, likely: 12, high: 20 });
    expect(action.seizes!.chance).toBeGreaterThan(0);
    const low = setMinutes(file, 'primary-cover-off', { low: 20, likely: null, high: 8 });
    expect(low).toEqual({ ok: false, why: expect.stringContaining('cannot be more') });
    expect(setMinutes(file, 'primary-cover-off', { low: Number.NaN, likely: null, high: 8 }).ok).toBe(false);
  });
});

test.each(['ardmoor-650-pathway', 'oskerlund-420-fellgate', 'pemburrow-900-carillon'])(
  'everything of %s can be drawn, and something takes each of it off',
  (name) => {
    const things = stripOf(shipped(name));
    const { stuck, count } = layersOf(things);
    expect([...stuck].map((n) => things[n]!.id)).toEqual([]);
    expect(count).toBeGreaterThan(3);
    expect(things.filter(({ goal }) => goal !== null).length).toBeGreaterThan(3);
  },
);

/*
 * Bourjault's pen taken apart: ink from tube only after head or button is off the body, head from tube after the ink, head
 * from body after the cap. 12 orders (test/reference/way-pen.test.ts says where the count comes from).
 */
test('the pen of the textbook, by pointing, comes apart in 12 orders and no other', () => {
  const liaisons = ['head tube', 'ink tube', 'head body', 'cap body', 'button body'];
  const pen = all(
    BARE,
    ...liaisons.map(add),
    behind('head-tube', 'ink-tube'),
    behind('ink-tube', 'head-body'),
    (file) => orElse(file, 'ink-tube', 'head-body', 'button-body'),
    behind('head-body', 'cap-body'),
  );
  const ids = liaisons.map((name) => name.replace(' ', '-'));
  const orders = (left: readonly string[], holds: readonly string[]): number =>
    left.length === 0
      ? 1
      : left
          .filter((id) => waysOff(pen, id).some(({ needs }) => needs.every((fact) => holds.includes(fact))))
          .reduce(
            (sum, id) =>
              sum +
              orders(
                left.filter((other) => other !== id),
                [...holds, `${id} off`],
              ),
            0,
          );
  expect(orders(ids, [])).toBe(12);
  expect(
    wayTo(
      did(pen, (file) => getTo(file, 'ink-tube', [])),
      'ink-tube',
    ),
  ).toHaveLength(2);
});
