import { bracketedRoot } from "#engine/numerics";

/** Where the nodes of a slab lie, and what each stands for. */
export interface Layering {
  /** Depth of each node from the front [share of the thickness], the first 0 and the last 1 (a single node: 0.5). */
  readonly depth: Float64Array;
  /** Share of the thickness that each node stands for. */
  readonly share: Float64Array;
}

/**
 * Equally spaced nodes with one on each face; the face nodes stand for half a spacing.
 *
 * With nodes on the faces, radiation acts on the surface itself and the error is second order in the spacing.
 */
export function evenLayering(nodes: number): Layering {
  if (nodes === 1) return { depth: Float64Array.of(0.5), share: Float64Array.of(1) };
  return layeringOf(Array.from({ length: nodes }, (_, i) => i / (nodes - 1)));
}

/** Layers that grow from a thin one at the hot face by a constant ratio; one node more than layers. */
export function gradedLayering(layers: number, thickness: number, first: number): Layering {
  const wanted = thickness / first;
  if (layers < 2 || wanted <= layers) return evenLayering(layers + 1);
  const sum = (ratio: number): number => Array.from({ length: layers }, (_, i) => ratio ** i).reduce((a, b) => a + b);
  const ratio = bracketedRoot((r) => sum(r) - wanted, 1, 20, 1e-9);
  const depth = [0];
  for (let i = 0; i < layers; i++) depth.push(depth[i] + (first / thickness) * ratio ** i);
  depth[layers] = 1;
  return layeringOf(depth);
}

function layeringOf(depth: readonly number[]): Layering {
  const share = depth.map((here, i) => ((depth[i + 1] ?? here) - (depth[i - 1] ?? here)) / 2);
  return { depth: Float64Array.from(depth), share: Float64Array.from(share) };
}
