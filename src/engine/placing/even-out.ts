import type { Packed } from "./packer.ts";
import { nothingPacked } from "./packer.ts";
import type { Region } from "./region.ts";
import type { Layer, Search, Solution } from "./search.ts";
import { unevenness, type Burden } from "./evenness.ts";
import { inOrder, type Level } from "./tower.ts";

/** Layers by what they hold, from the bottom up, and how much more height each gets than it needs [m]. */
interface Plan {
  readonly contents: readonly (readonly number[])[];
  readonly extra: readonly number[];
}

/** Fullest a bay may be planned when everything fits: packs easily and leaves air. */
const airyFill = 0.7;
/** Moves of the annealing for one number of layers. */
const moves = 900;

/**
 * Settings of the same pieces that should fire more evenly, the most even first; `solution` itself is always among
 * them. When everything is placed, pieces may change layers and the number of layers is free; else whole layers
 * change places and heights. No piece is lost.
 *
 * @param all  is everything placed?
 */
export function evenOut(search: Search, solution: Solution, all: boolean): readonly Solution[] {
  const { problem } = search;
  const found: { solution: Solution; cost: number }[] = [{ solution, cost: costOf(search, solution) }];
  const plans: { plan: Plan; cost: number }[] = [];
  const packedPlan: Plan = {
    contents: solution.layers.map((layer) => layer.bays.flatMap((bay) => bay.members)),
    extra: solution.layers.map(() => 0),
  };
  plans.push(anneal(search, packedPlan, false));
  if (all) {
    const items = packedPlan.contents.flat();
    const most = Math.min(problem.maxLayers, 8, items.length);
    for (let layers = 1; layers <= most; layers++) {
      const start = dealt(search, items, layers);
      if (start) plans.push(anneal(search, start, true));
    }
  }
  plans.sort((a, b) => a.cost - b.cost);
  for (const { plan, cost } of plans) {
    if (found.length >= 4 || cost === Infinity) break;
    const made = realise(search, plan, solution);
    if (made && made.worth >= solution.worth - 1e-9) found.push({ solution: made, cost: costOf(search, made) });
  }
  return found.sort((a, b) => a.cost - b.cost).map((each) => each.solution);
}

function costOf(search: Search, { layers }: Solution): number {
  return unevenness(
    search.problem,
    layers.map((layer) => layer.level),
    layers.map((layer) =>
      burdenOf(
        search,
        layer.bays.flatMap((bay) => bay.members),
      ),
    ),
  );
}

function burdenOf({ problem }: Search, items: readonly number[]): Burden {
  let mass = 0;
  let area = 0;
  let tallest = 0;
  for (const item of items) {
    mass += problem.mass[item];
    area += problem.area[item];
    tallest = Math.max(tallest, problem.height[item]);
  }
  return { mass, fill: area / (problem.bayArea * problem.bays), tallest };
}

/** Items of like height together, about the same area on each layer; null if they cannot be so few layers. */
function dealt(search: Search, items: readonly number[], layers: number): Plan | null {
  const { problem } = search;
  const sorted = [...items].sort((a, b) => problem.height[b] - problem.height[a] || a - b);
  const total = sorted.reduce((sum, item) => sum + problem.area[item], 0);
  if (total > layers * problem.bays * problem.bayArea * airyFill) return null;
  const contents: number[][] = Array.from({ length: layers }, () => []);
  let before = 0;
  for (const item of sorted) {
    const layer = Math.min(Math.floor((before / total) * layers), layers - 1);
    contents[layer]?.push(item);
    before += problem.area[item];
  }
  // Few large pieces can leave a layer empty.
  const filled = contents.filter((content) => content.length > 0);
  return filled.length < layers ? null : { contents: filled, extra: filled.map(() => 0) };
}

/** Lowers the unevenness of a plan by moving layers, heights and, if `free`, pieces. */
function anneal(search: Search, start: Plan, free: boolean): { plan: Plan; cost: number } {
  const { problem, random } = search;
  const evaluate = (plan: Plan): number => {
    const burdens = plan.contents.map((content) => burdenOf(search, content));
    if (free && burdens.some(({ fill, mass }) => fill > airyFill || mass > problem.shelfLoad * problem.bays * 0.95)) {
      return Infinity;
    }
    const levels = levelsOf(search, plan, burdens);
    return levels ? unevenness(problem, levels, burdens) : Infinity;
  };
  let plan = start;
  let cost = evaluate(plan);
  let best = { plan, cost };
  for (let move = 0; move < moves; move++) {
    const next = changed(plan, free, random);
    if (!next) continue;
    const nextCost = evaluate(next);
    const heat = 0.03 * (1 - move / moves) ** 2;
    const better = nextCost <= cost || (nextCost < Infinity && random.uniform() < Math.exp((cost - nextCost) / heat));
    if (!better) continue;
    plan = next;
    cost = nextCost;
    if (cost < best.cost) best = { plan, cost };
  }
  search.packer.work += moves;
  return best;
}

function levelsOf(search: Search, plan: Plan, burdens: readonly Burden[]): readonly Level[] | null {
  return inOrder(
    search.problem,
    search.fitter,
    burdens.map((burden) => burden.tallest),
    plan.contents.map((_, layer) => layer),
    plan.extra,
  );
}

function changed(plan: Plan, free: boolean, random: Search["random"]): Plan | null {
  const { contents, extra } = plan;
  const layers = contents.length;
  const pick = random.uniform();
  const at = random.below(layers);
  const other = random.below(layers);
  if (pick < 0.3) {
    const more = Math.max(extra[at] + 0.06 * random.normal(), 0);
    return { contents, extra: extra.with(at, random.uniform() < 0.2 ? 0 : more) };
  }
  if (layers === 1 || at === other) return null;
  if (pick < 0.55 || !free) {
    const swap = <Value>(list: readonly Value[]): Value[] => list.with(at, list[other]).with(other, list[at]);
    return { contents: swap(contents), extra: swap(extra) };
  }
  const from = contents[at];
  const to = contents[other];
  const item = from[random.below(from.length)];
  if (pick < 0.8) {
    if (from.length === 1) return null;
    const left = from.filter((each) => each !== item);
    return { contents: contents.with(at, left).with(other, [...to, item]), extra };
  }
  const back = to[random.below(to.length)];
  return {
    contents: contents
      .with(at, [...from.filter((each) => each !== item), back])
      .with(other, [...to.filter((each) => each !== back), item]),
    extra,
  };
}

/** Packs a plan: bays that already hold the same items keep their places where the new height allows; null if one fails. */
function realise(search: Search, plan: Plan, from: Solution): Solution | null {
  const burdens = plan.contents.map((content) => burdenOf(search, content));
  const levels = levelsOf(search, plan, burdens);
  if (!levels) return null;
  const layers: Layer[] = [];
  for (const [k, level] of levels.entries()) {
    const content = plan.contents[k];
    const regions = search.regionsOf(level);
    const old = from.layers.find((layer) => layer.bays.flatMap((bay) => bay.members).join() === content.join());
    const bays = old ? repacked(search, regions, old) : packed(search, regions, content);
    if (!bays) return null;
    layers.push({ level, regions, bays });
  }
  return search.solution(layers);
}

function repacked(search: Search, regions: readonly Region[], old: Layer): Packed[] | null {
  const bays: Packed[] = [];
  for (const [b, bay] of old.bays.entries()) {
    const region = regions[b];
    const moved = region === old.regions[b] ? bay : search.packer.pack(region, bay, [], 12);
    if (!moved) return null;
    bays.push(moved);
  }
  return bays;
}

function packed(search: Search, regions: readonly Region[], content: readonly number[]): Packed[] | null {
  const { problem, packer } = search;
  const bySize = [...content].sort((a, b) => problem.area[b] - problem.area[a] || a - b);
  const shares: number[][] = regions.map(() => []);
  const areas = regions.map(() => 0);
  for (const item of bySize) {
    const emptiest = areas.indexOf(Math.min(...areas));
    shares[emptiest]?.push(item);
    areas[emptiest] = areas[emptiest] + problem.area[item];
  }
  const bays: Packed[] = [];
  for (const [b, region] of regions.entries()) {
    const share = shares[b];
    const mass = share.reduce((sum, item) => sum + problem.mass[item], 0);
    const bay = share.length === 0 ? nothingPacked : packer.pack(region, nothingPacked, share, 40);
    if (!bay || mass > problem.shelfLoad) return null;
    bays.push(bay);
  }
  return bays;
}
