import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { solveCirclesCase } from "#work/cases";

interface Reference {
  readonly equal: readonly { readonly N: number; readonly ratio: number }[];
  readonly unequal: readonly { readonly name: string; readonly radii: readonly number[]; readonly best_R: number }[];
}

const reference = JSON.parse(readFileSync(new URL("../reference/circles.json", import.meta.url), "utf8")) as Reference;

const solve = (json: unknown, seconds: number) => {
  const start = process.cpuUsage();
  const elapsed = () => {
    const used = process.cpuUsage(start);
    return (used.user + used.system) / 1e6;
  };
  return solveCirclesCase(json, { seconds, seed: 1, control: { cancelled: () => false, progress: () => {}, elapsed } });
};

function expectFeasible(answer: { radius: number; circles: readonly { x: number; y: number; r: number }[] }): void {
  const { circles, radius } = answer;
  circles.forEach((a, i) => {
    expect(Math.hypot(a.x, a.y) + a.r).toBeLessThanOrEqual(radius * (1 + 1e-12));
    for (const b of circles.slice(i + 1)) {
      expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeGreaterThanOrEqual((a.r + b.r) * (1 - 1e-12));
    }
  });
}

// Best-known container radii: tests/reference/circles.json, which names its sources (E. Specht's list; Ye, Huang, Lu 2013).
describe("circles case", () => {
  // 61 is left to `npm run -s case`: in 5 s it comes within 2 %, in 10 s within 0.3 % (docs/explanation/placing.md).
  it.each(reference.equal.filter(({ N }) => N < 61).map((each) => [each.N, each.ratio] as const))(
    "packs %i equal circles within 0.5 % of the best-known radius",
    (N, ratio) => {
      const answer = solve({ N }, 2);
      if (!answer.ok) throw new Error(answer.failure);
      expectFeasible(answer.value);
      expect(answer.value.circles).toHaveLength(N);
      expect(answer.value.radius / ratio).toBeLessThan(1.005);
      expect(answer.value.radius / ratio).toBeGreaterThan(1 - 1e-7);
    },
  );

  it.each(reference.unequal.map((each) => [each.name, each] as const))(
    "packs %s within 2 % of the best-known radius",
    (_name, { radii, best_R }) => {
      const answer = solve({ radii }, 2);
      if (!answer.ok) throw new Error(answer.failure);
      expectFeasible(answer.value);
      expect(answer.value.circles.map((circle) => circle.r)).toEqual(radii);
      expect(answer.value.radius / best_R).toBeLessThan(1.02);
      expect(answer.value.radius / best_R).toBeGreaterThan(1 - 1e-7);
    },
  );

  it.each([
    [{ radii: [1, 0] }, "radii[1] is 0; give a number above 0"],
    [{ radii: [] }, "radii is []; give a list of 1 or more"],
    [{ N: 2.5 }, "N is 2.5; give a whole number from 1 to 5000"],
    [{ n: 3 }, 'the file is {"n":3}; give either "radii" (a list) or "N" (a count of unit discs)'],
  ])("names place and remedy for %j", (json, expected) => {
    expect(solve(json, 1)).toEqual({ ok: false, failure: expected });
  });
});
