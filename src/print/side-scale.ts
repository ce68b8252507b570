import type { Load } from "#engine/kiln";
import { outlinePoints, reachAlong } from "#work";
import type { PagePoint } from "./drawing.ts";
import { turnOf } from "./plan-view.ts";

/** The kiln cut through its middle, to scale: metres right of the axis and above the floor to points of the page. */
export interface SideScale {
  /** [pt/m] */
  readonly scale: number;
  readonly toPage: (right: number, up: number) => PagePoint;
  /** How far right and how far back (away from the viewer) a point of the plan lies [m]. */
  readonly across: (x: number, y: number) => { readonly right: number; readonly back: number };
  readonly turn: number;
  /** Inner faces of the wall, left and right of the axis [m]. */
  readonly wall: { readonly left: number; readonly right: number };
  /** Outer size [m]. */
  readonly outer: { readonly left: number; readonly right: number; readonly bottom: number; readonly top: number };
}

/** Room for the ruler at the left and for shelf numbers at the right of the kiln [pt]. */
export const rulerRoom = 68;
export const numberRoom = 46;
const feet = 0.022;

export function sideScale(load: Load, left: number, top: number, width: number, height: number): SideScale {
  const { chamber, wall, lid, floor } = load.kiln;
  const turn = turnOf(load.kiln);
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  const { from, to } = reachAlong(outlinePoints(chamber.plan), cos, -sin);
  const outer = {
    left: from - wall.thickness,
    right: to + wall.thickness,
    bottom: -floor.thickness - feet,
    top: chamber.height + lid.thickness,
  };
  const scale = Math.min(
    (width - rulerRoom - numberRoom) / (outer.right - outer.left),
    (height - 6) / (outer.top - outer.bottom),
  );
  return {
    scale,
    turn,
    wall: { left: from, right: to },
    outer,
    across: (x, y) => ({ right: cos * x - sin * y, back: sin * x + cos * y }),
    toPage: (right, up) => [left + rulerRoom + (right - outer.left) * scale, top + 3 + (outer.top - up) * scale],
  };
}
