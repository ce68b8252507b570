import type { ReactNode } from "react";
import type { Piece, Shape } from "#engine/kiln";
import { heatFill, heatHatch, heatLabel, HeatTriangle } from "#web/ui";
import { silhouetteOf, type PieceHeat, type SidePoint, type Silhouette } from "#work";

const fixed = (value: number): number => Math.round(value * 10) / 10;

/** An SVG path through points about a foot that the drawing has at (0, 0). */
export function sidePath(points: readonly SidePoint[], scale: number, closed: boolean): string {
  const joined = points.map(([right, up]) => `${fixed(right * scale)} ${fixed(-up * scale)}`).join("L");
  return `M${joined}${closed ? "Z" : ""}`;
}

export interface PieceLook {
  readonly fill: string;
  readonly hatch: string | null;
  readonly label: string;
  readonly line: string;
  readonly dash: string | undefined;
}

/** How a piece is drawn for its heat; plain where there is no forecast. Far pieces have paler lines. */
export function lookOf(heat: PieceHeat | undefined, prefix: string, isFar: boolean): PieceLook {
  return {
    fill: heat ? heatFill(heat.heat) : "var(--heat-wanted)",
    hatch: heat ? heatHatch(heat.heat, prefix) : null,
    label: heat ? heatLabel(heat.heat) : "var(--ink)",
    line: isFar ? "var(--edge)" : "var(--outline)",
    dash: heat?.eitherWay ? "4 2.6" : undefined,
  };
}

export interface SideDrawingProps {
  readonly view: Silhouette;
  /** CSS px per metre. */
  readonly scale: number;
  readonly look: PieceLook;
  readonly isBisque?: boolean;
  /** Width of its lines [CSS px]. */
  readonly stroke?: number;
  /** Ground-coloured edge that keeps overlapping pieces apart [CSS px]. */
  readonly halo?: number;
}

/** A shape from the side, standing on (0, 0). */
export function SideDrawing(props: SideDrawingProps): ReactNode {
  const { view, scale, look, isBisque = false, stroke = 1.3, halo = 2 } = props;
  const body = sidePath(view.body, scale, true);
  const strap = view.handle ? <Strap {...props} stroke={stroke} halo={halo} /> : null;
  const spout = view.spout ? sidePath(view.spout.outline, scale, true) : null;
  const lid = view.lid ? sidePath(view.lid, scale, true) : null;
  const part = (d: string): ReactNode => (
    <path d={d} fill={look.fill} stroke={look.line} strokeWidth={stroke} strokeLinejoin="round" />
  );
  return (
    <>
      <path d={body} fill="none" stroke="var(--halo)" strokeWidth={stroke + 2 * halo} strokeLinejoin="round" />
      {view.handle?.inFront ? null : strap}
      {spout && !view.spout?.inFront ? part(spout) : null}
      {lid ? part(lid) : null}
      <path d={body} fill={look.fill} />
      {look.hatch ? <path d={body} fill={look.hatch} /> : null}
      {lid && look.hatch ? <path d={lid} fill={look.hatch} /> : null}
      <path
        d={body}
        fill="none"
        stroke={look.line}
        strokeWidth={isBisque ? stroke * 3 : stroke}
        strokeDasharray={look.dash}
        strokeLinejoin="round"
      />
      {isBisque ? (
        <path d={body} fill="none" stroke={look.fill} strokeWidth={stroke * 1.1} strokeLinejoin="round" />
      ) : null}
      {view.lines.map(([from, to]) => (
        <path
          key={`${from[0]} ${from[1]}`}
          d={sidePath([from, to], scale, false)}
          stroke={look.line}
          strokeWidth={stroke / 2}
          opacity="0.55"
        />
      ))}
      {spout && view.spout?.inFront ? part(spout) : null}
      {view.handle?.inFront ? strap : null}
    </>
  );
}

/** A handle: a band of fill between two lines, over a band of ground. */
function Strap({ view, scale, look, stroke = 1.3, halo = 2 }: SideDrawingProps): ReactNode {
  if (!view.handle) return null;
  const d = sidePath(view.handle.centre, scale, false);
  const width = Math.max(view.handle.width * scale, 2.4);
  return (
    <g fill="none" strokeLinejoin="round">
      <path d={d} stroke="var(--halo)" strokeWidth={width + 2 * halo} />
      <path d={d} stroke={look.line} strokeWidth={width + stroke} />
      <path d={d} stroke={look.fill} strokeWidth={Math.max(width - stroke, 0.8)} />
    </g>
  );
}

export interface PlacedSideProps {
  readonly shape: Shape;
  readonly piece: Pick<Piece, "state">;
  readonly heat: PieceHeat | undefined;
  readonly prefix: string;
  readonly scale: number;
  /** Of its foot on the drawing. */
  readonly x: number;
  readonly y: number;
  /** From the viewer's right to its handle. */
  readonly turn: number;
  readonly isFar: boolean;
  /** Height of its stilt and radius of its foot [CSS px]; no stilt: 0. */
  readonly lift: number;
}

/** A piece in the kiln: stilt, silhouette, and the triangle that says it is outside the wanted range. */
export function PlacedSide(props: PlacedSideProps): ReactNode {
  const { shape, heat, prefix, scale, x, y, lift } = props;
  const view = silhouetteOf(shape, props.turn);
  const look = lookOf(heat, prefix, props.isFar);
  const { body } = shape;
  const foot = (body.kind === "revolution" ? body.foot : Math.min(body.width, body.depth) / 2) * scale;
  const tall = view.height * scale;
  const wide = (body.kind === "revolution" ? 2 * Math.min(view.right, -view.left) : view.right - view.left) * scale;
  return (
    <g transform={`translate(${fixed(x)} ${fixed(y)})`}>
      {lift > 0 ? <Stilt foot={foot} lift={lift} /> : null}
      <SideDrawing view={view} scale={scale} look={look} isBisque={props.piece.state !== "glazed"} />
      {heat?.outside ? <OutsideMark side={heat.outside} tall={tall} wide={wide} label={look.label} /> : null}
    </g>
  );
}

/** On the piece where there is room, else over it: flat ware is too low to carry a triangle. */
function OutsideMark(props: {
  readonly side: "cold" | "hot";
  readonly tall: number;
  readonly wide: number;
  readonly label: string;
}): ReactNode {
  const { side, tall, wide, label } = props;
  if (tall >= 17 && wide >= 14) {
    return (
      <g style={{ color: label }}>
        <HeatTriangle side={side} x={0} y={-tall * 0.46} size={11} />
      </g>
    );
  }
  return (
    <g style={{ color: "var(--ink)" }} stroke="var(--halo)" strokeWidth="2.5" paintOrder="stroke">
      <HeatTriangle side={side} x={0} y={-tall - 6} size={10} />
    </g>
  );
}

function Stilt({ foot, lift }: { readonly foot: number; readonly lift: number }): ReactNode {
  const spread = Math.max(foot * 0.75, 4);
  const points = spread > 14 ? [-spread, 0, spread] : [-spread, spread];
  const half = Math.min(Math.max(lift * 0.45, 2), 4);
  return (
    <path
      d={points
        .map((at) => `M${fixed(at - half)} ${fixed(lift)}L${fixed(at)} 0L${fixed(at + half)} ${fixed(lift)}Z`)
        .join("")}
      fill="var(--stilt)"
    />
  );
}

export interface PieceSilhouetteProps {
  readonly shape: Shape;
  /** Height of the largest piece of the list and of this drawing [m], [CSS px]: all of a list at one scale. */
  readonly scale: number;
  /** Spoken name; left out, the drawing is decoration beside a text. */
  readonly label?: string;
  readonly className?: string;
}

/** A shape alone, as on the bench: filled plain, its lines as strong at any scale. */
export function PieceSilhouette({ shape, scale, label, className }: PieceSilhouetteProps): ReactNode {
  const view = silhouetteOf(shape);
  const pad = 2;
  const width = (view.right - view.left) * scale + 2 * pad;
  const height = Math.max(view.height * scale, 2) + 2 * pad;
  const look: PieceLook = {
    fill: "var(--heat-wanted)",
    hatch: null,
    label: "var(--ink)",
    line: "var(--outline)",
    dash: undefined,
  };
  return (
    <svg
      width={width}
      height={height}
      viewBox={`${view.left * scale - pad} ${pad - height} ${width} ${height}`}
      {...(className === undefined ? {} : { className })}
      {...(label === undefined ? { "aria-hidden": true } : { role: "img", "aria-label": label })}
    >
      <SideDrawing view={view} scale={scale} look={look} stroke={1.5} halo={0} />
    </svg>
  );
}
