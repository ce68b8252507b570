import type { Outline } from "#engine/geometry";
import {
  usualRules,
  type FiringClass,
  type Kiln,
  type Load,
  type Piece,
  type PlacedPiece,
  type PlacedShelf,
  type Schedule,
  type Shape,
} from "#engine/kiln";

/*
 * Loads for studies: a round kiln of the commonest size with shelves and pieces where a study wants them. Invented.
 */

const brick = {
  thickness: 0.075,
  conductivity: { base: 0.11, slope: 1.1e-4 },
  density: 500,
  heatCapacity: 1050,
  emissivity: 0.75,
};

/** 580 x 690 mm, six rows, 11.5 kW, one sensor half way up between two rows. */
export const studyKiln: Kiln = {
  id: "study",
  name: "Study",
  opening: "lid",
  chamber: { plan: { kind: "disc", radius: 0.29 }, height: 0.69 },
  wall: brick,
  lid: brick,
  floor: brick,
  rows: [0.058, 0.173, 0.288, 0.402, 0.517, 0.632].map((z, i) => ({
    z,
    height: 0.024,
    power: i === 0 || i === 5 ? 2050 : 1850,
    zone: 0,
    condition: 1,
  })),
  ratedVoltage: 240,
  supplyVoltage: 240,
  sensors: [{ azimuth: 0, z: 0.345, reach: 0.025, diameter: 0.008, emissivity: 0.8, type: "K", offset: 0, lag: 20 }],
  vent: { flow: 0.0006 },
  spyholes: [],
  maxTemperature: 1563.15,
  rules: usualRules,
};

const revolution = (
  id: string,
  mass: number,
  wall: number,
  foot: number,
  profile: readonly (readonly [number, number])[],
): Shape => ({
  id,
  name: id,
  body: { kind: "revolution", profile, wall, foot, closed: false },
  handle: null,
  spout: null,
  lidHeight: 0,
  mass,
  guessed: false,
});

/** Sizes and masses from trade.md, rounded. */
export const studyShapes: readonly Shape[] = [
  revolution("mug", 0.375, 0.0055, 0.035, [
    [0.035, 0],
    [0.0425, 0.02],
    [0.0425, 0.095],
  ]),
  revolution("thick-mug", 0.75, 0.011, 0.035, [
    [0.035, 0],
    [0.0425, 0.02],
    [0.0425, 0.095],
  ]),
  revolution("plate", 0.9, 0.007, 0.08, [
    [0.08, 0],
    [0.11, 0.01],
    [0.1325, 0.025],
  ]),
  revolution("bowl", 0.4, 0.0055, 0.035, [
    [0.035, 0],
    [0.06, 0.02],
    [0.0775, 0.065],
  ]),
  revolution("vase", 0.7, 0.006, 0.04, [
    [0.04, 0],
    [0.05, 0.06],
    [0.05, 0.2],
  ]),
  {
    id: "tile",
    name: "tile",
    body: { kind: "slab", width: 0.105, depth: 0.105, thickness: 0.006, corner: 0.002 },
    handle: null,
    spout: null,
    lidHeight: 0,
    mass: 0.125,
    guessed: false,
  },
  {
    id: "thick-tile",
    name: "thick tile",
    body: { kind: "slab", width: 0.105, depth: 0.105, thickness: 0.012, corner: 0.002 },
    handle: null,
    spout: null,
    lidHeight: 0,
    mass: 0.25,
    guessed: false,
  },
];

export const glaze06: FiringClass = {
  id: "glaze-06",
  name: "Glaze 06",
  kind: "glaze",
  cone: "06",
  tolerance: { colder: -0.5, hotter: 0.5 },
  mayTouch: false,
};

/** Cone 06: 150 C/h, then 60 C/h over the last 100 C to 996 C, hold as given [s]. */
export function studySchedule(hold = 0, endRate = 60): Schedule {
  const perHour = (rate: number): number => rate / 3600;
  return {
    id: "study-06",
    name: "Study 06",
    segments: [
      { rate: perHour(100), target: 393.15, hold: 0 },
      { rate: perHour(160), target: 1169.15, hold: 0 },
      { rate: perHour(endRate), target: 1269.15, hold },
    ],
  };
}

/** A level of the setting: where its shelf's top is, and what stands on it at which points. */
export interface Level {
  readonly z: number;
  readonly shape: string;
  readonly at: readonly (readonly [x: number, y: number])[];
  /** Further pieces of other shapes. */
  readonly also?: readonly { readonly shape: string; readonly at: readonly (readonly [number, number])[] }[];
  /** Half shelves: which half, else a full one. */
  readonly half?: "left" | "right";
  readonly state?: Piece["state"];
}

export interface StudyOptions {
  readonly kiln?: Kiln;
  readonly shelfRadius?: number;
  readonly stilt?: boolean;
}

/** A load of the given levels. */
export function studyLoad(levels: readonly Level[], options: StudyOptions = {}): Load {
  const radius = options.shelfRadius ?? 0.265;
  const full: Outline = { kind: "disc", radius };
  const half: Outline = { kind: "half-disc", radius };
  const massOf = (share: number): number => share * 7.2 * (radius / 0.265) ** 2;
  const shelves: PlacedShelf[] = [];
  const placed: PlacedPiece[] = [];
  const pieces = new Map<string, Piece>();
  levels.forEach((level, index) => {
    const id = `shelf-${index + 1}`;
    const below = levels.filter(
      (other) => other.z < level.z - 0.02 && (!other.half || !level.half || other.half === level.half),
    );
    const ground = Math.max(0, ...below.map((other) => other.z));
    const length = level.z - 0.016 - ground;
    const azimuths = level.half === undefined ? [60, 180, 300] : level.half === "left" ? [110, 180, 250] : [70, 0, -70];
    shelves.push({
      id,
      typeId: level.half ? "half" : "full",
      x: 0,
      y: 0,
      angle: level.half === "right" ? Math.PI : 0,
      z: level.z,
      posts: azimuths.map((degrees) => ({
        x: (radius - 0.03) * Math.cos((degrees * Math.PI) / 180),
        y: (radius - 0.03) * Math.sin((degrees * Math.PI) / 180),
        lengths: [length],
      })),
    });
    for (const { shape, at } of [{ shape: level.shape, at: level.at }, ...(level.also ?? [])]) {
      for (const [x, y] of at) {
        const pieceId = `${id}-${placed.length + 1}`;
        pieces.set(pieceId, {
          id: pieceId,
          shapeId: shape,
          partyId: "study",
          classId: glaze06.id,
          promised: 0,
          value: 1,
          stiltId: options.stilt === false ? null : "stilt",
          state: level.state ?? "glazed",
        });
        placed.push({ pieceId, shelfId: id, x, y, angle: 0, fixed: false });
      }
    }
  });
  return {
    kiln: options.kiln ?? studyKiln,
    furniture: {
      shelves: [
        {
          id: "full",
          name: "full",
          outline: full,
          thickness: 0.016,
          material: "cordierite",
          mass: massOf(1),
          count: 9,
        },
        {
          id: "half",
          name: "half",
          outline: half,
          thickness: 0.016,
          material: "cordierite",
          mass: massOf(0.5),
          count: 9,
        },
      ],
      posts: [{ length: 0.1, width: 0.038, count: 99 }],
      stilts: [
        { id: "stilt", name: "stilt", lift: 0.015, span: 0.05, points: "metal", maxTemperature: 1373.15, count: 999 },
      ],
      maxStack: 3,
    },
    firingClass: glaze06,
    shapes: new Map(studyShapes.map((shape) => [shape.id, shape])),
    pieces,
    setting: { shelves, pieces: placed, cones: [] },
  };
}

/** Points of a triangular grid of the given pitch whose circles of radius `keep` lie within `radius`, off the posts. */
export function grid(pitch: number, keep: number, radius = 0.262): readonly (readonly [number, number])[] {
  const points: [number, number][] = [];
  const rows = Math.ceil(radius / pitch) + 1;
  for (let j = -rows; j <= rows; j++) {
    for (let i = -2 * rows; i <= 2 * rows; i++) {
      const x = pitch * (i + (j % 2 === 0 ? 0 : 0.5));
      const y = pitch * j * Math.sqrt(0.75);
      if (Math.hypot(x, y) + keep > radius) continue;
      const nearPost = [60, 180, 300].some(
        (degrees) =>
          Math.hypot(x - 0.235 * Math.cos((degrees * Math.PI) / 180), y - 0.235 * Math.sin((degrees * Math.PI) / 180)) <
          keep + 0.03,
      );
      if (!nearPost) points.push([x, y]);
    }
  }
  return points;
}

/** Five shelves of mugs, 16 to each, evenly spread. */
export function evenMugs(options: StudyOptions = {}): Load {
  const at = grid(0.11, 0.043);
  return studyLoad(
    [0.041, 0.17, 0.299, 0.428, 0.557].map((z) => ({ z, shape: "mug", at })),
    options,
  );
}
