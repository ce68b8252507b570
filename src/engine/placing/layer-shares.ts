import { distanceBetweenBoxes, type Footprint, type RoundedBox } from "#engine/geometry";
import { CellAreas } from "./cell-area.ts";
import { coveredArea } from "./covered-area.ts";

/**
 * A limit that the items of one layer keep in any packing: Σ use[item] <= low in a layer below another, <= top in the
 * top one. Areas [m2] or counts.
 */
export interface LayerShare {
  readonly use: Float64Array;
  readonly low: number;
  readonly top: number;
}

/** A round layer: pieces stay within `radius`, clear of `posts` round posts below the top layer [m]. */
export interface RoundLayer {
  readonly radius: number;
  readonly gap: number;
  readonly posts: number;
  readonly postRadius: number;
}

/** Scan lines are good to 1e-3: the bound must not rest on their last digit. */
const scanCaution = 1 - 1e-3;

/** Every limit known for round layers: area, area with the waste round convex parts, counts of big discs. */
export function roundShares(footprints: readonly Footprint[], layer: RoundLayer): readonly LayerShare[] {
  const outer = layer.radius + layer.gap / 2;
  // Pieces grown by half the gap reach half a gap into a post's clearance, no farther.
  const post = Math.max(layer.postRadius - layer.gap / 2, 0);
  const area = Math.PI * outer * outer;
  const parts = footprints.map((footprint) => convexParts(footprint, layer.gap / 2));
  const shares: LayerShare[] = [
    {
      use: Float64Array.from(footprints, (footprint) => coveredArea(footprint, layer.gap / 2) * scanCaution),
      low: area - layer.posts * Math.PI * post * post,
      top: area,
    },
  ];
  const cells = new CellAreas(outer);
  for (const price of pricesFor(parts)) {
    const use = Float64Array.from(parts, ({ boxes, slivers }) => {
      const whole = boxes.map((box) => cells.box(box.halfX, box.halfY, box.radius, price));
      const cut = slivers.map((sliver) => sliver - 3 * price);
      return [...whole, ...cut].reduce((sum, each) => sum + Math.max(each, 0), 0);
    });
    const top = area - 6 * price;
    const low = top - layer.posts * Math.max(cells.disc(post, price), 0);
    // With one item alone there is no cell to count: the limit must hold by itself.
    if (use.every((each) => each <= low)) shares.push({ use, low, top });
  }
  return [...shares, ...countShares(parts, outer)];
}

/** An item as disjoint convex parts, grown: whole boxes, and areas of what other boxes add [m2]. */
interface ConvexParts {
  readonly boxes: readonly RoundedBox[];
  readonly slivers: readonly number[];
  /** Radius of the largest disc inside [m]. */
  readonly inner: number;
}

const innerOf = (box: RoundedBox): number => box.radius + Math.min(box.halfX, box.halfY);

function convexParts(footprint: Footprint, grow: number): ConvexParts {
  const grown = footprint
    .map((box): RoundedBox => ({ ...box, radius: box.radius + grow }))
    .sort((a, b) => innerOf(b) - innerOf(a));
  const main = grown[0] as RoundedBox;
  const boxes = [main];
  const slivers: number[] = [];
  const taken: RoundedBox[] = [];
  for (const box of grown.slice(1)) {
    if (taken.some((other) => distanceBetweenBoxes(box, other) < 0)) continue;
    taken.push(box);
    if (distanceBetweenBoxes(box, main) >= 0) boxes.push(box);
    else slivers.push(beyond(main, box));
  }
  return { boxes, slivers, inner: innerOf(main) };
}

/** Area of `box` past the tangent of `main` that faces it [m2], from an inscribed polygon: never too much. */
function beyond(main: RoundedBox, box: RoundedBox): number {
  const far = Math.hypot(box.x - main.x, box.y - main.y);
  if (far === 0) return 0;
  const nx = (box.x - main.x) / far;
  const ny = (box.y - main.y) / far;
  const along = Math.abs(nx * Math.cos(main.angle) + ny * Math.sin(main.angle));
  const across = Math.abs(-nx * Math.sin(main.angle) + ny * Math.cos(main.angle));
  const edge = along * main.halfX + across * main.halfY + main.radius;
  const rim: [number, number][] = [];
  for (let k = 0; k < 64; k++) {
    const turn = (2 * Math.PI * (k + 0.5)) / 64;
    const u = (Math.cos(turn) > 0 ? box.halfX : -box.halfX) + box.radius * Math.cos(turn);
    const v = (Math.sin(turn) > 0 ? box.halfY : -box.halfY) + box.radius * Math.sin(turn);
    const x = box.x + u * Math.cos(box.angle) - v * Math.sin(box.angle) - main.x;
    const y = box.y + u * Math.sin(box.angle) + v * Math.cos(box.angle) - main.y;
    rim.push([x * nx + y * ny - edge, -x * ny + y * nx]);
  }
  // Shoelace over the part with a positive first coordinate.
  let twice = 0;
  const cut: [number, number][] = [];
  rim.forEach(([s, t], k) => {
    const [nextS, nextT] = rim[(k + 1) % rim.length] as [number, number];
    if (s >= 0) cut.push([s, t]);
    if (s * nextS < 0) cut.push([0, t + ((nextT - t) * s) / (s - nextS)]);
  });
  cut.forEach(([s, t], k) => {
    const [nextS, nextT] = cut[(k + 1) % cut.length] as [number, number];
    twice += s * nextT - nextS * t;
  });
  return Math.abs(twice) / 2;
}

/** Prices per side worth trying: a hexagon's next side saves about a tenth of the radius squared. */
function pricesFor(parts: readonly ConvexParts[]): number[] {
  const radii = parts.map((part) => part.inner).sort((a, b) => a - b);
  const pick = (share: number): number => (radii[Math.floor(share * (radii.length - 1))] as number) ** 2 * 0.1;
  return [...new Set([0.05, 0.3, 0.6, 0.8, 1].map(pick))];
}

/**
 * Radius of the smallest circle that holds N unit circles, N = 1..13, all proven optimal.
 * Source: [packomania-circles], which names the proofs
 */
const proven = [
  1, 2, 2.1547005, 2.4142135, 2.7013016, 3, 3, 3.3048647, 3.6131259, 3.8130256, 3.9238044, 4.0296019, 4.2360679,
];

/** Most circles of `radius` inside one of `outer`, never too few: proven values to 12, Groemer's inequality beyond. */
export function mostCircles(outer: number, radius: number): number {
  const ratio = outer / radius;
  if (ratio < 1) return 0;
  const fitting = proven.findLastIndex((needed) => needed <= ratio + 1e-6) + 1;
  if (fitting < proven.length) return fitting;
  // Centres lie in a disc of ratio - 1, at least 2 apart. Source: [groemer-1960]
  const room = ratio - 1;
  return Math.floor((Math.PI * room * room) / (2 * Math.sqrt(3)) + (Math.PI * room) / 2 + 1 + 1e-9);
}

/** How many items with a disc of at least some size can share a layer, at every size where that number changes. */
function countShares(parts: readonly ConvexParts[], outer: number): LayerShare[] {
  const shares: LayerShare[] = [];
  const sizes = [...new Set(parts.map((part) => part.inner))].sort((a, b) => a - b);
  let before = Infinity;
  for (const size of sizes) {
    const most = mostCircles(outer, size);
    if (most >= before || most > 24) continue;
    before = most;
    shares.push({ use: Float64Array.from(parts, (part) => (part.inner >= size ? 1 : 0)), low: most, top: most });
  }
  return shares;
}
