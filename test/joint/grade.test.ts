/** Grades and what they bear, and how they are read. */
import { describe, expect, test } from 'vitest';
import { GRADES, gradeById, strengthOf } from '../../src/joint/grade.ts';
import { readGrade } from '../../src/joint/read-grade.ts';

describe('a grade is read', () => {
  test.each([
    ['grade 5', 'j429-5'],
    ['Gr. 8', 'j429-8'],
    ['SAE J429 Grade 2', 'j429-2'],
    ['SAE grade 8', 'j429-8'],
    ['J429 8', 'j429-8'],
    ['A574', 'a574'],
    ['ASTM A574 socket screw', 'a574'],
    ['8.8', '8.8'],
    ['8,8', '8.8'],
    ['class 10.9', '10.9'],
    ['ISO 898-1 class 12.9', '12.9'],
    ['A2-70', 'A2-70'],
    ['a4 80', 'A4-80'],
    ['ISO 3506-1 A2-70', 'A2-70'],
  ])('%s', (text, id) => {
    const read = readGrade(text);
    expect(read.ok ? read.grade.id : read.why).toBe(id);
  });

  test.each(GRADES.map(({ name, id }) => [name, id]))('%s by its own name', (name, id) => {
    const read = readGrade(name);
    expect(read.ok ? read.grade.id : read.why).toBe(id);
  });

  test.each([
    ['', 'No grade is entered'],
    ['8', 'write grade 8, or e.g. 8.8'],
    ['stainless', 'names a steel but no strength'],
    ['18-8', 'names a steel but no strength'],
    ['8.7', 'not in the table of grades'],
    ['grade 9', 'not in the table of grades'],
    ['A2-90', 'not in the table of grades'],
    ['5.9', 'not in the table of grades'],
  ])('%j is refused', (text, part) => {
    const read = readGrade(text);
    expect(read.ok ? '' : read.why).toContain(part);
    expect(read.ok ? '' : read.why).toMatch(/\.$/);
  });
});

describe('strength', () => {
  test.each(GRADES.map((grade) => [grade.name, grade] as const))('%s is a possible metal', (_, grade) => {
    for (const [upTo] of grade.bands) {
      const found = strengthOf(grade, Math.min(upTo, 0.1));
      if (!found.ok) throw new Error(found.why);
      const { proof, yield: yieldPoint, tensile, shear, source } = found.strength;
      expect(proof).toBeLessThanOrEqual(yieldPoint);
      expect(yieldPoint).toBeLessThan(tensile);
      expect(shear).toBeGreaterThan(0.5 * tensile);
      expect(shear).toBeLessThan(0.75 * tensile);
      expect(source).toMatch(/copy|memory/);
    }
  });

  test('changes with the size where the standard says so', () => {
    const two = gradeById('j429-2');
    const at = (metres: number) => {
      const found = strengthOf(two, metres);
      return found.ok ? found.strength.proof / 6.894757293168e6 : Number.NaN;
    };
    expect(at(0.75 * 0.0254)).toBeCloseTo(55, 9);
    expect(at(0.8125 * 0.0254)).toBeCloseTo(33, 9);
  });

  test('notes a size below the standard, and a proof that is a yield point', () => {
    const small = strengthOf(gradeById('j429-5'), 0.19 * 0.0254);
    expect(small).toMatchObject({ ok: true });
    expect(small.ok && small.strength.note).toContain('starts at 6.35 mm (1/4 in)');
    const stainless = strengthOf(gradeById('A2-70'), 0.008);
    expect(stainless.ok && stainless.strength.note).toContain('yield point stands in');
    const plain = strengthOf(gradeById('8.8'), 0.008);
    expect(plain.ok && plain.strength.note).toBe(null);
  });

  test('refuses a size above the standard in one sentence', () => {
    const found = strengthOf(gradeById('9.8'), 0.02);
    expect(found.ok ? '' : found.why).toBe(
      "ISO 898-1 class 9.8 is standardised up to 16 mm (0.6299 in): take the strength from the maker's sheet.",
    );
  });

  test.each([0, -0.008, Number.NaN, Number.POSITIVE_INFINITY])('%d m throws', (diameter) => {
    expect(() => strengthOf(gradeById('8.8'), diameter)).toThrow(/diameter must be from 0.001 to 0.1, got/);
  });

  test('an id that is none throws', () => expect(() => gradeById('8')).toThrow(/id must be one of j429-2/));
});
