import type { ReactNode } from "react";
import type { Kelvin } from "#engine/units";
import { linePath, type CurveFrame } from "./curve-frame.ts";
import { valueAt, type FiringLines } from "./firing-lines.ts";

/** The band between coldest and hottest, and the four lines, each named beside itself. */
export function Lines({
  frame,
  lines,
  narrow,
}: {
  readonly frame: CurveFrame;
  readonly lines: FiringLines;
  readonly narrow: boolean;
}): ReactNode {
  const { times, coldest, hottest, sensor, scheduled } = lines;
  const band =
    coldest && hottest
      ? `${linePath(frame, times, hottest.line)}L${linePath(frame, times, coldest.line, true).slice(1)}Z`
      : null;
  return (
    <>
      {band ? <path d={band} fill="var(--band)" /> : null}
      {coldest ? (
        <path d={linePath(frame, times, coldest.line)} fill="none" stroke="var(--heat-cold3)" strokeWidth="2.8" />
      ) : null}
      <path
        d={linePath(frame, times, scheduled)}
        fill="none"
        stroke="var(--muted)"
        strokeWidth="1.6"
        strokeDasharray="7 5"
      />
      <path d={linePath(frame, times, sensor)} fill="none" stroke="var(--ink)" strokeWidth="1.7" />
      {hottest ? (
        <path
          d={linePath(frame, times, hottest.line)}
          fill="none"
          stroke="var(--heat-hot3)"
          strokeWidth="2.8"
          strokeDasharray="0.5 5.2"
          strokeLinecap="round"
        />
      ) : null}
      <LineName frame={frame} lines={lines} line={scheduled} at={0.22} dx={-8} dy={-46} text="schedule" isQuiet />
      <LineName
        frame={frame}
        lines={lines}
        line={sensor}
        at={narrow ? 0.36 : 0.42}
        dx={-14}
        dy={-56}
        text="sensor"
        isQuiet
      />
      {hottest ? (
        <LineName
          frame={frame}
          lines={lines}
          line={hottest.line}
          at={narrow ? 0.6 : 0.66}
          dx={-60}
          dy={-44}
          text="hottest piece"
        />
      ) : null}
      {coldest ? (
        <LineName
          frame={frame}
          lines={lines}
          line={coldest.line}
          at={narrow ? 0.56 : 0.62}
          dx={34}
          dy={40}
          text="coldest piece"
        />
      ) : null}
    </>
  );
}

function LineName(props: {
  readonly frame: CurveFrame;
  readonly lines: FiringLines;
  readonly line: readonly Kelvin[];
  /** Share of the heating time at which the leader touches the line. */
  readonly at: number;
  readonly dx: number;
  readonly dy: number;
  readonly text: string;
  readonly isQuiet?: boolean;
}): ReactNode {
  const { frame, lines, dx, dy, text, isQuiet } = props;
  const time = Math.min(lines.heatingEnds, lines.times.at(-1) ?? 0) * props.at;
  const x = frame.xOf(time);
  const y = frame.yOf(valueAt(lines.times, props.line, time));
  const end = { x: x + dx, y: Math.max(y + dy, frame.top + 12) };
  return (
    <>
      <path d={`M${x} ${y}L${end.x} ${end.y + (dy < 0 ? 5 : -10)}`} stroke="var(--edge)" strokeWidth="1" />
      <text
        className={`chart-label ${isQuiet ? "muted" : "strong"}`}
        x={dx < 0 ? end.x + 4 : end.x}
        y={end.y}
        fontSize="13"
        textAnchor={dx < 0 ? "end" : "start"}
      >
        {text}
      </text>
    </>
  );
}

/** Names of cones at the right, parted so that they can be read, each with a leader to its temperature. */
export function ConeLeaders({
  frame,
  cones,
}: {
  readonly frame: CurveFrame;
  readonly cones: readonly { readonly name: string; readonly temperature: Kelvin }[];
}): ReactNode {
  if (cones.length === 0) return null;
  const hotFirst = [...cones].sort((a, b) => b.temperature - a.temperature);
  const middle = hotFirst.reduce((sum, { temperature }) => sum + frame.yOf(temperature), 0) / hotFirst.length;
  const gap = 20;
  const first = Math.max(middle - ((hotFirst.length - 1) / 2) * gap, frame.top + 18);
  return (
    <>
      <text className="muted" x={frame.right + 8} y={first - 16} fontSize="13">
        cone
      </text>
      {hotFirst.map(({ name, temperature }, i) => {
        const y = first + i * gap;
        return (
          <g key={name}>
            <path
              d={`M${frame.right} ${frame.yOf(temperature)}h8L${frame.right + 18} ${y}h5`}
              fill="none"
              stroke="var(--ink)"
              strokeWidth="1.4"
            />
            <text className="strong" x={frame.right + 27} y={y + 4.5} fontSize="13">
              {name}
            </text>
          </g>
        );
      })}
    </>
  );
}
