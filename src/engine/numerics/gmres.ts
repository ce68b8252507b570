/**
 * Generalised minimal residual iteration (GMRES) for a preconditioned linear system of any symmetry.
 *
 * All memory is taken at construction; a solve allocates nothing.
 * Source: [saad-schultz-1986]
 */
export class Gmres {
  /** Orthonormal directions, one row of `size` each. */
  private readonly basis: Float64Array[];
  /** Upper triangle of the rotated Hessenberg matrix, column by column. */
  private readonly hessenberg: Float64Array[];
  private readonly cosine: Float64Array;
  private readonly sine: Float64Array;
  private readonly rhs: Float64Array;
  private readonly coefficient: Float64Array;
  /** Preconditioned residual at the end of the last solve (root of the sum of squares). */
  residual = 0;

  /**
   * @param size        length of the vectors
   * @param iterations  most directions kept; the solve ends there
   */
  constructor(
    private readonly size: number,
    private readonly iterations: number,
  ) {
    this.basis = Array.from({ length: iterations + 1 }, () => new Float64Array(size));
    this.hessenberg = Array.from({ length: iterations }, (_, column) => new Float64Array(column + 2));
    this.cosine = new Float64Array(iterations);
    this.sine = new Float64Array(iterations);
    this.rhs = new Float64Array(iterations + 1);
    this.coefficient = new Float64Array(iterations);
  }

  /**
   * Solves (preconditioner)(operator) x = (preconditioner) b from x = 0.
   *
   * @param apply         writes operator(x) into its second argument
   * @param precondition  solves with the preconditioner in place
   * @param b             right-hand side, already preconditioned
   * @param x             the solution on return
   * @param relative      ends when the preconditioned residual has fallen by this factor
   * @param absolute      or below this (root of the sum of squares)
   * @returns iterations used, each one application of operator and preconditioner
   */
  solve(
    apply: (x: Float64Array, y: Float64Array) => void,
    precondition: (x: Float64Array) => void,
    b: Float64Array,
    x: Float64Array,
    relative: number,
    absolute: number,
  ): number {
    const { size, basis, hessenberg, cosine, sine, rhs, coefficient } = this;
    const start = Math.sqrt(dot(b, b, size));
    x.fill(0);
    this.residual = start;
    const goal = Math.max(start * relative, absolute);
    if (start <= goal || start === 0) return 0;
    scaleInto(b, 1 / start, basis[0], size);
    rhs[0] = start;
    let used = 0;
    while (used < this.iterations) {
      const k = used++;
      const next = basis[k + 1];
      apply(basis[k], next);
      precondition(next);
      const column = hessenberg[k];
      for (let i = 0; i <= k; i++) {
        const along = dot(next, basis[i], size);
        column[i] = along;
        subtract(next, along, basis[i], size);
      }
      const length = Math.sqrt(dot(next, next, size));
      if (length > 0) scaleInto(next, 1 / length, next, size);
      for (let i = 0; i < k; i++) {
        const upper = column[i];
        column[i] = cosine[i] * upper + sine[i] * column[i + 1];
        column[i + 1] = cosine[i] * column[i + 1] - sine[i] * upper;
      }
      const diagonal = Math.hypot(column[k], length);
      cosine[k] = column[k] / diagonal;
      sine[k] = length / diagonal;
      column[k] = diagonal;
      rhs[k + 1] = -sine[k] * rhs[k];
      rhs[k] *= cosine[k];
      this.residual = Math.abs(rhs[k + 1]);
      if (this.residual <= goal) break;
    }
    for (let i = used - 1; i >= 0; i--) {
      let sum = rhs[i];
      for (let j = i + 1; j < used; j++) sum -= hessenberg[j][i] * coefficient[j];
      coefficient[i] = sum / hessenberg[i][i];
    }
    for (let i = 0; i < used; i++) subtract(x, -coefficient[i], basis[i], size);
    return used;
  }
}

function dot(a: Float64Array, b: Float64Array, size: number): number {
  let even = 0;
  let odd = 0;
  const last = size - 1;
  let i = 0;
  for (; i < last; i += 2) {
    even += a[i] * b[i];
    odd += a[i + 1] * b[i + 1];
  }
  if (i < size) even += a[i] * b[i];
  return even + odd;
}

function subtract(from: Float64Array, factor: number, vector: Float64Array, size: number): void {
  for (let i = 0; i < size; i++) from[i] -= factor * vector[i];
}

function scaleInto(vector: Float64Array, factor: number, into: Float64Array, size: number): void {
  for (let i = 0; i < size; i++) into[i] = factor * vector[i];
}
