import { seededRandom } from "#base";
import {
  usualRules,
  type FiringClass,
  type Furniture,
  type Kiln,
  type Lining,
  type Piece,
  type Shape,
} from "#engine/kiln";
import type { PlacingRequest } from "#engine/placing";

/*
 * Invented kilns, furniture and ware for the tests of placing. Sizes follow the project's own estimates of usual ware;
 * demo data is never a check by itself.
 */
const lining: Lining = {
  thickness: 0.075,
  conductivity: { base: 0.2, slope: 0.0002 },
  density: 500,
  heatCapacity: 1000,
  emissivity: 0.8,
};

const rest: Omit<Kiln, "id" | "name" | "opening" | "chamber" | "sensors" | "spyholes"> = {
  wall: lining,
  lid: lining,
  floor: lining,
  rows: [],
  ratedVoltage: 240,
  supplyVoltage: 240,
  vent: null,
  maxTemperature: 1500,
  rules: usualRules,
};

const probe = { reach: 0.025, diameter: 0.008, emissivity: 0.8, type: "K", offset: 0, lag: 30 } as const;

export const alder: Kiln = {
  ...rest,
  id: "alder",
  name: "Alder",
  opening: "lid",
  chamber: { plan: { kind: "polygon", sides: 10, inradius: 0.29, rotation: 0 }, height: 0.69 },
  sensors: [{ ...probe, azimuth: 0.6, z: 0.345 }],
  spyholes: [
    { azimuth: 2.2, z: 0.17 },
    { azimuth: 2.2, z: 0.52 },
  ],
};

export const rowan: Kiln = {
  ...rest,
  id: "rowan",
  name: "Rowan",
  opening: "door",
  chamber: { plan: { kind: "rectangle", width: 0.46, depth: 0.46 }, height: 0.51 },
  sensors: [{ ...probe, azimuth: Math.PI / 2, z: 0.255 }],
  spyholes: [{ azimuth: -Math.PI / 2, z: 0.255 }],
};

const postLengths = [0.013, 0.025, 0.038, 0.05, 0.075, 0.1, 0.125, 0.15, 0.2];

export const furniture: Furniture = {
  shelves: [
    {
      id: "round-530",
      name: "Round 530",
      outline: { kind: "disc", radius: 0.264 },
      thickness: 0.016,
      material: "cordierite",
      mass: 7.2,
      count: 6,
    },
    {
      id: "half-530",
      name: "Half 530",
      outline: { kind: "half-disc", radius: 0.264 },
      thickness: 0.016,
      material: "cordierite",
      mass: 3.6,
      count: 8,
    },
    {
      id: "square-400",
      name: "Square 400",
      outline: { kind: "rectangle", width: 0.4, depth: 0.4 },
      thickness: 0.016,
      material: "cordierite",
      mass: 5.8,
      count: 5,
    },
  ],
  posts: postLengths.map((length) => ({ length, width: 0.038, count: 12 })),
  stilts: [],
  maxStack: 3,
};

export const glaze: FiringClass = {
  id: "glaze",
  name: "Glaze 06",
  kind: "glaze",
  cone: "06",
  tolerance: { colder: -1, hotter: 1 },
  mayTouch: false,
};

type Maker = (grow: number) => Omit<Shape, "id" | "name" | "guessed">;

const bare = { handle: null, spout: null, lidHeight: 0 };
const turned = (radius: number, height: number, foot: number): Shape["body"] => ({
  kind: "revolution",
  profile: [
    [foot, 0],
    [radius, height],
  ],
  wall: 0.005,
  foot,
  closed: false,
});

const makers: readonly Maker[] = [
  (g) => ({
    ...bare,
    body: turned(0.0425 * g, 0.095 * g, 0.035 * g),
    handle: { reach: 0.035 * g, width: 0.018, bottom: 0.02, top: 0.08 * g },
    mass: 0.38 * g,
  }),
  (g) => ({ ...bare, body: turned(0.13 * g, 0.025 * g, 0.08 * g), mass: 0.9 * g }),
  (g) => ({ ...bare, body: turned(0.1 * g, 0.02 * g, 0.06 * g), mass: 0.45 * g }),
  (g) => ({ ...bare, body: turned(0.078 * g, 0.065 * g, 0.04 * g), mass: 0.4 * g }),
  (g) => ({ ...bare, body: turned(0.05 * g, 0.2 * g, 0.04 * g), mass: 0.7 * g }),
  (g) => ({ ...bare, body: turned(0.035 * g, 0.11 * g, 0.03 * g), mass: 0.25 * g }),
  (g) => ({
    ...bare,
    body: { kind: "slab", width: 0.105 * g, depth: 0.105 * g, thickness: 0.006, corner: 0.002 },
    mass: 0.13 * g,
  }),
  (g) => ({
    ...bare,
    body: { kind: "box", width: 0.18 * g, depth: 0.12 * g, height: 0.12 * g, wall: 0.006, closed: true },
    mass: 0.6 * g,
  }),
];

/** A queue of invented pieces for a kiln; the same seed gives the same queue. */
export function inventedRequest(kiln: Kiln, count: number, seed: number): PlacingRequest {
  const random = seededRandom(seed);
  const shapes = new Map<string, Shape>();
  const pieces: Piece[] = [];
  for (let k = 0; k < count; k++) {
    const maker = makers[random.below(makers.length)];
    const id = `shape-${k}`;
    shapes.set(id, { id, name: id, guessed: true, ...maker(0.85 + 0.3 * random.uniform()) });
    pieces.push({
      id: `piece-${k}`,
      shapeId: id,
      partyId: `party-${random.below(12)}`,
      classId: glaze.id,
      promised: 20_000 + random.below(14),
      value: 1 + random.below(6),
      stiltId: null,
      state: "glazed",
    });
  }
  return {
    kiln,
    furniture,
    firingClass: glaze,
    shapes,
    pieces,
    today: 20_000,
    keep: null,
    seed,
    seconds: 5,
  };
}
