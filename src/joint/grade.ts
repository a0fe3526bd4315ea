/**
 * Grades of screws and bolts: proof, yield and tensile strength by size, and the shear strength of their threads.
 * The rows named "handbook copy" were read in secondary copies of the standards, those "from memory" were not.
 */
import { printBoth } from '../units/print.ts';
import { quantity } from '../units/quantity.ts';
import { type Refusal, refuse, requireWithin } from './require.ts';
import { INCH } from './thread.ts';

export interface Strength {
  /** Name of the grade: "SAE J429 grade 5". */
  readonly name: string;
  /** Proof strength, Pa: the screw bears it without a lasting stretch. The yield point where no proof is standardised. */
  readonly proof: number;
  /** Yield (0.2 % offset), Pa. */
  readonly yield: number;
  /** Least tensile strength, Pa. */
  readonly tensile: number;
  /** Shear strength of the thread, Pa: a share of the tensile strength (VDI 2230, table of shear ratios, from memory). */
  readonly shear: number;
  readonly source: string;
  /** What is not quite as it should be: a size the standard does not cover, a yield that stands in for the proof. */
  readonly note: string | null;
}

/** Up to a diameter (m): proof, yield, tensile (Pa). */
type Band = readonly [upTo: number, proof: number, yieldPoint: number, tensile: number];

export interface Grade {
  readonly id: string;
  readonly name: string;
  /** Smallest diameter that the standard covers, m. Below it the first band is taken, and noted. */
  readonly from: number;
  readonly bands: readonly Band[];
  /** Shear over tensile strength, dimensionless. */
  readonly shearRatio: number;
  /** Whether the standard gives no proof strength and the yield point stands in for it. */
  readonly proofIsYield: boolean;
  readonly source: string;
}

const KSI = 6.894757293168e6;
const MPA = 1e6;
const COPY = 'handbook copy of the standard';
const MEMORY = 'from memory';

type Row = readonly [upTo: number, proof: number, yieldPoint: number, tensile: number];

function bands(rows: readonly Row[], length: number, stress: number): readonly Band[] {
  return rows.map(([upTo, ...strengths]) => {
    const [proof, yieldPoint, tensile] = strengths.map((each) => each * stress);
    return [upTo * length, proof!, yieldPoint!, tensile!] as const;
  });
}

function inch(id: string, name: string, from: number, rows: readonly Row[], source: string): Grade {
  return {
    id,
    name,
    from: from * INCH,
    bands: bands(rows, INCH, KSI),
    shearRatio: 0.6,
    proofIsYield: false,
    source,
  };
}

function iso(id: string, shearRatio: number, rows: readonly Row[], source: string): Grade {
  const name = `ISO 898-1 class ${id}`;
  const common = { shearRatio, proofIsYield: false, source: `ISO 898-1, ${source}` };
  return { id, name, from: 0.0016, bands: bands(rows, 1e-3, MPA), ...common };
}

function stainless(id: string, yieldPoint: number, tensile: number, source: string): Grade {
  const rows: readonly Row[] = [[24, yieldPoint, yieldPoint, tensile]];
  const common = { shearRatio: 0.72, proofIsYield: true, source };
  return { id, name: `ISO 3506-1 ${id}`, from: 0.0016, bands: bands(rows, 1e-3, MPA), ...common };
}

const A2_70 = `ISO 3506-1, ${COPY} (yield ${MEMORY})`;
const ISO_3506 = `ISO 3506-1, ${MEMORY}`;
const J429 = `SAE J429, ${COPY} up to 3/4 in (grade 2) or 1 in (grade 5), above that ${MEMORY}`;

export const GRADES: readonly Grade[] = [
  inch(
    'j429-2',
    'SAE J429 grade 2',
    0.25,
    [
      [0.75, 55, 57, 74],
      [1.5, 33, 36, 60],
    ],
    J429,
  ),
  inch(
    'j429-5',
    'SAE J429 grade 5',
    0.25,
    [
      [1, 85, 92, 120],
      [1.5, 74, 81, 105],
    ],
    J429,
  ),
  inch('j429-8', 'SAE J429 grade 8', 0.25, [[1.5, 120, 130, 150]], `SAE J429, ${COPY}`),
  inch(
    'a574',
    'ASTM A574 socket screw',
    0.06,
    [
      [0.5, 140, 153, 180],
      [4, 135, 153, 170],
    ],
    `ASTM A574, ${COPY} up to 1/2 in, above that ${MEMORY}`,
  ),
  iso('4.6', 0.7, [[39, 225, 240, 400]], MEMORY),
  iso('4.8', 0.7, [[16, 310, 340, 420]], MEMORY),
  iso('5.6', 0.7, [[39, 280, 300, 500]], MEMORY),
  iso('5.8', 0.7, [[24, 380, 420, 520]], MEMORY),
  iso('6.8', 0.7, [[16, 440, 480, 600]], MEMORY),
  iso(
    '8.8',
    0.65,
    [
      [16, 580, 640, 800],
      [39, 600, 660, 830],
    ],
    `${COPY} up to M16, above that ${MEMORY}`,
  ),
  iso('9.8', 0.65, [[16, 650, 720, 900]], MEMORY),
  iso('10.9', 0.62, [[39, 830, 940, 1040]], COPY),
  iso('12.9', 0.6, [[39, 970, 1100, 1220]], COPY),
  stainless('A2-50', 210, 500, ISO_3506),
  stainless('A2-70', 450, 700, A2_70),
  stainless('A2-80', 600, 800, ISO_3506),
  stainless('A4-70', 450, 700, ISO_3506),
  stainless('A4-80', 600, 800, ISO_3506),
];

/** A grade by its id; throws RangeError for an id that is not in the list (readGrade takes what people write). */
export function gradeById(id: string): Grade {
  const found = GRADES.find((grade) => grade.id === id);
  if (!found)
    throw new RangeError(`id must be one of ${GRADES.map((each) => each.id).join(', ')}, got ${id}`);
  return found;
}

/**
 * Strength of a grade in a size, diameter in metres. A size below the standard's smallest takes its figures, with a
 * note; one above its largest is refused. Throws RangeError for a diameter outside 1–100 mm.
 */
export function strengthOf(
  grade: Grade,
  diameter: number,
): { readonly ok: true; readonly strength: Strength } | Refusal {
  requireWithin('diameter', diameter, 0.001, 0.1);
  // A hair, so that 3/4 in is not above itself.
  const band = grade.bands.find(([upTo]) => diameter <= upTo * (1 + 1e-9));
  if (!band) {
    const size = printBoth(quantity('length', grade.bands.at(-1)![0], 'm'));
    return refuse(`${grade.name} is standardised up to ${size}: take the strength from the maker's sheet.`);
  }
  const [, proof, yieldPoint, tensile] = band;
  const small = diameter < grade.from * (1 - 1e-9);
  const notes = [
    small
      ? `the standard starts at ${printBoth(quantity('length', grade.from, 'm'))}; its smallest size stands in`
      : '',
    grade.proofIsYield ? 'no proof strength is standardised; the yield point stands in' : '',
  ].filter((note) => note !== '');
  return {
    ok: true,
    strength: {
      name: grade.name,
      proof,
      yield: yieldPoint,
      tensile,
      shear: tensile * grade.shearRatio,
      source: grade.source,
      note: notes.length > 0 ? notes.join('; ') : null,
    },
  };
}
