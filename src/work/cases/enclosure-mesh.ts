import { NetworkBuilder } from "#engine/conduction";
import type { HeatContent, Line } from "#engine/materials";
import { cellEdges, gradedLine } from "./graded-line.ts";
import { ringArea, type Ring } from "./ring-exchange.ts";

/** A solid of revolution cut into rings: nodes at the corners of a grid in r and z, some of its faces radiating. */
export interface RingSolid {
  readonly r: Float64Array;
  readonly z: Float64Array;
  /** Node at r[i], z[k]: `nodes[k * r.length + i]`. */
  readonly nodes: Int32Array;
  /** Share of the solid's volume, by node. */
  readonly share: Float64Array;
}

export interface RingMatter {
  readonly k: number;
  readonly rho: number;
  readonly heat: HeatContent;
  readonly emissivity: number;
}

/** Which faces of a solid look into the cavity, and as which solid its rings count (-1: the cavity's wall). */
export interface OpenFaces {
  readonly solid: number;
  readonly top?: boolean;
  readonly bottom?: boolean;
  readonly outside?: boolean;
  readonly inside?: boolean;
}

/**
 * Adds a solid of revolution to a network: r from r[0] to its last, z likewise, conducting between grid neighbours.
 *
 * Nodes lie on the faces, so that surface temperatures are unknowns themselves; heat flows between them are exact for
 * steady conduction along r and z.
 */
export function addRingSolid(
  builder: NetworkBuilder,
  rings: Ring[],
  r: Float64Array,
  z: Float64Array,
  matter: RingMatter,
  open: OpenFaces,
): RingSolid {
  const nr = r.length;
  const nz = z.length;
  const re = cellEdges(r);
  const ze = cellEdges(z);
  const nodes = new Int32Array(nr * nz);
  const share = new Float64Array(nr * nz);
  const conductivity: Line = { base: matter.k, slope: 0 };
  const emissivity: Line = { base: matter.emissivity, slope: 0 };
  const whole = Math.PI * (re[nr] ** 2 - re[0] ** 2) * (ze[nz] - ze[0]);
  const face = (node: number | "next", ring: Ring): void => {
    if (ringArea(ring) <= 0) return;
    builder.surface(rings.push(ring) - 1, node, emissivity);
  };
  const { solid } = open;
  // Columns through the thickness are chains: face, nodes, face.
  for (let i = 0; i < nr; i++) {
    const flat = { r0: re[i], r1: re[i + 1], solid };
    const section = Math.PI * (re[i + 1] ** 2 - re[i] ** 2);
    for (let k = 0; k < nz; k++) {
      const tall = ze[k + 1] - ze[k];
      const at = k * nr + i;
      if (k === 0 && open.bottom) face("next", { ...flat, facing: "down", z0: z[0], z1: z[0] });
      const volume = section * tall;
      nodes[at] = builder.node(volume * matter.rho, matter.heat, "ware");
      share[at] = volume / whole;
      if (k > 0) builder.link(nodes[at - nr], nodes[at], section / (z[k] - z[k - 1]), conductivity);
      if (k === nz - 1 && open.top) face(nodes[at], { ...flat, facing: "up", z0: z[k], z1: z[k] });
    }
  }
  for (let k = 0; k < nz; k++) {
    const tall = ze[k + 1] - ze[k];
    const band = { z0: ze[k], z1: ze[k + 1], solid };
    for (let i = 1; i < nr; i++) {
      const inner = r[i - 1];
      const outer = r[i];
      // About the axis the logarithm has no start; half the radius stands in for it, right to second order.
      const shape = inner > 0 ? (2 * Math.PI * tall) / Math.log(outer / inner) : Math.PI * tall;
      builder.link(nodes[k * nr + i - 1], nodes[k * nr + i], shape, conductivity);
    }
    if (open.outside) face(nodes[k * nr + nr - 1], { ...band, facing: "out", r0: r[nr - 1], r1: r[nr - 1] });
    if (open.inside) face(nodes[k * nr], { ...band, facing: "in", r0: r[0], r1: r[0] });
  }
  return { r, z, nodes, share };
}

/** How fine the rings are. */
export interface RingGrid {
  /** Spacing at edges and faces, as a share of a solid's thickness. */
  readonly first: number;
  readonly growth: number;
  /** Widest spacing along a surface, as a share of its length. */
  readonly widest: number;
  /** Widest spacing through a solid, as a share of its thickness. */
  readonly deepest: number;
}

/** Grid of a solid disc: fine at its rim and faces. */
export function discGrid(
  radius: number,
  z0: number,
  z1: number,
  grid: RingGrid,
): { readonly r: Float64Array; readonly z: Float64Array } {
  const thick = z1 - z0;
  const first = grid.first * Math.min(thick, radius);
  return {
    r: gradedLine(radius, grid.widest * radius, first, grid.growth, grid.widest * radius),
    z: gradedLine(thick, first, first, grid.growth, grid.deepest * thick).map((z) => z + z0),
  };
}

/** Depths of a slab heated on one face: fine there. */
export function depthGrid(thickness: number, grid: RingGrid): Float64Array {
  const deepest = grid.deepest * thickness;
  return gradedLine(thickness, grid.first * thickness, deepest, grid.growth, deepest);
}
