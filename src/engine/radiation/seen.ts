import type { BodyRef } from "./mesh.ts";

/** What a piece can see, by kind: element rows, wall, lid, floor, shelves, other ware, other furniture. */
export const seenKinds = ["row", "wall", "lid", "floor", "shelf", "ware", "furniture"] as const;
export type SeenKind = (typeof seenKinds)[number];

/** Share of a view by kind [-]; the shares add up to 1. */
export type SeenShares = Readonly<Record<SeenKind, number>>;

/** Posts, witness cones and sensors are furniture. */
export function seenKindOf(body: BodyRef): SeenKind {
  switch (body.kind) {
    case "piece":
      return "ware";
    case "post":
    case "cones":
    case "sensor":
      return "furniture";
    default:
      return body.kind;
  }
}
