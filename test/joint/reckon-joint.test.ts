/** A whole joint: the parts agree with each other, and the sentences can be read. */
import { describe, expect, test } from 'vitest';
import { engagement } from '../../src/joint/engagement.ts';
import { FRICTIONS, frictionById } from '../../src/joint/friction.ts';
import { GRADES, gradeById, type Strength, strengthOf } from '../../src/joint/grade.ts';
import { MATERIALS, materialById } from '../../src/joint/material.ts';
import { type JointAsked, reckonJoint } from '../../src/joint/reckon-joint.ts';
import { makeThread } from '../../src/joint/thread.ts';
import { THREADS } from '../../src/joint/thread-table.ts';

const M6 = makeThread(0.006, 0.001);

function strength(id: string): Strength {
  const found = strengthOf(gradeById(id), 0.006);
  if (!found.ok) throw new Error(found.why);
  return found.strength;
}

const JOINT: JointAsked = {
  thread: M6,
  strength: strength('8.8'),
  friction: frictionById('dry'),
  tapped: { material: materialById('die-cast-380'), engaged: 0.01 },
  torque: { low: 10, high: 10 },
  unit: 'N·m',
};

describe('a joint', () => {
  test('says what it makes of a torque', () => {
    expect(reckonJoint(JOINT).says).toEqual([
      '10 N·m (7.38 lbf·ft) (threads: dry plain steel, K 0.18–0.27) pull the screw with 5930 N (1330 lbf) to 9630 N (2160 lbf), 50.8 % to 82.5 % of its proof load.',
      'Three quarters of the proof load may take 9.45–14.2 N·m (6.97–10.5 lbf·ft).',
      '10 mm (0.394 in) of thread in die-cast aluminium (380 family): the screw gives way first, at about 19.3 N·m (14.2 lbf·ft), anywhere within 17.4–26.1 N·m (12.8–19.2 lbf·ft).',
      'There is thread enough for the screw to break first.',
      'This is an estimate; the book wins.',
    ]);
    expect(reckonJoint(JOINT).judgement.verdict).toBe('fits');
  });

  test('without a hole it says nothing of stripping', () => {
    const found = reckonJoint({ ...JOINT, tapped: null });
    expect(found.failure).toBeNull();
    expect(found.engagementWanted).toBeNull();
    expect(found.says.join(' ')).not.toContain('gives way');
  });

  test('a strong screw with little thread in aluminium strips it', () => {
    const hold = engagement({ thread: M6, length: 0.025, grip: 0.018, washer: 0.0016 });
    if (!hold.ok) throw new Error(hold.why);
    const tapped = { material: materialById('die-cast-380'), engaged: hold.engaged };
    const found = reckonJoint({ ...JOINT, tapped, strength: strength('12.9') });
    expect(found.failure?.weaker).toBe('internal');
    expect(found.says.join(' ')).toContain('the screw would break first');
  });

  test('drag and a poor wrench lower the least and raise the most', () => {
    const plain = reckonJoint(JOINT);
    const poor = reckonJoint({ ...JOINT, wrenchError: 0.1, drag: { low: 0, high: 1 } });
    expect(poor.preload.low).toBeLessThan(plain.preload.low);
    expect(poor.preload.high).toBeGreaterThan(plain.preload.high);
    expect(poor.threeQuarters.high).toBeCloseTo(plain.threeQuarters.high + 1, 12);
  });

  test('every thread, grade, friction and material gives finite figures and clean sentences', () => {
    let count = 0;
    for (const thread of THREADS)
      for (const grade of GRADES) {
        const found = strengthOf(grade, thread.diameter);
        if (!found.ok) continue;
        const friction = FRICTIONS[count % FRICTIONS.length]!;
        const material = MATERIALS[count % MATERIALS.length]!;
        count += 1;
        const reckoned = reckonJoint({
          thread,
          strength: found.strength,
          friction,
          tapped: { material, engaged: thread.diameter },
          torque: { low: 1, high: 2 },
          unit: 'N·m',
        });
        const text = `${reckoned.says.join(' ')} ${reckoned.judgement.says}`;
        if (/NaN|undefined|Infinity|null/.test(text)) throw new Error(`${thread.name} ${grade.id}: ${text}`);
        expect(reckoned.failure!.torque.low).toBeLessThanOrEqual(reckoned.failure!.torque.high);
        expect(reckoned.preload.low).toBeLessThan(reckoned.preload.high);
      }
    expect(count).toBeGreaterThan(2000);
  });
});
