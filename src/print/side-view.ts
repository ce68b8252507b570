import {
  conePackHeight,
  conePitch,
  known,
  liftOf,
  shapeOf,
  shelfTypeOf,
  shelvesFromBottom,
  type Load,
  type PlacedPiece,
} from "#engine/kiln";
import { outlinePoints, reachAlong, silhouetteOf, type HeatClass, type SidePoint } from "#work";
import { hatched, line, polyline, rectangle, type PagePoint } from "./drawing.ts";
import { heatMark } from "./heat-marks.ts";
import { type } from "./paper.ts";
import type { SheetInput } from "./sheet-input.ts";
import { sideKiln } from "./side-kiln.ts";
import { sideScale, type SideScale } from "./side-scale.ts";
import { strong, textLine } from "./text.ts";

/** Ware this far before the cut is still drawn [m]: the cut goes round pieces that stand on it. */
const beforeCut = 0.03;

/**
 * The kiln cut open and seen from the side, to scale, with heights. What stands in the front half is left out; of the
 * rest the farther is drawn first, with a thinner line.
 */
export function sideView(
  input: SheetInput,
  area: { readonly left: number; readonly top: number; readonly width: number; readonly height: number },
  heats: ReadonlyMap<string, HeatClass>,
): { readonly svg: string; readonly right: number; readonly bottom: number } {
  const { load } = input;
  const at = sideScale(load, area.left, area.top, area.width, area.height);
  const kiln = sideKiln(load, at, input.units);
  const [right, bottom] = at.toPage(at.outer.right, at.outer.bottom);
  return {
    svg: [
      kiln.behind,
      ...load.setting.shelves.map((shelf) => posts(load, shelf, at)),
      ...load.setting.shelves.map((shelf) => shelfBar(load, shelf, at)),
      ...pieces(load, at, heats),
      ...conePacks(load, at),
      kiln.before,
      ...shelfNumbers(load, at),
    ].join(""),
    right,
    bottom,
  };
}

type Shelf = Load["setting"]["shelves"][number];

function posts(load: Load, shelf: Shelf, at: SideScale): string {
  const top = shelf.z - shelfTypeOf(load, shelf).thickness;
  return shelf.posts
    .map((post) => {
      const { right, back } = at.across(post.x, post.y);
      if (back < -beforeCut) return "";
      const used = load.furniture.posts.filter((each) => post.lengths.includes(each.length));
      const half = Math.max(0.02, ...used.map((each) => each.width)) / 2;
      const bottom = top - post.lengths.reduce((sum, length) => sum + length, 0);
      const [x, y] = at.toPage(right - half, top);
      const [middle, low] = at.toPage(right, bottom);
      let joint = bottom;
      const joints = post.lengths.slice(0, -1).map((length) => {
        joint += length;
        const [, jointY] = at.toPage(right, joint);
        return line([x, jointY], [x + 2 * half * at.scale, jointY], { width: 0.4 });
      });
      return (
        rectangle([x, y], 2 * half * at.scale, low - y, { width: 0.6, fill: "white" }) +
        line([middle, y], [middle, low], { width: 0.4, dash: [2, 2] }) +
        joints.join("")
      );
    })
    .join("");
}

function shelfBar(load: Load, shelf: Shelf, at: SideScale): string {
  const { outline, thickness } = shelfTypeOf(load, shelf);
  const across = outlinePoints(outline, shelf).map(([x, y]) => at.across(x, y));
  const { from, to } = reachAlong(
    across.map(({ right }) => [right, 0] as const),
    1,
    0,
  );
  // A half shelf that lies wholly before the cut is not seen.
  if (Math.max(...across.map(({ back }) => back)) < beforeCut) return "";
  const bar: readonly PagePoint[] = [
    at.toPage(from, shelf.z - thickness),
    at.toPage(to, shelf.z - thickness),
    at.toPage(to, shelf.z),
    at.toPage(from, shelf.z),
  ];
  return (
    polyline(bar, true, { width: 0.9, fill: "white" }) + hatched(bar, 2.2, 0.3) + polyline(bar, true, { width: 0.9 })
  );
}

function pieces(load: Load, at: SideScale, heats: ReadonlyMap<string, HeatClass>): readonly string[] {
  return load.setting.pieces
    .map((placed) => ({ placed, ...at.across(placed.x, placed.y) }))
    .filter(({ back }) => back >= -beforeCut)
    .sort((a, b) => b.back - a.back)
    .map(({ placed, right, back }) =>
      onePiece(load, placed, right, back > 0.12, at, heats.get(placed.pieceId) ?? "wanted"),
    );
}

function onePiece(
  load: Load,
  placed: PlacedPiece,
  right: number,
  far: boolean,
  at: SideScale,
  heat: HeatClass,
): string {
  const shelf = load.setting.shelves.find((each) => each.id === placed.shelfId);
  const piece = known(load.pieces, placed.pieceId, "piece");
  const lift = liftOf(load, piece);
  const foot = (shelf?.z ?? 0) + lift;
  const view = silhouetteOf(shapeOf(load, placed.pieceId), placed.angle + at.turn);
  const width = far ? 0.45 : 0.9;
  const toPage = (points: readonly SidePoint[]): readonly PagePoint[] =>
    points.map(([r, z]) => at.toPage(right + r, foot + z));
  const body = toPage(view.body);
  const closed = (points: readonly SidePoint[], fill: "white" | "none" = "white"): string =>
    polyline(toPage(points), true, { width, fill });
  const handle = view.handle ? strap(toPage(view.handle.centre), view.handle.width * at.scale, width) : "";
  const spout = view.spout ? closed(view.spout.outline) : "";
  return [
    lift > 0 ? stilt(load, placed, right, shelf?.z ?? 0, lift, at) : "",
    view.handle && !view.handle.inFront ? handle : "",
    view.spout && !view.spout.inFront ? spout : "",
    polyline(body, true, { width, fill: "white" }),
    heatMark(heat, body, at.scale),
    polyline(body, true, { width }),
    ...view.lines.map(([a, b]) => polyline(toPage([a, b]), false, { width: 0.35 })),
    view.lid ? closed(view.lid) : "",
    view.handle?.inFront ? handle : "",
    view.spout?.inFront ? spout : "",
  ].join("");
}

/** A handle: a white strap with a black edge on both sides. */
function strap(centre: readonly PagePoint[], thick: number, width: number): string {
  const path = centre.map(([x, y], i) => `${i === 0 ? "M" : "L"}${x.toFixed(2)} ${y.toFixed(2)}`).join("");
  const inner = Math.max(thick - width, 0.4);
  return `<path d="${path}" fill="none" stroke="black" stroke-width="${(thick + width).toFixed(2)}"/><path d="${path}" fill="none" stroke="white" stroke-width="${inner.toFixed(2)}"/>`;
}

function stilt(load: Load, placed: PlacedPiece, right: number, shelfTop: number, lift: number, at: SideScale): string {
  const piece = known(load.pieces, placed.pieceId, "piece");
  const span = load.furniture.stilts.find((each) => each.id === piece.stiltId)?.span ?? 0.04;
  return [-1, 1]
    .map((side) => {
      const foot = right + (side * span) / 2;
      return polyline(
        [at.toPage(foot - lift / 2, shelfTop), at.toPage(foot + lift / 2, shelfTop), at.toPage(foot, shelfTop + lift)],
        true,
        { width: 0.4, fill: "black" },
      );
    })
    .join("");
}

/** Leaning spikes in one holder. */
function conePacks(load: Load, at: SideScale): readonly string[] {
  return load.setting.cones.flatMap((cones) => {
    const shelf = load.setting.shelves.find((each) => each.id === cones.shelfId);
    if (!shelf) return [];
    const count = cones.cones.length;
    const spread = Math.max(Math.abs(Math.cos(cones.angle + at.turn)), 0.4) * conePitch;
    const { right } = at.across(cones.x, cones.y);
    const holder = at.toPage(right - (count * spread) / 2 - 0.004, shelf.z + 0.012);
    return [
      ...cones.cones.map((_, i) => {
        const foot = right + (i - (count - 1) / 2) * spread;
        const points = [
          at.toPage(foot - 0.006, shelf.z + 0.01),
          at.toPage(foot + 0.006, shelf.z + 0.01),
          at.toPage(foot + 0.004, shelf.z + conePackHeight),
        ];
        return polyline(points, true, { width: 0.6, fill: "white" });
      }),
      rectangle(holder, (count * spread + 0.008) * at.scale, 0.012 * at.scale, { width: 0.6, fill: "white" }),
    ];
  });
}

/** Numbers of the shelves at the right of the kiln; moved apart where shelves are closer than a line of text. */
function shelfNumbers(load: Load, at: SideScale): readonly string[] {
  const [edge] = at.toPage(at.outer.right, 0);
  let lowest = Infinity;
  return shelvesFromBottom(load.setting).map((shelf, i) => {
    const [, y] = at.toPage(0, shelf.z - shelfTypeOf(load, shelf).thickness / 2);
    const label = Math.min(y, lowest - 15);
    lowest = label;
    return (
      line([edge, y], [edge + 16, label], { width: 0.5 }) +
      textLine([strong(String(i + 1))], { x: edge + 20, y: label + 5, size: type.text })
    );
  });
}
