import { solidKind, solidStride, type Solids } from "#engine/geometry";

/** Corners of walls and ends of bars may stand out by this [m]. */
const allowed = 2e-3;

/**
 * Panels with everything else in front of them: the walls of a chamber with flats.
 *
 * Whatever ray starts among the solids leaves by the first of their planes that it reaches, and nothing lies beyond.
 * So they need no place in the tree: one sweep over their planes finds the one hit.
 *
 * Level plates that end with the wall (floor and lid reach under it) do not count against them.
 */
export function hullPanels(solids: Solids): readonly number[] {
  const { count, kind, data, bounds } = solids;
  const hull: number[] = [];
  for (let panel = 0; panel < count; panel++) {
    if (kind[panel] !== solidKind.panel) continue;
    const d = data.subarray(panel * solidStride, (panel + 1) * solidStride);
    const [nx, ny] = [d[7], d[8]];
    const distance = nx * d[0] + ny * d[1];
    const inFront = (solid: number): boolean => {
      if (leastAlong(solids, solid, nx, ny) > distance - allowed) return true;
      const z = bounds[solid * 6 + 2];
      return kind[solid] === solidKind.plate && (z < d[5] + allowed || z > d[6] - allowed);
    };
    let all = true;
    for (let solid = 0; all && solid < count; solid++) all = solid === panel || inFront(solid);
    if (all) hull.push(panel);
  }
  return hull;
}

/** Least x·nx + y·ny over a solid [m], chords left out. */
function leastAlong({ kind, data }: Solids, solid: number, nx: number, ny: number): number {
  const d = data.subarray(solid * solidStride, (solid + 1) * solidStride);
  const centre = nx * d[0] + ny * d[1];
  const core = (cos: number, sin: number, halfX: number, halfY: number): number =>
    Math.abs(nx * cos + ny * sin) * halfX + Math.abs(ny * cos - nx * sin) * halfY;
  switch (kind[solid]) {
    case solidKind.band:
      return centre - Math.max(d[2] + d[4] * (d[5] - d[3]), d[2] + d[4] * (d[6] - d[3]));
    case solidKind.plate:
      return centre - core(d[3], d[4], d[5], d[6]) - Math.sqrt(d[7]);
    case solidKind.panel:
      return centre + Math.min(0, d[4] * (nx * d[2] + ny * d[3]));
    default:
      return centre - core(d[2], d[3], d[4], d[5]);
  }
}
