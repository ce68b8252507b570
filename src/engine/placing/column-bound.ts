import type { ColumnProblem } from "./column.ts";
import { PostFitter } from "./post-stacks.ts";
import type { MipSolver, MixedIntegerProgram } from "./mip-solver.ts";

/** What the bound may take for granted about the plan of one layer. */
export interface LayerRoom {
  /** Area that pieces grown by half the gap can share, below the top layer and in it [m2]. */
  readonly area: number;
  readonly topArea: number;
  /** Radius of a circle that holds every piece grown by half the gap [m]. */
  readonly radius: number;
}

/** Per item: radius of its largest disc, grown by half the gap [m]. */
export type InnerRadii = ArrayLike<number>;

/**
 * Radius of the smallest circle that holds N unit circles, N = 1..14, proven optimal for N <= 13; for more circles a
 * smaller circle than for 13 is impossible too, so the table may end here.
 * Source: [fodor-circles], [packomania-circles]
 */
const circlesRatio = [
  1, 2, 2.1547005, 2.4142135, 2.7013016, 3, 3, 3.3047648, 3.6131259, 3.8130256, 3.9238044, 4.0296019, 4.2360679,
];

/** Most circles of `radius` that fit a circle of `outer`: proven up to 12, Infinity above. */
export function mostCircles(outer: number, radius: number): number {
  const ratio = outer / radius;
  const fitting = circlesRatio.findLastIndex((needed) => needed <= ratio + 1e-6) + 1;
  return fitting >= circlesRatio.length ? Infinity : fitting;
}

/**
 * Proven upper bound on the worth of any arrangement of full layers [-], or null if the solver did not finish.
 *
 * A mixed-integer program: how many layers of each height (posts in every combination, without the stock), which
 * height the top layer has, which items are taken. For every height h, the items at least h tall must share the area
 * of the layers that are tall enough, and so must their number where the items are discs too big to be many.
 */
export function columnBound(
  problem: ColumnProblem,
  room: LayerRoom,
  inner: InnerRadii,
  solver: MipSolver,
  seconds: number,
): number | null {
  const program = boundProgram(problem, room, inner);
  const result = solver.solve(program, seconds, 1e-4);
  if (result.status !== "solved") return null;
  const whole = Array.from(problem.worth).every((worth) => Number.isInteger(worth));
  return whole ? Math.floor(result.bound + 1e-6) : result.bound;
}

export function boundProgram(problem: ColumnProblem, room: LayerRoom, inner: InnerRadii): MixedIntegerProgram {
  const { height, area, worth, roof, base, thickness, headroom, lidHeadroom } = problem;
  const fitter = new PostFitter(problem.posts, problem.maxStack);
  const items = Array.from(height, (_, item) => item);
  const clear = roof - base;
  // Heights of layers worth having: just tall enough for some item.
  const stackFor = items.map((item) => fitter.stacks[fitter.lowest(height[item] + headroom)]?.height);
  const heights = [...new Set(stackFor.filter((stack) => stack !== undefined))].sort((a, b) => a - b);
  const tops = [...new Set(items.map((item) => height[item]))]
    .filter((tall) => tall + lidHeadroom <= clear + 1e-9)
    .sort((a, b) => a - b);
  const firstLayer = items.length;
  const firstTop = firstLayer + heights.length;
  const count = firstTop + tops.length;
  const all = Array.from({ length: count }, (_, k) => k);
  const rows: MixedIntegerProgram["rows"][number][] = [];
  rows.push({
    columns: all.slice(firstLayer),
    coefficients: [...heights.map((stack) => stack + thickness), ...tops.map((tall) => tall + lidHeadroom)],
    lower: -Infinity,
    upper: clear + 1e-9,
  });
  rows.push({ columns: all.slice(firstTop), coefficients: tops.map(() => 1), lower: 0, upper: 1 });
  rows.push({
    columns: all.slice(firstLayer),
    coefficients: all.slice(firstLayer).map(() => 1),
    lower: 0,
    upper: problem.maxLayers,
  });
  // Items at least `tall` share the layers that hold `tall`.
  const share = (tall: number, from: readonly number[], use: (item: number) => number, each: number, top: number) => {
    const layers = heights.map((stack, k) => ({ column: firstLayer + k, fits: stack - headroom >= tall - 1e-9, each }));
    const lids = tops.map((allowed, k) => ({ column: firstTop + k, fits: allowed >= tall - 1e-9, each: top }));
    const fitting = [...layers, ...lids].filter((layer) => layer.fits);
    rows.push({
      columns: [...from, ...fitting.map((layer) => layer.column)],
      coefficients: [...from.map(use), ...fitting.map((layer) => -layer.each)],
      lower: -Infinity,
      upper: 0,
    });
  };
  const levels = [...new Set(items.map((item) => height[item]))].sort((a, b) => a - b);
  for (const tall of levels) {
    const taller = items.filter((item) => height[item] >= tall);
    share(tall, taller, (item) => area[item], room.area, room.topArea);
  }
  const sizes = [...new Set(items.map((item) => inner[item]))].sort((a, b) => a - b);
  let known = Infinity;
  for (const size of sizes) {
    const most = mostCircles(room.radius, size);
    if (most === known || most === Infinity) continue;
    known = most;
    let members = -1;
    for (const tall of levels) {
      const big = items.filter((item) => inner[item] >= size && height[item] >= tall);
      if (big.length === 0 || big.length === members) continue;
      members = big.length;
      share(tall, big, () => 1, most, most);
    }
  }
  const most = Math.floor(clear / ((heights[0] ?? clear) + thickness)) + 1;
  return {
    objective: all.map((k) => (k < firstLayer ? worth[k] : 0)),
    lower: all.map(() => 0),
    upper: all.map((k) => (k < firstLayer || k >= firstTop ? 1 : most)),
    whole: all.map((k) => k >= firstLayer),
    rows,
  };
}
