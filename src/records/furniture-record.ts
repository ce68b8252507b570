import { z } from "zod";
import { id, mass, name, positiveLength, temperature, angle } from "./common-fields.ts";
import type { RecordKind } from "./record-kind.ts";

const shelfOutline = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("disc"), radius: positiveLength }),
  z.strictObject({ kind: z.literal("half-disc"), radius: positiveLength }),
  z.strictObject({ kind: z.literal("rectangle"), width: positiveLength, depth: positiveLength }),
  z.strictObject({
    kind: z.literal("polygon"),
    sides: z.int().min(5).max(16),
    inradius: positiveLength,
    rotation: angle,
  }),
]);

export const furnitureSchema = z.strictObject({
  version: z.literal(1),
  id,
  name,
  shelves: z
    .array(
      z.strictObject({
        id,
        name,
        outline: shelfOutline,
        thickness: z.number().min(0.004).max(0.06),
        material: z.enum(["cordierite", "silicon-carbide", "high-alumina"]),
        mass,
        count: z.int().min(0).max(200),
      }),
    )
    .max(30),
  posts: z
    .array(
      z.strictObject({
        length: z.number().min(0.005).max(0.6),
        width: z.number().min(0.01).max(0.1),
        count: z.int().min(0).max(500),
      }),
    )
    .max(40),
  stilts: z
    .array(
      z.strictObject({
        id,
        name,
        lift: z.number().min(0.002).max(0.06),
        span: z.number().min(0.005).max(0.3),
        points: z.enum(["metal", "ceramic"]),
        maxTemperature: temperature,
        count: z.int().min(0).max(2000),
      }),
    )
    .max(30),
  maxStack: z.int().min(1).max(5),
});

export type FurnitureRecord = z.infer<typeof furnitureSchema>;

export const furnitureKind: RecordKind<typeof furnitureSchema> = {
  kind: "furniture",
  version: 1,
  schema: furnitureSchema,
  migrations: [],
};
