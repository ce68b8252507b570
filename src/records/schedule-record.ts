import { z } from "zod";
import { id, name, temperature } from "./common-fields.ts";
import type { RecordKind } from "./record-kind.ts";

export const scheduleSchema = z.strictObject({
  version: z.literal(1),
  id,
  name,
  segments: z
    .array(
      z.strictObject({
        /** [K/s], or as fast as the kiln can. */
        rate: z.union([z.literal("full"), z.number().positive().max(1)]),
        target: temperature,
        /** [s] */
        hold: z.number().min(0).max(259_200),
      }),
    )
    .min(1)
    .max(24),
});

export type ScheduleRecord = z.infer<typeof scheduleSchema>;

export const scheduleKind: RecordKind<typeof scheduleSchema> = {
  kind: "schedule",
  version: 1,
  schema: scheduleSchema,
  migrations: [],
};
