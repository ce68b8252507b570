import type { ReactNode } from "react";
import { radiusAt } from "#engine/geometry";
import type { ElementRow, Kiln, WallSide } from "#engine/kiln";
import { inchesFromMetres, metresFromInches } from "#engine/units";
import { formatBareLength, formatLength, type UnitPreference } from "#words";
import { xOf, yOf, type SideFrame } from "./side-frame.ts";
import {
  acrossOf,
  depthOf,
  fromTheFront,
  jacket,
  pointAt,
  sensorTip,
  sideOf,
  wallsOf,
  type SideView,
} from "./side-view.ts";

export interface KilnSideProps {
  readonly kiln: Kiln;
  readonly view: SideView;
  readonly frame: SideFrame;
  readonly prefix: string;
}

/** Jacket, brick, lid or roof, floor, chamber, feet; corners of the back wall. */
export function KilnBody({ kiln, view, frame, prefix }: KilnSideProps): ReactNode {
  const { inner, outer, corners } = wallsOf(view, kiln);
  const x = (across: number): number => xOf(frame, across);
  const y = (z: number): number => yOf(frame, z);
  const top = kiln.chamber.height + kiln.lid.thickness;
  const base = -kiln.floor.thickness;
  const shell = `M${x(outer.from - jacket)} ${y(top + jacket)}H${x(outer.to + jacket)}V${y(base - jacket)}H${x(outer.from - jacket)}Z`;
  const bricks = `M${x(outer.from)} ${y(top)}H${x(outer.to)}V${y(base)}H${x(outer.from)}ZM${x(inner.from)} ${y(kiln.chamber.height)}V${y(0)}H${x(inner.to)}V${y(kiln.chamber.height)}Z`;
  const foot = (from: number): string => `M${from} ${y(base - jacket)}h30v9h-30Z`;
  return (
    <>
      <path
        d={`${foot(x(outer.from) + 12)}${foot(x(outer.to) - 42)}`}
        fill="var(--surface)"
        stroke="var(--ink)"
        strokeWidth="1"
      />
      <path d={shell} fill="var(--jacket)" stroke="var(--ink)" strokeWidth="1" />
      <path d={bricks} fill="var(--brick)" fillRule="evenodd" />
      <path d={bricks} fill={`url(#${prefix}-brick)`} fillRule="evenodd" />
      <rect
        x={x(inner.from)}
        y={y(kiln.chamber.height)}
        width={x(inner.to) - x(inner.from)}
        height={y(0) - y(kiln.chamber.height)}
        fill="var(--chamber)"
        stroke="var(--ink)"
        strokeWidth="1"
      />
      {corners.map((across) => (
        <path
          key={across}
          d={`M${x(across)} ${y(kiln.chamber.height)}V${y(0)}`}
          stroke="var(--brickline)"
          strokeWidth="0.8"
        />
      ))}
      {kiln.opening === "lid" ? (
        <path
          d={`M${x(outer.from - jacket)} ${y(kiln.chamber.height)}H${x(outer.to + jacket)}`}
          stroke="var(--ink)"
          strokeWidth="1.2"
        />
      ) : (
        <DoorSide kiln={kiln} view={view} frame={frame} prefix={prefix} />
      )}
    </>
  );
}

/** A front-loader's door, where the view shows it from its edge: the whole front wall, with its joint and handle. */
function DoorSide({ kiln, view, frame }: KilnSideProps): ReactNode {
  const place = sideOf(view, fromTheFront);
  if (place !== "left" && place !== "right") return null;
  const { inner, outer } = wallsOf(view, kiln);
  const sign = place === "right" ? 1 : -1;
  const joint = xOf(frame, sign > 0 ? inner.to : inner.from);
  const face = xOf(frame, sign > 0 ? outer.to + jacket : outer.from - jacket);
  const top = yOf(frame, kiln.chamber.height);
  const bottom = yOf(frame, 0);
  const step = (face - joint) * 0.3;
  const middle = (top + bottom) / 2;
  return (
    <>
      <path
        d={`M${joint} ${top}L${joint + step} ${top - 10}H${face}M${joint} ${bottom}L${joint + step} ${bottom + 10}H${face}`}
        fill="none"
        stroke="var(--ink)"
        strokeWidth="1.6"
      />
      <path d={`M${face + sign * 3} ${middle + 26}v36`} stroke="var(--ink)" strokeWidth="5" strokeLinecap="round" />
    </>
  );
}

const normals: Readonly<Record<WallSide, number>> = { right: 0, back: Math.PI / 2, left: Math.PI, front: -Math.PI / 2 };

/** Which walls a row is seen on: round chambers carry it all the way round. */
function rowPlaces(kiln: Kiln, row: ElementRow, view: SideView): ReadonlySet<"left" | "right" | "back" | "away"> {
  if (kiln.chamber.plan.kind !== "rectangle") return new Set(["left", "right", "back"]);
  return new Set((row.walls ?? (["left", "right", "back"] as const)).map((wall) => sideOf(view, normals[wall])));
}

/** The wall whose spyholes and sensors stand less in the way of the rows' numbers. */
function numbersSide(kiln: Kiln, view: SideView): "left" | "right" {
  const inTheWay = (side: "left" | "right"): number =>
    [...kiln.spyholes, ...kiln.sensors].filter(
      ({ azimuth, z }) => sideOf(view, azimuth) === side && kiln.rows.some((row) => Math.abs(row.z - z) < 0.03),
    ).length;
  return inTheWay("left") > inTheWay("right") ? "right" : "left";
}

/** Element rows: two coil ends in a groove, a dashed run behind, the number on the brick. A dead row is struck out. */
export function Rows({ kiln, view, frame }: KilnSideProps): ReactNode {
  const { inner, outer } = wallsOf(view, kiln);
  const groove = 0.016;
  const coil = Math.max(0.0045 * frame.scale, 1.6);
  const side = numbersSide(kiln, view);
  const [hot, cold] = side === "left" ? [inner.from - groove, outer.from] : [inner.to + groove, outer.to];
  const label = { x: xOf(frame, (hot + cold) / 2), size: 13 };
  const brick = (inner.from - outer.from) * frame.scale;
  const wide = brick > 26;
  return (
    <>
      {brick > 42 ? (
        <BrickText x={label.x} y={yOf(frame, kiln.chamber.height) + 14} size={12} text="rows" quiet />
      ) : null}
      {kiln.rows.map((row, index) => {
        const places = rowPlaces(kiln, row, view);
        const y = yOf(frame, row.z);
        const half = (row.height / 2) * frame.scale;
        const ends = [
          ...(places.has("left") ? [xOf(frame, inner.from - groove)] : []),
          ...(places.has("right") ? [xOf(frame, inner.to)] : []),
        ];
        const dead = row.condition === 0;
        return (
          <g key={row.z}>
            {places.has("back") ? (
              <path
                d={`M${xOf(frame, inner.from)} ${y}H${xOf(frame, inner.to)}`}
                stroke="var(--element)"
                strokeWidth="1.2"
                opacity={dead ? 0.25 : 0.4}
                strokeDasharray={dead ? "1.5 5" : "4.5 3"}
              />
            ) : null}
            {ends.map((x) => (
              <g key={x}>
                <rect
                  x={x}
                  y={y - half}
                  width={groove * frame.scale}
                  height={2 * half}
                  fill="var(--chamber)"
                  stroke="var(--ink)"
                  strokeWidth="0.8"
                />
                {half > 5 ? (
                  [-0.47, 0.47].map((at) => (
                    <circle
                      key={at}
                      cx={x + (groove / 2) * frame.scale}
                      cy={y + at * half}
                      r={coil}
                      fill="none"
                      stroke="var(--element)"
                      strokeWidth={dead ? 0.7 : 1.5}
                    />
                  ))
                ) : (
                  <circle
                    cx={x + (groove / 2) * frame.scale}
                    cy={y}
                    r={Math.min(half * 0.6, 2.4)}
                    fill="none"
                    stroke="var(--element)"
                    strokeWidth="1.3"
                  />
                )}
              </g>
            ))}
            {wide ? (
              <BrickText x={label.x} y={y + 4.5} size={label.size} text={String(index + 1)} struck={dead} />
            ) : null}
          </g>
        );
      })}
    </>
  );
}

function BrickText(props: {
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly text: string;
  readonly quiet?: boolean;
  readonly struck?: boolean;
}): ReactNode {
  return (
    <text
      x={props.x}
      y={props.y}
      fontSize={props.size}
      textAnchor="middle"
      className={`cutaway-brick-text ${props.quiet ? "muted" : "strong"}`}
      textDecoration={props.struck ? "line-through" : undefined}
    >
      {props.text}
    </text>
  );
}

/** Spyholes: a channel through the brick of the cut, or an opening in the back wall. */
export function Spyholes({ kiln, view, frame }: KilnSideProps): ReactNode {
  const { inner, outer } = wallsOf(view, kiln);
  return kiln.spyholes.map((hole) => {
    const place = sideOf(view, hole.azimuth);
    const y = yOf(frame, hole.z);
    const key = `${hole.azimuth} ${hole.z}`;
    const wide = 0.013 * frame.scale;
    const narrow = 0.008 * frame.scale;
    if (place === "away") return null;
    if (place === "back") {
      const x = xOf(frame, acrossOf(view, ...pointAt(hole.azimuth, radiusAt(kiln.chamber.plan, hole.azimuth))));
      return (
        <circle
          key={key}
          cx={x}
          cy={y}
          r={Math.max(narrow, 3)}
          fill="var(--brick)"
          stroke="var(--ink)"
          strokeWidth="1.1"
        />
      );
    }
    const hot = xOf(frame, place === "left" ? inner.from : inner.to);
    const cold = xOf(frame, place === "left" ? outer.from - jacket : outer.to + jacket);
    return (
      <path
        key={key}
        d={`M${cold} ${y - wide}L${hot} ${y - narrow}V${y + narrow}L${cold} ${y + wide}Z`}
        fill="var(--surface)"
        stroke="var(--ink)"
        strokeWidth="0.9"
      />
    );
  });
}

/** Sensors with the half-ball about the tip that must stay clear. */
export function Sensors({ kiln, view, frame, prefix }: KilnSideProps): ReactNode {
  const { inner, outer } = wallsOf(view, kiln);
  const clear = kiln.rules.sensorClear * frame.scale;
  return (
    <>
      <clipPath id={`${prefix}-room`}>
        <rect
          x={xOf(frame, inner.from)}
          y={yOf(frame, kiln.chamber.height)}
          width={xOf(frame, inner.to) - xOf(frame, inner.from)}
          height={yOf(frame, 0) - yOf(frame, kiln.chamber.height)}
        />
      </clipPath>
      {kiln.sensors.map((sensor) => {
        const place = sideOf(view, sensor.azimuth);
        const tip = sensorTip(kiln, sensor);
        const x = xOf(frame, acrossOf(view, ...tip));
        const y = yOf(frame, sensor.z);
        const wall = xOf(
          frame,
          acrossOf(view, ...pointAt(sensor.azimuth, radiusAt(kiln.chamber.plan, sensor.azimuth))),
        );
        const inCut = place === "left" || place === "right";
        const end = xOf(frame, place === "left" ? outer.from - jacket - 0.014 : outer.to + jacket + 0.014);
        return (
          <g key={`${sensor.azimuth} ${sensor.z}`}>
            <circle
              cx={x}
              cy={y}
              r={clear}
              clipPath={`url(#${prefix}-room)`}
              fill={`url(#${prefix}-clear)`}
              stroke="var(--ink)"
              strokeWidth="1.2"
              strokeDasharray="1.5 2.5"
            />
            {inCut ? (
              <>
                <path d={`M${end} ${y}H${x}`} stroke="var(--ink)" strokeWidth="3.6" strokeLinecap="round" />
                <rect x={place === "left" ? end - 12 : end - 2} y={y - 8} width="14" height="16" fill="var(--ink)" />
              </>
            ) : (
              <>
                <path
                  d={`M${wall} ${y}H${x}`}
                  stroke="var(--ink)"
                  strokeWidth="3.6"
                  strokeLinecap="round"
                  strokeDasharray={place === "away" ? "3 4" : undefined}
                />
                <circle
                  cx={x}
                  cy={y}
                  r="4"
                  fill={place === "away" ? "var(--chamber)" : "var(--ink)"}
                  stroke="var(--ink)"
                  strokeWidth="1.6"
                />
              </>
            )}
          </g>
        );
      })}
    </>
  );
}

/** A ruler on the left: every 5 cm with 10 named, or every 2 inches with 4 named, and the chamber's height on top. */
export function Ruler({ kiln, view, frame, units }: KilnSideProps & { readonly units: UnitPreference }): ReactNode {
  const { outer } = wallsOf(view, kiln);
  const x = xOf(frame, outer.from - jacket) - 16;
  const { height } = kiln.chamber;
  const inch = units.length === "inch";
  const step = inch ? metresFromInches(2) : 0.05;
  const count = Math.floor((inch ? inchesFromMetres(height) / 2 : height / 0.05) + 1e-9);
  const close = 20 / frame.scale;
  const every = step * frame.scale * 2 < 18 ? 4 : 2;
  return (
    <g>
      <path d={`M${x} ${yOf(frame, height)}V${yOf(frame, 0)}`} stroke="var(--edge)" strokeWidth="1" />
      {Array.from({ length: count + 1 }, (_, i) => {
        const z = i * step;
        const y = yOf(frame, z);
        const named = i % every === 0;
        return (
          <g key={z}>
            <path d={`M${x - (named ? 6 : 3)} ${y}H${x}`} stroke="var(--edge)" strokeWidth="1" />
            {named && height - z > close ? (
              <text className="muted" x={x - 10} y={y + 4.5} fontSize="13" textAnchor="end">
                {formatBareLength(z, units, "size")}
              </text>
            ) : null}
          </g>
        );
      })}
      <text className="strong" x={x + 6} y={yOf(frame, height) - 5} fontSize="13" textAnchor="end">
        {formatLength(height, units, "size")}
      </text>
    </g>
  );
}

/** True if a point of the plan is in the half that is drawn. */
export function isBehindCut(view: SideView, x: number, y: number): boolean {
  return depthOf(view, x, y) <= 0.001;
}
