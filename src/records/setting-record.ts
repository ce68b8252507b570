import { z } from "zod";
import { angle, coordinate, day, id, name, positiveLength } from "./common-fields.ts";
import type { RecordKind } from "./record-kind.ts";

const placedPost = z.strictObject({ x: coordinate, y: coordinate, lengths: z.array(positiveLength).min(1).max(5) });

export const settingSchema = z.strictObject({
  version: z.literal(1),
  id,
  /** A, B, C … */
  name,
  kilnId: id,
  classId: id,
  scheduleId: id,
  /** Day and moment [s after midnight] the firing is to start. */
  day,
  startsAt: z.number().min(0).max(86_399),
  setting: z.strictObject({
    shelves: z
      .array(
        z.strictObject({
          id,
          typeId: id,
          x: coordinate,
          y: coordinate,
          angle,
          z: positiveLength,
          posts: z.array(placedPost).max(12),
        }),
      )
      .max(40),
    pieces: z
      .array(z.strictObject({ pieceId: id, shelfId: id, x: coordinate, y: coordinate, angle, fixed: z.boolean() }))
      .max(2000),
    cones: z
      .array(
        z.strictObject({ shelfId: id, x: coordinate, y: coordinate, angle, cones: z.array(z.string()).min(1).max(5) }),
      )
      .max(20),
  }),
  /** What the proposal this setting came from could prove; null for a setting made by hand. */
  proposal: z
    .strictObject({
      value: z.number().min(0),
      bound: z.number().min(0),
      seed: z.int(),
      seconds: z.number().min(0),
      waiting: z.array(
        z.strictObject({
          pieceId: id,
          reason: z.enum(["too-wide", "too-tall", "no-room", "no-stilt", "later-promise", "other-class", "too-heavy"]),
        }),
      ),
    })
    .nullable(),
  note: z.string().max(400),
});

export type SettingRecord = z.infer<typeof settingSchema>;

export const settingKind: RecordKind<typeof settingSchema> = {
  kind: "setting",
  version: 1,
  schema: settingSchema,
  migrations: [],
};
