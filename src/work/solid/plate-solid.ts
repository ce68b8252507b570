import type { Metres } from "#engine/units";
import type { PlanPoint } from "../outline-points.ts";
import { solidBuilder, type Solid } from "./solid.ts";

/** A convex outline from above, counter-clockwise, raised from `bottom` to `top`: a shelf, a post, a tile, a wall. */
export function plateSolid(outline: readonly PlanPoint[], bottom: Metres, top: Metres): Solid {
  const build = solidBuilder();
  build.face(outline.map(([x, y]) => [x, y, top]));
  build.face(outline.map(([x, y]) => [x, y, bottom] as const).reverse());
  outline.forEach(([x, y], i) => {
    const [nextX, nextY] = outline[(i + 1) % outline.length];
    build.face([
      [x, y, bottom],
      [nextX, nextY, bottom],
      [nextX, nextY, top],
      [x, y, top],
    ]);
  });
  return build.done();
}

/** Corners of a rectangle about (x, y), counter-clockwise. */
export function rectanglePoints(width: Metres, depth: Metres, x: Metres = 0, y: Metres = 0): readonly PlanPoint[] {
  return [
    [x + width / 2, y + depth / 2],
    [x - width / 2, y + depth / 2],
    [x - width / 2, y - depth / 2],
    [x + width / 2, y - depth / 2],
  ];
}
