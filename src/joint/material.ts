/**
 * What a thread is tapped into: tensile strength, and shear strength as an interval, because sources differ and
 * castings do too. Each row names its source.
 */
import { type Interval, type Refusal, refuse } from './require.ts';

export interface Material {
  readonly id: string;
  readonly name: string;
  /** Tensile strength, Pa. */
  readonly tensile: number;
  /** Shear strength, Pa: from the cautious to the hopeful source. */
  readonly shear: Interval;
  /** Shear strength that one figure is reckoned with, Pa. */
  readonly shearUsual: number;
  readonly source: string;
}

const KSI = 6.894757293168e6;

function inKsi(
  id: string,
  name: string,
  tensile: number,
  [low, usual, high]: readonly [number, number, number],
  source: string,
): Material {
  const shear = { low: low * KSI, high: high * KSI };
  return { id, name, tensile: tensile * KSI, shear, shearUsual: usual * KSI, source };
}

/** A steel nut of a proof stress (ksi): the nut's shear is 0.5 to 0.65 of it, from memory. */
function nut(id: string, name: string, proof: number, source: string): Material {
  return inKsi(id, name, proof, [0.5 * proof, 0.6 * proof, 0.65 * proof], source);
}

const HANDBOOK = 'handbook figures for aluminium, from memory';

export const MATERIALS: readonly Material[] = [
  inKsi(
    'die-cast-380',
    'die-cast aluminium (380 family)',
    46,
    // Half the tensile strength is what one gets without a table; 27–28 ksi is the published shear strength.
    [23, 27, 28],
    'NADCA data for 380 die castings; lowest figure half of the tensile strength',
  ),
  inKsi('sand-cast-356-t6', 'sand-cast aluminium 356-T6', 33, [20, 26, 26], HANDBOOK),
  inKsi('sand-cast-319', 'sand-cast aluminium 319, as cast', 27, [16, 22, 22], HANDBOOK),
  inKsi('permanent-mould-356-t6', 'permanent-mould aluminium 356-T6', 38, [23, 30, 30], HANDBOOK),
  inKsi('6061-t6', 'wrought aluminium 6061-T6', 45, [27, 30, 30], HANDBOOK),
  inKsi('2024-t4', 'wrought aluminium 2024-T4', 68, [38, 41, 41], HANDBOOK),
  inKsi('7075-t6', 'wrought aluminium 7075-T6', 83, [46, 48, 48], HANDBOOK),
  inKsi('magnesium-az91', 'die-cast magnesium AZ91', 33, [17, 20, 20], 'handbook figures, from memory'),
  inKsi(
    'cast-iron',
    'grey cast iron, class 30',
    30,
    [27, 30, 40],
    'ASTM A48 class 30; shear 0.9 to 1.3 of the tensile strength, from memory',
  ),
  inKsi(
    'mild-steel',
    'mild steel',
    58,
    [29, 35, 40],
    'tensile strength of ASTM A36; shear 0.5 to 0.7 of it, from memory',
  ),
  inKsi(
    'alloy-steel',
    'alloy steel, quenched and tempered',
    125,
    [72, 75, 81],
    'about the strength of ISO 898-1 class 8.8 to 10.9, from memory',
  ),
  nut('nut-grade-2', 'steel nut, SAE J995 grade 2', 90, 'SAE J995 (proof stress), from memory'),
  nut('nut-grade-5', 'steel nut, SAE J995 grade 5', 120, 'SAE J995 (proof stress), from memory'),
  nut('nut-grade-8', 'steel nut, SAE J995 grade 8', 150, 'SAE J995 (proof stress), from memory'),
  nut('nut-class-8', 'steel nut, ISO 898-2 class 8', 116, 'ISO 898-2 (proof stress 800 MPa), from memory'),
  nut('nut-class-10', 'steel nut, ISO 898-2 class 10', 151, 'ISO 898-2 (proof stress 1040 MPa), from memory'),
];

/** A material by its id; throws RangeError for one that is not in the list. */
export function materialById(id: string): Material {
  const found = MATERIALS.find((material) => material.id === id);
  if (!found)
    throw new RangeError(`id must be one of ${MATERIALS.map((each) => each.id).join(', ')}, got ${id}`);
  return found;
}

const WORDS: readonly (readonly [RegExp, string])[] = [
  [/nut/, ''],
  [/\b(?:a?380|a383|adc ?12|die[ -]?cast)/, 'die-cast-380'],
  [/(?:permanent|gravity).*(?:a?356)?/, 'permanent-mould-356-t6'],
  [/\b319/, 'sand-cast-319'],
  [/\ba?356|sand[ -]?cast/, 'sand-cast-356-t6'],
  [/\b6061|\b6082|wrought|billet/, '6061-t6'],
  [/\b2024/, '2024-t4'],
  [/\b7075/, '7075-t6'],
  [/magnesium|az ?91/, 'magnesium-az91'],
  [/cast[ -]?iron|gr[ea]y iron/, 'cast-iron'],
  [/alloy steel|hardened steel|chrome?[ -]?moly|4140/, 'alloy-steel'],
  [/steel/, 'mild-steel'],
];

function nutId(words: string): string | null {
  const class_ = /class ?(8|10)\b/.exec(words)?.[1];
  if (class_) return `nut-class-${class_}`;
  const grade = /gr(?:ade|\.)? ?([258])\b/.exec(words)?.[1];
  return grade ? `nut-grade-${grade}` : null;
}

/**
 * Reads a material in words: "die-cast aluminium", "A380", "6061-T6", "cast iron", "steel nut grade 5". Cast aluminium
 * without more is taken as the die-cast 380 family, the usual one of engine cases. The rest is refused.
 */
export function readMaterial(text: string): { readonly ok: true; readonly material: Material } | Refusal {
  const words = text.toLowerCase().replace(/\s+/g, ' ').trim();
  if (words === '')
    return refuse('No material is entered: write e.g. die-cast aluminium, cast iron or 6061-T6.');
  const exact = MATERIALS.find(({ id, name }) => words === id || words === name.toLowerCase());
  if (exact) return { ok: true, material: exact };
  const shown = `"${words.slice(0, 40)}"`;
  const magnesium = /magnesium/.test(words);
  if (/alumin(?:i?um)|alloy case/.test(words) && !magnesium) {
    const named = WORDS.slice(1, 8).find(([pattern]) => pattern.test(words));
    if (named) return { ok: true, material: materialById(named[1]) };
    if (/cast/.test(words)) return { ok: true, material: materialById('die-cast-380') };
    return refuse(
      `${shown} can be cast or wrought: write die-cast aluminium, sand-cast aluminium or 6061-T6.`,
    );
  }
  const hit = WORDS.find(([pattern]) => pattern.test(words));
  const id = hit?.[1] === '' ? nutId(words) : hit?.[1];
  if (id) return { ok: true, material: materialById(id) };
  if (hit) return refuse(`${shown} needs its strength: write e.g. steel nut grade 5 or steel nut class 8.`);
  return refuse(
    `${shown} is not in the table of materials: write e.g. die-cast aluminium, 6061-T6, magnesium, cast iron, mild steel, alloy steel or steel nut class 8.`,
  );
}
