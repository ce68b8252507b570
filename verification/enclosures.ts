import { readFileSync } from "node:fs";
import { unattended } from "#base";
import { solveEnclosure, solveLumped, type EnclosureCase, type EnclosureResult, type LumpedCase } from "#work/cases";
import type { VerificationCase, Verified } from "./verification-case.ts";

const folder = new URL("../tests/reference/", import.meta.url);
const text = (name: string): string => readFileSync(new URL(name, folder), "utf8");

/** Largest difference of any surface's temperature at any time from two ODE solvers that agree to 1.4e-8 K. */
function lumped(): Verified {
  const problem = JSON.parse(text("lumped-1.json")) as LumpedCase & { readonly T_K: readonly (readonly number[])[] };
  const solved = solveLumped(problem);
  if (!solved.ok) throw new Error(solved.failure);
  const differences = solved.value.T_K.flatMap((row, i) => row.map((value, j) => Math.abs(value - problem.T_K[i][j])));
  return { computed: Math.max(...differences), reference: 0, tolerance: 0.01, unit: "K" };
}

const solutions = new Map<number, EnclosureResult>();

function solution(index: number): EnclosureResult {
  const kept = solutions.get(index);
  if (kept) return kept;
  const solved = solveEnclosure(JSON.parse(text(`enclosure-${index}.json`)) as EnclosureCase, unattended);
  if (!solved.ok) throw new Error(solved.failure);
  solutions.set(index, solved.value);
  return solved.value;
}

/** Largest difference of some probes at any time from the reference [K]. */
function worst(index: number, rims: boolean): number {
  const [head, ...rows] = text(`enclosure-${index}.axisymmetric.csv`)
    .trim()
    .split(/\r?\n/)
    .map((line) => line.split(","));
  const { probes } = solution(index);
  let most = 0;
  head.forEach((name, column) => {
    if (column === 0 || name.includes("rim") !== rims) return;
    rows.forEach((row, i) => {
      most = Math.max(most, Math.abs(probes[name][i] - Number(row[column])));
    });
  });
  return most;
}

const source = "[enclosure-reference]";

export const enclosureCases: readonly VerificationCase[] = [
  {
    id: "enclosure-lumped",
    quantity: "three grey surfaces with heat capacity, loss and power: largest difference at any time",
    source: "[lumped-reference] SciPy's Radau and DOP853, analytic view factors",
    run: lumped,
  },
  ...[1, 2].flatMap((index): VerificationCase[] => [
    {
      id: `enclosure-${index}-probes`,
      quantity: `heated cylinder ${index} with shelf and piece: largest difference of centres, mids and means`,
      source: `${source} case ${index}`,
      run: () => ({ computed: worst(index, false), reference: 0, tolerance: 3, unit: "K" }),
    },
    {
      id: `enclosure-${index}-rims`,
      quantity: `heated cylinder ${index}: largest difference of the shelf's rims`,
      source: `${source} case ${index}`,
      run: () => ({ computed: worst(index, true), reference: 0, tolerance: 6, unit: "K" }),
    },
  ]),
];
