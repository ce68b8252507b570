import { factorTridiagonal, solveTridiagonal, tridiagonalFactors, type TridiagonalFactors } from "#engine/numerics";

/**
 * The part of a matrix that couples vertices neighbouring in number, used as preconditioner: through the thickness of
 * walls, shelves and pieces, where the coupling is stiffest, it is exact.
 */
export class TridiagonalPart {
  readonly diagonal: Float64Array;
  private readonly below: Float64Array;
  private readonly above: Float64Array;
  private readonly factors: TridiagonalFactors;

  constructor(size: number) {
    this.diagonal = new Float64Array(size);
    this.below = new Float64Array(size);
    this.above = new Float64Array(size);
    this.factors = tridiagonalFactors(size);
  }

  begin(): void {
    this.diagonal.fill(0);
    this.below.fill(0);
    this.above.fill(0);
  }

  /** Notes the entries (row, column) and (column, row) if the two are neighbours in number. */
  couple(row: number, column: number, entry: number, mirrored: number): void {
    if (column === row + 1) {
      this.above[row] += entry;
      this.below[column] += mirrored;
    } else if (column === row - 1) {
      this.below[row] += entry;
      this.above[column] += mirrored;
    }
  }

  /** Makes a row 1 on the diagonal and 0 beside it. */
  fix(row: number): void {
    this.diagonal[row] = 1;
    this.below[row] = 0;
    this.above[row] = 0;
  }

  finish(): void {
    const { diagonal } = this;
    // A face that is wholly covered exchanges nothing: its radiosity may be anything.
    for (let i = 0; i < diagonal.length; i++) if (diagonal[i] === 0) diagonal[i] = 1;
    factorTridiagonal(this.below, diagonal, this.above, this.factors);
  }

  /** Solves in place. */
  solve(x: Float64Array): void {
    solveTridiagonal(this.factors, x);
  }
}
