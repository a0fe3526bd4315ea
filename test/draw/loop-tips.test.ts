import { describe, expect, it } from 'vitest';
import { extent } from '../../src/draw/hatch.ts';
import { planNarrow } from '../../src/draw/loop-narrow.ts';
import { planWide } from '../../src/draw/loop-wide.ts';

describe('the tip for the volts lost in the sense wire', () => {
  // Geometry of the circuit: between the battery and the wire's battery end nothing of the wire is measured.
  it.each([
    ['wide', planWide],
    ['narrow', planNarrow],
  ] as const)('stands at the regulator, not at the battery: %s', (_, plan) => {
    for (const loadsFedFrom of ['battery', 'regulator'] as const) {
      const { members, points } = plan({
        phases: 3,
        regulator: 'series',
        senses: 'wire',
        loadsFedFrom,
        meterHeight: 60,
      });
      const gap = (member: 'regulator' | 'battery'): number => {
        const [x0, y0, x1, y1] = extent(members.get(member)!.shape);
        const [x, y] = points.get('sense-end')!.tip;
        return Math.hypot(Math.max(x0 - x, 0, x - x1), Math.max(y0 - y, 0, y - y1));
      };
      expect(gap('regulator')).toBeLessThan(40);
      expect(gap('battery')).toBeGreaterThan(300);
    }
  });
});
