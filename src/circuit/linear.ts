/** A dense 4×4 solver on one shared work array: the tapped winding's star, tap, output and frame. */

/** Rows of the system with the right side in every fifth place; filled by the caller. */
export const system = new Float64Array(20);
export const solution = new Float64Array(4);

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
