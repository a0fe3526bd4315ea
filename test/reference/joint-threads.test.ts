/**
 * Threads against published tables. Stress areas: ASME B1.1 and ISO 898-1 by their formulas, printed values of
 * handbook tables. Limits of size: 1/4-20 and the other inch rows from memory of the 2A/2B tables of ASME B1.1, metric
 * rows from memory of the 6g/6H tables of ISO 965-2.
 */
import { describe, expect, test } from 'vitest';
import { readThread } from '../../src/joint/read-thread.ts';
import { INCH, stressArea, type Thread } from '../../src/joint/thread.ts';
import { threadLimits } from '../../src/joint/thread-limits.ts';

function thread(text: string): Thread {
  const read = readThread(text);
  if (!read.ok) throw new Error(read.why);
  return read.thread;
}

describe('tensile stress area, in² (ASME B1.1 formula; printed values)', () => {
  test.each([
    ['8-32', '.0140'],
    ['8-36', '.0147'],
    ['10-24', '.0175'],
    ['10-32', '.0200'],
    ['1/4-20', '.0318'],
    ['1/4-28', '.0364'],
    ['5/16-18', '.0524'],
    ['5/16-24', '.0581'],
    ['3/8-16', '.0775'],
    ['3/8-24', '.0878'],
    ['7/16-14', '.1063'],
    ['7/16-20', '.1187'],
    ['1/2-13', '.1419'],
    ['1/2-20', '.1599'],
    ['5/8-11', '.226'],
    ['5/8-18', '.256'],
    ['1-8', '.606'],
    ['1-12', '.663'],
    ['1-14', '.680'],
  ])('%s: %s', (name, printed) => {
    const places = printed.length - 1;
    const area = stressArea(thread(name)) / INCH ** 2;
    // Printed tables round; one unit in the last place is allowed for their own constants.
    expect(Math.abs(area - Number(printed))).toBeLessThan(10 ** -places * 0.75);
  });
});

describe('tensile stress area, mm² (ISO 898-1)', () => {
  test.each([
    ['M4', 8.78],
    ['M5', 14.18],
    ['M6', 20.12],
    ['M8', 36.61],
    ['M8x1', 39.17],
    ['M10', 57.99],
    ['M10x1.25', 61.2],
    ['M12', 84.27],
    ['M12x1.5', 88.13],
    ['M12x1.25', 92.07],
    ['M14', 115.44],
    ['M14x1.5', 124.55],
  ])('%s: %d', (name, printed) => {
    expect(Math.abs(stressArea(thread(name)) * 1e6 - printed)).toBeLessThan(0.0051);
  });
});

describe('class 2A and 2B limits, in (ASME B1.1, from memory)', () => {
  // Allowance; major max, min; pitch max, min of the screw; pitch min, max; minor min, max of the hole.
  test.each([
    ['10-24', [0.001, 0.189, 0.1818, 0.1619, 0.1586, 0.1629, 0.1672, 0.145, 0.156]],
    ['10-32', [0.0009, 0.1891, 0.1831, 0.1688, 0.1658, 0.1697, 0.1736, 0.156, 0.164]],
    ['1/4-20', [0.0011, 0.2489, 0.2408, 0.2164, 0.2127, 0.2175, 0.2224, 0.196, 0.207]],
    ['1/4-28', [0.001, 0.249, 0.2425, 0.2258, 0.2225, 0.2268, 0.2311, 0.211, 0.22]],
    ['5/16-18', [0.0012, 0.3113, 0.3026, 0.2752, 0.2712, 0.2764, 0.2817, 0.252, 0.265]],
    ['3/8-16', [0.0013, 0.3737, 0.3643, 0.3331, 0.3287, 0.3344, 0.3401, 0.307, 0.321]],
    // biome-ignore lint/suspicious/noApproximativeNumericConstant: the minor diameter has nothing to do with log e
    ['1/2-13', [0.0015, 0.4985, 0.4876, 0.4485, 0.4435, 0.45, 0.4565, 0.417, 0.434]],
    ['3/4-16', [0.0015, 0.7485, 0.7391, 0.7079, 0.7029, 0.7094, 0.7159, 0.682, 0.696]],
    ['1-8', [0.002, 0.998, 0.983, 0.9168, 0.91, 0.9188, 0.9276, 0.865, 0.89]],
    ['1-12', [0.0018, 0.9982, 0.9868, 0.9441, 0.9382, 0.9459, 0.9535, 0.91, 0.928]],
  ])('%s', (name, printed) => {
    const { fit, ...lengths } = threadLimits(thread(name));
    expect(fit).toBe('2A/2B');
    Object.entries(lengths).forEach(([field, metres], index) => {
      // The standard rounds after each step: one ten-thousandth, and half of the next digit.
      expect(Math.abs(metres / INCH - printed[index]!), field).toBeLessThan(0.000151);
    });
  });
});

describe('6g and 6H limits, mm (ISO 965-2, from memory)', () => {
  test.each([
    ['M6', [0.026, 5.974, 5.794, 5.324, 5.212, 5.35, 5.5, 4.917, 5.153]],
    ['M8', [0.028, 7.972, 7.76, 7.16, 7.042, 7.188, 7.348, 6.647, 6.912]],
    ['M10', [0.032, 9.968, 9.732, 8.994, 8.862, 9.026, 9.206, 8.376, 8.676]],
    ['M12', [0.034, 11.966, 11.701, 10.829, 10.679, 10.863, 11.063, 10.106, 10.441]],
  ])('%s', (name, printed) => {
    const { fit, ...lengths } = threadLimits(thread(name));
    expect(fit).toBe('6g/6H');
    Object.entries(lengths).forEach(([field, metres], index) => {
      // Tolerances of the standard are rounded to preferred numbers: up to 9 µm.
      expect(Math.abs(metres * 1e3 - printed[index]!), field).toBeLessThan(0.009);
    });
  });
});
