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
export function hullPanels({ count, kind, data, bounds }: Solids): readonly number[] {
  const hull: number[] = [];
  for (let panel = 0; panel < count; panel++) {
    if (kind[panel] !== solidKind.panel) continue;
    const d = data.subarray(panel * solidStride, (panel + 1) * solidStride);
    const [nx, ny] = [d[7], d[8]];
    const distance = nx * d[0] + ny * d[1];
    const inFront = (solid: number): boolean => {
      const x = bounds[solid * 6 + (nx > 0 ? 0 : 3)];
      const y = bounds[solid * 6 + (ny > 0 ? 1 : 4)];
      if (nx * x + ny * y > distance - allowed) return true;
      const z = bounds[solid * 6 + 2];
      return kind[solid] === solidKind.plate && (z < d[5] + allowed || z > d[6] - allowed);
    };
    let all = true;
    for (let solid = 0; all && solid < count; solid++) all = solid === panel || inFront(solid);
    if (all) hull.push(panel);
  }
  return hull;
}
