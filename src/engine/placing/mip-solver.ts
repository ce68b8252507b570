/**
 * A linear program, some of whose variables are whole: maximise Σ objective x with lower <= row <= upper.
 * Each variable appears once, each row's columns once.
 */
export interface MixedIntegerProgram {
  readonly objective: readonly number[];
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  readonly whole: readonly boolean[];
  readonly rows: readonly {
    readonly columns: readonly number[];
    readonly coefficients: readonly number[];
    readonly lower: number;
    readonly upper: number;
  }[];
}

export type MipResult =
  | {
      readonly status: "solved";
      readonly values: readonly number[];
      readonly objective: number;
      /** Proven: no solution has a greater objective. */
      readonly bound: number;
      /** What one more unit of each row's limit would be worth; only where no variable is whole. */
      readonly duals: readonly number[] | null;
    }
  | { readonly status: "infeasible" }
  /** Stopped before a solution and a bound were proven. */
  | { readonly status: "unfinished" };

/** A solver of mixed-integer programs. The engine has none of its own; the host passes one in. */
export interface MipSolver {
  /**
   * @param seconds  give up after about this long
   * @param gap      stop when objective and bound differ by less than this share
   */
  readonly solve: (program: MixedIntegerProgram, seconds: number, gap: number) => MipResult;
}
