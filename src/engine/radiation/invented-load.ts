import type { FiringClass, Furniture, Kiln, Load, Piece, PlacedPiece, PlacedShelf, Shape } from "#engine/kiln";
import { usualRules } from "#engine/kiln";

/*
 * A load of our own invention for this room's tests and benchmarks: a ten-sided top-loader 580 mm across and 690 mm
 * deep, full shelves 530 mm across, mugs on rings.
 */

const brick = {
  thickness: 0.076,
  conductivity: { base: 0.15, slope: 0.00015 },
  density: 500,
  heatCapacity: 1050,
  emissivity: 0.75,
};

export const inventedKiln: Kiln = {
  id: "test-kiln",
  name: "Test kiln",
  opening: "lid",
  chamber: { plan: { kind: "polygon", sides: 10, inradius: 0.29, rotation: 0 }, height: 0.69 },
  wall: brick,
  lid: brick,
  floor: brick,
  rows: [0.07, 0.18, 0.29, 0.4, 0.51, 0.62].map((z) => ({ z, height: 0.025, power: 1917, zone: 0, condition: 1 })),
  ratedVoltage: 240,
  supplyVoltage: 240,
  sensors: [{ azimuth: 0.3, z: 0.345, reach: 0.035, diameter: 0.008, emissivity: 0.85, type: "K", offset: 0, lag: 20 }],
  vent: { flow: 0.0005 },
  spyholes: [{ azimuth: 0, z: 0.35 }],
  maxTemperature: 1500,
  rules: usualRules,
};

export const mug: Shape = {
  id: "mug",
  name: "Mug",
  body: {
    kind: "revolution",
    profile: [
      [0.03, 0],
      [0.041, 0.012],
      [0.0425, 0.05],
      [0.0425, 0.095],
    ],
    wall: 0.005,
    foot: 0.03,
    closed: false,
  },
  handle: { reach: 0.035, width: 0.012, bottom: 0.02, top: 0.075 },
  spout: null,
  lidHeight: 0,
  mass: 0.38,
  guessed: false,
};

const furniture: Furniture = {
  shelves: [
    {
      id: "full",
      name: "Full shelf",
      outline: { kind: "disc", radius: 0.265 },
      thickness: 0.016,
      material: "cordierite",
      mass: 7.2,
      count: 8,
    },
  ],
  posts: [25, 50, 75, 100, 125].map((mm) => ({ length: mm / 1000, width: 0.038, count: 20 })),
  stilts: [{ id: "stilt", name: "Stilt", lift: 0.012, span: 0.05, points: "ceramic", maxTemperature: 1573, count: 99 }],
  maxStack: 3,
};

const firingClass: FiringClass = {
  id: "glaze",
  name: "Glaze",
  kind: "glaze",
  cone: "06",
  tolerance: { colder: -0.5, hotter: 0.5 },
  mayTouch: false,
};

/** Rings of ware places on a shelf, outside in: radius [m] and count. */
const rings: readonly (readonly [number, number])[] = [
  [0.2, 9],
  [0.105, 5],
  [0, 1],
];

/**
 * Shelves of one shape in rings, posts between the outer mugs.
 *
 * @param layers number of shelves
 * @param pitch  from shelf to shelf [m]
 */
export function inventedLoad(layers = 5, pitch = 0.13, shape: Shape = mug, stilt = false): Load {
  const shelves: PlacedShelf[] = [];
  const placed: PlacedPiece[] = [];
  const pieces = new Map<string, Piece>();
  for (let layer = 0; layer < layers; layer++) {
    const id = `shelf-${layer}`;
    const length = layer === 0 ? 0.025 : pitch - 0.016;
    shelves.push({
      id,
      typeId: "full",
      x: 0,
      y: 0,
      angle: 0,
      z: 0.041 + layer * pitch,
      posts: [0, 120, 240].map((degrees) => ({
        x: 0.24 * Math.cos((degrees * Math.PI) / 180),
        y: 0.24 * Math.sin((degrees * Math.PI) / 180),
        lengths: [length],
      })),
    });
    for (const [radius, count] of rings) {
      for (let i = 0; i < count; i++) {
        const azimuth = (2 * Math.PI * i) / count + (radius < 0.15 ? layer : Math.PI / 9);
        const pieceId = `${layer}-${radius}-${i}`;
        pieces.set(pieceId, {
          id: pieceId,
          shapeId: shape.id,
          partyId: "party",
          classId: "glaze",
          promised: 0,
          value: 1,
          stiltId: stilt ? "stilt" : null,
          state: "glazed",
        });
        placed.push({
          pieceId,
          shelfId: id,
          x: radius * Math.cos(azimuth),
          y: radius * Math.sin(azimuth),
          // Handles along the ring, clear of wall and posts.
          angle: azimuth + (radius > 0.15 ? 1.9 : 2.2),
          fixed: false,
        });
      }
    }
  }
  return {
    kiln: inventedKiln,
    furniture,
    firingClass,
    shapes: new Map([[shape.id, shape]]),
    pieces,
    setting: {
      shelves,
      pieces: placed,
      cones: [{ shelfId: `shelf-${Math.min(1, layers - 1)}`, x: 0.186, y: 0, angle: 0, cones: ["07", "06", "05"] }],
    },
  };
}
