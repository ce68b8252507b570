import type { Footprint } from "#engine/geometry";
import type { Metres } from "#engine/units";

/*
 * Size of a row of self-supporting cones in one holder. Estimated by us from cones about 64 mm tall on bases about
 * 20 mm across, tips bending along the row; common practice, no source.
 */
/** From one cone of a row to the next [m]. */
export const conePitch: Metres = 0.022;
const ends: Metres = 0.02;
const depth: Metres = 0.03;

/** Height of a witness cone in its holder, before it bends [m]. */
export const conePackHeight: Metres = 0.07;

/** What a row of `cones` covers seen from above, about its middle, the row along x. */
export function conePackFootprint(cones: number): Footprint {
  return [{ x: 0, y: 0, angle: 0, halfX: (conePitch * cones + ends) / 2, halfY: depth / 2, radius: 0 }];
}
