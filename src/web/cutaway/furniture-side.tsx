import type { ReactNode } from "react";
import { shelfTypeOf, type Load, type PlacedCones, type PlacedPost, type PlacedShelf } from "#engine/kiln";
import { outlinePoints } from "#work";
import { xOf, yOf, type SideFrame } from "./side-frame.ts";
import { acrossOf, backHalf, type SideView } from "./side-view.ts";

export interface FurnitureSideProps {
  readonly load: Load;
  readonly view: SideView;
  readonly frame: SideFrame;
  readonly prefix: string;
}

export interface ShelfBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly isCut: boolean;
}

/** Where a shelf's drawn half lies on the drawing; null if all of it is cut away. */
export function shelfBox({ load, view, frame }: FurnitureSideProps, shelf: PlacedShelf): ShelfBox | null {
  const type = shelfTypeOf(load, shelf);
  const extent = backHalf(view, outlinePoints(type.outline, shelf));
  if (!extent) return null;
  const x = xOf(frame, extent.from);
  return {
    x,
    y: yOf(frame, shelf.z),
    width: xOf(frame, extent.to) - x,
    height: Math.max(type.thickness * frame.scale, 2.5),
    isCut: extent.isCut,
  };
}

/** A shelf: slanted where it is cut through, plain where it stands behind, a dashed line where it is cut away. */
export function ShelfSide(
  props: FurnitureSideProps & { readonly shelf: PlacedShelf; readonly isPicked: boolean },
): ReactNode {
  const { load, view, frame, prefix, shelf, isPicked } = props;
  const box = shelfBox(props, shelf);
  if (!box) {
    const points = outlinePoints(shelfTypeOf(load, shelf).outline, shelf).map(([x, y]) => acrossOf(view, x, y));
    const y = yOf(frame, shelf.z);
    return (
      <path
        d={`M${xOf(frame, Math.min(...points))} ${y}H${xOf(frame, Math.max(...points))}`}
        stroke={isPicked ? "var(--accent)" : "var(--edge)"}
        strokeWidth={isPicked ? 3 : 1}
        strokeDasharray="5 4"
      />
    );
  }
  const rect = { x: box.x, y: box.y, width: box.width, height: box.height };
  return (
    <>
      <rect {...rect} fill="var(--shelf)" />
      <rect {...rect} fill={box.isCut ? `url(#${prefix}-shelf)` : "none"} stroke="var(--ink)" strokeWidth="1.3" />
      {isPicked ? (
        <rect
          x={box.x - 4}
          y={box.y - 4}
          width={box.width + 8}
          height={box.height + 8}
          rx="4"
          fill="none"
          stroke="var(--accent)"
          strokeWidth="3"
        />
      ) : null}
    </>
  );
}

/** A stack of posts with its centre line, and a joint where two meet. */
export function PostSide(
  props: FurnitureSideProps & { readonly shelf: PlacedShelf; readonly post: PlacedPost; readonly width: number },
): ReactNode {
  const { load, view, frame, shelf, post } = props;
  const top = shelf.z - shelfTypeOf(load, shelf).thickness;
  const half = (props.width / 2) * frame.scale;
  const x = xOf(frame, acrossOf(view, post.x, post.y));
  let upper = top;
  const joints: number[] = [];
  for (const length of [...post.lengths].reverse()) {
    upper -= length;
    joints.push(upper);
  }
  const foot = yOf(frame, upper);
  const head = yOf(frame, top);
  const crossings = joints.slice(0, -1).map((z) => yOf(frame, z));
  return (
    <>
      <rect
        x={x - half}
        y={head}
        width={2 * half}
        height={foot - head}
        fill="var(--post)"
        stroke="var(--ink)"
        strokeWidth="1"
      />
      <path d={crossings.map((y) => `M${x - half} ${y}H${x + half}`).join("")} stroke="var(--ink)" strokeWidth="0.8" />
      <path d={`M${x} ${head + 2}V${foot - 2}`} stroke="var(--shelfline)" strokeWidth="1" strokeDasharray="2 3" />
    </>
  );
}

/** Height of a large cone over its holder [m]. Common practice, no source. */
const coneHeight = 0.062;

/** A pack of cones: leaning spikes in line art, so that small ware behind stays in sight. */
export function ConesSide({ load, view, frame, pack }: FurnitureSideProps & { readonly pack: PlacedCones }): ReactNode {
  const shelf = load.setting.shelves.find(({ id }) => id === pack.shelfId);
  if (!shelf) return null;
  const x = xOf(frame, acrossOf(view, pack.x, pack.y));
  const y = yOf(frame, shelf.z);
  const count = Math.max(pack.cones.length, 1);
  // Seen along its row the pack is narrow: the cones stand behind each other.
  const long = (count * 16 + 6) / 1000;
  const seen = Math.abs(Math.cos(pack.angle - view.right)) * long + Math.abs(Math.sin(pack.angle - view.right)) * 0.024;
  const half = Math.max((seen / 2) * frame.scale, 7);
  const base = Math.max(0.009 * frame.scale, 3);
  const tall = coneHeight * frame.scale;
  const foot = Math.max(0.006 * frame.scale, 2.2);
  return (
    <g strokeLinejoin="round">
      {Array.from({ length: count }, (_, i) => {
        const at = count === 1 ? x : x - half * 0.72 + (1.44 * half * i) / (count - 1);
        const d = `M${at - foot} ${y - base}L${at + foot * 0.5} ${y - base - tall}L${at + foot} ${y - base}Z`;
        return (
          <g key={at}>
            <path d={d} fill="none" stroke="var(--halo)" strokeWidth="3" />
            <path d={d} fill="none" stroke="var(--outline)" strokeWidth="1.1" />
          </g>
        );
      })}
      <rect
        x={x - half}
        y={y - base}
        width={2 * half}
        height={base}
        fill="var(--post)"
        stroke="var(--outline)"
        strokeWidth="1"
      />
    </g>
  );
}
