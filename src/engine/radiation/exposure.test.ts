import { describe, expect, it } from "vitest";
import type { Load, PlacedPiece } from "#engine/kiln";
import { coaxialDiscs } from "../../../verification/analytic-view-factors.ts";
import { exposureOf } from "./exposure.ts";
import { inventedKiln, inventedLoad, mug } from "./invented-load.ts";
import { seenKinds } from "./seen.ts";
import { viewFromPiece } from "./view.ts";

function withPieces(load: Load, pieces: readonly PlacedPiece[]): Load {
  return { ...load, setting: { ...load.setting, pieces, cones: [] } };
}

/** A tile in the middle of an empty round kiln without shelf posts or sensors in its way. */
function tileAlone(): Load {
  const tile = {
    ...mug,
    id: "tile",
    handle: null,
    body: { kind: "slab", width: 0.02, depth: 0.02, thickness: 0.0001, corner: 0 },
  } as const;
  const load = inventedLoad(1, 0.2, tile);
  const kiln = {
    ...inventedKiln,
    sensors: [],
    chamber: { plan: { kind: "disc", radius: 0.29 }, height: 0.69 },
  } as const;
  const shelf = { ...load.setting.shelves[0], posts: [] };
  const middle = load.setting.pieces.filter((piece) => piece.x === 0 && piece.y === 0);
  return { ...withPieces(load, middle), kiln, setting: { shelves: [shelf], pieces: middle, cones: [] } };
}

describe("exposure", () => {
  it("of a small flat tile is what the lid leaves of its sky [howell-catalog] C-41", () => {
    const [tile] = exposureOf(tileAlone(), { raysPerPiece: 16384 });
    const up = 0.69 - 0.041 - 0.0001;
    // A disc of equal area stands for the square; from far the lid cannot tell.
    const lid = coaxialDiscs(0.02 / Math.sqrt(Math.PI), 0.29, up);
    const rim = (4 * 0.02 * 0.0001) / (0.02 * 0.02 + 4 * 0.02 * 0.0001);
    expect(Math.abs(tile.shares.lid - lid * (1 - rim))).toBeLessThan(0.01);
    expect(Math.abs(tile.exposure - (1 - lid))).toBeLessThan(0.03);
  });

  it("shares add up to 1 and 512 rays come within 0.04 of 16384, rms 0.015", () => {
    const load = inventedLoad(2, 0.25);
    const coarse = exposureOf(load);
    const fine = exposureOf(load, { raysPerPiece: 16384 });
    expect(coarse.length).toBe(load.setting.pieces.length);
    let squares = 0;
    coarse.forEach(({ pieceId, exposure, shares }, i) => {
      expect(seenKinds.reduce((sum, kind) => sum + shares[kind], 0)).toBeCloseTo(1, 12);
      expect(pieceId).toBe(fine[i].pieceId);
      expect(Math.abs(exposure - fine[i].exposure)).toBeLessThan(0.04);
      squares += (exposure - fine[i].exposure) ** 2;
    });
    expect(Math.sqrt(squares / coarse.length)).toBeLessThan(0.015);
    expect(exposureOf(load)).toEqual(coarse);
  });

  it("falls from the outer ring of pieces to the middle one", () => {
    const load = inventedLoad(1, 0.25);
    const exposure = new Map(exposureOf(load).map((each) => [each.pieceId, each.exposure]));
    const mean = (ring: string): number => {
      const values = [...exposure].filter(([id]) => id.startsWith(`0-${ring}-`)).map(([, value]) => value);
      return values.reduce((sum, value) => sum + value, 0) / values.length;
    };
    expect(mean("0.2")).toBeGreaterThan(mean("0.105"));
    expect(mean("0.105")).toBeGreaterThan(mean("0"));
  });

  it("can be asked for some pieces only", () => {
    const load = inventedLoad(1);
    expect(exposureOf(load, { pieceIds: ["0-0-0"] }).map((each) => each.pieceId)).toEqual(["0-0-0"]);
  });
});

describe("view from a piece", () => {
  const load = inventedLoad(2, 0.25);
  const view = viewFromPiece(load, "0-0-0", { size: 48 });

  it("fills its disc, and nothing outside it, with kinds of bodies seen", () => {
    let inside = 0;
    view.kind.forEach((kind, pixel) => {
      const x = ((pixel % 48) + 0.5) / 24 - 1;
      const y = (Math.floor(pixel / 48) + 0.5) / 24 - 1;
      if (Math.hypot(x, y) > 1) expect(kind).toBe(255);
      else {
        inside++;
        expect(kind).toBeLessThan(seenKinds.length);
        expect(view.distance[pixel]).toBeGreaterThan(0);
        expect(view.distance[pixel]).toBeLessThan(1);
      }
    });
    expect(inside).toBeGreaterThan(1700);
  });

  it("shows the next shelf straight above, and never the piece itself", () => {
    const middle = view.body[24 * 48 + 24];
    expect(view.bodies[middle]).toEqual({ kind: "shelf", shelfId: "shelf-1" });
    expect(view.distance[24 * 48 + 24]).toBeCloseTo(0.25 - 0.016 - 0.6 * 0.095, 2);
    expect(view.bodies).not.toContainEqual({ kind: "piece", pieceId: "0-0-0" });
  });

  it("has +x at the right and +y at the top", () => {
    const one = withPieces(load, [
      load.setting.pieces.find((piece) => piece.pieceId === "0-0-0")!,
      { ...load.setting.pieces[0], x: 0.15, y: 0 },
      { ...load.setting.pieces[1], x: 0, y: 0.15 },
    ]);
    const seen = viewFromPiece(one, "0-0-0", { size: 48 });
    const radius = Math.round(24 * seen.horizon);
    const at = (column: number, row: number): unknown => seen.bodies[seen.body[row * 48 + column]];
    expect(at(24 + radius, 24)).toEqual({ kind: "piece", pieceId: load.setting.pieces[0].pieceId });
    expect(at(24, 24 - radius)).toEqual({ kind: "piece", pieceId: load.setting.pieces[1].pieceId });
  });

  it("names a piece that is not there", () => {
    expect(() => viewFromPiece(load, "nobody")).toThrow(/piece "nobody" is not in this setting/);
  });
});
