import { expect, it } from "vitest";
import { bracketedRoot } from "./root.ts";

it.each([
  ["a cosine", (x: number) => Math.cos(x) - x, 0, 1, 0.7390851332151607],
  ["a steep exponential", (x: number) => Math.exp(30 * x) - 2, -1, 1, Math.LN2 / 30],
  ["a flat ninth power", (x: number) => (x - 0.3) ** 9, -1, 2, 0.3],
  ["a falling line, ends swapped", (x: number) => 5 - x, 9, 1, 5],
])("finds the root of %s", (_, f, lower, upper, root) => {
  expect(bracketedRoot(f, lower, upper, 1e-10)).toBeCloseTo(root, 8);
});

it("refuses a bracket without a change of sign", () => {
  expect(() => bracketedRoot((x) => x * x + 1, -1, 1, 1e-9)).toThrow(RangeError);
});
