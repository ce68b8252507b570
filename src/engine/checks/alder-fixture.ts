import {
  usualRules,
  type FiringClass,
  type Furniture,
  type Kiln,
  type Lining,
  type Load,
  type LoadingRules,
  type Piece,
  type PlacedCones,
  type PlacedPiece,
  type PlacedPost,
  type PlacedShelf,
  type Schedule,
  type Shape,
} from "#engine/kiln";

/*
 * For tests: an invented kiln, Alder, with a load that keeps every rule, and small changes to it. Sizes are round
 * numbers so that a test can say by hand how far a change goes.
 */

const lining: Lining = {
  thickness: 0.07,
  conductivity: { base: 0.12, slope: 1.5e-4 },
  density: 500,
  heatCapacity: 1000,
  emissivity: 0.85,
};

export const alder: Kiln = {
  id: "alder",
  name: "Alder",
  opening: "lid",
  chamber: { plan: { kind: "polygon", sides: 10, inradius: 0.29, rotation: 0 }, height: 0.69 },
  wall: lining,
  lid: lining,
  floor: lining,
  rows: [0.06, 0.17, 0.28, 0.4, 0.52, 0.63].map((z) => ({ z, height: 0.03, power: 1900, zone: 0, condition: 1 })),
  ratedVoltage: 240,
  supplyVoltage: 240,
  sensors: [{ azimuth: 0, z: 0.345, reach: 0.03, diameter: 0.008, emissivity: 0.9, type: "K", offset: 0, lag: 20 }],
  vent: { flow: 0.002 },
  spyholes: [
    { azimuth: Math.PI, z: 0.09 },
    { azimuth: Math.PI, z: 0.3 },
    { azimuth: Math.PI, z: 0.52 },
  ],
  maxTemperature: 1573.15,
  rules: usualRules,
};

export const furniture: Furniture = {
  shelves: [
    {
      id: "full",
      name: "530 mm full",
      outline: { kind: "disc", radius: 0.265 },
      thickness: 0.016,
      material: "cordierite",
      mass: 7.2,
      count: 5,
    },
    {
      id: "half",
      name: "530 mm half",
      outline: { kind: "half-disc", radius: 0.265 },
      thickness: 0.016,
      material: "cordierite",
      mass: 3.6,
      count: 4,
    },
  ],
  posts: [0.013, 0.025, 0.05, 0.063, 0.1, 0.15, 0.2].map((length) => ({ length, width: 0.038, count: 12 })),
  stilts: [
    { id: "star", name: "star", lift: 0.015, span: 0.06, points: "ceramic", maxTemperature: 1473.15, count: 40 },
    { id: "pin", name: "pin", lift: 0.02, span: 0.06, points: "metal", maxTemperature: 1373.15, count: 20 },
  ],
  maxStack: 3,
};

export const glaze06: FiringClass = {
  id: "glaze-06",
  name: "glaze 06",
  kind: "glaze",
  cone: "06",
  tolerance: { colder: -0.5, hotter: 0.5 },
  mayTouch: false,
};

export function turned(id: string, name: string, radius: number, height: number, mass: number, foot = radius): Shape {
  return {
    id,
    name,
    body: {
      kind: "revolution",
      profile: [
        [foot, 0],
        [radius, height],
      ],
      wall: 0.005,
      foot,
      closed: false,
    },
    handle: null,
    spout: null,
    lidHeight: 0,
    mass,
    guessed: false,
  };
}

export const mugShape: Shape = {
  ...turned("mug", "mug", 0.0425, 0.095, 0.38),
  handle: { reach: 0.035, width: 0.015, bottom: 0.02, top: 0.08 },
};
export const tumblerShape = turned("tumbler", "tumbler", 0.04, 0.1, 0.35);
export const vaseShape = turned("vase", "vase", 0.05, 0.18, 0.7);
export const plateShape = turned("plate", "side plate", 0.1, 0.02, 0.5, 0.06);
export const tileShape: Shape = {
  ...turned("tile", "tile", 0.05, 0.006, 0.12),
  body: { kind: "slab", width: 0.105, depth: 0.105, thickness: 0.006, corner: 0.003 },
};

const postAngles = [30, 150, 270].map((degrees) => (degrees * Math.PI) / 180);

export function ring(lengths: readonly number[], radius = 0.235): readonly PlacedPost[] {
  return postAngles.map((angle) => ({ x: radius * Math.cos(angle), y: radius * Math.sin(angle), lengths }));
}

export function shelf(id: string, z: number, posts: readonly PlacedPost[], typeId = "full"): PlacedShelf {
  return { id, typeId, x: 0, y: 0, angle: 0, z, posts };
}

export const schedule06: Schedule = {
  id: "glaze-06",
  name: "glaze 06",
  segments: [
    { rate: 150 / 3600, target: 1173.15, hold: 0 },
    { rate: 60 / 3600, target: 1271.15, hold: 0 },
  ],
};

export interface Stand {
  readonly id: string;
  readonly shape: Shape;
  readonly shelfId: string;
  readonly x: number;
  readonly y: number;
  readonly angle?: number;
  readonly partyId?: string;
  readonly classId?: string;
  readonly stiltId?: string | null;
}

export interface Change {
  readonly stands?: readonly Stand[];
  readonly shelves?: readonly PlacedShelf[];
  readonly cones?: readonly PlacedCones[];
  readonly kiln?: Kiln;
  readonly rules?: Partial<LoadingRules>;
  readonly furniture?: Furniture;
  readonly firingClass?: FiringClass;
}

const pack = (shelfId: string): PlacedCones => ({
  shelfId,
  x: -0.22,
  y: 0,
  angle: Math.PI / 2,
  cones: ["07", "06", "05"],
});

/** Three full shelves; mugs below, vases in the middle of the second, plates and tumblers on top. */
export const usualShelves: readonly PlacedShelf[] = [
  shelf("s1", 0.041, ring([0.025])),
  shelf("s2", 0.257, ring([0.2])),
  shelf("s3", 0.473, ring([0.2])),
];

export const usualStands: readonly Stand[] = [
  { id: "m1", shape: mugShape, shelfId: "s1", x: 0.16, y: 0.0, angle: 2, partyId: "ivy" },
  { id: "m2", shape: mugShape, shelfId: "s1", x: 0, y: 0.15, angle: 4, partyId: "ivy" },
  { id: "m3", shape: mugShape, shelfId: "s1", x: 0, y: -0.15, angle: 1, partyId: "noor" },
  { id: "v1", shape: vaseShape, shelfId: "s2", x: 0.06, y: 0.06, partyId: "lark" },
  { id: "v2", shape: vaseShape, shelfId: "s2", x: 0.06, y: -0.06, partyId: "lark" },
  { id: "p1", shape: plateShape, shelfId: "s3", x: 0.1, y: 0.12, partyId: "pell" },
  { id: "t1", shape: tumblerShape, shelfId: "s3", x: 0.1, y: -0.12, partyId: "tomas" },
];

export function alderLoad(change: Change = {}): Load {
  const stands = change.stands ?? usualStands;
  const shapes = new Map(stands.map(({ shape }) => [shape.id, shape]));
  const pieces = stands.map(({ id, shape, partyId = "ivy", classId = "glaze-06", stiltId = null }): Piece => ({
    id,
    shapeId: shape.id,
    partyId,
    classId,
    promised: 20_783,
    value: 1,
    stiltId,
    state: "glazed",
  }));
  const placed = stands.map(({ id, shelfId, x, y, angle = 0 }): PlacedPiece => ({
    pieceId: id,
    shelfId,
    x,
    y,
    angle,
    fixed: false,
  }));
  const kiln = change.kiln ?? alder;
  const shelves = change.shelves ?? usualShelves;
  return {
    kiln: { ...kiln, rules: { ...kiln.rules, ...change.rules } },
    furniture: change.furniture ?? furniture,
    firingClass: change.firingClass ?? glaze06,
    shapes,
    pieces: new Map(pieces.map((piece) => [piece.id, piece])),
    setting: {
      shelves,
      pieces: placed,
      cones:
        change.cones ??
        shelves
          .map(({ id }) => id)
          .filter((id) => /^s[123]$/.test(id))
          .map(pack),
    },
  };
}
