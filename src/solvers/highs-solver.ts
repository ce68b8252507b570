import loadHighs from "highs";
import type { MipResult, MipSolver, MixedIntegerProgram } from "#engine/placing";

/** Loads HiGHS (WebAssembly, about 0.1 s) once and gives a solver whose calls are synchronous. */
export async function createHighsSolver(): Promise<MipSolver> {
  const highs = await loadHighs();
  return {
    solve: (program, seconds, gap) => {
      const answer = highs.solve(asText(program), {
        time_limit: seconds,
        mip_rel_gap: gap,
        mip_abs_gap: 1e-9,
        random_seed: 1,
        output_flag: false,
      });
      return resultOf(program, answer, gap);
    },
  };
}

type Answer = ReturnType<Awaited<ReturnType<typeof loadHighs>>["solve"]>;

function resultOf(program: MixedIntegerProgram, answer: Answer, gap: number): MipResult {
  if (answer.Status === "Infeasible") return { status: "infeasible" };
  if (answer.Status !== "Optimal") return { status: "unfinished" };
  const values = program.objective.map((_, k) => primalOf(answer, k));
  const objective = answer.ObjectiveValue;
  // "Optimal" means within the gap asked for; the solver's own rounding adds a little more.
  const bound = objective + Math.abs(objective) * (gap + 1e-6) + 1e-6;
  return {
    status: "solved",
    values,
    objective,
    bound,
    duals: program.whole.includes(true) ? null : dualsOf(program, answer),
  };
}

/** A row with two limits is two rows of the text: their duals add up, as at most one of the limits binds. */
function dualsOf(program: MixedIntegerProgram, answer: Answer): number[] {
  const byName = new Map(answer.Rows.flatMap((row) => ("Dual" in row ? [[row.Name, row.Dual ?? 0] as const] : [])));
  return program.rows.map((_, r) => ["u", "l", "r"].reduce((sum, kind) => sum + (byName.get(`${kind}${r}`) ?? 0), 0));
}

function primalOf(answer: Answer, k: number): number {
  const column = answer.Columns[`x${k}`];
  return column && "Primal" in column ? (column.Primal ?? 0) : 0;
}

/**
 * The program in the LP text format. The format keeps only the last coefficient of a variable that is named twice in
 * an expression, so every expression names each once; `MixedIntegerProgram` promises that.
 */
export function asText(program: MixedIntegerProgram): string {
  const terms = (columns: readonly number[], coefficients: readonly number[]): string => {
    const named = columns
      .map((column, k) => [column, coefficients[k]] as const)
      .filter(([, coefficient]) => coefficient !== 0)
      .map(([column, coefficient]) => `${coefficient < 0 ? "-" : "+"} ${Math.abs(coefficient)} x${column}`);
    return named.length > 0 ? named.join(" ") : "0 x0";
  };
  const all = program.objective.map((_, k) => k);
  const lines = ["Maximize", ` obj: ${terms(all, program.objective)}`, "Subject To"];
  program.rows.forEach((row, r) => {
    const left = terms(row.columns, row.coefficients);
    if (row.lower === row.upper) lines.push(` r${r}: ${left} = ${row.upper}`);
    else {
      if (row.upper < Infinity) lines.push(` u${r}: ${left} <= ${row.upper}`);
      if (row.lower > -Infinity) lines.push(` l${r}: ${left} >= ${row.lower}`);
    }
  });
  lines.push("Bounds");
  for (const k of all) {
    const upper = program.upper[k];
    lines.push(` ${program.lower[k]} <= x${k} <= ${upper === Infinity ? "+inf" : upper}`);
  }
  const whole = all.filter((k) => program.whole[k]);
  if (whole.length > 0) lines.push("General", ` ${whole.map((k) => `x${k}`).join(" ")}`);
  lines.push("End");
  return lines.join("\n");
}
