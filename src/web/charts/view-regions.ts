/** A point on the lattice between pixels: (0, 0) is the picture's top left corner. */
export type LatticePoint = readonly [x: number, y: number];

/**
 * Outlines of all connected areas with the same label, as closed loops along the edges between pixels.
 *
 * Outer loops go round with the area on their right (clockwise on a screen), holes the other way round, so that the
 * nonzero rule fills exactly the area. Areas that touch only by a corner stay apart.
 *
 * @param labels row by row from the top, `size` x `size`
 */
export function outlinesOf(
  labels: ArrayLike<number>,
  size: number,
): ReadonlyMap<number, readonly (readonly LatticePoint[])[]> {
  const at = (x: number, y: number): number =>
    x < 0 || y < 0 || x >= size || y >= size ? Number.NaN : labels[y * size + x];
  // Edges by label and start, each with the area on its right: right along the top of a pixel, down its right side …
  const edges = new Map<number, Map<number, number[]>>();
  const width = size + 1;
  const addEdge = (label: number, x0: number, y0: number, x1: number, y1: number): void => {
    const own = edges.get(label) ?? new Map<number, number[]>();
    edges.set(label, own);
    const start = y0 * width + x0;
    const ends = own.get(start);
    if (ends) ends.push(y1 * width + x1);
    else own.set(start, [y1 * width + x1]);
  };
  for (let y = 0; y < size; y++) {
    for (let x = 0; x < size; x++) {
      const label = at(x, y);
      if (at(x, y - 1) !== label) addEdge(label, x, y, x + 1, y);
      if (at(x + 1, y) !== label) addEdge(label, x + 1, y, x + 1, y + 1);
      if (at(x, y + 1) !== label) addEdge(label, x + 1, y + 1, x, y + 1);
      if (at(x - 1, y) !== label) addEdge(label, x, y + 1, x, y);
    }
  }
  const outlines = new Map<number, LatticePoint[][]>();
  for (const [label, own] of edges) outlines.set(label, loopsOf(own, width));
  return outlines;
}

function loopsOf(edges: Map<number, number[]>, width: number): LatticePoint[][] {
  const loops: LatticePoint[][] = [];
  const point = (index: number): LatticePoint => [index % width, Math.floor(index / width)];
  for (const start of edges.keys()) {
    while ((edges.get(start)?.length ?? 0) > 0) {
      const loop: LatticePoint[] = [];
      let from = start;
      let heading = 0;
      do {
        const ends = edges.get(from)!;
        // At a corner where two areas touch, turn right: each keeps to itself.
        const next = ends.length === 1 ? 0 : sharpestRight(ends, from, heading, width);
        const [to] = ends.splice(next, 1) as [number];
        loop.push(point(from));
        heading = to - from;
        from = to;
      } while (from !== start);
      loops.push(loop);
    }
  }
  return loops;
}

function sharpestRight(ends: readonly number[], from: number, heading: number, width: number): number {
  // Right of a heading on a screen (y down): right → down → left → up.
  const right = new Map([
    [1, width],
    [width, -1],
    [-1, -width],
    [-width, 1],
  ]).get(heading);
  const turned = ends.findIndex((end) => end - from === right);
  return turned < 0 ? 0 : turned;
}

/** Twice smoothed corners (Chaikin), keeping the loop closed: stairs of pixels become the curves they stand for. */
export function smoothed(loop: readonly LatticePoint[], times = 2): readonly LatticePoint[] {
  let points = withoutStraights(loop);
  for (let i = 0; i < times; i++) {
    points = points.flatMap(([x, y], k): LatticePoint[] => {
      const [nx, ny] = points[(k + 1) % points.length];
      return [
        [x * 0.75 + nx * 0.25, y * 0.75 + ny * 0.25],
        [x * 0.25 + nx * 0.75, y * 0.25 + ny * 0.75],
      ];
    });
  }
  return points;
}

/** Middles of the loop's edges: a stair of single steps becomes a straight slope. */
function withoutStraights(loop: readonly LatticePoint[]): LatticePoint[] {
  return loop.map(([x, y], k): LatticePoint => {
    const [nx, ny] = loop[(k + 1) % loop.length];
    return [(x + nx) / 2, (y + ny) / 2];
  });
}
