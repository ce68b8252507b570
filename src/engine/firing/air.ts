import type { AirZones } from "#engine/conduction";
import { areaOf } from "#engine/geometry";
import { shelfTypeOf, type Load } from "#engine/kiln";
import { air } from "#engine/materials";
import type { Mesh } from "#engine/radiation";

/** Film coefficient between surfaces and the chamber's air [W/(m2 K)]: natural convection, 4 hot to 6 cold (D). */
const film = 5;
/** Air exchanged per area of opening between layers [W/(m2 K)]: half the opening up, half down at 0.1 m/s (D). */
const exchange = 0.5 * 0.1 * 0.35 * air.specificHeat;
/** Shelves closer than this in height bound the same layers of air [m]. */
const together = 0.015;

/**
 * Air of the chamber in layers between shelf levels.
 *
 * Each layer's air is as warm as what flows and touches it makes it. Layers exchange air through what the shelves
 * leave open. A vent draws room air in under the lid and out at the floor, through all layers.
 */
export function airZones(load: Load, mesh: Mesh, vent: boolean): AirZones {
  const levels: { z: number; area: number }[] = [];
  const shelves = load.setting.shelves
    .map((shelf) => ({
      z: shelf.z - shelfTypeOf(load, shelf).thickness / 2,
      area: areaOf(shelfTypeOf(load, shelf).outline),
    }))
    .sort((a, b) => a.z - b.z);
  for (const shelf of shelves) {
    const last = levels.at(-1);
    if (last && shelf.z - last.z < together) last.area += shelf.area;
    else levels.push({ ...shelf });
  }
  const whole = areaOf(load.kiln.chamber.plan);
  const ofPatch = new Int32Array(mesh.patchCount);
  for (let p = 0; p < mesh.patchCount; p++) {
    const z = mesh.centre[p * 3 + 2] + 0.003 * mesh.normal[p * 3 + 2];
    ofPatch[p] = levels.filter((level) => level.z < z).length;
  }
  return {
    count: levels.length + 1,
    ofPatch,
    film,
    mixing: Float64Array.from(levels, ({ area }) => exchange * Math.max(whole - area, 0.05 * whole)),
    vent: vent && load.kiln.vent ? load.kiln.vent.flow * air.specificHeat : 0,
  };
}
