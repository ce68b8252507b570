import type { Footprint } from "#engine/geometry";

/**
 * Area of a footprint grown on all sides by `grow` [m2].
 *
 * Scan lines: on each, the union of the intervals that the boxes cut out of it. Accuracy: relative error below 1e-3
 * (covered-area.test.ts).
 */
export function coveredArea(footprint: Footprint, grow: number): number {
  const lines = 600;
  let low = Infinity;
  let high = -Infinity;
  for (const box of footprint) {
    const tall = Math.abs(Math.sin(box.angle)) * box.halfX + Math.abs(Math.cos(box.angle)) * box.halfY;
    low = Math.min(low, box.y - tall - box.radius - grow);
    high = Math.max(high, box.y + tall + box.radius + grow);
  }
  const step = (high - low) / lines;
  let area = 0;
  for (let k = 0; k < lines; k++) {
    const y = low + (k + 0.5) * step;
    const cuts = footprint
      .map((box) => cutOf(box, box.radius + grow, y))
      .filter((cut) => cut !== null)
      .sort((a, b) => a[0] - b[0]);
    let reached = -Infinity;
    for (const [from, to] of cuts) {
      if (to <= reached) continue;
      area += (to - Math.max(from, reached)) * step;
      reached = to;
    }
  }
  return area;
}

/** Where the line at height y crosses the box grown to `radius`: convex, so one interval. */
function cutOf(box: Footprint[number], radius: number, y: number): readonly [number, number] | null {
  const cos = Math.cos(box.angle);
  const sin = Math.sin(box.angle);
  const corners = [
    [1, 1],
    [-1, 1],
    [-1, -1],
    [1, -1],
  ].map(([sx, sy]) => [
    box.x + cos * sx * box.halfX - sin * sy * box.halfY,
    box.y + sin * sx * box.halfX + cos * sy * box.halfY,
  ]) as [number, number][];
  let from = Infinity;
  let to = -Infinity;
  const reach = (x: number): void => {
    from = Math.min(from, x);
    to = Math.max(to, x);
  };
  corners.forEach(([ax, ay], k) => {
    const [bx, by] = corners[(k + 1) % 4];
    // The discs at the corners.
    const up = y - ay;
    if (Math.abs(up) <= radius) {
      const half = Math.sqrt(radius * radius - up * up);
      reach(ax - half);
      reach(ax + half);
    }
    // The sides, moved out by the radius.
    const length = Math.hypot(bx - ax, by - ay);
    if (length === 0) return;
    const nx = ((by - ay) / length) * radius;
    const ny = (-(bx - ax) / length) * radius;
    const y0 = ay + ny;
    const y1 = by + ny;
    if ((y0 - y) * (y1 - y) > 0 || y0 === y1) return;
    const t = (y - y0) / (y1 - y0);
    reach(ax + nx + t * (bx - ax));
  });
  return from <= to ? [from, to] : null;
}
