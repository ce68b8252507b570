import { z } from "zod";
import { name, temperature } from "./common-fields.ts";
import type { RecordKind } from "./record-kind.ts";

const tariffBand = z.strictObject({
  /** Hours of the day, 0 to 24; a band may run over midnight. */
  from: z.number().min(0).max(24),
  to: z.number().min(0).max(24),
  pricePerKilowattHour: z.number().min(0).max(100),
});

export const studioSchema = z.strictObject({
  version: z.literal(1),
  id: z.literal("studio"),
  name,
  language: z.enum(["en"]),
  units: z.strictObject({
    length: z.enum(["metric", "inch"]),
    temperature: z.enum(["celsius", "fahrenheit"]),
    mass: z.enum(["kilogram", "pound"]),
    clock: z.enum(["24", "12"]),
  }),
  paper: z.enum(["a4", "letter"]),
  /** ISO 4217. */
  currency: z.string().regex(/^[A-Z]{3}$/, "a three-letter currency code such as EUR"),
  tariff: z.strictObject({ pricePerKilowattHour: z.number().min(0).max(100), bands: z.array(tariffBand).max(6) }),
  roomTemperature: temperature,
  openingTemperature: temperature,
});

export type StudioRecord = z.infer<typeof studioSchema>;

export const studioKind: RecordKind<typeof studioSchema> = {
  kind: "studio",
  version: 1,
  schema: studioSchema,
  migrations: [],
};
