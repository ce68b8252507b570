import { placeFootprint, type Placement } from "#engine/geometry";
import { conePackFootprint, conePackHeight } from "#engine/kiln";
import { coneAir, coneSpot } from "./cone-spots.ts";
import type { KilnColumn } from "./kiln-column.ts";
import { nothingPacked, type Packed } from "./packer.ts";
import type { PlacingRequest } from "./proposal.ts";
import type { Region } from "./region.ts";
import type { Layer, Search, Solution } from "./search.ts";

/** Where a row of cones stands: layer from the bottom, bay, place. */
export interface ConeRow {
  readonly layer: number;
  readonly bay: number;
  readonly at: Placement;
}

/** Most pieces of one shelf that give way to a row of cones. */
const mostGivingWay = 2;

/**
 * Rows of cones for a solution: where its regions kept room for them and, until there are three levels (or as many as
 * there are shelves), wherever the pieces of another layer can make room.
 *
 * Where pieces have to wait anyway (`somethingWaits`), up to two of the least worth on a shelf wait too rather than let
 * the firing go unread: without cones on several levels nobody learns how even it was.
 */
export function finishCones(
  request: PlacingRequest,
  column: KilnColumn,
  search: Search,
  solution: Solution,
  cones: number,
  somethingWaits: boolean,
): { readonly solution: Solution; readonly rows: readonly ConeRow[] } {
  const rows: ConeRow[] = [];
  solution.layers.forEach(({ level, bays }, layer) => {
    bays.forEach((_, bay) => {
      const at = column.coneOn(bay, level.z0, level.z1, level.top);
      if (at) rows.push({ layer, bay, at });
    });
  });
  let layers = [...solution.layers];
  const wanted = Math.min(layers.length, 3);
  const middle = request.kiln.chamber.height / 2;
  const off = (layer: Layer): number => Math.abs((layer.level.z0 + layer.level.z1) / 2 - middle);
  const byMiddle = layers.map((_, k) => k).sort((a, b) => off(layers[a]) - off(layers[b]));
  for (let giveWay = 0; giveWay <= (somethingWaits ? mostGivingWay : 0); giveWay++) {
    for (const k of byMiddle) {
      if (new Set(rows.map((row) => row.layer)).size >= wanted) break;
      if (rows.some((row) => row.layer === k)) continue;
      const made = makeRoom(request, search, layers[k], cones, giveWay);
      if (!made) continue;
      layers = layers.with(k, made.layer);
      rows.push({ layer: k, bay: made.bay, at: made.at });
    }
  }
  return { solution: search.solution(layers), rows };
}

/** A bay without its `count` pieces of least worth. */
function withoutLeast(packed: Packed, worth: ArrayLike<number>, count: number): Packed {
  if (count === 0) return packed;
  const places = packed.members.map((_, m) => m).sort((a, b) => worth[packed.members[b]] - worth[packed.members[a]]);
  const kept = places.slice(0, Math.max(places.length - count, 0)).sort((a, b) => a - b);
  return {
    members: kept.map((m) => packed.members[m]),
    poses: Float64Array.from(kept.flatMap((m) => Array.from(packed.poses.subarray(3 * m, 3 * m + 3)))),
  };
}

function makeRoom(
  request: PlacingRequest,
  search: Search,
  layer: Layer,
  cones: number,
  giveWay: number,
): { layer: Layer; bay: number; at: Placement } | null {
  const { kiln } = request;
  const { z0, z1, top } = layer.level;
  if (z1 - z0 < conePackHeight + (top ? kiln.rules.lidHeadroom : kiln.rules.headroom)) return null;
  for (const [bay, region] of layer.regions.entries()) {
    const spot = coneSpot(kiln, region, cones, z0, z1);
    if (!spot) continue;
    const footprint = [...placeFootprint(conePackFootprint(cones), spot.at), ...spot.free];
    const clear = Math.max(search.problem.gap, coneAir);
    const keepOuts = footprint.map((box) => Object.assign({}, box, { radius: box.radius + clear }));
    const smaller: Region = { ...region, keepOuts: [...region.keepOuts, ...keepOuts] };
    const standing = withoutLeast(layer.bays[bay] ?? nothingPacked, search.problem.worth, giveWay);
    const packed = search.packer.pack(smaller, standing, [], 25);
    if (!packed) continue;
    return {
      layer: { ...layer, regions: layer.regions.with(bay, smaller), bays: layer.bays.with(bay, packed) },
      bay,
      at: spot.at,
    };
  }
  return null;
}
