/** The right length of a screw: thread that is enough, the window of lengths, and the choice from stock. */
import { describe, expect, test } from 'vitest';
import { gradeById, strengthOf } from '../../src/joint/grade.ts';
import { materialById } from '../../src/joint/material.ts';
import { readThread } from '../../src/joint/read-thread.ts';
import { chooseLength, lengthWindow, METRIC_STOCK, threadWanted } from '../../src/joint/screw-length.ts';
import { makeThread, type Thread } from '../../src/joint/thread.ts';

const M6 = makeThread(0.006, 0.001);
const CASE = { thread: M6, grip: 0.012, threadDepth: 0.015 };

function quarter(): Thread {
  const found = readThread('1/4-20');
  if (!found.ok) throw new Error(found.why);
  return found.thread;
}

function strength(id: string, thread: Thread) {
  const found = strengthOf(gradeById(id), thread.diameter);
  if (!found.ok) throw new Error(found.why);
  return found.strength;
}

describe('thread that is enough', () => {
  // FED-STD-H28 with NADCA's shear strength of the 380 family: 1.85 diameters at most for A574, 1.23 for grade 5.
  test.each([
    ['a574', 1.85],
    ['j429-5', 1.23],
  ])('%s in die-cast aluminium takes %d diameters', (id, most) => {
    const thread = quarter();
    const { engaged } = threadWanted(thread, strength(id, thread), materialById('die-cast-380'));
    expect(engaged.high / thread.diameter).toBeCloseTo(most, 2);
  });

  test('never less than one diameter, and by rule where something is not known', () => {
    expect(threadWanted(M6, strength('8.8', M6), materialById('alloy-steel')).engaged.low).toBe(0.006);
    // US Army TM 5-3895-367-14&P: two diameters in aluminium.
    expect(threadWanted(M6, null, materialById('6061-t6')).engaged.high).toBeCloseTo(0.012, 12);
    expect(threadWanted(M6, null, null).by).toContain('common practice, no source');
  });
});

describe('length', () => {
  test('from the thread wanted to one pitch above the end of the thread', () => {
    // 12 + 9 + 1 mm; 12 + 15 + 1 − 1 mm.
    const window = lengthWindow(CASE, 0.009)!;
    expect(window.low).toBeCloseTo(0.022, 12);
    expect(window.high).toBeCloseTo(0.027, 12);
    expect(lengthWindow(CASE, 0.02)).toBeNull();
    expect(lengthWindow({ thread: M6, grip: 0.012 }, 0.02)?.high).toBe(Number.POSITIVE_INFINITY);
  });

  test('the shortest that is right; else the longest with half of it; else none', () => {
    expect(chooseLength(CASE, 0.009, METRIC_STOCK)).toMatchObject({ length: 0.025, enough: true });
    expect(chooseLength(CASE, 0.009, [0.02, 0.03])).toMatchObject({ length: 0.02, enough: false });
    expect(chooseLength(CASE, 0.009, [0.016, 0.03])).toMatchObject({ length: null, wrong: 'too-long' });
    expect(chooseLength(CASE, 0.009, [0.012, 0.016])).toMatchObject({ length: null, wrong: 'too-short' });
  });

  test('throws for a thread of nothing', () => {
    expect(() => chooseLength(CASE, 0, METRIC_STOCK)).toThrow('engaged');
    expect(() => lengthWindow(CASE, Number.NaN)).toThrow('engaged');
  });
});
