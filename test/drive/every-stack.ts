/** Every stack of at most `most` shims, in whole units, by counting through all counts of all sizes. */
export function* everyStack(
  sizes: readonly { readonly thick: number; readonly count: number }[],
  most: number,
  at = 0,
): Generator<{ readonly total: number; readonly shims: number }> {
  if (at === sizes.length) {
    yield { total: 0, shims: 0 };
    return;
  }
  const { thick, count } = sizes[at]!;
  for (const rest of everyStack(sizes, most, at + 1)) {
    for (let n = 0; n <= count && rest.shims + n <= most; n++) {
      yield { total: rest.total + n * thick, shims: rest.shims + n };
    }
  }
}
