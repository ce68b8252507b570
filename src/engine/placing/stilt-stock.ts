import type { Item } from "./kiln-column.ts";
import type { PlacingRequest } from "./proposal.ts";

/**
 * Items that the stilts in stock can carry, and those left without: of each kind the ones of most worth come first.
 *
 * What is kept is worth as much as any choice of items that the stock allows, so its sum is an upper bound too.
 *
 * @param standing  items that stand already and keep their stilts
 */
export function withinStiltStock(
  request: PlacingRequest,
  items: readonly Item[],
  standing: readonly Item[] = [],
): { readonly kept: readonly Item[]; readonly without: readonly Item[] } {
  const left = new Map(request.furniture.stilts.map((stilt) => [stilt.id, stilt.count]));
  const take = ({ piece: { stiltId } }: Item): boolean => {
    if (stiltId === null) return true;
    const count = left.get(stiltId) ?? 0;
    left.set(stiltId, count - 1);
    return count > 0;
  };
  for (const item of standing) take(item);
  const carried = new Set([...items].sort((a, b) => b.worth - a.worth).filter(take));
  return {
    kept: items.filter((item) => carried.has(item)),
    without: items.filter((item) => !carried.has(item)),
  };
}
