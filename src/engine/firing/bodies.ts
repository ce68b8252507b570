import type { MeshNetwork } from "#engine/conduction";
import type { BodyRef, Mesh } from "#engine/radiation";

/** The nodes of one body and what each stands for. */
export interface BodyNodes {
  readonly body: BodyRef;
  readonly nodes: Int32Array;
  /** Share of the body's mass, by node. */
  readonly share: Float64Array;
  /** Nodes on its top or outside, and on its underside or inside. */
  readonly front: Int32Array;
  readonly back: Int32Array;
}

/** Nodes of every body of a kind, in the mesh's order. */
export function bodiesOf<Kind extends BodyRef["kind"]>(
  mesh: Mesh,
  network: MeshNetwork,
  kind: Kind,
): readonly (BodyNodes & { readonly body: Extract<BodyRef, { kind: Kind }> })[] {
  const cells = mesh.bodies.map(() => [] as number[]);
  mesh.cells.forEach((cell, c) => cells[cell.body]!.push(c));
  return mesh.bodies.flatMap((body, index) => {
    if (body.kind !== kind) return [];
    const own = cells[index]!;
    const nodes = Int32Array.from(own.flatMap((c) => [...network.cellNodes[c]!]));
    const mass = Float64Array.from(nodes, (node) => network.network.mass[node]!);
    const whole = mass.reduce((sum, part) => sum + part, 0);
    return [
      {
        body: body as Extract<BodyRef, { kind: Kind }>,
        nodes,
        share: mass.map((part) => part / whole),
        front: Int32Array.from(own, (c) => network.cellNodes[c]![0]!),
        back: Int32Array.from(own, (c) => network.cellNodes[c]!.at(-1)!),
      },
    ];
  });
}

export function meanOf(state: Float64Array, nodes: Int32Array, share?: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < nodes.length; i++) sum += state[nodes[i]!]! * (share ? share[i]! : 1);
  return share ? sum : sum / nodes.length;
}

export function extremesOf(state: Float64Array, nodes: Int32Array): readonly [coldest: number, hottest: number] {
  let coldest = Infinity;
  let hottest = -Infinity;
  for (const node of nodes) {
    const value = state[node]!;
    if (value < coldest) coldest = value;
    if (value > hottest) hottest = value;
  }
  return [coldest, hottest];
}
