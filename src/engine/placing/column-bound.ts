import type { ColumnProblem } from "./column.ts";
import type { LayerShare } from "./layer-shares.ts";
import type { MipSolver, MixedIntegerProgram } from "./mip-solver.ts";
import { PostFitter } from "./post-stacks.ts";

/**
 * Weights on limits: `weight` on share `share` of all items taller than `above` [m]. Any weights give a bound.
 */
interface Weighing {
  readonly entries: readonly { readonly share: number; readonly above: number; readonly weight: number }[];
  /** Worth left to the items after paying for what they use. */
  readonly rest: number;
}

/** One way to divide the height: tallest items of the layers below the top [m], ascending, and under the lid. */
interface Division {
  readonly low: readonly number[];
  readonly top: number;
  bound: number;
}

const hair = 1e-7;

/**
 * Proven upper bound on the worth of any arrangement in full layers [-].
 *
 * Every way to divide the height into layers (each just tall enough for some item) is listed. For one division, items
 * taller than a layer must share what the taller layers hold, by every limit of `shares`: a linear program with items
 * cut. Its dual weights bound all divisions at once, by our own arithmetic, so that the solver's rounding cannot spoil
 * the proof. The division with the greatest bound is solved next, until it cannot be lowered.
 *
 * @param solver  finds the weights
 * @param stop    polled; the bound is valid whenever it stops, only less tight
 */
export function columnBound(
  problem: ColumnProblem,
  shares: readonly LayerShare[],
  solver: MipSolver,
  stop: () => boolean,
): number {
  const total = problem.worth.reduce((sum, worth) => sum + worth, 0);
  const whole = problem.worth.every((worth) => Number.isInteger(worth));
  const settle = (bound: number): number => Math.min(total, whole ? Math.floor(bound + 1e-6) : bound);
  const divisions = divisionsOf(problem);
  if (divisions.length === 0) return 0;
  // By area alone first: exact and quick, so that few divisions are left for the solver.
  const byArea = new AreaGreedy(problem, shares[0] as LayerShare);
  for (const division of divisions) division.bound = byArea.bound(division);
  for (let round = 0; round < mostRounds && !stop(); round++) {
    const top = greatest(divisions);
    const weighing = weigh(problem, shares, top, solver);
    if (!weighing) break;
    const before = top.bound;
    for (const division of divisions) {
      const bound = boundOf(weighing, shares, division);
      if (bound < division.bound) division.bound = bound;
    }
    // Solved before: this division's program has no more to give.
    if (top.bound >= before - 1e-7 * Math.abs(before)) break;
  }
  return settle(greatest(divisions).bound);
}

/** More linear programs than any queue needed (about ten); a cap for odd ones. */
const mostRounds = 80;

function greatest(divisions: readonly Division[]): Division {
  let top = divisions[0] as Division;
  for (const division of divisions) if (division.bound > top.bound) top = division;
  return top;
}

/** Best worth of cut items by one limit: greedy is exact, because the layers an item may use form a chain. */
class AreaGreedy {
  private readonly order: Int32Array;
  private readonly room = new Float64Array(64);
  private readonly problem: ColumnProblem;
  private readonly share: LayerShare;

  constructor(problem: ColumnProblem, share: LayerShare) {
    this.problem = problem;
    this.share = share;
    const density = (item: number): number => (problem.worth[item] as number) / (share.use[item] as number);
    this.order = Int32Array.from(problem.worth.keys()).sort((a, b) => density(b) - density(a));
  }

  bound({ low, top }: Division): number {
    const { room, share, order } = this;
    const { worth, height } = this.problem;
    const layers = low.length + 1;
    // Layers in order of height; the top layer comes after all lower ones that are no taller.
    let lower = 0;
    while (lower < low.length && (low[lower] as number) <= top) lower++;
    const allowed = (c: number): number => (c < lower ? low[c] : c === lower ? top : low[c - 1]) as number;
    let behind = 0;
    for (let c = layers - 1; c >= 0; c--) {
      behind += c === lower ? share.top : share.low;
      room[c] = behind;
    }
    let total = 0;
    for (let k = 0; k < order.length; k++) {
      const item = order[k] as number;
      const tall = height[item] as number;
      let c = 0;
      let free = Infinity;
      while (c < layers && allowed(c) < tall) {
        free = Math.min(free, room[c] as number);
        c++;
      }
      if (c === layers) continue;
      free = Math.min(free, room[c] as number);
      if (free <= 0) continue;
      const wanted = share.use[item] as number;
      const taken = Math.min(free, wanted);
      for (let d = 0; d <= c; d++) room[d] = (room[d] as number) - taken;
      total += ((worth[item] as number) * taken) / wanted;
    }
    return total;
  }
}

function divisionsOf(problem: ColumnProblem): Division[] {
  const { height, roof, base, thickness, headroom, lidHeadroom, maxLayers } = problem;
  const fitter = new PostFitter(problem.posts, problem.maxStack);
  const tops = [...new Set(height)].sort((a, b) => a - b);
  // A layer just tall enough for some item also holds what else its posts leave room for.
  const pitches = [
    ...new Set(
      tops.map((tall) => fitter.stacks[fitter.lowest(tall + headroom)]?.height).filter((each) => each !== undefined),
    ),
  ].sort((a, b) => a - b);
  const least = (tops[0] ?? Infinity) + lidHeadroom;
  const divisions: Division[] = [];
  const extend = (from: number, left: number, low: readonly number[]): void => {
    divisions.push({ low, top: left - lidHeadroom + hair, bound: Infinity });
    if (low.length + 1 >= maxLayers) return;
    for (let k = from; k < pitches.length; k++) {
      const pitch = pitches[k] as number;
      const rest = left - pitch - thickness;
      if (rest < least - hair) break;
      extend(k, rest, [...low, pitch - headroom + hair]);
    }
  };
  if (roof - base >= least - hair) extend(0, roof - base, []);
  return divisions;
}

function boundOf(weighing: Weighing, shares: readonly LayerShare[], division: Division): number {
  let bound = weighing.rest;
  for (const { share, above, weight } of weighing.entries) {
    const limit = shares[share] as LayerShare;
    for (const tall of division.low) if (tall > above) bound += weight * limit.low;
    if (division.top > above) bound += weight * limit.top;
  }
  return bound;
}

/** Best weights for one division: the duals of its linear program. Null if the solver gives none. */
function weigh(
  problem: ColumnProblem,
  shares: readonly LayerShare[],
  division: Division,
  solver: MipSolver,
): Weighing | null {
  const { height, worth } = problem;
  const allowed = [...division.low, division.top].sort((a, b) => a - b);
  const tallest = allowed[allowed.length - 1] as number;
  const items = Array.from(height, (_, item) => item);
  const taken = items.filter((item) => (height[item] as number) <= tallest);
  const column = new Map(taken.map((item, k) => [item, k]));
  const rows: MixedIntegerProgram["rows"][number][] = [];
  const meaning: { share: number; above: number }[] = [];
  // From the tallest edge down: of two edges with the same items above them the taller one leaves less room.
  const edges = [...new Set([0, ...allowed.slice(0, -1)])].sort((a, b) => b - a);
  let members = -1;
  for (const above of edges) {
    const tall = taken.filter((item) => (height[item] as number) > above);
    if (tall.length === members || tall.length === 0) continue;
    members = tall.length;
    shares.forEach((limit, share) => {
      const users = tall.filter((item) => (limit.use[item] as number) > 0);
      const room =
        division.low.filter((each) => each > above).length * limit.low + (division.top > above ? limit.top : 0);
      if (users.reduce((sum, item) => sum + (limit.use[item] as number), 0) <= room) return;
      // In units of the room: the solver likes numbers near 1.
      rows.push({
        columns: users.map((item) => column.get(item) as number),
        coefficients: users.map((item) => (limit.use[item] as number) / room),
        lower: -Infinity,
        upper: 1,
      });
      meaning.push({ share, above });
    });
  }
  const entries: { share: number; above: number; weight: number }[] = [];
  if (rows.length > 0) {
    const result = solver.solve(
      {
        objective: taken.map((item) => worth[item] as number),
        lower: taken.map(() => 0),
        upper: taken.map(() => 1),
        whole: taken.map(() => false),
        rows,
      },
      10,
      0,
    );
    if (result.status !== "solved" || !result.duals) return null;
    meaning.forEach(({ share, above }, k) => {
      const limit = shares[share] as LayerShare;
      const room =
        division.low.filter((each) => each > above).length * limit.low + (division.top > above ? limit.top : 0);
      const weight = Math.max(result.duals?.[k] as number, 0) / room;
      if (weight > 0) entries.push({ share, above, weight });
    });
  }
  // Items too tall for this division have no room in it; where there is room they pay by area.
  const out = items.filter((item) => !column.has(item));
  if (out.length > 0) {
    const area = (shares[0] as LayerShare).use;
    const weight = Math.max(...out.map((item) => (worth[item] as number) / (area[item] as number)));
    entries.push({ share: 0, above: tallest, weight });
  }
  const rest = items.reduce((sum, item) => {
    let price = 0;
    for (const { share, above, weight } of entries) {
      if ((height[item] as number) > above) price += weight * ((shares[share] as LayerShare).use[item] as number);
    }
    return sum + Math.max((worth[item] as number) - price, 0);
  }, 0);
  return { entries, rest };
}
