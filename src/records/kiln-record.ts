import { usualRules, type Kiln } from "#engine/kiln";
import { z } from "zod";
import { angle, id, length, mass, name, positiveLength, temperature } from "./common-fields.ts";
import type { RecordKind } from "./record-kind.ts";

const lining = z.strictObject({
  thickness: z.number().min(0.02).max(0.5),
  conductivity: z.strictObject({ base: z.number().positive().max(5), slope: z.number().min(-0.001).max(0.01) }),
  density: z.number().min(50).max(4000),
  heatCapacity: z.number().min(300).max(3000),
  emissivity: z.number().min(0.1).max(1),
});

const chamberPlan = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("disc"), radius: z.number().min(0.05).max(2) }),
  z.strictObject({
    kind: z.literal("polygon"),
    sides: z.int().min(5).max(16),
    inradius: z.number().min(0.05).max(2),
    rotation: angle,
  }),
  z.strictObject({
    kind: z.literal("rectangle"),
    width: z.number().min(0.1).max(4),
    depth: z.number().min(0.1).max(4),
  }),
]);

const row = z.strictObject({
  z: positiveLength,
  height: z.number().min(0.005).max(0.2),
  power: z.number().min(0).max(50_000),
  zone: z.int().min(0).max(2),
  condition: z.number().min(0).max(1.5),
  walls: z
    .array(z.enum(["left", "right", "back", "front"]))
    .min(1)
    .optional(),
});

const sensor = z.strictObject({
  azimuth: angle,
  z: positiveLength,
  reach: z.number().min(0).max(0.4),
  diameter: z.number().min(0.001).max(0.03),
  emissivity: z.number().min(0.1).max(1),
  type: z.enum(["K", "N", "R", "S", "B"]),
  offset: z.number().min(-100).max(100),
  lag: z.number().min(0).max(600),
});

const rules = z.strictObject({
  shelfMargin: length,
  bottomGap: length,
  wareToWall: length,
  sensorClear: length,
  headroom: length,
  lidHeadroom: length,
  glazeGap: length,
  postGap: length,
  postsPerShelf: z.int().min(3).max(4),
  airyGap: length,
  stiltSpan: positiveLength,
  metalStiltLimit: temperature,
  shelfLoad: mass,
  soloLift: mass,
});

export const kilnSchema = z
  .strictObject({
    version: z.literal(1),
    id,
    name,
    opening: z.enum(["lid", "door"]),
    chamber: z.strictObject({ plan: chamberPlan, height: z.number().min(0.1).max(3) }),
    wall: lining,
    lid: lining,
    floor: lining,
    rows: z.array(row).min(1).max(20),
    ratedVoltage: z.number().min(50).max(500),
    supplyVoltage: z.number().min(50).max(500),
    sensors: z.array(sensor).min(1).max(3),
    vent: z.strictObject({ flow: z.number().min(0).max(0.05) }).nullable(),
    spyholes: z.array(z.strictObject({ azimuth: angle, z: positiveLength })).max(6),
    maxTemperature: temperature,
    rules,
    /** Shelves, posts and stilts it is loaded with. */
    furnitureId: id,
    /** How many firings with cones on three levels this kiln has given: few means wide bands. */
    firingsWithCones: z.int().min(0),
  })
  .superRefine((kiln, context) => {
    const complain = (path: (string | number)[], message: string): void =>
      context.addIssue({ code: "custom", path, message });
    kiln.rows.forEach((each, index) => {
      if (each.z + each.height / 2 > kiln.chamber.height) {
        complain(["rows", index, "z"], `a row below the chamber's top at ${kiln.chamber.height} m`);
      }
      const below = kiln.rows[index - 1];
      if (below && each.z - each.height / 2 < below.z + below.height / 2) {
        complain(["rows", index, "z"], "rows from the bottom up that do not touch");
      }
      if (each.zone >= kiln.sensors.length)
        complain(["rows", index, "zone"], `a zone with a sensor: 0 to ${kiln.sensors.length - 1}`);
    });
    kiln.sensors.forEach((each, index) => {
      if (each.z > kiln.chamber.height)
        complain(["sensors", index, "z"], `a height inside the chamber, at most ${kiln.chamber.height} m`);
    });
  });

export type KilnRecord = z.infer<typeof kilnSchema>;

export const kilnKind: RecordKind<typeof kilnSchema> = { kind: "kiln", version: 1, schema: kilnSchema, migrations: [] };

/** Insulating firebrick of group 23, the usual lining of studio kilns. Conductivity +-25 %. Source: [materials-brick] */
export const usualLining = {
  thickness: 0.075,
  conductivity: { base: 0.11, slope: 1.1e-4 },
  density: 500,
  heatCapacity: 1050,
  emissivity: 0.75,
};

/** Starting values for a new kiln's less known fields. */
export const usualKilnFields = {
  wall: usualLining,
  lid: usualLining,
  floor: usualLining,
  ratedVoltage: 240,
  supplyVoltage: 240,
  vent: { flow: 0.0006 },
  rules: usualRules,
  firingsWithCones: 0,
};

/** The engine's view of the record. */
export function kilnOf(record: KilnRecord): Kiln {
  return record;
}
