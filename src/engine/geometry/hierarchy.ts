/**
 * A binary bounding volume hierarchy, for rays.
 *
 * Node n holds the boxes of its two children: `boxes[12 n ..]` = left min x y z, max x y z, then the right child's.
 * `children[2 n]`, `children[2 n + 1]`: a node index (>= 0), or ~index of a box given (< 0). Node 0 is the root.
 * A missing child (fewer than two boxes in all) has an empty box.
 */
export interface Hierarchy {
  readonly boxes: Float64Array;
  readonly children: Int32Array;
}

const bins = 12;

/**
 * Builds a hierarchy over `count` boxes by the binned surface-area heuristic.
 *
 * @param bounds least x, y, z, greatest x, y, z, six per box
 *
 * Cost: O(n log n). Each leaf holds one box. Boxes are grown by 1e-9 of the scene's size, so that flat ones are hit.
 * Source: [wald-2007]
 */
export function buildHierarchy(bounds: Float64Array, count: number): Hierarchy {
  const order = Int32Array.from({ length: count }, (_, i) => i);
  const nodes = Math.max(count - 1, 1);
  const boxes = new Float64Array(nodes * 12).fill(0);
  const children = new Int32Array(nodes * 2);
  let used = 0;
  let scale = 0;
  for (let i = 0; i < count * 6; i++) scale = Math.max(scale, Math.abs(bounds[i]));
  const grow = scale * 1e-9;

  const writeBox = (at: number, first: number, last: number): void => {
    for (let axis = 0; axis < 3; axis++) {
      let low = Infinity;
      let high = -Infinity;
      for (let i = first; i < last; i++) {
        const b = order[i] * 6 + axis;
        low = Math.min(low, bounds[b]);
        high = Math.max(high, bounds[b + 3]);
      }
      boxes[at + axis] = low - grow;
      boxes[at + axis + 3] = high + grow;
    }
  };

  const build = (first: number, last: number): number => {
    const node = used++;
    const middle = partition(bounds, order, first, last);
    writeBox(node * 12, first, middle);
    writeBox(node * 12 + 6, middle, last);
    children[node * 2] = middle - first === 1 ? ~order[first] : build(first, middle);
    children[node * 2 + 1] = last - middle === 1 ? ~order[middle] : build(middle, last);
    return node;
  };

  if (count >= 2) build(0, count);
  else {
    boxes.fill(Infinity);
    boxes.fill(-Infinity, 3, 6);
    boxes.fill(-Infinity, 9, 12);
    children.fill(~0);
    if (count === 1) writeBox(0, 0, 1);
  }
  return { boxes, children };
}

/** Splits order[first..last) in two non-empty parts; returns where the second begins. */
function partition(bounds: Float64Array, order: Int32Array, first: number, last: number): number {
  const count = last - first;
  if (count === 2) return first + 1;
  let best = { cost: Infinity, axis: 0, from: 0, width: 0, cut: 0 };
  for (let axis = 0; axis < 3; axis++) {
    let from = Infinity;
    let to = -Infinity;
    for (let i = first; i < last; i++) {
      const centre = centreOf(bounds, order[i], axis);
      from = Math.min(from, centre);
      to = Math.max(to, centre);
    }
    const width = (to - from) / bins;
    if (!(width > 1e-12)) continue;
    const counts = new Int32Array(bins);
    const boxes = new Float64Array(bins * 6);
    for (let bin = 0; bin < bins; bin++) emptyBox(boxes, bin * 6);
    for (let i = first; i < last; i++) {
      const box = order[i];
      const bin = Math.min(bins - 1, Math.floor((centreOf(bounds, box, axis) - from) / width));
      counts[bin] = counts[bin] + 1;
      join(boxes, bin * 6, bounds, box * 6);
    }
    const leftCost = new Float64Array(bins);
    const sweep = new Float64Array(6);
    emptyBox(sweep, 0);
    let total = 0;
    for (let bin = 0; bin < bins - 1; bin++) {
      join(sweep, 0, boxes, bin * 6);
      total += counts[bin];
      leftCost[bin + 1] = total === 0 ? Infinity : total * halfArea(sweep);
    }
    emptyBox(sweep, 0);
    total = 0;
    for (let bin = bins - 1; bin > 0; bin--) {
      join(sweep, 0, boxes, bin * 6);
      total += counts[bin];
      const cost = leftCost[bin] + (total === 0 ? Infinity : total * halfArea(sweep));
      if (cost < best.cost) best = { cost, axis, from, width, cut: bin };
    }
  }
  if (best.cost === Infinity) return first + (count >> 1);
  let left = first;
  for (let i = first; i < last; i++) {
    const box = order[i];
    const bin = Math.min(bins - 1, Math.floor((centreOf(bounds, box, best.axis) - best.from) / best.width));
    if (bin >= best.cut) continue;
    order[i] = order[left];
    order[left++] = box;
  }
  return left;
}

function centreOf(bounds: Float64Array, box: number, axis: number): number {
  return (bounds[box * 6 + axis] + bounds[box * 6 + axis + 3]) / 2;
}

function emptyBox(boxes: Float64Array, at: number): void {
  boxes.fill(Infinity, at, at + 3);
  boxes.fill(-Infinity, at + 3, at + 6);
}

function join(into: Float64Array, at: number, from: Float64Array, source: number): void {
  for (let axis = 0; axis < 3; axis++) {
    into[at + axis] = Math.min(into[at + axis], from[source + axis]);
    into[at + axis + 3] = Math.max(into[at + axis + 3], from[source + axis + 3]);
  }
}

function halfArea(box: Float64Array): number {
  const x = box[3] - box[0];
  const y = box[4] - box[1];
  const z = box[5] - box[2];
  return x * y + y * z + z * x;
}
