import { coreCorners, type Footprint } from "#engine/geometry";

/**
 * The footprints of all items of a problem in flat arrays, for the inner loops of packing.
 *
 * Item i owns boxes `first[i] .. first[i+1] - 1`; a box is centre (x, y), cosine and sine of its turn, half sides and
 * radius, all in the item's own frame [m].
 */
export interface Parts {
  readonly count: number;
  readonly first: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  readonly halfX: Float64Array;
  readonly halfY: Float64Array;
  readonly radius: Float64Array;
  /** Per item: radius of the circle about its origin that holds it [m]. */
  readonly bound: Float64Array;
  /** Per item: length by which its turn is measured in the minimiser [m]; 0 for a disc about its origin. */
  readonly lever: Float64Array;
}

export function partsOf(footprints: readonly Footprint[]): Parts {
  const boxes = footprints.flat();
  const column = (read: (box: Footprint[number]) => number): Float64Array => Float64Array.from(boxes, read);
  const first = new Int32Array(footprints.length + 1);
  footprints.forEach((footprint, item) => (first[item + 1] = first[item] + footprint.length));
  const bound = Float64Array.from(footprints, boundOf);
  return {
    count: footprints.length,
    first,
    x: column((box) => box.x),
    y: column((box) => box.y),
    cos: column((box) => Math.cos(box.angle)),
    sin: column((box) => Math.sin(box.angle)),
    halfX: column((box) => box.halfX),
    halfY: column((box) => box.halfY),
    radius: column((box) => box.radius),
    bound,
    lever: Float64Array.from(footprints, (footprint, item) => (isDisc(footprint) ? 0 : bound[item] * 0.7)),
  };
}

function isDisc(footprint: Footprint): boolean {
  return footprint.every((box) => box.x === 0 && box.y === 0 && box.halfX === 0 && box.halfY === 0);
}

function boundOf(footprint: Footprint): number {
  let most = 0;
  for (const box of footprint) {
    const corners = coreCorners(box);
    for (let i = 0; i < 8; i += 2) {
      most = Math.max(most, Math.hypot(corners[i], corners[i + 1]) + box.radius);
    }
  }
  return most;
}
