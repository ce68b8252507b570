import type { SidePoint } from "../silhouette.ts";
import { hatchTile, solidBuilder, type Solid } from "./solid.ts";

/** Turns sharper than this are edges [rad]; gentler ones are rounded. */
const edge = (40 * Math.PI) / 180;

/**
 * A closed line in the (radius, height) plane turned about the axis.
 *
 * @param line     from the axis round the outside and back to the axis, outside on the right hand
 * @param sectors  flat sides the circle is cut into
 */
export function turnedSolid(line: readonly SidePoint[], sectors: number = 32): Solid {
  const build = solidBuilder();
  const points = withoutRepeats(line);
  const most = Math.max(...points.map(([radius]) => radius));
  const around = Math.max(1, Math.round((2 * Math.PI * most) / hatchTile)) * hatchTile;
  const facing = points.slice(1).map((point, i) => outward(points[i], point));
  let along = 0;
  facing.forEach((own, i) => {
    const [from, to] = [points[i], points[i + 1]];
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
    const start = rounded(own, facing[i - 1]);
    const end = rounded(own, facing[i + 1]);
    const ring = ([radius, height]: SidePoint, normal: SidePoint, v: number): readonly number[] =>
      Array.from({ length: sectors + 1 }, (_, k) => {
        const turn = (2 * Math.PI * (k % sectors)) / sectors;
        const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
        const at = [radius * cos, radius * sin, height] as const;
        return build.vertex(at, [normal[0] * cos, normal[0] * sin, normal[1]], (around * k) / sectors, v);
      });
    const low = ring(from, start, along);
    const high = ring(to, end, along + length);
    for (let k = 0; k < sectors; k++) {
      if (from[0] > 1e-9) build.triangle(low[k], low[k + 1], high[k]);
      if (to[0] > 1e-9) build.triangle(low[k + 1], high[k + 1], high[k]);
    }
    along += length;
  });
  return build.done();
}

function withoutRepeats(line: readonly SidePoint[]): readonly SidePoint[] {
  return line.filter((point, i) => {
    const before = line[i - 1];
    return !before || Math.hypot(point[0] - before[0], point[1] - before[1]) > 1e-7;
  });
}

function outward(from: SidePoint, to: SidePoint): SidePoint {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  return [(to[1] - from[1]) / length, (from[0] - to[0]) / length];
}

/** The normal at an end of a stretch: halfway to the neighbour's where the line turns gently. */
function rounded(own: SidePoint, neighbour: SidePoint | undefined): SidePoint {
  if (!neighbour) return own;
  const turn = Math.acos(Math.min(Math.max(own[0] * neighbour[0] + own[1] * neighbour[1], -1), 1));
  if (turn > edge) return own;
  const sum: SidePoint = [own[0] + neighbour[0], own[1] + neighbour[1]];
  const length = Math.hypot(...sum);
  return [sum[0] / length, sum[1] / length];
}
