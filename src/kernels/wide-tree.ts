import { boxRound, halfSurface, parted, type Boxes } from "./boxes.ts";

/** A node of up to four children; a child is a node or a box given (`leaf`). */
export interface WideNode {
  readonly children: readonly (
    | { readonly kind: "node"; readonly node: WideNode; readonly box: Float64Array }
    | { readonly kind: "leaf"; readonly leaf: number; readonly box: Float64Array }
  )[];
}

interface Binary {
  readonly box: Float64Array;
  readonly surface: number;
  /** A leaf's box index, or -1. */
  readonly leaf: number;
  readonly left: Binary | null;
  readonly right: Binary | null;
  /** Least expected cost of it as at most 1, 2, 3, 4 children of one node. */
  readonly cost: readonly number[];
  /** How many of the places 2, 3, 4 the left side takes; 0 where it stays one child. */
  readonly toLeft: readonly number[];
}

/** Cost of testing a leaf, a node costing 1. */
const leafCost = 1.3;

/**
 * A tree with four children to a node over some boxes: a binary one by the surface-area heuristic, folded so that the
 * expected number of steps is least.
 *
 * @returns null for fewer than two boxes
 */
export function wideTree(boxes: Boxes, members: readonly number[]): WideNode | null {
  return members.length < 2 ? null : nodeOf(binary(boxes, members));
}

function binary(boxes: Boxes, members: readonly number[]): Binary {
  const box = boxRound(boxes, members);
  const surface = halfSurface(box);
  if (members.length === 1) {
    const cost = surface * leafCost;
    return {
      box,
      surface,
      leaf: members[0],
      left: null,
      right: null,
      cost: [cost, cost, cost, cost],
      toLeft: [0, 0, 0, 0],
    };
  }
  const [first, second] = parted(boxes, members, new Set(), (count) => count);
  const left = binary(boxes, first);
  const right = binary(boxes, second);
  // Best ways to give 2, 3 or 4 places to the two sides; as one child it is a node of four.
  const shared = [2, 3, 4].map((places) => {
    let best = { cost: Infinity, toLeft: 1 };
    for (let toLeft = 1; toLeft < places; toLeft++) {
      const cost = left.cost[toLeft - 1] + right.cost[places - toLeft - 1];
      if (cost < best.cost) best = { cost, toLeft };
    }
    return best;
  });
  const whole = surface + shared[2].cost;
  const cost = [whole, ...shared.map((best) => Math.min(whole, best.cost))];
  const toLeft = [0, ...shared.map((best) => (best.cost < whole ? best.toLeft : 0))];
  return { box, surface, leaf: -1, left, right, cost, toLeft: toLeft.with(3, shared[2].toLeft) };
}

function nodeOf(tree: Binary): WideNode {
  const children: WideNode["children"][number][] = [];
  const place = (part: Binary, places: number, top: boolean): void => {
    const { box, leaf } = part;
    if (leaf >= 0) {
      children.push({ kind: "leaf", leaf, box });
      return;
    }
    const opened = top || (places > 1 && part.cost[places - 1] < part.cost[0]);
    if (!opened) {
      children.push({ kind: "node", node: nodeOf(part), box });
      return;
    }
    const toLeft = part.toLeft[places - 1];
    place(part.left!, toLeft, false);
    place(part.right!, places - toLeft, false);
  };
  place(tree, 4, true);
  return { children };
}
