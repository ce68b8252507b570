import type { ReactNode } from "react";
import { radiusAt } from "#engine/geometry";
import type { Kiln, PlacedCones, PlacedPost, WallSide } from "#engine/kiln";
import type { Radians } from "#engine/units";
import { grownOutline } from "#work";
import { toScreen, type PlanFrame, type ScreenPoint } from "./frame.ts";
import { circlePath, outlinePath } from "./paths.ts";

/** Thickness of the sheet-metal jacket as drawn [m]. */
const jacket = 0.008;

export interface PlanKilnProps {
  readonly frame: PlanFrame;
  readonly prefix: string;
  readonly kiln: Kiln;
  /** Black and white, for the kiln room. */
  readonly plain?: boolean;
}

/** What is drawn round a shelf: jacket, brick, the element groove, the chamber, and a door in front. */
export function PlanKiln({ frame, prefix, kiln, plain }: PlanKilnProps): ReactNode {
  const { plan } = kiln.chamber;
  if (plain) return <path d={outlinePath(plan, frame)} fill="var(--surface)" stroke="var(--ink)" strokeWidth="2" />;
  const brick = outlinePath(grownOutline(plan, kiln.wall.thickness), frame);
  return (
    <>
      <path
        d={outlinePath(grownOutline(plan, kiln.wall.thickness + jacket), frame)}
        fill="var(--jacket)"
        stroke="var(--ink)"
        strokeWidth="1"
      />
      <path d={brick} fill="var(--brick)" />
      <path d={brick} fill={`url(#${prefix}-brick)`} />
      <path d={outlinePath(plan, frame)} fill="var(--chamber)" stroke="var(--ink)" strokeWidth="1" />
      {plan.kind === "rectangle" ? (
        <RowsOnWalls frame={frame} kiln={kiln} />
      ) : (
        <path
          d={outlinePath(grownOutline(plan, 0.008), frame)}
          fill="none"
          stroke="var(--element)"
          strokeWidth="1.6"
          strokeDasharray="2 2"
        />
      )}
      {kiln.opening === "door" ? <Door frame={frame} kiln={kiln} /> : null}
    </>
  );
}

/** A rectangular chamber has its coils on some walls only. */
function RowsOnWalls({ frame, kiln }: { readonly frame: PlanFrame; readonly kiln: Kiln }): ReactNode {
  const { plan } = kiln.chamber;
  if (plan.kind !== "rectangle") return null;
  const walls = new Set(kiln.rows.flatMap((row): readonly WallSide[] => row.walls ?? ["left", "right", "back"]));
  const [w, d] = [plan.width / 2 + 0.008, plan.depth / 2 + 0.008];
  const ends = { left: [-w, d, -w, -d], right: [w, d, w, -d], back: [-w, d, w, d], front: [-w, -d, w, -d] } as const;
  return [...walls].map((wall) => {
    const [x1, y1, x2, y2] = ends[wall];
    const from = toScreen(frame, x1, y1);
    const to = toScreen(frame, x2, y2);
    return (
      <path
        key={wall}
        d={`M${from.x} ${from.y}L${to.x} ${to.y}`}
        stroke="var(--element)"
        strokeWidth="1.6"
        strokeDasharray="2 2"
      />
    );
  });
}

/** The door's joint in the front wall, its hinges on the left and its handle on the right. */
function Door({ frame, kiln }: { readonly frame: PlanFrame; readonly kiln: Kiln }): ReactNode {
  const { plan } = kiln.chamber;
  if (plan.kind !== "rectangle") return null;
  const half = plan.width / 2;
  const inner = toScreen(frame, -half, -plan.depth / 2);
  const outer = toScreen(frame, half, -plan.depth / 2 - kiln.wall.thickness - jacket);
  const step = kiln.wall.thickness * frame.scale * 0.3;
  return (
    <>
      <path
        d={`M${inner.x} ${inner.y}L${inner.x - step} ${outer.y}M${outer.x} ${inner.y}L${outer.x + step} ${outer.y}`}
        stroke="var(--ink)"
        strokeWidth="1.6"
      />
      <path
        d={`M${inner.x - step + 4} ${outer.y + 3}h14M${outer.x + step - 18} ${outer.y + 3}h14`}
        stroke="var(--ink)"
        strokeWidth="5"
      />
      <text className="muted" x={inner.x + 8} y={outer.y + 17} fontSize="13">
        door
      </text>
    </>
  );
}

/** A post from above: a crossed box; one that only stands below the shelf is dashed. */
export function PlanPost(props: {
  readonly frame: PlanFrame;
  readonly post: PlacedPost;
  readonly width: number;
  readonly below?: boolean;
}): ReactNode {
  const { x, y } = toScreen(props.frame, props.post.x, props.post.y);
  const half = (props.width * props.frame.scale) / 2;
  const square = `M${x - half} ${y - half}h${2 * half}v${2 * half}h${-2 * half}Z`;
  if (props.below)
    return (
      <path d={square} fill="none" stroke="var(--outline)" strokeWidth="1" strokeDasharray="3 2.5" opacity="0.7" />
    );
  return (
    <>
      <path d={square} fill="var(--post)" stroke="var(--outline)" strokeWidth="1.1" />
      <path
        d={`M${x - half} ${y - half}l${2 * half} ${2 * half}M${x + half} ${y - half}l${-2 * half} ${2 * half}`}
        stroke="var(--outline)"
        strokeWidth="0.8"
      />
    </>
  );
}

/** A row of cones in its holder. */
export function PlanCones({ frame, pack }: { readonly frame: PlanFrame; readonly pack: PlacedCones }): ReactNode {
  const { x, y } = toScreen(frame, pack.x, pack.y);
  const unit = Math.max(frame.scale / 1000, 0.24);
  const count = Math.max(pack.cones.length, 1);
  const long = count * 16 + 4;
  return (
    <g transform={`translate(${x} ${y}) rotate(${(-pack.angle * 180) / Math.PI}) scale(${unit})`}>
      <rect
        x={-long / 2}
        y="-12"
        width={long}
        height="24"
        rx="4"
        fill="var(--post)"
        stroke="var(--outline)"
        strokeWidth="1.1"
        vectorEffect="non-scaling-stroke"
      />
      {pack.cones.map((cone, i) => {
        const middle = -long / 2 + 10 + i * 16;
        return (
          <path
            key={cone}
            d={`M${middle - 6} 7L${middle} -8L${middle + 6} 7Z`}
            fill="var(--surface)"
            stroke="var(--outline)"
            strokeWidth="0.9"
            vectorEffect="non-scaling-stroke"
          />
        );
      })}
    </g>
  );
}

interface Leader {
  readonly text: string;
  readonly end: ScreenPoint;
}

export interface PlanInstrumentsProps extends PlanKilnProps {
  /** Heights between which the shown shelf's ware stands [m]. */
  readonly layer: { readonly from: number; readonly to: number };
}

/** Spyholes, sensors and the half-ball that must stay clear; dashed where they pass at another height. */
export function PlanInstruments({ frame, prefix, kiln, layer, plain }: PlanInstrumentsProps): ReactNode {
  const { plan } = kiln.chamber;
  const clear = kiln.rules.sensorClear;
  // In the kiln room the wall is not drawn: only the ends at the hot face are.
  const wallEnd = plain ? 0 : kiln.wall.thickness + jacket;
  const onRay = (azimuth: number, radius: number): ScreenPoint =>
    toScreen(frame, radius * Math.cos(azimuth), radius * Math.sin(azimuth));
  const leaders: Leader[] = [];
  const holes = [...new Map(kiln.spyholes.map((hole) => [Math.round(hole.azimuth * 20), hole])).values()];
  const drawnHoles = holes.map(({ azimuth }, i) => {
    const radius = radiusAt(plan, azimuth);
    if (i === 0) leaders.push({ text: "spyhole", end: onRay(azimuth, radius + wallEnd) });
    if (plain) return null;
    const side = { x: -Math.sin(azimuth), y: Math.cos(azimuth) };
    const corner = (r: number, offset: number): string => {
      const x = r * Math.cos(azimuth) + side.x * offset;
      const y = r * Math.sin(azimuth) + side.y * offset;
      const point = toScreen(frame, x, y);
      return `${point.x} ${point.y}`;
    };
    return (
      <path
        key={azimuth}
        d={`M${corner(radius + wallEnd, -0.013)}L${corner(radius, -0.008)}L${corner(radius, 0.008)}L${corner(radius + wallEnd, 0.013)}Z`}
        fill="var(--chamber)"
        stroke="var(--ink)"
        strokeWidth="0.9"
      />
    );
  });
  const drawnSensors = kiln.sensors.map((sensor, i) => {
    const radius = radiusAt(plan, sensor.azimuth);
    const tip = onRay(sensor.azimuth, radius - sensor.reach);
    const wall = onRay(sensor.azimuth, radius);
    const end = onRay(sensor.azimuth, radius + wallEnd + 0.022);
    const here = sensor.z + clear > layer.from && sensor.z - clear < layer.to;
    const where = here ? "" : sensor.z >= layer.to ? ", higher up" : ", lower down";
    leaders.push({ text: `sensor${kiln.sensors.length > 1 ? ` ${i + 1}` : ""}${where}`, end });
    const ball = `M${tip.x - clear * frame.scale} ${tip.y}a${clear * frame.scale} ${clear * frame.scale} 0 1 0 ${2 * clear * frame.scale} 0a${clear * frame.scale} ${clear * frame.scale} 0 1 0 ${-2 * clear * frame.scale} 0Z`;
    return (
      <g key={sensor.azimuth}>
        {here ? (
          <g clipPath={`url(#${prefix}-chamber)`}>
            <path
              d={ball}
              fill={`url(#${prefix}-clear)`}
              stroke="var(--ink)"
              strokeWidth="1.1"
              strokeDasharray="1.5 2.5"
            />
          </g>
        ) : null}
        <path
          d={`M${end.x} ${end.y}L${wall.x} ${wall.y}`}
          stroke="var(--ink)"
          strokeWidth="3.4"
          strokeLinecap="round"
        />
        <path
          d={`M${wall.x} ${wall.y}L${tip.x} ${tip.y}`}
          stroke="var(--ink)"
          strokeWidth={here ? 3.4 : 1.6}
          strokeLinecap="round"
          strokeDasharray={here ? undefined : "2.5 3.5"}
        />
      </g>
    );
  });
  return (
    <>
      <clipPath id={`${prefix}-chamber`}>
        <path d={outlinePath(plan, frame)} />
      </clipPath>
      {drawnHoles}
      {drawnSensors}
      <Leaders leaders={leaders} frame={frame} size={plain ? 17 : 13} />
    </>
  );
}

/** Names beside what they name, or, where there is no room at the sides, at a top corner with a thin line down. */
function Leaders(props: {
  readonly leaders: readonly Leader[];
  readonly frame: PlanFrame;
  readonly size: number;
}): ReactNode {
  const { leaders, frame, size } = props;
  const rows = { left: 0, right: 0 };
  return leaders.map(({ text, end }) => {
    const upright = Math.abs(end.y - frame.centreY) > Math.abs(end.x - frame.centreX);
    if (upright) {
      const up = end.y < frame.centreY;
      return (
        <text
          key={text}
          className="muted plan-label"
          x={end.x + 9}
          y={up ? end.y + size * 0.2 : end.y + size}
          fontSize={size}
        >
          {text}
        </text>
      );
    }
    const side = end.x < frame.centreX ? "left" : "right";
    const y = size + 5 + rows[side]++ * (size + 3);
    const x = Math.min(Math.max(end.x, 4), frame.width - 4);
    return (
      <g key={text}>
        <path d={`M${x} ${y + 5}V${end.y - 5}`} stroke="var(--edge)" strokeWidth="1" />
        <text
          className="muted plan-label"
          x={side === "left" ? 7 : frame.width - 7}
          y={y}
          fontSize={size}
          textAnchor={side === "left" ? "start" : "end"}
        >
          {text}
        </text>
      </g>
    );
  });
}

/** Where the side view cuts the kiln: a dash-dot line through the axis, its arrows pointing the way one looks. */
export function PlanCut({
  frame,
  kiln,
  viewFrom,
}: {
  readonly frame: PlanFrame;
  readonly kiln: Kiln;
  readonly viewFrom: Radians;
}): ReactNode {
  const right = viewFrom + Math.PI / 2;
  const end = (side: 1 | -1, over: number): ScreenPoint => {
    const azimuth = side > 0 ? right : right + Math.PI;
    const radius = radiusAt(grownOutline(kiln.chamber.plan, kiln.wall.thickness + jacket), azimuth) + over;
    return toScreen(frame, radius * Math.cos(azimuth), radius * Math.sin(azimuth));
  };
  const [from, to] = [end(-1, 0), end(1, 0)];
  // Looking from `viewFrom` towards the axis; y points down on the screen.
  const look = { x: -Math.cos(viewFrom) * 10, y: Math.sin(viewFrom) * 10 };
  const across = { x: Math.cos(right) * 4, y: -Math.sin(right) * 4 };
  return (
    <>
      <path
        d={`M${from.x} ${from.y}L${to.x} ${to.y}`}
        stroke="var(--ink)"
        strokeWidth="1"
        strokeDasharray="10 4 2 4"
        opacity="0.55"
      />
      {[from, to].map((at) => (
        <path
          key={`${at.x} ${at.y}`}
          d={`M${at.x + across.x} ${at.y + across.y}L${at.x + look.x} ${at.y + look.y}L${at.x - across.x} ${at.y - across.y}Z`}
          fill="var(--ink)"
          stroke="var(--surface)"
          strokeWidth="1"
        />
      ))}
    </>
  );
}

/** The place a finding speaks of, where it is one spot of the plan. */
export function PlanSpot({
  frame,
  x,
  y,
}: {
  readonly frame: PlanFrame;
  readonly x: number;
  readonly y: number;
}): ReactNode {
  const at = toScreen(frame, x, y);
  return (
    <>
      <path d={circlePath(at.x, at.y, 16)} fill="none" stroke="var(--surface)" strokeWidth="6" />
      <path d={circlePath(at.x, at.y, 16)} fill="none" stroke="var(--ink)" strokeWidth="2.5" />
    </>
  );
}
