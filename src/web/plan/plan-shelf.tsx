import type { ReactNode } from "react";
import { shelfTypeOf, type Load, type PlacedPost, type PlacedShelf, type Setting } from "#engine/kiln";
import { outlinePoints } from "#work";
import { toScreen, type PlanFrame } from "./frame.ts";
import { circlePath, outlinePath } from "./paths.ts";

/** Shelves whose tops are this near count as one level: two half shelves side by side [m]. */
const sameLevel = 0.001;

export interface PlanShelfProps {
  readonly frame: PlanFrame;
  readonly load: Load;
  readonly shelf: PlacedShelf;
  /** The other half at the same height, if there is one. */
  readonly mates: readonly PlacedShelf[];
  readonly plain?: boolean;
}

/** A shelf from above. A half shelf beside its other half is parted from it by a dashed line. */
export function PlanShelf({ frame, load, shelf, mates, plain }: PlanShelfProps): ReactNode {
  const fill = plain ? "var(--raise)" : "var(--shelf)";
  const { outline } = shelfTypeOf(load, shelf);
  const half = outline.kind === "half-disc";
  const own = outlinePath(outline, frame, shelf);
  const split = half ? splitOf(frame, outlinePoints(outline, shelf)) : null;
  return (
    <>
      {half && mates.length === 0 ? (
        <path
          d={circlePath(...centreOf(frame, shelf), outline.radius * frame.scale)}
          fill="none"
          stroke="var(--edge)"
          strokeWidth="1"
          strokeDasharray="3 4"
        />
      ) : null}
      {mates.map((mate) => (
        <path
          key={mate.id}
          d={outlinePath(shelfTypeOf(load, mate).outline, frame, mate)}
          fill={fill}
          stroke="var(--edge)"
          strokeWidth="1.2"
        />
      ))}
      <path d={own} fill={fill} stroke="var(--ink)" strokeWidth="1.8" />
      {split && mates.length > 0 ? (
        <>
          <path d={split} stroke={fill} strokeWidth="2.6" />
          <path d={split} stroke="var(--ink)" strokeWidth="1.4" strokeDasharray="4 4" />
        </>
      ) : null}
    </>
  );
}

function centreOf(frame: PlanFrame, at: { readonly x: number; readonly y: number }): [number, number] {
  const { x, y } = toScreen(frame, at.x, at.y);
  return [x, y];
}

/** The straight edge of a half disc: from its last point back to its first. */
function splitOf(frame: PlanFrame, points: readonly (readonly [number, number])[]): string {
  const [from, to] = [points.at(-1)!, points[0]].map(([x, y]) => toScreen(frame, x, y)) as [
    ReturnType<typeof toScreen>,
    ReturnType<typeof toScreen>,
  ];
  return `M${from.x} ${from.y}L${to.x} ${to.y}`;
}

/** Shelves at the same height as `shelf`, without it. */
export function matesOf(setting: Setting, shelf: PlacedShelf): readonly PlacedShelf[] {
  return setting.shelves.filter((other) => other.id !== shelf.id && Math.abs(other.z - shelf.z) < sameLevel);
}

/** Height range in which the ware of a shelf stands: up to the next level above, or the lid [m]. */
export function layerOf(load: Load, shelf: PlacedShelf): { readonly from: number; readonly to: number } {
  const above = load.setting.shelves
    .filter((other) => other.z > shelf.z + sameLevel)
    .map((other) => other.z - shelfTypeOf(load, other).thickness);
  return { from: shelf.z, to: Math.min(load.kiln.chamber.height, ...above) };
}

/** Stacks that stand on a shelf: their foot is at its top. */
export function postsOn(load: Load, shelf: PlacedShelf): readonly PlacedPost[] {
  return load.setting.shelves
    .filter((other) => other.z > shelf.z)
    .flatMap((other) => {
      const underside = other.z - shelfTypeOf(load, other).thickness;
      return other.posts.filter(({ lengths }) => {
        const foot = underside - lengths.reduce((sum, length) => sum + length, 0);
        return Math.abs(foot - shelf.z) < 0.004;
      });
    });
}

/** Side of a post of that length; posts of a kiln are mostly of one width. */
export function postWidth(load: Load, post: PlacedPost): number {
  const known = load.furniture.posts.find(({ length }) => post.lengths.some((own) => Math.abs(own - length) < 1e-6));
  return known?.width ?? load.furniture.posts[0]?.width ?? 0.038;
}
