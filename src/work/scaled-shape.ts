import type { ShapeRecord } from "#records";
import { sizeOf } from "./intake.ts";

type Point = readonly [radius: number, height: number];

/**
 * A shape like another one but of other size, its wall as thick, its mass by the clay in it; marked as guessed.
 *
 * Across and up are scaled apart; handle and spout go with the body. Walls of vessels keep their thickness, so mass goes
 * with the surface; a slab's goes with its volume.
 *
 * @param across  of the body, handles left out [m], > 0
 * @param high    with its lid [m], > 0; null keeps the proportion (a slab its thickness)
 * @param name    what the new shape is called
 */
export function scaledShape(
  shape: ShapeRecord,
  across: number,
  high: number | null,
  id: string,
  name: string,
): ShapeRecord {
  const own = sizeOf(shape);
  const wide = across / own.across;
  const tall = high === null ? (shape.body.kind === "slab" ? 1 : wide) : high / own.high;
  const { body } = shape;
  const part = (each: ShapeRecord["handle"]): ShapeRecord["handle"] =>
    each && { reach: each.reach * wide, width: each.width * wide, bottom: each.bottom * tall, top: each.top * tall };
  const scaled: ShapeRecord["body"] =
    body.kind === "revolution"
      ? {
          ...body,
          profile: body.profile.map(([r, z]) => [r * wide, z * tall] as [number, number]),
          foot: body.foot * wide,
        }
      : body.kind === "box"
        ? { ...body, width: body.width * wide, depth: body.depth * wide, height: body.height * tall }
        : {
            ...body,
            width: body.width * wide,
            depth: body.depth * wide,
            thickness: body.thickness * tall,
            corner: body.corner * wide,
          };
  return {
    ...shape,
    id,
    name,
    alsoCalled: [],
    body: scaled,
    handle: part(shape.handle),
    spout: part(shape.spout),
    lidHeight: shape.lidHeight * tall,
    mass: (shape.mass * clayIn(scaled)) / clayIn(body),
    guessed: true,
  };
}

/** Surface of a vessel [m2] or volume of a slab [m3]: what the mass goes with. */
function clayIn(body: ShapeRecord["body"]): number {
  if (body.kind === "slab") return body.width * body.depth * body.thickness;
  if (body.kind === "box") return 2 * (body.width + body.depth) * body.height + body.width * body.depth;
  const first = body.profile[0] as Point;
  let surface = Math.PI * first[0] ** 2;
  for (let i = 1; i < body.profile.length; i += 1) {
    const [r0, z0] = body.profile[i - 1] as Point;
    const [r1, z1] = body.profile[i] as Point;
    surface += Math.PI * (r0 + r1) * Math.hypot(r1 - r0, z1 - z0);
  }
  return surface;
}
