/** Engagement from what a calliper and a depth gauge say. */
import { describe, expect, test } from 'vitest';
import { type Engagement, engagement, type ScrewInHole } from '../../src/joint/engagement.ts';
import { makeThread } from '../../src/joint/thread.ts';

const M6 = makeThread(0.006, 0.001);

function engaged(screw: Partial<ScrewInHole>): Engagement {
  const found = engagement({ thread: M6, length: 0.03, grip: 0.018, ...screw });
  if (!found.ok) throw new Error(found.why);
  return found;
}

describe('engagement', () => {
  test('30 mm through 18 mm: 12 mm reach, less a point of one pitch', () => {
    const found = engaged({});
    expect(found.reach).toBeCloseTo(0.012, 12);
    expect(found.engaged).toBeCloseTo(0.011, 12);
    expect(found.diameters).toBeCloseTo(11 / 6, 12);
    expect(found).toMatchObject({ room: null, bottoms: false, shankJams: false });
  });

  test('a washer and a chamfer take from it, a flat point gives', () => {
    expect(engaged({ washer: 0.0016 }).engaged).toBeCloseTo(0.0094, 12);
    expect(engaged({ chamfer: 0.001 }).engaged).toBeCloseTo(0.01, 12);
    expect(engaged({ point: 0 }).engaged).toBeCloseTo(0.012, 12);
  });

  test('the depth of the thread ends it', () => {
    const found = engaged({ threadDepth: 0.0112, holeDepth: 0.016 });
    expect(found.engaged).toBeCloseTo(0.011, 12);
    expect(engaged({ threadDepth: 0.009, point: 0.004 }).engaged).toBeCloseTo(0.008, 12);
  });

  test('a screw too long for a blind hole bottoms, and one a hair shorter does not', () => {
    expect(engaged({ holeDepth: 0.0121 })).toMatchObject({ bottoms: false });
    expect(engaged({ holeDepth: 0.0119 })).toMatchObject({ bottoms: true });
    expect(engaged({ holeDepth: 0.0119 }).room).toBeCloseTo(-0.0001, 12);
    // In the tap's lead: the hole is deeper, the thread is not.
    expect(engaged({ threadDepth: 0.01, holeDepth: 0.02 })).toMatchObject({ bottoms: true });
    expect(engaged({ threadDepth: 0.0111, holeDepth: 0.02 })).toMatchObject({ bottoms: false });
    // Taking a washer away is enough.
    expect(engaged({ holeDepth: 0.012, washer: 0.001 })).toMatchObject({ bottoms: false });
    expect(engaged({ holeDepth: 0.0115, washer: 0 })).toMatchObject({ bottoms: true });
  });

  test('a shank longer than the grip jams, and takes from the thread', () => {
    const found = engaged({ threadLength: 0.01 });
    expect(found).toMatchObject({ shankJams: true });
    expect(found.engaged).toBeCloseTo(0.009, 12);
    expect(engaged({ threadLength: 0.013 })).toMatchObject({ shankJams: false });
  });
});

describe('is refused', () => {
  test('a screw that does not reach', () => {
    const found = engagement({ thread: M6, length: 0.016, grip: 0.018, washer: 0.001 });
    expect(found).toMatchObject({ ok: false });
    expect(!found.ok && found.why).toContain('does not reach through 19 mm (0.748 in) of grip and washers');
  });

  test('a screw that reaches into no full thread', () => {
    const found = engagement({ thread: M6, length: 0.02, grip: 0.018, chamfer: 0.0015 });
    expect(!found.ok && found.why).toContain('finds no full thread');
  });
});

describe('what cannot be throws', () => {
  test.each([
    [{ length: 0 }, /length must be a finite number above 0, got 0/],
    [{ length: -0.03 }, /length/],
    [{ length: Number.NaN }, /length/],
    [{ grip: -0.001 }, /grip must be a finite number from 0/],
    [{ washer: -0.001 }, /washer/],
    [{ holeDepth: 0 }, /holeDepth/],
    [{ threadDepth: Number.POSITIVE_INFINITY }, /threadDepth/],
    [{ chamfer: Number.NaN }, /chamfer/],
    [{ point: -1 }, /point/],
    [{ threadLength: 0 }, /threadLength/],
    [{ threadDepth: 0.02, holeDepth: 0.015 }, /threadDepth must not be above holeDepth/],
  ])('%j', (screw, message) => {
    expect(() => engaged(screw)).toThrow(RangeError);
    expect(() => engaged(screw)).toThrow(message);
  });
});
