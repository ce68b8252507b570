import type { Metres, SquareMetres } from "#engine/units";

/*
 * How a load looks to radiation and conduction alike.
 *
 * A *patch* is a small surface that emits, reflects and receives. A *cell* is a small slab of material behind one or
 * two patches: a piece of shelf between its top and bottom face, a piece of a pot's wall between outside and inside,
 * a piece of brick lining behind its hot face. *Links* join neighbouring cells of one body sideways; *contacts* join
 * cells of different bodies (a foot on a shelf, a post under a shelf).
 */

export type BodyRef =
  | { readonly kind: "wall" }
  | { readonly kind: "lid" }
  | { readonly kind: "floor" }
  /** Element row `row` (index into Kiln.rows): the coil and its groove. */
  | { readonly kind: "row"; readonly row: number }
  | { readonly kind: "shelf"; readonly shelfId: string }
  | { readonly kind: "piece"; readonly pieceId: string }
  | { readonly kind: "post"; readonly shelfId: string; readonly post: number }
  | { readonly kind: "cones"; readonly index: number }
  /** The tip of sensor `sensor` (index into Kiln.sensors). */
  | { readonly kind: "sensor"; readonly sensor: number };

/**
 * A small slab of material.
 *
 * Compact bodies bend the picture: a post's cell has its top as front, its bottom as back (both -1: covered by what
 * it stands between) and its four sides as one edge patch; a handle, spout, witness cone or sensor has all its sides
 * in one front patch and thickness = volume / front area. A sensor's first cell is its tip, the second its tube.
 * A cell of brick (wall, row, lid, floor) is as thick as the lining; its back is the kiln's outer skin.
 */
export interface Cell {
  /** Index into `Mesh.bodies`. */
  readonly body: number;
  /** Patch on the front (outside of a pot, top of a shelf, hot face of brick), or -1. */
  readonly front: number;
  /** Patch on the back (inside of a pot, underside of a shelf), or -1: adiabatic, or brick to the room. */
  readonly back: number;
  /** Patches on a free edge (shelf rim, pot lip). */
  readonly edges: readonly number[];
  /** Front to back. */
  readonly thickness: Metres;
  readonly volume: number;
}

/**
 * Brick cells are linked along the hot face too, a row's to the wall bands beside it; the area is then the common
 * edge times the lining's full thickness.
 */
export interface Link {
  readonly a: number;
  readonly b: number;
  /** Cross-section heat flows through. */
  readonly area: SquareMetres;
  /** Between the two cells' middles. */
  readonly distance: Metres;
}

export interface Contact {
  readonly a: number;
  readonly aFace: "front" | "back";
  readonly b: number;
  readonly bFace: "front" | "back";
  readonly area: SquareMetres;
  /** 0 for a foot that touches; a stilt's lift otherwise (then the area is that of its points). */
  readonly gap: Metres;
}

export interface Mesh {
  readonly bodies: readonly BodyRef[];
  readonly patchCount: number;
  /** What can be seen of it [m2], one per patch: less what a foot or post covers. */
  readonly area: Float64Array;
  /** x, y, z [m], three per patch. */
  readonly centre: Float64Array;
  /** Mean outward normal, unit length, three per patch; zero for a patch that wraps right round (post, handle). */
  readonly normal: Float64Array;
  /** Index into `bodies`, one per patch. */
  readonly bodyOf: Int32Array;
  readonly cells: readonly Cell[];
  readonly links: readonly Link[];
  readonly contacts: readonly Contact[];
}

/** How finely a load is cut. Larger loads and tighter layers need finer cuts; see docs/explanation/radiation.md. */
export interface Resolution {
  /** Sectors round the axis for wall, rows, lid, floor and shelves. */
  readonly sectors: number;
  /** Tallest wall band. */
  readonly wallBand: Metres;
  /** Rings of a shelf, graded to the rim. */
  readonly shelfRings: number;
  /** Sectors and bands of a piece. */
  readonly pieceSectors: number;
  readonly pieceBands: number;
  readonly raysPerPatch: number;
}

/**
 * Who sees whom. Symmetric exchange areas S_ij = A_i F_ij [m2] in compressed rows, reciprocal to rounding, each row
 * summing to A_i (the enclosure is closed).
 */
export interface Exchange {
  readonly rowStart: Int32Array;
  readonly column: Int32Array;
  readonly exchangeArea: Float64Array;
  /** Estimated standard error of a view factor from the finite number of rays [-], median over the larger factors. */
  readonly rayError: number;
  readonly rays: number;
}
