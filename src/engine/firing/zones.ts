import type { MeshNetwork } from "#engine/conduction";
import type { Load } from "#engine/kiln";
import type { Mesh } from "#engine/radiation";
import { bodiesOf } from "./bodies.ts";
import { ZoneController } from "./controller.ts";
import type { Program } from "./program.ts";

/**
 * One controller per sensor, with the rows of its zone.
 *
 * A row's power at the present supply: rated x condition x (supply / rated voltage)^2, spread over its coil by length.
 */
export function zoneControllers(
  load: Load,
  mesh: Mesh,
  network: MeshNetwork,
  program: Program,
  ambient: number,
): readonly ZoneController[] {
  const { kiln } = load;
  const supply = (kiln.supplyVoltage / kiln.ratedVoltage) ** 2;
  const sensors = bodiesOf(mesh, network, "sensor");
  return kiln.sensors.map((sensor, zone) => {
    const nodes: number[] = [];
    const power: number[] = [];
    kiln.rows.forEach((row, index) => {
      if (row.zone !== zone) return;
      const now = row.power * row.condition * supply;
      const patches = patchesOfRow(mesh, index);
      const whole = patches.reduce((sum, patch) => sum + mesh.area[patch], 0);
      if (!(now > 0) || !(whole > 0)) return;
      for (const patch of patches) {
        nodes.push(network.patchNode[patch]);
        power.push((now * mesh.area[patch]) / whole);
      }
    });
    const available = power.reduce((sum, part) => sum + part, 0);
    const own = sensors.find((candidate) => candidate.body.sensor === zone);
    if (!own) throw new RangeError(`sensor ${zone} is not in the mesh`);
    return new ZoneController(
      Int32Array.from(nodes),
      Float64Array.from(power, (part) => part / available),
      // Its first cell is the tip; the tube behind it only conducts.
      own.nodes.slice(0, 1),
      Float64Array.of(1),
      available,
      { lag: sensor.lag, offset: sensor.offset },
      program,
      ambient,
    );
  });
}

function patchesOfRow(mesh: Mesh, row: number): readonly number[] {
  const body = mesh.bodies.findIndex((candidate) => candidate.kind === "row" && candidate.row === row);
  return body < 0 ? [] : [...mesh.bodyOf.keys()].filter((patch) => mesh.bodyOf[patch] === body);
}
