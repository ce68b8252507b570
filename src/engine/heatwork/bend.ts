import { requireNotNegative, requireThat } from "#base";
import type { Radians } from "#engine/units";

/*
 * Bend of a self-supporting cone: the angle from upright to the line from its foot to its tip. It starts at 8 degrees
 * and ends, tip level with the base, at 90. Bending by its own weight, the cone's angle runs away as
 * d(theta)/d(alpha) = 2.66 sin theta, whose solution is tan(theta/2) = tan(4 deg) exp(2.66 alpha): derived here, not
 * published. 2.66 = -ln tan(4 deg) puts the end point at alpha = 1.
 */
const halfLean = (4 * Math.PI) / 180;
const growth = -Math.log(Math.tan(halfLean));

/** Bend before firing: a cone leans 8 degrees. Source: [orton-chart] */
export const bendAtStart: Radians = 2 * halfLean;
/** Bend at the end point: the tip is level with the base. Source: [orton-chart] */
export const bendAtEnd: Radians = Math.PI / 2;

/**
 * Bend for a cone's heat work [rad].
 *
 * @param alpha  heat work [-], >= 0; at 1 the bend is 90 degrees. Above about 1.3 the cone lies on the shelf and the
 *   angle no longer tells anything.
 * Accuracy: a model; at 60 C/h cones 010 to 10 take 9 to 28 min from 20 to 90 degrees, 20 in the middle, against 15-25
 *   published as typical.
 */
export function bendOf(alpha: number): Radians {
  requireNotNegative(alpha, "alpha", "(heat work)");
  return 2 * Math.atan(Math.tan(halfLean) * Math.exp(growth * alpha));
}

/**
 * Heat work for a cone's bend [-]: the other way of `bendOf`; 0 for a cone that has not moved.
 *
 * @param bend  [rad], 0 to below pi
 * @throws RangeError naming `bend` if it is out of range
 */
export function alphaFromBend(bend: Radians): number {
  requireThat(bend >= 0 && bend < Math.PI, "bend", bend, "an angle from 0 to below 180 degrees, in rad");
  return Math.max(0, Math.log(Math.tan(bend / 2) / Math.tan(halfLean)) / growth);
}
