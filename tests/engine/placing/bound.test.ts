import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { mostCircles, roundShares, type LayerShare } from "#engine/placing";

interface Reference {
  readonly equal: readonly { readonly N: number; readonly ratio: number }[];
  readonly unequal: readonly { readonly name: string; readonly radii: readonly number[]; readonly best_R: number }[];
}

// Known packings (tests/reference/circles.json names E. Specht's list; Ye, Huang, Lu 2013): every limit must hold for each.
const reference = JSON.parse(
  readFileSync(new URL("../../reference/circles.json", import.meta.url), "utf8"),
) as Reference;

const disc = (radius: number) => [{ x: 0, y: 0, angle: 0, halfX: 0, halfY: 0, radius }];
const used = ({ use }: LayerShare) => use.reduce((sum, each) => sum + each, 0);

describe("limits of one layer", () => {
  const packings = [
    ...reference.equal.map(({ N, ratio }) => [`${N} equal`, Array.from({ length: N }, () => 1), ratio] as const),
    ...reference.unequal.map(({ name, radii, best_R }) => [name, radii, best_R] as const),
  ];
  it.each(packings)("hold for the best-known packing of %s discs", (_name, radii, radius) => {
    const shares = roundShares(radii.map(disc), { radius, gap: 0, posts: 0, postRadius: 0 });
    expect(shares.length).toBeGreaterThan(1);
    for (const share of shares) expect(used(share)).toBeLessThanOrEqual(share.top);
  });

  it("are tighter than area alone: 61 equal discs are refused where their area would fit", () => {
    const [area, ...others] = roundShares(
      Array.from({ length: 61 }, () => disc(1)),
      { radius: Math.sqrt(61 / 0.93), gap: 0, posts: 0, postRadius: 0 },
    ) as [LayerShare, ...LayerShare[]];
    expect(used(area)).toBeLessThan(area.top);
    expect(others.some((share) => used(share) > share.top)).toBe(true);
  });

  // Fejes Tóth, Lagerungen (1972): squares fill the plane, so that no limit may ask more than their area of them.
  it("hold for a square cut into squares", () => {
    const side = 0.1;
    const squares = Array.from({ length: 36 }, () => [
      { x: 0, y: 0, angle: 0, halfX: side / 2 - 0.001, halfY: side / 2 - 0.001, radius: 0.001 },
    ]);
    const shares = roundShares(squares, { radius: 3 * side * Math.SQRT2, gap: 0, posts: 0, postRadius: 0 });
    for (const share of shares) expect(used(share)).toBeLessThanOrEqual(share.top);
  });

  // Proven optima of equal circles in a circle: E. Specht's list names the proofs.
  it.each([
    [2.9, 5],
    [3.001, 7],
    [3.31, 8],
    [1, 1],
    [0.9, 0],
  ])("at a ratio of %f lets %i circles in", (ratio, count) => {
    expect(mostCircles(ratio, 1)).toBe(count);
  });

  it.each(reference.equal.map(({ N, ratio }) => [N, ratio] as const))(
    "never counts fewer than the %i circles known to fit",
    (N, ratio) => {
      expect(mostCircles(ratio * (1 + 1e-9), 1)).toBeGreaterThanOrEqual(N);
    },
  );
});
