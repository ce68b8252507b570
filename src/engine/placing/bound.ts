import { areaOf, type Outline } from "#engine/geometry";
import { coveredArea } from "./covered-area.ts";
import { gapOf, type Item } from "./kiln-column.ts";
import type { PlacingRequest } from "./proposal.ts";

/**
 * Proven upper bound on the worth of any setting, full or half shelves, from volume [-].
 *
 * Along a vertical line of the plan, each piece takes its height, headroom and the shelf above it; pieces grown by
 * half the gap never share a line between two shelves and lie in the chamber less the ware's distance to the wall,
 * grown likewise. A knapsack over that volume, items cut, is no less than any setting.
 */
export function volumeBound(request: PlacingRequest, items: readonly Item[]): number {
  const { kiln, furniture } = request;
  const { rules } = kiln;
  const gap = gapOf(request);
  const thickness = furniture.shelves.reduce((least, shelf) => Math.min(least, shelf.thickness), Infinity);
  const extra = rules.headroom + thickness;
  const line = kiln.chamber.height - rules.bottomGap - thickness + extra - rules.lidHeadroom;
  let left = Math.max(line, 0) * areaOf(grown(kiln.chamber.plan, gap / 2 - rules.wareToWall));
  const sized = items
    // Scan lines are good to 1e-3: the bound must not rest on their last digit.
    .map((item) => ({
      worth: item.worth,
      volume: 0.998 * coveredArea(item.footprint, gap / 2) * (item.height + extra),
    }))
    .sort((a, b) => b.worth / b.volume - a.worth / a.volume);
  let bound = 0;
  for (const { worth, volume } of sized) {
    const share = Math.min(1, left / volume);
    bound += worth * share;
    left -= volume * share;
    if (left <= 0) break;
  }
  return bound;
}

/** An outline with its edge moved out by `by` [m] (in, where negative); corners stay sharp, so it is never too small. */
function grown(outline: Outline, by: number): Outline {
  switch (outline.kind) {
    case "disc":
    case "half-disc":
      return { ...outline, radius: Math.max(outline.radius + by, 0) };
    case "rectangle":
      return { ...outline, width: Math.max(outline.width + 2 * by, 0), depth: Math.max(outline.depth + 2 * by, 0) };
    case "polygon":
      return { ...outline, inradius: Math.max(outline.inradius + by, 0) };
  }
}
