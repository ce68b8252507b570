import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { createHighsSolver } from "#solvers";
import { solveLoadCase } from "#work/cases";
import { brokenRules } from "./load-verifier.ts";

const cpuControl = () => {
  const start = process.cpuUsage();
  return {
    cancelled: () => false,
    progress: () => {},
    elapsed: () => {
      const used = process.cpuUsage(start);
      return (used.user + used.system) / 1e6;
    },
  };
};

const read = (name: string) =>
  JSON.parse(readFileSync(new URL(`../reference/${name}`, import.meta.url), "utf8")) as Parameters<
    typeof brokenRules
  >[0];

describe("load case", async () => {
  const solver = await createHighsSolver();
  const solve = (json: unknown, seconds: number) =>
    solveLoadCase(json, { seconds, seed: 1, solver, control: cpuControl() });

  // tests/reference/load-*.json: synthetic queues of the project's reference data; rules as its README gives them.
  it("sets 120 pieces by the rules, at 0.84 of the bound or better in 10 s", () => {
    const file = read("load-120-s1.json");
    const answer = solve(file, 10);
    if (!answer.ok) throw new Error(answer.failure);
    expect(brokenRules(file, answer.value)).toEqual([]);
    expect(answer.value.value / answer.value.bound).toBeGreaterThan(0.84);
  });

  it("places all of 30 pieces that fit", () => {
    const file = read("load-30-s4.json");
    const answer = solve(file, 2);
    if (!answer.ok) throw new Error(answer.failure);
    expect(brokenRules(file, answer.value)).toEqual([]);
    expect(answer.value.placed).toHaveLength(30);
    expect(answer.value.bound).toBe(answer.value.value);
  });

  it("is caught by its verifier when a piece is moved", () => {
    const file = read("load-30-s4.json");
    const answer = solve(file, 2);
    if (!answer.ok) throw new Error(answer.failure);
    const [first, ...rest] = answer.value.placed;
    // Into the middle of another piece of its layer.
    const other = rest.find(({ layer }) => layer === first.layer)!;
    const moved = { ...answer.value, placed: [{ ...first, x_mm: other.x_mm, y_mm: other.y_mm }, ...rest] };
    expect(brokenRules(file, moved)).not.toEqual([]);
    const layers = answer.value.layers.map(({ z_mm, height_mm }) => ({ z_mm: z_mm + 5, height_mm }));
    expect(brokenRules(file, { ...answer.value, layers })).not.toEqual([]);
  });

  it.each([
    [{}, /^kiln is missing; give an object/],
    [{ kiln: {}, items: [] }, /^kiln.shelfR_mm is missing; give a number above 0/],
    [[], /^the file is \[\]; give an object/],
  ])("names place and remedy for %j", (json, expected) => {
    const answer = solve(json, 1);
    if (answer.ok) throw new Error("expected a fault");
    expect(answer.failure).toMatch(expected);
  });
});
