import type { ReactNode } from "react";
import type { Seconds } from "#engine/units";
import { coneSpoken } from "#words";
import { linePath, type CurveFrame } from "./curve-frame.ts";

export interface HeatworkCurveProps {
  /** The temperature chart's: the time axes lie under each other. */
  readonly frame: CurveFrame;
  readonly cone: string;
  readonly until: Seconds;
  readonly times: readonly Seconds[];
  /** Heatwork of the wanted cone [-]: 1 when it is down. */
  readonly coldest: readonly number[] | null;
  readonly hottest: readonly number[] | null;
}

const height = 130;

/** Heatwork adds up over time; it stays near nothing until the last stretch. The level where the wanted cone is down is marked. */
export function HeatworkCurve({ frame, cone, times, coldest, hottest }: HeatworkCurveProps): ReactNode {
  if (!coldest || !hottest) return null;
  const top = Math.max(1.15, ...hottest, ...coldest);
  const [foot, head] = [height - 6, 12];
  const yOf = (work: number): number => foot - (work / top) * (foot - head);
  const place = { xOf: frame.xOf, yOf };
  const down = yOf(1);
  return (
    <>
      <svg
        width={frame.width}
        height={height}
        viewBox={`0 0 ${frame.width} ${height}`}
        role="img"
        aria-label={`Heatwork over the firing, against ${coneSpoken(cone)}. At the end the coldest piece has ${tenths(coldest)} and the hottest ${tenths(hottest)} of what bends that cone.`}
      >
        <path d={`M${frame.left} ${foot}H${frame.right}`} stroke="var(--ink)" strokeWidth="1.3" />
        <path d={`M${frame.left} ${down}H${frame.right}`} stroke="var(--edge)" strokeWidth="1" strokeDasharray="4 4" />
        <path d={linePath(place, times, coldest)} fill="none" stroke="var(--heat-cold3)" strokeWidth="2.8" />
        <path
          d={linePath(place, times, hottest)}
          fill="none"
          stroke="var(--heat-hot3)"
          strokeWidth="2.8"
          strokeDasharray="0.5 5.2"
          strokeLinecap="round"
        />
        <text className="muted chart-label" x={frame.left + 4} y={down - 6} fontSize="13">
          cone {cone} is down
        </text>
      </svg>
      <p className="chart-caption" style={{ paddingLeft: frame.left }}>
        Heatwork adds up heat over time. That is what bends a cone.
      </p>
    </>
  );
}

function tenths(line: readonly number[]): string {
  return `${Math.round((line.at(-1) ?? 0) * 10)} tenths`;
}
