/**
 * Factors of a tridiagonal matrix, ready to solve with many right-hand sides.
 *
 * Zeros off the diagonal are welcome: the matrix is then a row of separate chains, each solved on its own.
 */
export interface TridiagonalFactors {
  /** Multiplier of the row above. */
  readonly lower: Float64Array;
  /** Reciprocal pivot. */
  readonly pivot: Float64Array;
  readonly upper: Float64Array;
}

export function tridiagonalFactors(size: number): TridiagonalFactors {
  return { lower: new Float64Array(size), pivot: new Float64Array(size), upper: new Float64Array(size) };
}

/**
 * Factors a tridiagonal matrix without pivoting (Thomas algorithm), into `factors`.
 *
 * Right for diagonally dominant matrices, as heat conduction gives them.
 *
 * @param below     entry left of the diagonal in each row; below[0] is ignored
 * @param diagonal  all nonzero
 * @param above     entry right of the diagonal in each row; the last is ignored
 */
export function factorTridiagonal(
  below: Float64Array,
  diagonal: Float64Array,
  above: Float64Array,
  factors: TridiagonalFactors,
): void {
  const { lower, pivot, upper } = factors;
  const size = diagonal.length;
  if (size === 0) return;
  lower[0] = 0;
  pivot[0] = 1 / diagonal[0];
  for (let i = 1; i < size; i++) {
    const multiplier = below[i] * pivot[i - 1];
    lower[i] = multiplier;
    upper[i - 1] = above[i - 1]!;
    pivot[i] = 1 / (diagonal[i] - multiplier * above[i - 1]);
  }
}

/** Solves with the factored matrix: x is the right-hand side on entry and the solution on return. */
export function solveTridiagonal({ lower, pivot, upper }: TridiagonalFactors, x: Float64Array): void {
  const size = pivot.length;
  for (let i = 1; i < size; i++) x[i] -= lower[i] * x[i - 1];
  if (size > 0) x[size - 1] *= pivot[size - 1];
  for (let i = size - 2; i >= 0; i--) x[i] = (x[i] - upper[i] * x[i + 1]) * pivot[i];
}
