/** A dense 4×4 solver on one shared work array: the tapped winding's star, tap, output and frame. */

/** Rows of the system with the right side in every fifth place; filled by the caller. */
export const system = new Float64Array(20);
export const solution = new Float64Array(4);

/**
 * Currents into star point and tap: (sumG + gi)·star − gi·tap − outG·out = −sumS − gi·known, and at the tap the inner part
 * of the winding, its terminal's branch and the touch to the frame.
 */
export function setTapped(
  sumG: number,
  sumS: number,
  tapG: number,
  tapS: number,
  outG: number,
  tapOut: number,
  gi: number,
  known: number,
  touch: number,
): void {
  system[0] = sumG + gi;
  system[1] = -gi;
  system[2] = -outG;
  system[3] = 0;
  system[4] = -sumS - gi * known;
  system[5] = -gi;
  system[6] = tapG + gi + touch;
  system[7] = -tapOut;
  system[8] = -touch;
  system[9] = gi * known - tapS;
}

/**
 * Output and frame: out − frame = source + ohm·(up amps), frame = rg/2·(up amps) + rg·(amps through the touch); `ohm` is half
 * the DC side's resistance, because the amps at both ends of the step count; `upS` has those at its start in it.
 */
export function setOutput(
  upG: number,
  tapUp: number,
  upS: number,
  outG: number,
  ohm: number,
  rg: number,
  touch: number,
  source: number,
): void {
  const half = rg / 2;
  system[10] = -ohm * upG;
  system[11] = -ohm * tapUp;
  system[12] = 1 + ohm * outG;
  system[13] = -1;
  system[14] = source + ohm * upS;
  system[15] = -half * upG;
  system[16] = -half * tapUp - rg * touch;
  system[17] = half * outG;
  system[18] = 1 + rg * touch;
  system[19] = half * upS;
}

/** Solves `system` by elimination with pivoting into `solution`; destroys `system`. */
export function solveSystem(): void {
  for (let col = 0; col < 4; col++) {
    let best = col;
    for (let row = col + 1; row < 4; row++) {
      if (Math.abs(system[row * 5 + col]!) > Math.abs(system[best * 5 + col]!)) best = row;
    }
    if (best !== col) {
      for (let n = col; n < 5; n++) {
        const keep = system[col * 5 + n]!;
        system[col * 5 + n] = system[best * 5 + n]!;
        system[best * 5 + n] = keep;
      }
    }
    const pivot = system[col * 5 + col]! || 1e-12;
    for (let row = col + 1; row < 4; row++) {
      const factor = system[row * 5 + col]! / pivot;
      if (factor === 0) continue;
      for (let n = col + 1; n < 5; n++)
        system[row * 5 + n] = system[row * 5 + n]! - factor * system[col * 5 + n]!;
    }
  }
  for (let row = 3; row >= 0; row--) {
    let value = system[row * 5 + 4]!;
    for (let n = row + 1; n < 4; n++) value -= system[row * 5 + n]! * solution[n]!;
    solution[row] = value / (system[row * 5 + row]! || 1e-12);
  }
}
