import { describe, expect, it } from "vitest";
import { seededRandom } from "#base";
import { Gmres } from "./gmres.ts";
import { plainProduct } from "./sparse.ts";
import { factorTridiagonal, solveTridiagonal, tridiagonalFactors } from "./tridiagonal.ts";

const randomMatrix = (size: number, seed: number): number[][] => {
  const random = seededRandom(seed);
  return Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (_, j) => (i === j ? size : 0) + random.uniform() - 0.5),
  );
};
const times = (matrix: number[][], x: ArrayLike<number>): Float64Array =>
  Float64Array.from(matrix, (row) => row.reduce((sum, a, j) => sum + a * x[j], 0));

describe("plainProduct", () => {
  it.each([1, 2, 3, 4, 5, 9])("agrees with a dense product when rows have up to %i entries", (most) => {
    const random = seededRandom(most);
    const size = 12;
    const dense = Array.from({ length: size }, () => Array.from({ length: size }, () => 0));
    const [column, value] = [[] as number[], [] as number[]];
    const rowStart = [0];
    for (let i = 0; i < size; i++) {
      const first = random.below(size - most + 1);
      for (let j = first; j < first + random.below(most + 1); j++) {
        dense[i][j] = random.normal();
        column.push(j);
        value.push(dense[i][j]);
      }
      rowStart.push(column.length);
    }
    const rows = {
      rowStart: Int32Array.from(rowStart),
      column: Int32Array.from(column),
      value: Float64Array.from(value),
    };
    const x = Float64Array.from({ length: size }, () => random.normal());
    const y = new Float64Array(size).fill(7);
    plainProduct(rows).multiply(x, y);
    times(dense, x).forEach((wanted, i) => expect(y[i]).toBeCloseTo(wanted, 12));
  });
});

describe("tridiagonal solve", () => {
  it("solves chains that a zero coupling keeps apart", () => {
    const below = Float64Array.of(0, -1, 0, -2, 0.5);
    const diagonal = Float64Array.of(3, 4, 5, 4, 3);
    const above = Float64Array.of(-1, 0, 1, -1, 0);
    const wanted = Float64Array.of(1, -2, 3, 0.5, 4);
    const x = wanted.map(
      (value, i) => below[i] * (wanted[i - 1] ?? 0) + diagonal[i] * value + above[i] * (wanted[i + 1] ?? 0),
    );
    const factors = tridiagonalFactors(5);
    factorTridiagonal(below, diagonal, above, factors);
    solveTridiagonal(factors, x);
    wanted.forEach((value, i) => expect(x[i]).toBeCloseTo(value, 12));
  });
});

describe("Gmres", () => {
  it.each([1, 2, 3])("solves an unsymmetric system, seed %i", (seed) => {
    const size = 30;
    const matrix = randomMatrix(size, seed);
    const random = seededRandom(seed + 100);
    const wanted = Float64Array.from({ length: size }, () => random.normal());
    const scale = matrix.map((row, i) => 1 / row[i]);
    const precondition = (v: Float64Array): void => v.forEach((value, i) => (v[i] = value * scale[i]));
    const b = times(matrix, wanted);
    precondition(b);
    const x = new Float64Array(size);
    const gmres = new Gmres(size, 30);
    const used = gmres.solve((v, y) => y.set(times(matrix, v)), precondition, b, x, 1e-12, 0);
    expect(used).toBeLessThan(30);
    wanted.forEach((value, i) => expect(x[i]).toBeCloseTo(value, 9));
  });

  it("tells how much is left when it may not go on", () => {
    const matrix = randomMatrix(30, 4);
    const b = new Float64Array(30).fill(1);
    const x = new Float64Array(30);
    const gmres = new Gmres(30, 2);
    gmres.solve(
      (v, y) => y.set(times(matrix, v)),
      () => {},
      b,
      x,
      1e-12,
      0,
    );
    const left = Math.hypot(...times(matrix, x).map((value) => 1 - value));
    expect(gmres.residual).toBeCloseTo(left, 10);
    expect(left).toBeGreaterThan(1e-6);
  });
});
