import type { Footprint } from "#engine/geometry";
import type { Metres } from "#engine/units";
import type { Attachment, Shape } from "./ware.ts";

/** Height of the shape standing on its foot, lid included [m]. */
export function heightOf(shape: Shape): Metres {
  const { body } = shape;
  const bodyHeight =
    body.kind === "revolution" ? (body.profile.at(-1)?.[1] ?? 0) : body.kind === "box" ? body.height : body.thickness;
  return Math.max(bodyHeight + shape.lidHeight, shape.handle?.top ?? 0, shape.spout?.top ?? 0);
}

/** Largest radius of the body about its axis [m], handles left out. */
export function bodyRadius(shape: Shape): Metres {
  const { body } = shape;
  if (body.kind === "revolution") return body.profile.reduce((most, [radius]) => Math.max(most, radius), 0);
  return Math.hypot(body.width, body.depth) / 2;
}

/** Half the body's size along x, where handle and spout join [m]. */
function joinRadius(shape: Shape): Metres {
  return shape.body.kind === "revolution" ? bodyRadius(shape) : shape.body.width / 2;
}

function attachmentBox(shape: Shape, attachment: Attachment, side: 1 | -1): Footprint[number] {
  const join = joinRadius(shape);
  const radius = attachment.width / 2;
  // The core runs from inside the body to a radius short of the tip, so that the rounded end touches the tip.
  const tip = Math.max(join + attachment.reach - radius, 0);
  const start = Math.min(join * 0.5, tip);
  return { x: (side * (start + tip)) / 2, y: 0, angle: 0, halfX: (tip - start) / 2, halfY: 0, radius };
}

/** What the shape covers seen from above, in its own frame: body, handle (+x), spout (-x). */
export function footprintOf(shape: Shape): Footprint {
  const { body } = shape;
  const boxes: Footprint[number][] = [];
  if (body.kind === "revolution") {
    boxes.push({ x: 0, y: 0, angle: 0, halfX: 0, halfY: 0, radius: bodyRadius(shape) });
  } else {
    const corner = body.kind === "slab" ? body.corner : 0;
    boxes.push({
      x: 0,
      y: 0,
      angle: 0,
      halfX: body.width / 2 - corner,
      halfY: body.depth / 2 - corner,
      radius: corner,
    });
  }
  if (shape.handle) boxes.push(attachmentBox(shape, shape.handle, 1));
  if (shape.spout) boxes.push(attachmentBox(shape, shape.spout, -1));
  return boxes;
}

/** What the shape stands on, seen from above: its foot ring as a full disc, or the whole underside of a box or slab. */
export function footOf(shape: Shape): Footprint {
  const { body } = shape;
  if (body.kind === "revolution") return [{ x: 0, y: 0, angle: 0, halfX: 0, halfY: 0, radius: body.foot }];
  return footprintOf({ ...shape, handle: null, spout: null });
}
