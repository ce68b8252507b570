import { describe, expect, test } from "vitest";
import type { Furniture, Kiln, Shape } from "#engine/kiln";
import { demoStudio } from "./demo/studio.ts";
import { kilnFit } from "./kiln-fit.ts";

const studio = demoStudio("2026-11-24", 1);
const alder = studio.kilns.find((kiln) => kiln.id === "alder")!;
const furniture = studio.furniture.find((each) => each.id === alder.furnitureId)!;

/** One shelf, a round one of 500 mm in a round chamber of 580 mm. */
const round: Kiln = { ...alder, chamber: { plan: { kind: "disc", radius: 0.29 }, height: 0.69 } };
const disc: Furniture = {
  ...furniture,
  shelves: [{ ...furniture.shelves[0], outline: { kind: "disc", radius: 0.25 }, thickness: 0.016, count: 3 }],
};
const slab = (width: number, depth: number): Shape => ({
  id: "slab",
  name: "slab",
  body: { kind: "slab", width, depth, thickness: 0.01, corner: 0 },
  handle: null,
  spout: null,
  lidHeight: 0,
  mass: 1,
  guessed: false,
});
const mug = (height: number): Shape => ({
  ...slab(0.1, 0.1),
  body: {
    kind: "revolution",
    profile: [
      [0.04, 0],
      [0.045, height],
    ],
    wall: 0.005,
    foot: 0.035,
    closed: false,
  },
});

describe("kilnFit", () => {
  // A rectangle lies in a circle when its half diagonal is no longer than the radius (Thales; Euclid III.31).
  test.each([
    [0.3, 0.399, true],
    [0.3, 0.401, false],
    [0.499, 0.02, true],
    [0.02, 0.501, false],
  ])("a slab of %d by %d m on a disc of 0.5 m: %s", (width, depth, fits) => {
    expect(kilnFit(round, disc, slab(width, depth), 0).fits).toBe(fits);
  });

  test("a long slab is turned to lie along the diagonal of a square shelf", () => {
    const square: Kiln = { ...alder, chamber: { plan: { kind: "rectangle", width: 0.6, depth: 0.6 }, height: 0.5 } };
    const shelf: Furniture = {
      ...disc,
      shelves: [{ ...disc.shelves[0], outline: { kind: "rectangle", width: 0.4, depth: 0.4 } }],
    };
    // Turned by 45 degrees it needs (0.5 + 0.04) / √2 = 0.382 m each way.
    expect(kilnFit(square, shelf, slab(0.5, 0.04), 0).fits).toBe(true);
    // (0.5 + 0.08) / √2 = 0.410 m.
    expect(kilnFit(square, shelf, slab(0.5, 0.08), 0)).toMatchObject({ fits: false, reason: "too-wide", widest: 0.4 });
  });

  test("height: chamber less lowest posts, shelf, stilt and headroom under the lid", () => {
    const { rules } = alder;
    const tallest = 0.69 - rules.bottomGap - 0.016 - 0.015 - rules.lidHeadroom;
    expect(kilnFit(round, disc, mug(tallest - 0.001), 0.015).fits).toBe(true);
    const over = kilnFit(round, disc, mug(tallest + 0.001), 0.015);
    expect(over).toMatchObject({ fits: false, reason: "too-tall" });
    expect(!over.fits && over.reason === "too-tall" && over.tallest).toBeCloseTo(tallest, 9);
  });

  test("in the demo studio only the garden planter fits neither kiln", () => {
    const tooBig = studio.shapes
      .filter((shape) => studio.pieces.some((piece) => piece.shapeId === shape.id))
      .filter((shape) =>
        studio.kilns.every((kiln) => {
          const stock = studio.furniture.find((each) => each.id === kiln.furnitureId)!;
          return !kilnFit(kiln, stock, shape, 0).fits;
        }),
      );
    expect(tooBig.map((shape) => shape.id)).toEqual(["garden-planter"]);
  });

  test("without any shelf that fits the chamber nothing fits", () => {
    const huge = { ...disc, shelves: [{ ...disc.shelves[0], outline: { kind: "disc", radius: 0.28 } as const }] };
    expect(kilnFit(round, huge, slab(0.01, 0.01), 0)).toMatchObject({ fits: false, reason: "too-wide", widest: 0 });
  });
});
