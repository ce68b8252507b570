import { shelfTypeOf, type Load, type ShelfMaterial } from "#engine/kiln";
import type { BodyRef } from "./mesh.ts";

/** Emissivity of a body's surface [-], 0..1. */
export type EmissivityOf = (body: BodyRef) => number;

/** Hot, used surfaces. Source: [materials-emissivity] */
const ofShelf: Readonly<Record<ShelfMaterial, number>> = {
  cordierite: 0.85,
  "silicon-carbide": 0.9,
  "high-alumina": 0.55,
};
const ofWare = 0.88;
const ofPost = 0.85;
/** An oxidised coil (0.7) in its groove: the hollow makes it blacker. */
const ofRow = 0.85;

/** Usual emissivities of furniture and ware, and what the kiln says of its own brick and sensors. */
export function usualEmissivity(load: Load): EmissivityOf {
  const shelves = new Map(
    load.setting.shelves.map((shelf) => [shelf.id, ofShelf[shelfTypeOf(load, shelf).material]] as const),
  );
  return (body) => {
    switch (body.kind) {
      case "wall":
      case "lid":
      case "floor":
        return load.kiln[body.kind].emissivity;
      case "row":
        return ofRow;
      case "shelf":
        return shelves.get(body.shelfId) ?? ofShelf.cordierite;
      case "post":
        return ofPost;
      case "sensor":
        return load.kiln.sensors[body.sensor]?.emissivity ?? ofRow;
      case "piece":
      case "cones":
        return ofWare;
    }
  };
}
