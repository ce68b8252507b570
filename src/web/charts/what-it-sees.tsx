import type { ReactNode } from "react";
import { seenKinds, type PieceView, type SeenKind, type SeenShares } from "#engine/radiation";
import { Patterns, usePatternPrefix } from "#web/ui";
import { formatShare } from "#words";
import { ChartTable } from "./chart-table.tsx";
import { outlinesOf, smoothed, type LatticePoint } from "./view-regions.ts";
import "./charts.css";

export interface WhatItSeesProps {
  /** From `viewFromPiece`. */
  readonly view: Pick<PieceView, "size" | "kind" | "body" | "horizon" | "shares">;
  /** "no. 11": for "what no. 11 sees". */
  readonly name: string;
  /** Across [CSS px]. */
  readonly width?: number;
  readonly caption?: boolean;
}

const kindWords: Readonly<Record<SeenKind, string>> = {
  row: "element rows",
  wall: "wall between them",
  lid: "lid or roof",
  floor: "floor",
  shelf: "shelves",
  ware: "other ware",
  furniture: "posts, cones, sensor",
};

/**
 * What a piece sees, as a round picture: straight up in the middle, the horizon near the edge, right and back as on the
 * plan. Coil glows, ware is dark, each piece parted from the next.
 */
export function WhatItSees({ view, name, width = 118, caption = true }: WhatItSeesProps): ReactNode {
  const prefix = usePatternPrefix();
  const half = view.size / 2;
  const unit = width / view.size;
  return (
    <figure className="what-it-sees" style={{ width }}>
      <svg
        width={width}
        height={width}
        viewBox={`${-width / 2} ${-width / 2} ${width} ${width}`}
        role="img"
        aria-label={`What ${name} sees: ${sentence(view.shares)}.`}
      >
        <Patterns prefix={prefix} brickScale={0.35} />
        <clipPath id={`${prefix}-disc`}>
          <circle r={width / 2 - 1.5} />
        </clipPath>
        <g clipPath={`url(#${prefix}-disc)`}>
          <circle r={width / 2} fill="var(--brick)" />
          {regionsOf(view).map(({ key, kind, loops }) => (
            <Region
              key={key}
              kind={kind}
              prefix={prefix}
              d={loops.map((loop) => loopPath(loop, half, unit)).join("")}
            />
          ))}
        </g>
        <circle r={width / 2 - 1.5} fill="none" stroke="var(--ink)" strokeWidth="2.4" />
      </svg>
      {caption ? <figcaption className="small muted">what {name} sees</figcaption> : null}
      <ChartTable
        unseen
        data={{
          caption: `What ${name} sees`,
          columns: ["Seen", "Share of the view"],
          rows: seenKinds.map((kind) => [kindWords[kind], formatShare(view.shares[kind])]),
        }}
      />
    </figure>
  );
}

/** Far things first, so that edges of ware and furniture lie over wall and rows. */
const order: readonly SeenKind[] = ["wall", "row", "lid", "floor", "shelf", "furniture", "ware"];

interface SeenRegion {
  readonly key: number;
  readonly kind: SeenKind;
  readonly loops: readonly (readonly LatticePoint[])[];
}

function regionsOf({ size, kind, body }: WhatItSeesProps["view"]): readonly SeenRegion[] {
  const kindOf = new Map<number, SeenKind>();
  for (let i = 0; i < body.length; i++) {
    const seen = seenKinds[kind[i]];
    if (seen) kindOf.set(body[i], seen);
  }
  return [...outlinesOf(body, size)]
    .flatMap(([key, loops]) => {
      const seen = kindOf.get(key);
      // Specks of a few pixels are noise of the picture, not things to see.
      const clear = loops.filter((loop) => loop.length > 12);
      return seen && clear.length > 0 ? [{ key, kind: seen, loops: clear }] : [];
    })
    .sort((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind));
}

function loopPath(loop: readonly LatticePoint[], half: number, unit: number): string {
  const points = smoothed(loop).map(([x, y]) => `${((x - half) * unit).toFixed(1)} ${((y - half) * unit).toFixed(1)}`);
  return `M${points.join("L")}Z`;
}

function Region({
  kind,
  prefix,
  d,
}: {
  readonly kind: SeenKind;
  readonly prefix: string;
  readonly d: string;
}): ReactNode {
  switch (kind) {
    case "row":
      return <path d={d} fill="var(--glow)" stroke="var(--glow)" strokeWidth="0.8" />;
    case "wall":
      return <path d={d} fill={`url(#${prefix}-brick)`} />;
    case "lid":
    case "floor":
      return (
        <>
          <path d={d} fill="var(--brick)" stroke="var(--ink)" strokeWidth="1.1" />
          <path d={d} fill={`url(#${prefix}-brick)`} />
        </>
      );
    case "shelf":
      return (
        <>
          <path d={d} fill="var(--shelf)" stroke="var(--ink)" strokeWidth="1.1" />
          <path d={d} fill={`url(#${prefix}-shelf)`} opacity="0.55" />
        </>
      );
    case "furniture":
      return <path d={d} fill="var(--post)" stroke="var(--ink)" strokeWidth="0.8" />;
    case "ware":
      return <path d={d} fill="var(--ware)" stroke="var(--surface)" strokeWidth="1.1" />;
  }
}

/** What fills most of the view, most first: "other ware 41 %, wall between them 30 %, element rows 12 %". */
function sentence(shares: SeenShares): string {
  return seenKinds
    .filter((kind) => shares[kind] >= 0.005)
    .sort((a, b) => shares[b] - shares[a])
    .map((kind) => `${kindWords[kind]} ${formatShare(shares[kind])}`)
    .join(", ");
}
