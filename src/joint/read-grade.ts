/** Reads the grade of a screw or bolt the way people write it, or as the head shows it. */
import { GRADES, type Grade } from './grade.ts';
import { type Refusal, refuse } from './require.ts';

/** The name a grade goes by in a text, stripped of spaces and signs. */
const NAMES: readonly (readonly [RegExp, string])[] = [
  [/^(?:SAE)?(?:J429)?(?:GRADE|GR|G)([258])$/, 'j429-'],
  [/^(?:SAE)?J429(?:GRADE|GR|G)?([258])$/, 'j429-'],
  [/^(?:ASTM)?A574(?:.*SCREW)?$/, 'a574'],
  [/^(?:ISO)?(?:898(?:1)?)?(?:CLASS|PROPERTYCLASS|GRADE|CL)?((?:4|5|6|8|9|10|12)\.[689])$/, ''],
  [/^(?:ISO)?(?:3506(?:1)?)?(A[24])(50|70|80)$/, ''],
];

/** Reads a grade: "grade 5", "SAE J429 Gr. 8", "A574", "8.8", "class 10.9", "A2-70". Refuses the rest with a sentence. */
export function readGrade(text: string): { readonly ok: true; readonly grade: Grade } | Refusal {
  const bare = text
    .normalize('NFKC')
    .toUpperCase()
    .replace(/(\d),(\d)/g, '$1.$2')
    .replace(/[\s\p{Pd}_:()]|\.(?!\d)|(?<!\d)\.(?=\d)/gu, '');
  for (const [pattern, prefix] of NAMES) {
    const found = pattern.exec(bare);
    if (!found) continue;
    const id = prefix === 'a574' ? prefix : `${prefix}${found[1]}${found[2] ? `-${found[2]}` : ''}`;
    const grade = GRADES.find((each) => each.id === id);
    if (grade) return { ok: true, grade };
  }
  const shown = `"${text
    .replace(/[\p{Cc}\s]+/gu, ' ')
    .trim()
    .slice(0, 40)}"`;
  if (bare === '') return refuse('No grade is entered: write e.g. grade 5, A574, 8.8 or A2-70.');
  if (/^[258]$/.test(bare))
    return refuse(
      `${shown} can be an SAE grade or the class of a metric screw: write grade ${bare}, or e.g. 8.8.`,
    );
  if (/STAINLESS|INOX|^A[24]$|^(?:18-?8|188|304|316)/.test(bare))
    return refuse(`${shown} names a steel but no strength: write what the head shows, e.g. A2-70.`);
  return refuse(
    `${shown} is not in the table of grades: write what the head shows, e.g. grade 5, grade 8, A574, 8.8, 10.9, 12.9 or A2-70.`,
  );
}
