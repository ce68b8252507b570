import { heightOf, type Shape } from "#engine/kiln";
import { crossSection } from "./cross-section.ts";
import type { Emitter } from "./scene.ts";

/**
 * The surface a piece shows to the kiln: its outside above the foot, and its mouth as a lid would close it.
 *
 * By the mouth goes exactly the radiation that the inside sends out, whatever its form.
 *
 * @param outside emitters of the piece's outside patches
 * @param foot    height of its foot, and where its axis stands
 */
export function envelopeOf(
  outside: readonly Emitter[],
  shape: Shape,
  foot: { readonly x: number; readonly y: number; readonly z: number; readonly angle: number },
): readonly Emitter[] {
  const shown = outside.filter((emitter) => !isUnderside(emitter, foot.z));
  const mouth = mouthOf(shape, foot);
  return mouth ? [...shown, mouth] : shown;
}

/** Nothing else on the outside looks straight down so near the foot. */
function isUnderside(emitter: Emitter, footZ: number): boolean {
  const low = footZ + 0.004;
  switch (emitter.kind) {
    case "ring":
      return emitter.normalZ === -1 && emitter.z0 < low;
    case "star":
      return emitter.normalZ === -1 && emitter.z < low;
    case "flat":
      return emitter.normal[2] === -1 && emitter.origin[2] < low;
  }
}

function mouthOf(
  shape: Shape,
  { x, y, z, angle }: { readonly x: number; readonly y: number; readonly z: number; readonly angle: number },
): Emitter | null {
  const { body } = shape;
  if (body.kind === "revolution") {
    const [radius, height] = crossSection(body, shape.lidHeight).inside?.at(-1) ?? [0, 0];
    if (radius <= 0) return null;
    const level = z + height;
    const area = Math.PI * radius ** 2;
    const round = { from: 0, turn: 2 * Math.PI, normalR: 0, normalZ: 1 };
    return { kind: "ring", area, x, y, r0: 0, z0: level, r1: radius, z1: level, ...round };
  }
  if (body.kind === "slab" || body.closed || body.wall === 0) return null;
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  const halfX = body.width / 2 - body.wall;
  const halfY = body.depth / 2 - body.wall;
  if (halfX <= 0 || halfY <= 0) return null;
  return {
    kind: "flat",
    area: 4 * halfX * halfY,
    origin: [x - cos * halfX + sin * halfY, y - sin * halfX - cos * halfY, z + heightOf(shape) - shape.lidHeight],
    u: [2 * halfX * cos, 2 * halfX * sin, 0],
    v: [-2 * halfY * sin, 2 * halfY * cos, 0],
    normal: [0, 0, 1],
  };
}
