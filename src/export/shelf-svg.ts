import { placeFootprint, type Placement, type RoundedBox } from "#engine/geometry";
import {
  conePackFootprint,
  footprintOf,
  shapeOf,
  shelfTypeOf,
  shelvesFromBottom,
  type Load,
  type PlacedShelf,
} from "#engine/kiln";
import { outlinePoints } from "#work";
import type { Plan } from "./plan.ts";

/** Around the shelf, and under it for the line of text [mm]. */
const margin = 12;
const foot = 26;

/**
 * One shelf from above as SVG in its real size, black on white: outline, pieces with their numbers, cones, and the posts
 * that stand on it crossed. The kiln's left is left, its back is up. Printed at 100 % it is a template to load by.
 *
 * @param shelfNumber  counted from the bottom, from 1
 * @returns null if there is no such shelf
 */
export function shelfSvg(plan: Plan, shelfNumber: number): string | null {
  const { load, numbers } = plan;
  const shelves = shelvesFromBottom(load.setting);
  const shelf = shelves[shelfNumber - 1];
  if (!shelf) return null;
  const outline = outlinePoints(shelfTypeOf(load, shelf).outline, shelf).map(
    ([x, y]) => [x * 1000, -y * 1000] as const,
  );
  const left = Math.min(...outline.map(([x]) => x)) - margin;
  const top = Math.min(...outline.map(([, y]) => y)) - margin;
  const width = Math.max(...outline.map(([x]) => x)) + margin - left;
  const height = Math.max(...outline.map(([, y]) => y)) + foot - top;
  const pieces = load.setting.pieces.filter((piece) => piece.shelfId === shelf.id);
  const caption = `${load.kiln.name}, setting ${plan.settingName}, shelf ${shelfNumber} of ${shelves.length} from the bottom, ${pieces.length} ${pieces.length === 1 ? "piece" : "pieces"}`;
  const line = `${caption}. Back of the kiln up. Real size: print at 100 %.`;
  const names = [...pieces]
    .sort((a, b) => (numbers.get(a.pieceId)?.number ?? 0) - (numbers.get(b.pieceId)?.number ?? 0))
    .map(({ pieceId }) => {
      const party = plan.partyOf(pieceId);
      return `${numbers.get(pieceId)?.number ?? "?"} ${shapeOf(load, pieceId).name}${party === "" ? "" : `, ${party}`}`;
    });
  const drawn = pieces.map((placed) => {
    const footprint = placeFootprint(footprintOf(shapeOf(load, placed.pieceId)), placed);
    const number = numbers.get(placed.pieceId)?.number ?? "?";
    const { x, y } = footprint[0]!;
    // Handles first: the body's line covers where they join.
    const boxes = [...footprint].reverse().map((box) => `<path d="${boxPath(box)}"/>`);
    return `<g>${boxes.join("")}<text x="${mm(x)}" y="${mm(-y)}" dy="0.35em" fill="#000" stroke="none">${number}</text></g>`;
  });
  const packs = load.setting.cones
    .filter(({ shelfId }) => shelfId === shelf.id)
    .map((pack) =>
      placeFootprint(conePackFootprint(pack.cones.length), pack).map((box) => `<path d="${boxPath(box)}"/>`),
    );
  const posts = postsOn(load, shelf).map(({ x, y, width: side }) => {
    const box = { x, y, angle: 0, halfX: side / 2, halfY: side / 2, radius: 0 };
    const [l, r, t, b] = [x - side / 2, x + side / 2, -y - side / 2, -y + side / 2].map(mm);
    return `<path d="${boxPath(box)}M${l} ${t}L${r} ${b}M${r} ${t}L${l} ${b}"/>`;
  });
  const points = outline.map(([x, y]) => `${round(x)},${round(y)}`).join(" ");
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${round(width)}mm" height="${round(height)}mm" viewBox="${[left, top, width, height].map(round).join(" ")}">
<title>${escaped(caption)}</title>
<desc>${escaped(names.join("; "))}</desc>
<rect x="${round(left)}" y="${round(top)}" width="${round(width)}" height="${round(height)}" fill="#fff"/>
<polygon points="${points}" fill="#fff" stroke="#000" stroke-width="1"/>
<g fill="#fff" stroke="#000" stroke-width="0.6">
${posts.join("\n")}
${packs.flat().join("\n")}
</g>
<g fill="#fff" stroke="#000" stroke-width="0.8" font-family="sans-serif" font-size="12" text-anchor="middle">
${drawn.join("\n")}
</g>
<text x="${round(left + margin)}" y="${round(top + height - 8)}" font-family="sans-serif" font-size="${round(Math.min(8, (width - 2 * margin) / (0.5 * line.length)))}">${escaped(line)}</text>
</svg>
`;
}

const round = (value: number): number => Math.round(value * 100) / 100 + 0;
const mm = (metres: number): number => round(metres * 1000);

/** Posts whose foot is on the shelf: of the lowest shelf above it that covers the spot. */
function postsOn(
  load: Load,
  shelf: PlacedShelf,
): readonly { readonly x: number; readonly y: number; readonly width: number }[] {
  const thick = (of: PlacedShelf): number => shelfTypeOf(load, of).thickness;
  return load.setting.shelves.flatMap((above) =>
    above.posts
      .filter(({ lengths }) => {
        const base = above.z - thick(above) - lengths.reduce((sum, length) => sum + length, 0);
        return Math.abs(base - shelf.z) < 2e-3;
      })
      .map(({ x, y, lengths }) => ({
        x,
        y,
        width: load.furniture.posts.find(({ length }) => length === lengths[0])?.width ?? 0.038,
      })),
  );
}

/** A rounded box as a closed path, y down, in mm. */
function boxPath({ x, y, angle, halfX, halfY, radius }: RoundedBox): string {
  const at: Placement = { x, y, angle };
  const point = (px: number, py: number): string => {
    const cos = Math.cos(at.angle);
    const sin = Math.sin(at.angle);
    return `${mm(at.x + cos * px - sin * py)} ${mm(-(at.y + sin * px + cos * py))}`;
  };
  const r = mm(radius);
  const arc = (px: number, py: number): string =>
    radius > 0 ? `A${r} ${r} 0 0 0 ${point(px, py)}` : `L${point(px, py)}`;
  return [
    `M${point(halfX + radius, -halfY)}`,
    `L${point(halfX + radius, halfY)}`,
    arc(halfX, halfY + radius),
    `L${point(-halfX, halfY + radius)}`,
    arc(-halfX - radius, halfY),
    `L${point(-halfX - radius, -halfY)}`,
    arc(-halfX, -halfY - radius),
    `L${point(halfX, -halfY - radius)}`,
    arc(halfX + radius, -halfY),
    "Z",
  ].join("");
}

function escaped(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");
}
