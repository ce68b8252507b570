import { z } from "zod";
import { id, length, mass, name, positiveLength } from "./common-fields.ts";
import type { RecordKind } from "./record-kind.ts";

const attachment = z
  .strictObject({ reach: positiveLength, width: positiveLength, bottom: length, top: positiveLength })
  .refine((part) => part.top > part.bottom, { path: ["top"], message: "a top above its bottom" });

const wall = z.number().min(0.001).max(0.1);

const body = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("revolution"),
    profile: z
      .array(z.tuple([length, length]))
      .min(2)
      .max(64),
    wall,
    foot: length,
    closed: z.boolean(),
  }),
  z.strictObject({
    kind: z.literal("box"),
    width: positiveLength,
    depth: positiveLength,
    height: positiveLength,
    wall: z.number().min(0).max(0.1),
    closed: z.boolean(),
  }),
  z.strictObject({
    kind: z.literal("slab"),
    width: positiveLength,
    depth: positiveLength,
    thickness: wall,
    corner: length,
  }),
]);

export const shapeSchema = z
  .strictObject({
    version: z.literal(1),
    id,
    name,
    /** More names people use for it at intake: "tumbler", "beaker". */
    alsoCalled: z.array(name).max(12),
    body,
    handle: attachment.nullable(),
    spout: attachment.nullable(),
    lidHeight: length,
    mass,
    guessed: z.boolean(),
  })
  .superRefine(({ body }, context) => {
    const complain = (path: (string | number)[], message: string): void =>
      context.addIssue({ code: "custom", path: ["body", ...path], message });
    if (body.kind === "revolution") {
      body.profile.forEach(([, height], index) => {
        const before = body.profile[index - 1];
        if (before && height < before[1]) complain(["profile", index], "heights that never fall from foot to rim");
      });
      if (body.profile[0]?.[1] !== 0) complain(["profile", 0], "a first point on the foot, at height 0");
      if (!body.profile.some(([radius]) => radius > 0)) complain(["profile"], "at least one radius above 0");
      if (body.closed && body.profile.at(-1)?.[0] !== 0)
        complain(["profile", body.profile.length - 1], "a closed shape that ends at radius 0");
      if (body.foot > Math.max(...body.profile.map(([radius]) => radius)))
        complain(["foot"], "a foot no wider than the body");
    }
    if (body.kind === "slab" && body.corner * 2 > Math.min(body.width, body.depth)) {
      complain(["corner"], "a corner radius of at most half the shorter side");
    }
  });

export type ShapeRecord = z.infer<typeof shapeSchema>;

export const shapeKind: RecordKind<typeof shapeSchema> = {
  kind: "shape",
  version: 1,
  schema: shapeSchema,
  migrations: [],
};
