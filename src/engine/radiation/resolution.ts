import { areaOf } from "#engine/geometry";
import { bodyRadius, heightOf, shapeOf, shelvesFromBottom, type Load } from "#engine/kiln";
import type { Resolution } from "./mesh.ts";

/** How much a result may cost: `preview` at once, `standard` to act on, `fine` for studies. */
export type MeshGrade = "preview" | "standard" | "fine";

const previewCut: Resolution = {
  sectors: 6,
  wallBand: 0.08,
  shelfRings: 3,
  pieceSectors: 1,
  pieceBands: 1,
  raysPerPatch: 256,
};

/** Even, airy loads. */
const evenCut: Resolution = {
  sectors: 12,
  wallBand: 0.03,
  shelfRings: 5,
  pieceSectors: 3,
  pieceBands: 1,
  raysPerPatch: 1024,
};

/** Tightly filled layers, where shelves shade each other and the rim takes the heat. */
const denseCut: Resolution = {
  sectors: 12,
  wallBand: 0.023,
  shelfRings: 8,
  pieceSectors: 6,
  pieceBands: 2,
  raysPerPatch: 1024,
};

const fineCut: Resolution = {
  sectors: 16,
  wallBand: 0.018,
  shelfRings: 10,
  pieceSectors: 8,
  pieceBands: 3,
  raysPerPatch: 2048,
};

/**
 * How dense a load is [-]: the largest share of a layer's room (shelf area times height to the next shelf) that its
 * ware takes, as upright cylinders. Below about 0.3 a layer is airy; 0.45 and above is tight.
 */
export function densityOf(load: Load): number {
  const shelves = shelvesFromBottom(load.setting);
  let most = 0;
  for (const shelf of shelves) {
    const type = load.furniture.shelves.find((candidate) => candidate.id === shelf.typeId);
    const above = shelves.find((other) => other.z > shelf.z + 0.02);
    const ceiling = above ? above.z - 0.018 : load.kiln.chamber.height;
    const area = type ? areaOf(type.outline) : 0.2;
    let taken = 0;
    for (const placed of load.setting.pieces) {
      if (placed.shelfId !== shelf.id) continue;
      const shape = shapeOf(load, placed.pieceId);
      taken += Math.PI * bodyRadius(shape) ** 2 * heightOf(shape);
    }
    most = Math.max(most, taken / (area * Math.max(ceiling - shelf.z, 0.02)));
  }
  return most;
}

/** Layers tighter than this need the dense cut. */
const tight = 0.4;

/**
 * The cut a load needs at a grade: even loads come to about 1150 patches, dense ones to about 2700, a preview to a
 * few hundred.
 *
 * Accuracy of what follows from it: docs/explanation/radiation.md#how-fine.
 */
export function resolutionFor(load: Load, grade: MeshGrade): Resolution {
  if (grade === "preview") return previewCut;
  if (grade === "fine") return fineCut;
  return densityOf(load) > tight ? denseCut : evenCut;
}
