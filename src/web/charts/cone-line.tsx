import type { MouseEvent, ReactNode } from "react";
import { coneAt, conePositionOf } from "#engine/heatwork";
import type { FiringClass } from "#engine/kiln";
import { heatFill, useSize } from "#web/ui";
import { chanceWords, coneSpoken, giveOrTakeWords, offsetWords } from "#words";
import type { ConeRange, PieceHeat } from "#work";
import { ChartTable, type TableData } from "./chart-table.tsx";
import { stackDots } from "./cone-stacks.ts";
import "./charts.css";

export interface ConeLineProps {
  readonly heats: ReadonlyMap<string, PieceHeat>;
  readonly firingClass: FiringClass;
  /** One axis for all drawings of a forecast, and of both settings in a comparison: `coneRange`. */
  readonly range: ConeRange;
  /** What a piece is called in the table: "shelf 1, no. 7, mug". */
  readonly nameOf: (pieceId: string) => string;
  readonly pickedPieceId?: string | null;
  /** Height of the drawing [CSS px]. */
  readonly height?: number;
  readonly initialWidth?: number;
  /** The sentence over it; null leaves it out. */
  readonly caption?: string | null;
  /** New numbers are being computed: these are drawn muted. */
  readonly isStale?: boolean;
  readonly onSelect?: (pieceId: string) => void;
}

const axisFromFoot = 30;
const barsAboveAxis = 9;

/** Where each piece lands: dots on the cone axis, the wanted range, and bars that hold 8 firings in 10 for coldest and hottest. */
export function ConeLine(props: ConeLineProps): ReactNode {
  const { heats, firingClass, range, height = 112, pickedPieceId = null } = props;
  const { caption = "Where each piece lands. Bars hold 8 firings in 10." } = props;
  const [stage, { width }] = useSize<HTMLDivElement>({ width: props.initialWidth ?? 440, height: 0 });
  const pieces = [...heats.values()];
  const side = 14;
  const xOf = (offset: number): number => side + ((offset - range.from) / (range.to - range.from)) * (width - 2 * side);
  const axis = height - axisFromFoot;
  const sorted = [...pieces].sort((a, b) => a.offset - b.offset);
  const ends = sorted.length > 1 ? [sorted[0]!, sorted.at(-1)!] : sorted;
  const foot = axis - barsAboveAxis - 12;
  const { dots, diameter: dot } = stackDots(pieces, xOf, foot);
  const bottom = foot + 5 - dot / 2;
  const overlap =
    ends.length === 2 && xOf(ends[0]!.offset + ends[0]!.giveOrTake) + 4 > xOf(ends[1]!.offset - ends[1]!.giveOrTake);
  const [low, high] = [xOf(firingClass.tolerance.colder), xOf(firingClass.tolerance.hotter)];
  const labelAt = high + 8 + 86 < width ? high : null;
  const pick = (event: MouseEvent<SVGSVGElement>): void => {
    const box = event.currentTarget.getBoundingClientRect();
    const x = ((event.clientX - box.left) / box.width) * width;
    const y = ((event.clientY - box.top) / box.height) * height;
    const near = dots
      .map((each) => ({ each, apart: Math.hypot(each.x - x, bottom - each.level * dot - y) }))
      .sort((a, b) => a.apart - b.apart)[0];
    if (near && near.apart < 22) props.onSelect?.(near.each.heat.pieceId);
  };
  return (
    <div className={props.isStale ? "chart stale" : "chart"}>
      {caption ? <p className="chart-caption">{caption}</p> : null}
      <div ref={stage}>
        {/* oxlint-disable-next-line jsx-a11y/click-events-have-key-events, jsx-a11y/no-noninteractive-element-interactions -- the table below it is the keyboard's way */}
        <svg
          width={width}
          height={height}
          viewBox={`0 0 ${width} ${height}`}
          role="img"
          aria-label={summary(props, sorted)}
          onClick={pick}
        >
          <rect
            x={low}
            y="2"
            width={Math.max(high - low, 0)}
            height={axis - 4}
            fill="var(--band)"
            stroke="var(--line)"
          />
          {labelAt === null ? null : (
            <>
              <path d={`M${labelAt} 11h7`} stroke="var(--edge)" strokeWidth="1.4" />
              <text className="muted" x={labelAt + 11} y="15.5" fontSize="13">
                wanted range
              </text>
            </>
          )}
          {inFront(dots, pickedPieceId).map(({ heat, x, level }) => (
            <g key={heat.pieceId}>
              {heat.pieceId === pickedPieceId ? (
                <circle
                  cx={x}
                  cy={bottom - level * dot}
                  r="8.5"
                  fill="var(--surface)"
                  stroke="var(--accent)"
                  strokeWidth="3"
                />
              ) : null}
              <circle
                cx={x}
                cy={bottom - level * dot}
                r={dot / 2 - 0.5}
                fill={heatFill(heat.heat)}
                stroke="var(--outline)"
                strokeWidth={dot < 8 ? 0.8 : 1.2}
                strokeDasharray={heat.eitherWay && dot >= 8 ? "2.4 1.8" : undefined}
              />
            </g>
          ))}
          {ends.map(({ pieceId, offset, giveOrTake }, i) => {
            const y = axis - barsAboveAxis + (overlap ? (i === 0 ? -3 : 4) : 0);
            const from = Math.max(xOf(offset - giveOrTake), 2);
            const to = Math.min(xOf(offset + giveOrTake), width - 2);
            return (
              <path
                key={pieceId}
                d={`M${from} ${y}H${to}M${from} ${y - 4}v8M${to} ${y - 4}v8`}
                stroke="var(--ink)"
                strokeWidth="1.7"
              />
            );
          })}
          <Axis {...props} width={width} y={axis} xOf={xOf} />
        </svg>
      </div>
      <ChartTable data={tableOf(props, sorted)} unseen />
    </div>
  );
}

function inFront<Dot extends { readonly heat: PieceHeat }>(
  dots: readonly Dot[],
  pieceId: string | null,
): readonly Dot[] {
  return [...dots].sort((a, b) => Number(a.heat.pieceId === pieceId) - Number(b.heat.pieceId === pieceId));
}

interface AxisProps extends ConeLineProps {
  readonly width: number;
  readonly y: number;
  readonly xOf: (offset: number) => number;
}

/** Whole cones by name; the wanted one spelt out. Left out where names would touch. */
function Axis({ firingClass, range, width, y, xOf }: AxisProps): ReactNode {
  const wanted = conePositionOf(firingClass.cone);
  const first = Math.ceil(range.from + wanted - 1e-9);
  const last = Math.floor(range.to + wanted + 1e-9);
  const every = Math.max(1, Math.ceil(34 / Math.max(xOf(1) - xOf(0), 1)));
  const positions = Array.from({ length: last - first + 1 }, (_, i) => first + i);
  return (
    <>
      <path d={`M4 ${y}H${width - 4}`} stroke="var(--ink)" strokeWidth="1.5" />
      {positions.map((position) => {
        const x = xOf(position - wanted);
        const isWanted = position === wanted;
        const named = isWanted || ((position - Math.round(wanted)) % every === 0 && Math.abs(x - xOf(0)) > 46);
        return (
          <g key={position}>
            <path d={`M${x} ${y}v6`} stroke="var(--ink)" strokeWidth="1.5" />
            {named ? (
              <text x={x} y={y + 21} fontSize="13" textAnchor="middle" className="strong">
                {isWanted ? `cone ${coneAt(position)}` : coneAt(position)}
              </text>
            ) : null}
          </g>
        );
      })}
    </>
  );
}

function summary({ firingClass, nameOf }: ConeLineProps, sorted: readonly PieceHeat[]): string {
  const [coldest, hottest] = [sorted[0], sorted.at(-1)];
  if (!coldest || !hottest) return "No piece on the cone line.";
  const outside = sorted.filter((heat) => heat.outside).length;
  return `${sorted.length} pieces on the cone line about ${coneSpoken(firingClass.cone)}. Coldest: ${nameOf(coldest.pieceId)}, ${offsetWords(coldest.offset)}. Hottest: ${nameOf(hottest.pieceId)}, ${offsetWords(hottest.offset)}. ${outside} outside the wanted range.`;
}

function tableOf({ nameOf }: ConeLineProps, sorted: readonly PieceHeat[]): TableData {
  return {
    caption: "Where each piece lands, coldest first",
    columns: ["Piece", "Against wanted", "How sure", "As wanted"],
    rows: sorted.map((heat) => [
      nameOf(heat.pieceId),
      offsetWords(heat.offset),
      giveOrTakeWords(heat.giveOrTake),
      chanceWords(heat.chanceWanted),
    ]),
  };
}
