import { isConeName } from "#engine/heatwork";
import { z } from "zod";
import { id, length, name } from "./common-fields.ts";
import type { RecordKind } from "./record-kind.ts";

export const classSchema = z
  .strictObject({
    version: z.literal(1),
    id,
    name,
    kind: z.enum(["glaze", "bisque", "mid-range", "lustre"]),
    cone: z.string(),
    tolerance: z.strictObject({ colder: z.number().min(-5).max(0), hotter: z.number().min(0).max(5) }),
    mayTouch: z.boolean(),
    /** Schedule used unless a setting names another. */
    usualScheduleId: id,
    /** Stilts that glazed ware of this class usually stands on; null for wiped feet. */
    usualLift: length.nullable(),
  })
  .superRefine((each, context) => {
    if (!isConeName(each.cone)) {
      context.addIssue({
        code: "custom",
        path: ["cone"],
        message: 'a cone from 022 to 14 written as text, such as "06" (low fire) or "6" (high fire)',
      });
    }
  });

export type ClassRecord = z.infer<typeof classSchema>;

export const classKind: RecordKind<typeof classSchema> = {
  kind: "class",
  version: 1,
  schema: classSchema,
  migrations: [],
};
