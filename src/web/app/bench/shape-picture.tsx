import type { ReactNode } from "react";
import type { Shape } from "#engine/kiln";
import { silhouetteOf, type SidePoint } from "#work";

/** One scale for every silhouette in a list [CSS px per metre]. */
export const listScale = 150;

export interface ShapePictureProps {
  readonly shape: Shape;
  readonly scale?: number;
  /** Drawn with a double edge, as bisque is everywhere. */
  readonly isBisque?: boolean;
}

/** A shape from the side, to scale, as a small picture beside its name. */
export function ShapePicture({ shape, scale = listScale, isBisque = false }: ShapePictureProps): ReactNode {
  const side = silhouetteOf(shape);
  const margin = 1.5;
  const width = (side.right - side.left) * scale + 2 * margin;
  const height = Math.max(side.height * scale, 2) + 2 * margin;
  const point = ([right, up]: SidePoint): string =>
    `${((right - side.left) * scale + margin).toFixed(1)} ${(height - margin - up * scale).toFixed(1)}`;
  const closed = (points: readonly SidePoint[]): string => `M${points.map(point).join("L")}Z`;
  const handle = side.handle ? `M${side.handle.centre.map(point).join("L")}` : null;
  const strap = Math.max((side.handle?.width ?? 0) * scale, 2.4);
  return (
    <svg className="bench-shape" width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      {handle ? (
        <>
          <path d={handle} fill="none" stroke="var(--outline)" strokeWidth={strap + 2} strokeLinecap="round" />
          <path d={handle} fill="none" stroke="var(--heat-wanted)" strokeWidth={Math.max(strap - 0.6, 1)} />
        </>
      ) : null}
      {side.spout ? <path d={closed(side.spout.outline)} className="bench-shape-line" /> : null}
      {side.lid ? <path d={closed(side.lid)} className="bench-shape-line" /> : null}
      <path d={closed(side.body)} className="bench-shape-line" />
      {isBisque && height > 14 ? (
        <path
          d={closed(side.body)}
          className="bench-shape-line inner"
          transform={`translate(${width * 0.1} ${height * 0.1}) scale(0.8)`}
        />
      ) : null}
    </svg>
  );
}
