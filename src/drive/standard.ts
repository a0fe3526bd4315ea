/**
 * Standard roller chains of single strand. Pitch, roller and least tensile strength: ANSI B29.1, with the name that
 * ISO 606 gives the same chain (names from memory). #35 has bushes instead of rollers.
 */
import { type Refusal, refuse, requirePositive } from './require.ts';

export interface StandardChain {
  /** Number in ANSI B29.1, without its sign: "40". */
  readonly ansi: string;
  /** Name in ISO 606: "08A". */
  readonly iso: string;
  /** Pitch, m. */
  readonly pitch: number;
  /** Roller (or bush) diameter, m. */
  readonly roller: number;
  /** Least tensile strength of a new chain, N. */
  readonly tensile: number;
}

/** One pound-force, N: exact. */
const LBF = 4.4482216152605;

export const STANDARD_CHAINS: readonly StandardChain[] = [
  { ansi: '35', iso: '06C', pitch: 0.009525, roller: 0.00508, tensile: 1758 * LBF },
  { ansi: '40', iso: '08A', pitch: 0.0127, roller: 0.00792, tensile: 3125 * LBF },
  { ansi: '50', iso: '10A', pitch: 0.015875, roller: 0.01016, tensile: 4880 * LBF },
  { ansi: '60', iso: '12A', pitch: 0.01905, roller: 0.01191, tensile: 7030 * LBF },
];

/** A standard chain by either name: "#40", "40", "08A", "08a-1"; several strands are refused. */
export function chainNamed(text: string): { readonly ok: true; readonly chain: StandardChain } | Refusal {
  const name = text
    .trim()
    .toUpperCase()
    .replace(/^(?:ANSI|ISO)\s*/, '')
    .replace(/^#\s*/, '')
    .replace(/-1$/, '');
  const chain = STANDARD_CHAINS.find(({ ansi, iso }) => name === ansi || name === iso);
  if (chain) return { ok: true, chain };
  const known = STANDARD_CHAINS.map(({ ansi, iso }) => `#${ansi} (${iso})`).join(', ');
  return refuse(
    `"${text.slice(0, 40)}" is not in the table of single-strand chains (${known}); give the pitch as a length instead.`,
  );
}

/**
 * Standard chains whose pitch is the given one to within 3 % (a chain worn to its limit still finds itself; the
 * next pitch is 20 % away). Throws RangeError for a pitch not above 0.
 */
export function chainsOfPitch(pitch: number): readonly StandardChain[] {
  requirePositive('pitch', pitch);
  return STANDARD_CHAINS.filter((chain) => Math.abs(pitch / chain.pitch - 1) <= 0.03);
}
