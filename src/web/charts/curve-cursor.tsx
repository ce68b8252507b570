import type { ReactNode } from "react";
import type { Kelvin, Seconds } from "#engine/units";
import { formatDuration, formatTemperature, formatTime, type UnitPreference } from "#words";
import type { CurveFrame } from "./curve-frame.ts";
import { valueAt, type FiringLines } from "./firing-lines.ts";

/** The present moment of a firing under way. */
export function Now({
  frame,
  now,
  label,
}: {
  readonly frame: CurveFrame;
  readonly now: Seconds;
  readonly label: string;
}): ReactNode {
  const x = frame.xOf(now);
  const wide = label.length * 7.4 + 14;
  const left = Math.min(Math.max(x - wide / 2, 0), frame.width - wide);
  return (
    <>
      <path d={`M${x} 24V${frame.bottom}`} stroke="var(--ink)" strokeWidth="1.3" />
      <rect x={left} y="2" width={wide} height="23" rx="4" fill="var(--ink)" />
      <text className="strong chart-on-ink" x={left + wide / 2} y="18" fontSize="13" textAnchor="middle">
        {label}
      </text>
    </>
  );
}

/** The figures at the pointer. The table holds the same. */
export function Probe(props: {
  readonly frame: CurveFrame;
  readonly lines: FiringLines;
  readonly time: Seconds;
  readonly units: UnitPreference;
  readonly startsAt: Seconds | null;
}): ReactNode {
  const { frame, lines, time, units, startsAt } = props;
  const at = (line: readonly Kelvin[]): string => formatTemperature(valueAt(lines.times, line, time), units);
  const rows = [
    startsAt === null ? formatDuration(time) : formatTime(startsAt + time, units),
    ...(lines.hottest ? [`hottest ${at(lines.hottest.line)}`] : []),
    `sensor ${at(lines.sensor)}`,
    ...(lines.coldest ? [`coldest ${at(lines.coldest.line)}`] : []),
  ];
  const x = frame.xOf(time);
  const wide = 126;
  const left = x + 12 + wide < frame.right ? x + 12 : x - 12 - wide;
  const top = frame.bottom - rows.length * 18 - 20;
  return (
    <g pointerEvents="none">
      <path d={`M${x} ${frame.top}V${frame.bottom}`} stroke="var(--ink)" strokeWidth="1" strokeDasharray="3 3" />
      <rect
        x={left}
        y={top}
        width={wide}
        height={rows.length * 18 + 10}
        rx="5"
        fill="var(--surface)"
        stroke="var(--ink)"
        strokeWidth="1.2"
      />
      {rows.map((row, i) => (
        <text key={row} className={i === 0 ? "strong" : undefined} x={left + 9} y={top + 19 + i * 18} fontSize="13">
          {row}
        </text>
      ))}
    </g>
  );
}
