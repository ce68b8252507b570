import type { ReactNode } from "react";
import { shapeOf, shelfTypeOf, type FiringClass, type Load, type PlacedShelf } from "#engine/kiln";
import { classes, heatFill, heatHatch } from "#web/ui";
import { formatMass, offsetWords, type UnitPreference } from "#words";
import { heatClasses, heatClassOf, type ConeRange, type HeatClass, type PieceHeat } from "#work";

/** What the line beside a shelf says. */
export interface ShelfFacts {
  readonly shelf: PlacedShelf;
  readonly number: number;
  readonly count: number;
  readonly isHalf: boolean;
  readonly ware: number;
  readonly plate: number;
  readonly coldest: PieceHeat | null;
  readonly hottest: PieceHeat | null;
}

export function shelfFacts(
  load: Load,
  shelf: PlacedShelf,
  number: number,
  heat: { readonly coldest: PieceHeat; readonly hottest: PieceHeat } | undefined,
): ShelfFacts {
  const pieces = load.setting.pieces.filter(({ shelfId }) => shelfId === shelf.id);
  const type = shelfTypeOf(load, shelf);
  return {
    shelf,
    number,
    count: pieces.length,
    isHalf: type.outline.kind === "half-disc",
    ware: pieces.reduce((sum, { pieceId }) => sum + shapeOf(load, pieceId).mass, 0),
    plate: type.mass,
    coldest: heat?.coldest ?? null,
    hottest: heat?.hottest ?? null,
  };
}

const countWords = ({ count, isHalf }: ShelfFacts, short: boolean): string =>
  `${isHalf && !short ? "half, " : ""}${count === 0 ? "empty" : `${count} ${count === 1 ? "piece" : "pieces"}`}`;

/** The same line for a screen reader. */
export function spokenFacts(facts: ShelfFacts, units: UnitPreference): string {
  const { coldest, hottest } = facts;
  return [
    `Shelf ${facts.number}${facts.isHalf ? ", a half shelf" : ""}`,
    facts.count === 0
      ? "empty"
      : `${facts.count} ${facts.count === 1 ? "piece" : "pieces"}, ${formatMass(facts.ware, units)}`,
    `shelf ${formatMass(facts.plate, units)}`,
    coldest && hottest ? `coldest ${offsetWords(coldest.offset)}, hottest ${offsetWords(hottest.offset)}` : null,
  ]
    .filter((part) => part !== null)
    .join(", ");
}

export interface ShelfLineProps {
  readonly facts: ShelfFacts;
  readonly range: ConeRange;
  readonly tolerance: FiringClass["tolerance"];
  readonly units: UnitPreference;
  readonly prefix: string;
  readonly x: number;
  /** Middle of the line's block. */
  readonly y: number;
  readonly width: number;
  /** The shelf's own height, where the leader starts; and the kiln's side. */
  readonly shelfY: number;
  readonly leaderX: number;
  /** Without the weights. */
  readonly short: boolean;
  readonly isPicked: boolean;
}

/** Beside a shelf: number, count, bar from its coldest to its hottest piece, weights. */
export function ShelfLine(props: ShelfLineProps): ReactNode {
  const { facts, x, y, width, short, isPicked, units } = props;
  const top = y - (short ? 18 : 26);
  const bar = top + 27;
  return (
    <g className={classes("cutaway-line", isPicked && "picked")}>
      <path
        d={`M${props.leaderX} ${props.shelfY}L${props.leaderX + 6} ${props.shelfY}L${x - 10} ${y}`}
        fill="none"
        stroke="var(--edge)"
        strokeWidth="1"
      />
      {isPicked ? (
        <rect
          x={x - 9}
          y={y - (short ? 22 : 30)}
          width={width + 16}
          height={short ? 44 : 60}
          rx="7"
          fill="var(--accent-wash)"
          stroke="var(--accent)"
          strokeWidth="1.6"
        />
      ) : null}
      <rect x={x} y={top + 1} width="17" height="17" rx="3" fill="var(--ink)" />
      <text className="strong cutaway-on-ink" x={x + 8.5} y={top + 14.3} fontSize="13" textAnchor="middle">
        {facts.number}
      </text>
      <text x={x + 23} y={top + 14.3} fontSize="13.5">
        {countWords(facts, short)}
      </text>
      <HeatBar {...props} y={bar} />
      {short ? null : (
        <text className="muted" x={x} y={top + 50} fontSize="12.5">
          {`${facts.count === 0 ? "" : `${formatMass(facts.ware, units)} + `}shelf ${formatMass(facts.plate, units)}`}
        </text>
      )}
    </g>
  );
}

/** From the coldest to the hottest piece on the strip's axis, each stretch in its own step of heat. */
function HeatBar({ facts, range, tolerance, prefix, x, y, width }: ShelfLineProps): ReactNode {
  const at = (offset: number): number => x + ((offset - range.from) / (range.to - range.from)) * width;
  const { coldest, hottest } = facts;
  return (
    <>
      <rect
        x={at(tolerance.colder)}
        y={y - 6}
        width={at(tolerance.hotter) - at(tolerance.colder)}
        height="12"
        fill="var(--band)"
        stroke="var(--line)"
      />
      <path d={`M${x} ${y}H${x + width}`} stroke="var(--edge)" strokeWidth="1" />
      {coldest && hottest ? (
        <Pill
          from={at(coldest.offset)}
          to={at(hottest.offset)}
          at={at}
          low={coldest.offset}
          high={hottest.offset}
          prefix={prefix}
          y={y}
        />
      ) : null}
    </>
  );
}

/** Edges between steps of heat [cones], cold to hot. */
const edges = [-1, -0.5, -0.25, 0.25, 0.5, 1] as const;

function Pill(props: {
  readonly from: number;
  readonly to: number;
  readonly low: number;
  readonly high: number;
  readonly at: (offset: number) => number;
  readonly prefix: string;
  readonly y: number;
}): ReactNode {
  const { low, high, at, prefix, y } = props;
  // A shelf of like pieces still shows as a bar one can see.
  const grow = Math.max(9 - (props.to - props.from), 0) / 2;
  const [from, to] = [props.from - grow, props.to + grow];
  const [first, last] = [heatClassOf(low), heatClassOf(high)].map((heat) => heatClasses.indexOf(heat)) as [
    number,
    number,
  ];
  const clip = `${prefix}-pill-${Math.round(from * 10)}-${Math.round(y * 10)}`;
  const box = { x: from, y: y - 4.5, width: to - from, height: 9, rx: 3 };
  return (
    <>
      <clipPath id={clip}>
        <rect {...box} />
      </clipPath>
      <g clipPath={`url(#${clip})`}>
        {heatClasses.slice(first, last + 1).map((heat: HeatClass, i) => {
          const start = i === 0 ? from : at(edges[first + i - 1]);
          const end = first + i === last ? to : at(edges[first + i]);
          const hatch = heatHatch(heat, prefix);
          const rect = { x: start, y: y - 4.5, width: Math.max(end - start, 0), height: 9 };
          return (
            <g key={heat}>
              <rect {...rect} fill={heatFill(heat)} />
              {hatch ? <rect {...rect} fill={hatch} /> : null}
            </g>
          );
        })}
      </g>
      <rect {...box} fill="none" stroke="var(--outline)" strokeWidth="1.2" />
    </>
  );
}
