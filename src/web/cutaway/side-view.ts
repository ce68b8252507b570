import { radiusAt, type Outline } from "#engine/geometry";
import type { Kiln } from "#engine/kiln";
import type { Metres, Radians } from "#engine/units";
import { clippedBehind, grownOutline, outlinePoints, reachAlong, type PlanPoint } from "#work";

/** The cut turns by this much at a press. */
export const cutStep: Radians = Math.PI / 6;

/** Seen from the front: the kiln's right is right, as in the plan. */
export const fromTheFront: Radians = -Math.PI / 2;

/** Thickness of the sheet-metal jacket as drawn [m]. */
export const jacket = 0.008;

/**
 * The kiln seen from one side, cut through its axis across the line of sight. `across` is to the viewer's right of the
 * axis, `depth` towards the viewer: the half with depth <= 0 is drawn, the other is cut away.
 */
export interface SideView {
  readonly from: Radians;
  /** Azimuth of the viewer's right. */
  readonly right: Radians;
}

export function sideView(from: Radians): SideView {
  return { from, right: from + Math.PI / 2 };
}

export function acrossOf(view: SideView, x: Metres, y: Metres): Metres {
  return x * Math.cos(view.right) + y * Math.sin(view.right);
}

export function depthOf(view: SideView, x: Metres, y: Metres): Metres {
  return x * Math.cos(view.from) + y * Math.sin(view.from);
}

export interface Extent {
  readonly from: Metres;
  readonly to: Metres;
}

/** How far a convex outline's back half reaches to left and right, and whether the cut goes through it; null if all of it is cut away. */
export function backHalf(view: SideView, points: readonly PlanPoint[]): (Extent & { readonly isCut: boolean }) | null {
  const [nx, ny] = [Math.cos(view.from), Math.sin(view.from)];
  const depth = reachAlong(points, nx, ny);
  // A half shelf whose straight edge lies in the cut is behind it or in front of it, not through it.
  const thin = 1e-6;
  if (depth.from > -thin) return null;
  const behind = clippedBehind(points, nx, ny, 0);
  return { ...reachAlong(behind, Math.cos(view.right), Math.sin(view.right)), isCut: depth.to > thin };
}

/** Inner and outer half widths of the wall, and where its corners show on the back [m across]. */
export function wallsOf(
  view: SideView,
  kiln: Kiln,
): { readonly inner: Extent; readonly outer: Extent; readonly corners: readonly Metres[] } {
  const { plan } = kiln.chamber;
  const reach = (outline: Outline): Extent =>
    reachAlong(outlinePoints(outline), Math.cos(view.right), Math.sin(view.right));
  const inner = reach(plan);
  const corners =
    plan.kind === "disc"
      ? []
      : outlinePoints(plan)
          .filter(([x, y]) => depthOf(view, x, y) < -0.01)
          .map(([x, y]) => acrossOf(view, x, y))
          .filter((across) => across > inner.from + 0.01 && across < inner.to - 0.01);
  return { inner, outer: reach(grownOutline(plan, kiln.wall.thickness)), corners };
}

/** Where a radial thing (sensor, spyhole) at an azimuth is seen: in the cut's side wall, on the back wall, or cut away. */
export function sideOf(view: SideView, azimuth: Radians): "left" | "right" | "back" | "away" {
  const along = Math.cos(azimuth - view.right);
  const toward = Math.cos(azimuth - view.from);
  // Within 20° of the cut a thing is drawn in it.
  if (Math.abs(toward) < Math.sin(Math.PI / 9)) return along < 0 ? "left" : "right";
  return toward < 0 ? "back" : "away";
}

/** Point at a distance from the axis along an azimuth. */
export function pointAt(azimuth: Radians, radius: Metres): PlanPoint {
  return [radius * Math.cos(azimuth), radius * Math.sin(azimuth)];
}

/** The tip of a sensor in the plan. */
export function sensorTip(kiln: Kiln, sensor: Kiln["sensors"][number]): PlanPoint {
  return pointAt(sensor.azimuth, radiusAt(kiln.chamber.plan, sensor.azimuth) - sensor.reach);
}
