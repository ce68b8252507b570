import type { ReactNode } from "react";
import { placeFootprint } from "#engine/geometry";
import { footprintOf, type Piece, type Shape } from "#engine/kiln";
import { classes, heatFill, heatHatch, heatLabel, HeatTriangle } from "#web/ui";
import type { PieceHeat } from "#work";
import { toScreen, type PlanFrame } from "./frame.ts";
import { boxPath } from "./paths.ts";

/** How a piece counts while a kiln is being loaded: black, thick ring, white. */
export type LoadingState = "placed" | "next" | "waiting";

export interface PlanPieceProps {
  readonly frame: PlanFrame;
  readonly prefix: string;
  readonly shape: Shape;
  readonly state: Piece["state"];
  readonly at: { readonly x: number; readonly y: number; readonly angle: number };
  readonly number: number | undefined;
  readonly heat: PieceHeat | undefined;
  readonly loading?: LoadingState | undefined;
  readonly isPicked?: boolean;
  readonly isRinged?: boolean;
  /** Follows the pointer: no sliding. */
  readonly isDragged?: boolean;
  readonly isIllegal?: boolean;
  readonly numberSize: { readonly least: number; readonly most: number };
}

/** One piece from above: its footprint with handle, heat, number. Drawn about its own origin, so that a move can slide. */
export function PlanPiece(props: PlanPieceProps): ReactNode {
  const { frame, prefix, shape, at, heat, loading } = props;
  const { scale } = frame;
  const [body, ...arms] = placeFootprint(footprintOf(shape), { x: 0, y: 0, angle: at.angle });
  if (!body) return null;
  const spot = toScreen(frame, at.x, at.y);
  const look = lookOf(heat, loading);
  const hatch = heat && !loading ? heatHatch(heat.heat, prefix) : null;
  const dash = heat?.eitherWay && !loading ? "5 3.5" : undefined;
  const outline = boxPath(body, scale);
  const wall = shape.body.kind === "slab" ? 0 : shape.body.wall;
  const closed = shape.body.kind !== "slab" && shape.body.closed;
  const inner = wall > 0 && !closed ? boxPath(body, scale, -Math.max(wall * scale, 2)) : null;
  const reach = (body.radius + Math.max(body.halfX, body.halfY)) * scale;
  return (
    <g
      className={classes("plan-piece", props.isDragged && "dragged")}
      style={{ transform: `translate(${spot.x}px, ${spot.y}px)`, color: look.label }}
    >
      {props.isIllegal ? (
        <>
          <path d={boxPath(body, scale, 9)} fill="var(--surface)" stroke="var(--ink)" strokeWidth="1.5" />
          <path d={boxPath(body, scale, 9)} fill={`url(#${prefix}-cut)`} />
        </>
      ) : props.isPicked || props.isRinged ? (
        <Ring body={boxPath(body, scale, 6)} strong={props.isPicked === true} />
      ) : null}
      {loading === "next" ? (
        <path d={boxPath(body, scale, 5)} fill="var(--surface)" stroke="var(--ink)" strokeWidth="4.5" />
      ) : null}
      {arms.map((arm) => (
        <path
          key={`${arm.x} ${arm.y}`}
          d={boxPath(arm, scale)}
          fill={look.fill}
          stroke="var(--outline)"
          strokeWidth="1.2"
        />
      ))}
      <path d={outline} fill={look.fill} stroke="var(--halo)" strokeWidth="4" />
      <path d={outline} fill={look.fill} stroke={look.fill} strokeWidth="1.6" />
      {hatch ? <path d={outline} fill={hatch} /> : null}
      <path
        d={outline}
        fill="none"
        stroke="var(--outline)"
        strokeWidth={heat?.eitherWay ? 1.5 : 1.2}
        strokeDasharray={dash}
      />
      {props.state === "bisque" && !loading ? (
        <path d={boxPath(body, scale, -2.6)} fill="none" stroke="var(--outline)" strokeWidth="1.2" />
      ) : inner ? (
        <path d={inner} fill="none" stroke={look.line} strokeWidth="0.8" opacity="0.55" />
      ) : null}
      <Label {...props} fill={look.fill} reach={reach} />
    </g>
  );
}

function lookOf(
  heat: PieceHeat | undefined,
  loading: LoadingState | undefined,
): { readonly fill: string; readonly label: string; readonly line: string } {
  if (loading === "placed") return { fill: "var(--ink)", label: "var(--surface)", line: "var(--surface)" };
  if (loading || !heat) return { fill: "var(--surface)", label: "var(--ink)", line: "var(--outline)" };
  return { fill: heatFill(heat.heat), label: heatLabel(heat.heat), line: "var(--outline)" };
}

function Ring({ body, strong }: { readonly body: string; readonly strong: boolean }): ReactNode {
  return (
    <>
      <path d={body} fill="none" stroke="var(--surface)" strokeWidth={strong ? 9 : 6} />
      <path d={body} fill="none" stroke="var(--accent)" strokeWidth={strong ? 4 : 2.5} />
    </>
  );
}

function Label(props: PlanPieceProps & { readonly fill: string; readonly reach: number }): ReactNode {
  const { number, heat, loading, fill, reach, numberSize } = props;
  if (number === undefined) return null;
  const size = Math.min(Math.max(reach * 0.8, numberSize.least), numberSize.most);
  const outside = loading ? null : (heat?.outside ?? null);
  // The triangle goes under the number where there is room for both.
  const both = outside !== null && reach > size * 0.85;
  return (
    <>
      <text
        className="plan-number"
        y={both ? size * 0.08 : size * 0.36}
        textAnchor="middle"
        fontSize={size}
        style={{ stroke: fill, strokeWidth: size * 0.3 }}
      >
        {number}
      </text>
      {both ? <HeatTriangle side={outside} x={0} y={size * 0.62} size={Math.max(size * 0.68, 8)} /> : null}
    </>
  );
}
