import { requireThat } from "#base";
import type { HeatContent, Line } from "#engine/materials";
import type { Cell, Contact, Mesh } from "#engine/radiation";
import { NetworkBuilder, type Network, type Store } from "./network.ts";
import { evenLayering, gradedLayering, type Layering } from "./through-thickness.ts";

/** What a body of the mesh is made of. */
export interface BodyMatter {
  readonly store: Store;
  /** [kg/m3]: the body's mass over the volume of its cells, so that its mass is right whatever the mesh. */
  readonly density: number;
  readonly heat: HeatContent;
  readonly conductivity: Line;
  readonly emissivity: Line;
  /** Nodes from front to back; for brick, layers graded from the hot face. */
  readonly nodes: number;
  /** Brick between the hot face and the room, cooled at its back; `outer` is the skin's area over the hot face's. */
  readonly skin: {
    readonly convection: number;
    readonly emissivity: number;
    readonly outer: (cell: number) => number;
  } | null;
  /** An element row's coil in front of its brick. */
  readonly coil: { readonly mass: number; readonly heat: HeatContent } | null;
  readonly unfired: boolean;
}

/** The air of the chamber, in zones from the bottom up. */
export interface AirZones {
  readonly count: number;
  /** Zone of the air before each patch. */
  readonly ofPatch: Int32Array;
  /** Film coefficient between surfaces and air [W/(m2 K)]. */
  readonly film: number;
  /** Exchange between zone z and z + 1 [W/K]. */
  readonly mixing: Float64Array;
  /** Room air drawn in at the top and out at the bottom [W/K]. */
  readonly vent: number;
}

export interface MeshNetwork {
  readonly network: Network;
  /** Nodes of each cell, front to back; brick from the hot face out, without the coil. */
  readonly cellNodes: readonly Int32Array[];
  /** Node behind each patch. */
  readonly patchNode: Int32Array;
  readonly airNodes: Int32Array;
}

/** First layer of brick behind the hot face [m]. */
const hotLayer = 0.004;
/** Foot on shelf, shelf on post [W/(m2 K)]: rough ceramics touch at points; an estimate (quality D). */
const touching = 400;
/** Of a stilt [W/(m K)]: porous ceramic or wire (quality D). */
const stiltConductivity = 1.5;

/**
 * Nodes and links for the cells, links and contacts of a mesh.
 *
 * A slab has nodes on both faces; brick has layers graded from 4 mm at the hot face and grows evenly in section to its
 * outer skin; a free edge has a node of its own, half a cell away from the slab's nodes.
 *
 * @param matter  one per body of the mesh
 * @param air     null leaves the air out
 * @throws RangeError if `matter` does not fit the mesh
 */
export function networkOfMesh(mesh: Mesh, matter: readonly BodyMatter[], air: AirZones | null): MeshNetwork {
  requireThat(matter.length === mesh.bodies.length, "matter.length", matter.length, `${mesh.bodies.length} bodies`);
  const builder = new NetworkBuilder();
  const patchNode = new Int32Array(mesh.patchCount).fill(-1);
  const frontArea = areaByBody(mesh);
  const face: Face = (patch, node, emissivity) => {
    if (patch >= 0) builder.surface(patch, node, emissivity);
  };
  const layerings = mesh.cells.map((cell) => layeringOf(cell, matter[cell.body]!));
  const cellNodes = mesh.cells.map((cell, c) => {
    const body = matter[cell.body]!;
    const layering = layerings[c]!;
    return body.skin
      ? brick(builder, mesh, c, body, layering, frontArea, face)
      : slab(builder, cell, body, layering, face);
  });
  mesh.cells.forEach((cell, c) => {
    for (const patch of cell.edges)
      edge(builder, mesh, cell, matter[cell.body]!, cellNodes[c]!, layerings[c]!, patch, face);
  });
  for (const { a, b, area, distance } of mesh.links) {
    sideways(builder, cellNodes[a]!, layerings[a]!, cellNodes[b]!, layerings[b]!, area / distance, {
      base: (matter[mesh.cells[a]!.body]!.conductivity.base + matter[mesh.cells[b]!.body]!.conductivity.base) / 2,
      slope: (matter[mesh.cells[a]!.body]!.conductivity.slope + matter[mesh.cells[b]!.body]!.conductivity.slope) / 2,
    });
  }
  for (const contact of mesh.contacts) touch(builder, cellNodes, contact);
  for (const { patch, node } of builder.faces) {
    requireThat(patchNode[patch] === -1, `patch ${patch}`, "used twice", "a face of one cell only");
    patchNode[patch] = node;
  }
  requireThat(patchNode.indexOf(-1) < 0, "patch", patchNode.indexOf(-1), "to be a face of some cell");
  const airNodes = air ? addAir(builder, mesh, patchNode, air) : new Int32Array(0);
  return { network: builder.build(), cellNodes, patchNode, airNodes };
}

type Face = (patch: number, node: number | "next", emissivity: Line) => void;

function areaByBody(mesh: Mesh): Float64Array {
  const sum = new Float64Array(mesh.bodies.length);
  for (const cell of mesh.cells) if (cell.front >= 0) sum[cell.body]! += mesh.area[cell.front]!;
  return sum;
}

function layeringOf(cell: Cell, body: BodyMatter): Layering {
  return body.skin ? gradedLayering(body.nodes, cell.thickness, hotLayer) : evenLayering(body.nodes);
}

function slab(builder: NetworkBuilder, cell: Cell, body: BodyMatter, layering: Layering, face: Face): Int32Array {
  const mass = cell.volume * body.density;
  const last = layering.depth.length - 1;
  const nodes = new Int32Array(last + 1);
  const section = cell.volume / cell.thickness;
  for (let i = 0; i <= last; i++) {
    if (i === 0) face(cell.front, "next", body.emissivity);
    const node = builder.node(mass * layering.share[i]!, body.heat, body.store);
    nodes[i] = node;
    if (body.unfired) builder.unfired(node);
    if (i > 0) {
      const distance = (layering.depth[i]! - layering.depth[i - 1]!) * cell.thickness;
      builder.link(nodes[i - 1]!, node, section / distance, body.conductivity);
    }
    if (i === last) face(cell.back, node, body.emissivity);
  }
  return nodes;
}

function brick(
  builder: NetworkBuilder,
  mesh: Mesh,
  index: number,
  body: BodyMatter,
  { depth, share }: Layering,
  frontArea: Float64Array,
  face: Face,
): Int32Array {
  const cell = mesh.cells[index]!;
  requireThat(cell.front >= 0, "front", cell.front, "a hot face for every cell of brick");
  // The whole face, not what is left uncovered of it.
  const inner = cell.volume / cell.thickness;
  const outer = inner * body.skin!.outer(index);
  const section = (at: number): number => inner + (outer - inner) * at;
  const last = depth.length - 1;
  const nodes = new Int32Array(last + 1);
  let coil = -1;
  if (body.coil) {
    face(cell.front, "next", body.emissivity);
    coil = builder.node((body.coil.mass * mesh.area[cell.front]!) / frontArea[cell.body]!, body.coil.heat, "fittings");
  }
  if (!body.coil) face(cell.front, "next", body.emissivity);
  for (let i = 0; i <= last; i++) {
    const mass = cell.thickness * share[i]! * section(depth[i]!) * body.density;
    const node = builder.node(mass, body.heat, body.store);
    nodes[i] = node;
    if (i > 0) {
      const middle = (depth[i]! + depth[i - 1]!) / 2;
      const distance = (depth[i]! - depth[i - 1]!) * cell.thickness;
      builder.link(nodes[i - 1]!, node, section(middle) / distance, body.conductivity);
    } else if (body.coil) {
      builder.radiantLink(coil, node, inner * grooveView);
    }
  }
  builder.skin({
    node: nodes[last]!,
    area: outer,
    convection: body.skin!.convection,
    emissivity: body.skin!.emissivity,
  });
  return nodes;
}

/** Exchange area between a coil and the brick of its groove, over the groove's opening [-] (quality D). */
const grooveView = 1.2;

function edge(
  builder: NetworkBuilder,
  mesh: Mesh,
  cell: Cell,
  body: BodyMatter,
  nodes: Int32Array,
  { share }: Layering,
  patch: number,
  face: Face,
): void {
  const area = mesh.area[patch]!;
  const distance = cell.volume / area / 2;
  const rim = builder.node(0, null, body.store);
  face(patch, rim, body.emissivity);
  nodes.forEach((node, i) => builder.link(rim, node, (area * share[i]!) / distance, body.conductivity));
}

/** Joins two slabs side by side, each node with the one of like depth. */
function sideways(
  builder: NetworkBuilder,
  a: Int32Array,
  la: Layering,
  b: Int32Array,
  lb: Layering,
  shape: number,
  conductivity: Line,
): void {
  const [fine, fineLayers, coarse, coarseLayers] = a.length >= b.length ? [a, la, b, lb] : [b, lb, a, la];
  fine.forEach((node, i) => {
    const depth = fineLayers.depth[i]!;
    let nearest = 0;
    coarseLayers.depth.forEach((at, j) => {
      if (Math.abs(at - depth) < Math.abs(coarseLayers.depth[nearest]! - depth)) nearest = j;
    });
    builder.link(node, coarse[nearest]!, shape * fineLayers.share[i]!, conductivity);
  });
}

function touch(builder: NetworkBuilder, cellNodes: readonly Int32Array[], contact: Contact): void {
  const { a, aFace, b, bFace, area, gap } = contact;
  const first = cellNodes[a]!.at(aFace === "front" ? 0 : -1)!;
  const second = cellNodes[b]!.at(bFace === "front" ? 0 : -1)!;
  const film = 1 / (1 / touching + gap / stiltConductivity);
  if (area > 0) builder.link(first, second, area, { base: film, slope: 0 });
}

function addAir(builder: NetworkBuilder, mesh: Mesh, patchNode: Int32Array, air: AirZones): Int32Array {
  const nodes = Int32Array.from({ length: air.count }, () => builder.node(0, null, "fittings"));
  const film: Line = { base: air.film, slope: 0 };
  for (let p = 0; p < mesh.patchCount; p++) {
    builder.link(patchNode[p]!, nodes[air.ofPatch[p]!]!, mesh.area[p]!, film);
  }
  for (let z = 0; z + 1 < air.count; z++) {
    if (air.mixing[z]! > 0) builder.link(nodes[z]!, nodes[z + 1]!, 1, { base: air.mixing[z]!, slope: 0 });
  }
  if (air.vent > 0) {
    for (let z = air.count - 1; z >= 0; z--) {
      const from = z === air.count - 1 ? -1 : nodes[z + 1]!;
      builder.stream({ from, to: nodes[z]!, capacityFlow: air.vent, leaves: z === 0 });
    }
  }
  return nodes;
}
