import { usualRules } from "#engine/kiln";
import { kelvinFromCelsius } from "#engine/units";
import { usualLining, type FurnitureRecord, type KilnRecord } from "#records";

const row = (z: number, power: number): KilnRecord["rows"][number] => ({
  z,
  height: 0.024,
  power,
  zone: 0,
  condition: 1,
});

const sensor = { reach: 0.025, diameter: 0.008, emissivity: 0.8, type: "K", offset: 0, lag: 20 } as const;

/** Alder: round, ten-sided top-loader, 580 x 690 mm, six rows, one zone, 11.5 kW. Ends get a little more power. */
const alder: KilnRecord = {
  version: 1,
  id: "alder",
  name: "Alder",
  opening: "lid",
  chamber: { plan: { kind: "polygon", sides: 10, inradius: 0.29, rotation: 0 }, height: 0.69 },
  wall: usualLining,
  lid: usualLining,
  floor: usualLining,
  rows: [row(0.058, 2050), row(0.173, 1880), row(0.288, 1820), row(0.402, 1820), row(0.517, 1880), row(0.632, 2050)],
  ratedVoltage: 240,
  supplyVoltage: 240,
  // In the middle of a flat, half way up, between two rows; the spyholes opposite, so that one cut shows all three.
  sensors: [{ ...sensor, azimuth: 0, z: 0.345 }],
  vent: { flow: 0.0006 },
  spyholes: [
    { azimuth: Math.PI, z: 0.18 },
    { azimuth: Math.PI, z: 0.5 },
  ],
  maxTemperature: kelvinFromCelsius(1290),
  rules: usualRules,
  furnitureId: "alder-furniture",
  firingsWithCones: 0,
};

/** Rowan: square front-loader, 460 x 460 x 510 mm, four rows on three walls, 7 kW. */
const rowan: KilnRecord = {
  version: 1,
  id: "rowan",
  name: "Rowan",
  opening: "door",
  chamber: { plan: { kind: "rectangle", width: 0.46, depth: 0.46 }, height: 0.51 },
  wall: usualLining,
  lid: usualLining,
  floor: usualLining,
  // Without `walls`, rows of a rectangular chamber lie on left, right and back.
  rows: [row(0.065, 1850), row(0.19, 1650), row(0.32, 1650), row(0.445, 1850)],
  ratedVoltage: 240,
  supplyVoltage: 240,
  sensors: [{ ...sensor, azimuth: 1.5708, z: 0.255 }],
  vent: { flow: 0.0004 },
  spyholes: [{ azimuth: -1.5708, z: 0.26 }],
  maxTemperature: kelvinFromCelsius(1280),
  rules: usualRules,
  furnitureId: "rowan-furniture",
  firingsWithCones: 0,
};

/** Stock in sets of four; a post's inch name follows from its length. */
const posts = (counts: readonly (readonly [millimetres: number, count: number])[]): FurnitureRecord["posts"] =>
  counts.map(([millimetres, count]) => ({ length: millimetres / 1000, width: 0.038, count }));

/** Metal points, for earthenware only. Sizes and counts our own. */
const stilt = (
  id: string,
  name: string,
  lift: number,
  span: number,
  count: number,
): FurnitureRecord["stilts"][number] => ({
  id,
  name,
  lift,
  span,
  points: "metal",
  maxTemperature: kelvinFromCelsius(1100),
  count,
});

const stilts = (share: number): FurnitureRecord["stilts"] => [
  stilt("small-stilt", "small stilt", 0.012, 0.045, 40 * share),
  stilt("medium-stilt", "medium stilt", 0.015, 0.065, 40 * share),
  stilt("large-stilt", "large stilt", 0.019, 0.095, 16 * share),
];

/** 530 mm shelves: 50 mm less than Alder is across. Masses of cordierite, estimated. */
const alderFurniture: FurnitureRecord = {
  version: 1,
  id: "alder-furniture",
  name: "Alder’s shelves and posts",
  shelves: [
    {
      id: "full-530",
      name: "full shelf 530",
      outline: { kind: "disc", radius: 0.265 },
      thickness: 0.016,
      material: "cordierite",
      mass: 7.2,
      count: 5,
    },
    {
      id: "half-530",
      name: "half shelf 530",
      outline: { kind: "half-disc", radius: 0.265 },
      thickness: 0.016,
      material: "cordierite",
      mass: 3.6,
      count: 6,
    },
  ],
  posts: posts([
    [13, 12],
    [25, 16],
    [38, 12],
    [50, 12],
    [75, 16],
    [100, 16],
    [125, 16],
    [150, 12],
    [200, 12],
  ]),
  stilts: stilts(1),
  maxStack: 3,
};

const rowanFurniture: FurnitureRecord = {
  version: 1,
  id: "rowan-furniture",
  name: "Rowan’s shelves and posts",
  shelves: [
    {
      id: "square-410",
      name: "square shelf 410",
      outline: { kind: "rectangle", width: 0.41, depth: 0.41 },
      thickness: 0.016,
      material: "cordierite",
      mass: 5.5,
      count: 5,
    },
  ],
  posts: posts([
    [13, 8],
    [25, 12],
    [38, 8],
    [50, 12],
    [75, 12],
    [100, 12],
    [125, 8],
    [150, 8],
    [200, 8],
  ]),
  stilts: stilts(0.5),
  maxStack: 3,
};

/** Stands for the kilns most studios have, where none is known yet. */
export const typicalKiln = alder;

export const demoKilns: readonly KilnRecord[] = [alder, rowan];
export const demoFurniture: readonly FurnitureRecord[] = [alderFurniture, rowanFurniture];
