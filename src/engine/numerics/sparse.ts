/**
 * A square sparse matrix in compressed rows: entries of row i are `value[k]` in column `column[k]` for
 * rowStart[i] <= k < rowStart[i + 1].
 */
export interface SparseRows {
  readonly rowStart: Int32Array;
  readonly column: Int32Array;
  readonly value: Float32Array | Float64Array;
}

/** Multiplies one fixed matrix with a vector. The port behind which a faster kernel may stand. */
export interface SparseProduct {
  readonly size: number;
  /** y = matrix x. Both have length `size`; y is overwritten. */
  readonly multiply: (x: Float64Array, y: Float64Array) => void;
}

/**
 * The product in plain TypeScript.
 *
 * Four running sums per row: one alone waits for each addition to finish before the next may start.
 *
 * Accuracy: sums in double precision; the same order of additions in every run.
 */
export function plainProduct({ rowStart, column, value }: SparseRows): SparseProduct {
  const size = rowStart.length - 1;
  const multiply = (x: Float64Array, y: Float64Array): void => {
    let k = 0;
    for (let row = 0; row < size; row++) {
      const end = rowStart[row + 1];
      const last = end - 3;
      let a = 0;
      let b = 0;
      let c = 0;
      let d = 0;
      for (; k < last; k += 4) {
        a += value[k] * x[column[k]];
        b += value[k + 1] * x[column[k + 1]];
        c += value[k + 2] * x[column[k + 2]];
        d += value[k + 3] * x[column[k + 3]];
      }
      for (; k < end; k++) a += value[k] * x[column[k]];
      y[row] = a + b + (c + d);
    }
  };
  return { size, multiply };
}
