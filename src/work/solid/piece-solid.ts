import type { Shape } from "#engine/kiln";
import type { PlanPoint } from "../outline-points.ts";
import { silhouetteOf, smoothProfile, type SidePoint } from "../silhouette.ts";
import { plateSolid, rectanglePoints } from "./plate-solid.ts";
import { joined, type Solid } from "./solid.ts";
import { tubeSolid, type TubeSection } from "./tube-solid.ts";
import { turnedSolid } from "./turned-solid.ts";

/**
 * A shape in space, standing on its foot at the origin, handle towards +x, spout towards -x.
 *
 * Open vessels have an inside, one wall in from the profile. Handle, spout and lid are those of the side view
 * (`silhouetteOf`): the same curves, as wide across as the shape says.
 */
export function pieceSolid(shape: Shape): Solid {
  const side = silhouetteOf(shape, 0);
  const parts = bodySolids(shape);
  if (shape.handle && side.handle)
    parts.push(tubeSolid(strap(side.handle.centre, side.handle.width, shape.handle.width)));
  if (shape.spout && side.spout) parts.push(tubeSolid(spoutSections(side.spout.outline, shape.spout.width)));
  if (side.lid) parts.push(turnedSolid(lidLine(side.lid)));
  return joined(parts);
}

function bodySolids({ body }: Shape): Solid[] {
  switch (body.kind) {
    case "revolution":
      return [turnedSolid(bodyLine(body))];
    case "slab":
      return [plateSolid(roundedRectangle(body.width, body.depth, body.corner), 0, body.thickness)];
    case "box":
      return boxSolids(body);
  }
}

type Revolution = Extract<Shape["body"], { kind: "revolution" }>;

/** From the middle of the foot up the outside and, of an open vessel, down the inside to the middle of its floor. */
function bodyLine({ profile, wall, closed }: Revolution): readonly SidePoint[] {
  const outside = smoothProfile(profile, closed);
  const foot = outside[0]!;
  const line: SidePoint[] = [[0, foot[1]], ...outside];
  const rim = outside.at(-1)!;
  if (closed || wall <= 0) return rim[0] > 0 ? [...line, [0, rim[1]]] : line;
  const inside: SidePoint[] = [];
  for (let i = outside.length - 1; i >= 0; i--) {
    const before = outside[Math.max(i - 1, 0)];
    const after = outside[Math.min(i + 1, outside.length - 1)];
    const length = Math.hypot(after[0] - before[0], after[1] - before[1]) || 1;
    const radius = outside[i][0] - (wall * (after[1] - before[1])) / length;
    const height = outside[i][1] + (wall * (after[0] - before[0])) / length;
    if (i === outside.length - 1) inside.push([Math.max(rim[0] - wall, 0), rim[1]]);
    else if (height > foot[1] + wall && height < inside.at(-1)![1] && radius > 0) inside.push([radius, height]);
  }
  const lowest = inside.at(-1)!;
  return [
    ...line,
    ...inside,
    [lowest[0], Math.min(foot[1] + wall, lowest[1])],
    [0, Math.min(foot[1] + wall, lowest[1])],
  ];
}

function boxSolids(body: Extract<Shape["body"], { kind: "box" }>): Solid[] {
  const { width, depth, height, wall, closed } = body;
  if (closed || wall <= 0 || 2 * wall >= Math.min(width, depth)) {
    return [plateSolid(rectanglePoints(width, depth), 0, height)];
  }
  const long = (y: number): Solid => plateSolid(rectanglePoints(width, wall, 0, y), wall, height);
  const short = (x: number): Solid => plateSolid(rectanglePoints(wall, depth - 2 * wall, x, 0), wall, height);
  return [
    plateSolid(rectanglePoints(width, depth), 0, wall),
    long((depth - wall) / 2),
    long((wall - depth) / 2),
    short((width - wall) / 2),
    short((wall - width) / 2),
  ];
}

function roundedRectangle(width: number, depth: number, corner: number): readonly PlanPoint[] {
  if (corner <= 1e-4) return rectanglePoints(width, depth);
  const steps = 5;
  const signs = [
    [1, 1],
    [-1, 1],
    [-1, -1],
    [1, -1],
  ] as const;
  return signs.flatMap(([sx, sy], quarter) =>
    Array.from({ length: steps + 1 }, (_, k): PlanPoint => {
      const turn = (Math.PI / 2) * (quarter + k / steps);
      return [sx * (width / 2 - corner) + corner * Math.cos(turn), sy * (depth / 2 - corner) + corner * Math.sin(turn)];
    }),
  );
}

function strap(centre: readonly SidePoint[], thick: number, width: number): readonly TubeSection[] {
  return centre.map(([x, z], i) => {
    const before = centre[Math.max(i - 1, 0)];
    const after = centre[Math.min(i + 1, centre.length - 1)];
    const length = Math.hypot(after[0] - before[0], after[1] - before[1]) || 1;
    const [acrossX, acrossZ] = [(after[1] - before[1]) / length, (before[0] - after[0]) / length];
    return { x, z, acrossX, acrossZ, half: thick / 2, halfY: width / 2 };
  });
}

/** The spout's outline runs out along its underside and back along its top: sections join the two. */
function spoutSections(outline: readonly SidePoint[], width: number): readonly TubeSection[] {
  const count = Math.floor(outline.length / 2);
  return Array.from({ length: count }, (_, i) => {
    const under = outline[i];
    const over = outline[outline.length - 1 - i];
    const apart = Math.max(Math.hypot(over[0] - under[0], over[1] - under[1]), 1e-4);
    const taper = 1 - 0.55 * (i / (count - 1));
    return {
      x: (under[0] + over[0]) / 2,
      z: (under[1] + over[1]) / 2,
      acrossX: (over[0] - under[0]) / apart,
      acrossZ: (over[1] - under[1]) / apart,
      half: apart / 2,
      halfY: (width / 2) * taper,
    };
  });
}

/** The right half of a lid's outline, closed along its underside. */
function lidLine(lid: readonly SidePoint[]): readonly SidePoint[] {
  const top = lid.findIndex(([right]) => right <= 1e-9);
  const half = lid.slice(0, top + 1);
  return [[0, half[0][1]], ...half];
}
