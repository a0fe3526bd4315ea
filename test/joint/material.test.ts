/** What a thread is tapped into, and how it is read. */
import { describe, expect, test } from 'vitest';
import { MATERIALS, materialById, readMaterial } from '../../src/joint/material.ts';

describe('a material is read', () => {
  test.each([
    ['die-cast aluminium', 'die-cast-380'],
    ['Die cast aluminum', 'die-cast-380'],
    ['cast aluminium', 'die-cast-380'],
    ['A380', 'die-cast-380'],
    ['sand-cast aluminium', 'sand-cast-356-t6'],
    ['aluminium 319', 'sand-cast-319'],
    ['6061-T6', '6061-t6'],
    ['billet aluminium', '6061-t6'],
    ['7075 aluminium', '7075-t6'],
    ['magnesium', 'magnesium-az91'],
    ['cast iron', 'cast-iron'],
    ['steel', 'mild-steel'],
    ['steel nut grade 5', 'nut-grade-5'],
    ['nut class 10', 'nut-class-10'],
  ])('%s', (text, id) => {
    const read = readMaterial(text);
    expect(read.ok ? read.material.id : read.why).toBe(id);
  });

  test.each(MATERIALS.map(({ name, id }) => [name, id]))('%s by its own name', (name, id) => {
    const read = readMaterial(name);
    expect(read.ok ? read.material.id : read.why).toBe(id);
  });

  test.each([
    ['', 'No material is entered'],
    ['aluminium', 'can be cast or wrought'],
    ['nut', 'needs its strength'],
    ['cheese', 'not in the table of materials'],
  ])('%j is refused', (text, part) => {
    const read = readMaterial(text);
    expect(read.ok ? '' : read.why).toContain(part);
  });
});

test.each(MATERIALS.map((material) => [material.name, material] as const))(
  '%s is possible',
  (_, material) => {
    const { shear, shearUsual, tensile, source } = material;
    expect(shear.low).toBeLessThan(shear.high);
    expect(shearUsual).toBeGreaterThanOrEqual(shear.low);
    expect(shearUsual).toBeLessThanOrEqual(shear.high);
    expect(shear.low).toBeGreaterThan(0.45 * tensile);
    expect(source.length).toBeGreaterThan(10);
  },
);

test('an id that is none throws', () =>
  expect(() => materialById('tin')).toThrow(/id must be one of .*, got tin/));
