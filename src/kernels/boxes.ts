/** Boxes in one array: least x, y, z, greatest x, y, z, six numbers each. */
export type Boxes = Float64Array;

/** The box round some of them. */
export function boxRound(boxes: Boxes, members: readonly number[]): Float64Array {
  const box = emptyBox();
  for (const member of members) grow(box, boxes, member);
  return box;
}

export function halfSurface(box: Float64Array): number {
  const x = box[3] - box[0];
  const y = box[4] - box[1];
  const z = box[5] - box[2];
  return x * y + y * z + z * x;
}

function emptyBox(): Float64Array {
  return Float64Array.of(Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity);
}

function grow(box: Float64Array, boxes: Boxes, member: number): void {
  for (let axis = 0; axis < 3; axis++) {
    box[axis] = Math.min(box[axis], boxes[member * 6 + axis]);
    box[axis + 3] = Math.max(box[axis + 3], boxes[member * 6 + axis + 3]);
  }
}

/**
 * Parts boxes in two along an axis so that surface times cost, summed over both sides, is least (the surface-area
 * heuristic).
 *
 * @param members two or more
 * @param second  members that are counted apart from the others
 * @param cost    of a side with so many first and second members
 */
export function parted(
  boxes: Boxes,
  members: readonly number[],
  second: ReadonlySet<number>,
  cost: (first: number, second: number) => number,
): readonly [readonly number[], readonly number[]] {
  const n = members.length;
  const middle = (member: number, axis: number): number => boxes[member * 6 + axis] + boxes[member * 6 + axis + 3];
  let best = Infinity;
  let parts: readonly [readonly number[], readonly number[]] = [members.slice(0, n >> 1), members.slice(n >> 1)];
  for (let axis = 0; axis < 3; axis++) {
    const sorted = members.toSorted((a, b) => middle(a, axis) - middle(b, axis));
    const fromLeft = sideCosts(boxes, sorted, second, cost);
    const fromRight = sideCosts(boxes, sorted.toReversed(), second, cost);
    for (let cut = 1; cut < n; cut++) {
      const total = fromLeft[cut - 1] + fromRight[n - cut - 1];
      if (total < best) {
        best = total;
        parts = [sorted.slice(0, cut), sorted.slice(cut)];
      }
    }
  }
  return parts;
}

/** Surface times cost of the first 1, 2, … members. */
function sideCosts(
  boxes: Boxes,
  members: readonly number[],
  second: ReadonlySet<number>,
  cost: (first: number, second: number) => number,
): readonly number[] {
  const box = emptyBox();
  let seconds = 0;
  return members.map((member, i) => {
    grow(box, boxes, member);
    if (second.has(member)) seconds++;
    return halfSurface(box) * cost(i + 1 - seconds, seconds);
  });
}
