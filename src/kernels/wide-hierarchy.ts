import type { Solids } from "#engine/geometry";
import { hullPanels } from "./hull.ts";
import { leafBytes, leafKind, leavesOf, rowsFor, writeLanes, writeLeaf } from "./leaves.ts";
import { wideTree, type WideNode } from "./wide-tree.ts";

/** Solids laid out for the ray kernel; see assembly/rays.ts. */
export interface WideHierarchy {
  /** The root comes first. */
  readonly nodes: ArrayBuffer;
  readonly leaves: ArrayBuffer;
  /** Panels that wrap all else, four to a group of ten rows. */
  readonly hull: ArrayBuffer;
  readonly hullGroups: number;
}

/** Bytes of a node: six rows of four floats and four references, filled up to two cache lines. */
const nodeBytes = 128;
const hullGroupBytes = 160;
/** Boxes are grown by this [m]: far over the rounding of single precision. */
const slack = 1e-6;

export function wideHierarchy(solids: Solids): WideHierarchy {
  const hullSolids = hullPanels(solids);
  const inHull = new Set(hullSolids);
  const rest = Array.from({ length: solids.count }, (_, solid) => solid).filter((solid) => !inHull.has(solid));
  const hullGroups = Math.ceil(hullSolids.length / 4);
  const hull = new ArrayBuffer(Math.max(16, hullGroups * hullGroupBytes));
  for (let group = 0; group < hullGroups; group++) {
    const members = hullSolids.slice(group * 4, group * 4 + 4);
    writeLanes(hull, group * hullGroupBytes, members, (solid) => rowsFor(solids, solid, leafKind.panel), []);
  }

  const parts = leavesOf(solids, rest);
  const leaves = new ArrayBuffer(parts.reduce((sum, leaf) => sum + leafBytes(leaf), 16));
  const references: number[] = [];
  let offset = 0;
  for (const leaf of parts) {
    writeLeaf(solids, leaf, leaves, offset);
    references.push(~(offset | leaf.kind));
    offset += leafBytes(leaf);
  }

  const boxes = Float64Array.from(parts.flatMap((leaf) => Array.from(leaf.box)));
  // One leaf or none: a node over it, so that the kernel always begins at a node.
  const all = parts.map((_, leaf) => leaf);
  const only: WideNode = { children: parts.map(({ box }, leaf) => ({ kind: "leaf", leaf, box })) };
  const nodes: ArrayBuffer[] = [];
  writeNode(wideTree(boxes, all) ?? only, references, nodes);
  const joined = new Uint8Array(nodes.length * nodeBytes);
  nodes.forEach((node, i) => joined.set(new Uint8Array(node), i * nodeBytes));
  return { nodes: joined.buffer, leaves, hull, hullGroups };
}

/** Appends a node and all below it; returns the node's offset. */
function writeNode({ children }: WideNode, references: readonly number[], nodes: ArrayBuffer[]): number {
  const buffer = new ArrayBuffer(nodeBytes);
  const at = (nodes.push(buffer) - 1) * nodeBytes;
  const floats = new Float32Array(buffer);
  const ints = new Int32Array(buffer);
  for (let lane = 0; lane < 4; lane++) {
    const child = children[lane];
    for (let axis = 0; axis < 3; axis++) {
      // A missing child has an empty box.
      floats[axis * 8 + lane] = child ? child.box[axis] - slack : Infinity;
      floats[axis * 8 + 4 + lane] = child ? child.box[axis + 3] + slack : -Infinity;
    }
    if (child) {
      ints[24 + lane] = child.kind === "leaf" ? references[child.leaf] : writeNode(child.node, references, nodes);
    }
  }
  return at;
}
