import type { RunControl } from "#base";
import type { ColumnProblem } from "./column.ts";
import { Improver } from "./improve.ts";
import { Search, type Layer, type Solution } from "./search.ts";

/** How long to search: whichever runs out first. */
export interface SearchBudget {
  /** As told by `RunControl.elapsed` [s]. */
  readonly seconds: number;
  /** In energy evaluations; the same budget gives the same answer on every machine. */
  readonly steps: number;
}

/** Usable share of a shelf's area when choosing the first layer heights; later moves try others. */
const firstDensity = 0.82;

/**
 * The best setting of a column found within the budget, and the search it came from (for polishing).
 *
 * Stops early when everything is placed, or on cancel: the best so far is returned either way.
 *
 * @param given  layers that must stay as they are, empty or partly filled; left out: heights are chosen too
 */
export function solveColumn(
  problem: ColumnProblem,
  budget: SearchBudget,
  seed: number,
  control: RunControl,
  given?: readonly Layer[],
): { readonly search: Search; readonly solution: Solution } {
  const started = control.elapsed();
  const spent = (): number => {
    const byTime = (control.elapsed() - started) / budget.seconds;
    return Math.max(byTime, search.packer.work / budget.steps);
  };
  const search: Search = new Search(problem, seed, () => control.cancelled() || spent() >= 1);
  const all = problem.worth.reduce((sum, worth) => sum + worth, 0);
  search.best = given ? search.fill(search.solution(given), 12) : search.construct(firstDensity);
  if (search.best.layers.length === 0) return { search, solution: search.best };
  const improver = new Improver(search, search.best, given === undefined);
  for (;;) {
    const used = spent();
    if (used >= 1 || control.cancelled() || search.best.worth >= all - 1e-9) break;
    control.progress(used, "packing shelves");
    improver.step(1 - used);
  }
  return { search, solution: search.best };
}
