import type { BodyMatter } from "#engine/conduction";
import { circumradius, radiusAt } from "#engine/geometry";
import { known, shapeOf, shelfTypeOf, type Kiln, type Lining, type Load } from "#engine/kiln";
import {
  cordierite,
  earthenware,
  elementWire,
  heatContentOf,
  highAlumina,
  siliconCarbide,
  stoneware,
  type Solid,
} from "#engine/materials";
import type { BodyRef, Mesh } from "#engine/radiation";
import type { GradeNumbers, Ingredients } from "./options.ts";

const shelfSolids = { cordierite, "silicon-carbide": siliconCarbide, "high-alumina": highAlumina } as const;

/**
 * Natural convection from warm faces to the air of a room, coefficient x (difference)^(4/3).
 * Simplified equations for air at room pressure (quality C, from memory). Source: [holman-heat-transfer]
 */
const skinConvection = { wall: 1.31, lid: 1.52, floor: 0.7 } as const;
/** Of a kiln's steel jacket, dulled by heat (quality D). */
const skinEmissivity = 0.5;

/** Wire per watt of a row [kg/W]: 2.3 mm wire loaded with 1.5 W/cm2, as studio kilns have (quality C). */
const wirePerWatt = (elementWire.density * 0.0023) / 4 / 1.5e4;
/** A coil in its groove: oxidised wire and brick seen together (quality D). */
const grooveEmissivity = { base: 0.85, slope: 0 };

/** What every body of the mesh is made of, its mass as the records say. */
export function matterOf(
  load: Load,
  mesh: Mesh,
  numbers: GradeNumbers,
  ingredients: Ingredients,
): readonly BodyMatter[] {
  const volume = new Float64Array(mesh.bodies.length);
  for (const cell of mesh.cells) volume[cell.body] += cell.volume;
  return mesh.bodies.map((body, index) => {
    const matter = matterOfBody(load, body, volume[index], numbers, ingredients);
    return matter.skin ? withOuterSkin(matter, load.kiln, body, mesh, ingredients) : matter;
  });
}

function matterOfBody(
  load: Load,
  body: BodyRef,
  volume: number,
  numbers: GradeNumbers,
  ingredients: Ingredients,
): BodyMatter {
  const { kiln } = load;
  const plain = { skin: null, coil: null, unfired: false };
  const through = (nodes: number, on: boolean): number => (on ? nodes : 1);
  switch (body.kind) {
    case "wall":
      return brickMatter(kiln.wall, skinConvection.wall, numbers, ingredients);
    case "lid":
      return brickMatter(kiln.lid, skinConvection.lid, numbers, ingredients);
    case "floor":
      return brickMatter(kiln.floor, skinConvection.floor, numbers, ingredients);
    case "row": {
      const mass = (kiln.rows[body.row]?.power ?? 0) * wirePerWatt;
      return {
        ...brickMatter(kiln.wall, skinConvection.wall, numbers, ingredients),
        emissivity: grooveEmissivity,
        coil: mass > 0 ? { mass, heat: elementWire.heat } : null,
      };
    }
    case "shelf": {
      const shelf = load.setting.shelves.find((candidate) => candidate.id === body.shelfId);
      if (!shelf) throw new RangeError(`shelf "${body.shelfId}" is not in this load`);
      const type = shelfTypeOf(load, shelf);
      const nodes = through(numbers.shelfNodes, ingredients.shelfThickness);
      return solidMatter(shelfSolids[type.material], type.mass / volume, "furniture", nodes, plain);
    }
    case "piece": {
      const piece = known(load.pieces, body.pieceId, "piece");
      const solid = load.firingClass.kind === "mid-range" ? stoneware : earthenware;
      const unfired = piece.state === "raw" && ingredients.unfired;
      const nodes = through(numbers.wareNodes, ingredients.wareThickness);
      return solidMatter(solid, shapeOf(load, body.pieceId).mass / volume, "ware", nodes, { ...plain, unfired });
    }
    case "post":
      return solidMatter(cordierite, cordierite.density, "furniture", 3, plain);
    case "cones":
      return solidMatter(earthenware, earthenware.density, "ware", 1, plain);
    case "sensor":
      return solidMatter(
        { ...highAlumina, emissivity: { base: kiln.sensors[body.sensor]?.emissivity ?? 0.8, slope: 0 } },
        highAlumina.density,
        "fittings",
        1,
        plain,
      );
  }
}

function solidMatter(
  solid: Pick<Solid, "heat" | "conductivity" | "emissivity">,
  density: number,
  store: BodyMatter["store"],
  nodes: number,
  rest: Pick<BodyMatter, "skin" | "coil" | "unfired">,
): BodyMatter {
  const { heat, conductivity, emissivity } = solid;
  return { store, density, heat, conductivity, emissivity, nodes, ...rest };
}

function brickMatter(lining: Lining, convection: number, numbers: GradeNumbers, ingredients: Ingredients): BodyMatter {
  return {
    store: "brick",
    density: lining.density,
    heat: heatContentOf([[20, lining.heatCapacity]]),
    conductivity: lining.conductivity,
    emissivity: { base: lining.emissivity, slope: 0 },
    nodes: ingredients.brickLayers ? numbers.brickLayers : 1,
    skin: { convection, emissivity: skinEmissivity, outer: () => 1 },
    coil: null,
    unfired: false,
  };
}

/**
 * Brick widens outwards. A wall grows with its perimeter; lid and floor reach over the wall's top, so that the outer
 * ring of their cells carries the corner, which adds as much loss as the usual shape factor for an edge (0.54 times
 * its length).
 */
function withOuterSkin(
  matter: BodyMatter,
  kiln: Kiln,
  body: BodyRef,
  mesh: Mesh,
  ingredients: Ingredients,
): BodyMatter {
  const { plan } = kiln.chamber;
  const wall = kiln.wall.thickness;
  const inner = plan.kind === "rectangle" ? Math.min(plan.width, plan.depth) / 2 : planRadius(kiln);
  if (body.kind === "wall" || body.kind === "row") {
    const growth = plan.kind === "rectangle" ? 1 + (4 * wall) / (plan.width + plan.depth) : (inner + wall) / inner;
    return { ...matter, skin: { ...matter.skin!, outer: () => growth } };
  }
  if (!ingredients.corners) return matter;
  const growth =
    plan.kind === "rectangle"
      ? ((plan.width + 2 * wall) * (plan.depth + 2 * wall)) / (plan.width * plan.depth)
      : ((inner + wall) / inner) ** 2;
  const index = mesh.bodies.indexOf(body);
  const gauge = (cell: number): number => {
    const front = mesh.cells[cell].front;
    const x = mesh.centre[front * 3];
    const y = mesh.centre[front * 3 + 1];
    return Math.hypot(x, y) / radiusAt(plan, Math.atan2(y, x));
  };
  const own = mesh.cells.flatMap((cell, c) => (cell.body === index ? [c] : []));
  const section = (c: number): number => mesh.cells[c].volume / mesh.cells[c].thickness;
  const outermost = Math.max(...own.map(gauge)) - 0.06;
  const rim = new Set(own.filter((c) => gauge(c) >= outermost));
  const whole = own.reduce((sum, c) => sum + section(c), 0);
  const rimSection = [...rim].reduce((sum, c) => sum + section(c), 0);
  const rimGrowth = 1 + ((growth - 1) * whole) / rimSection;
  return { ...matter, skin: { ...matter.skin!, outer: (c) => (rim.has(c) ? rimGrowth : 1) } };
}

function planRadius(kiln: Kiln): number {
  const { plan } = kiln.chamber;
  return plan.kind === "polygon" ? plan.inradius : circumradius(plan);
}
