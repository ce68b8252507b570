import { useState, type PointerEvent, type ReactNode } from "react";
import type { Forecast } from "#engine/firing";
import {
  celsiusFromKelvin,
  fahrenheitFromKelvin,
  kelvinFromCelsius,
  kelvinFromFahrenheit,
  type Kelvin,
  type Seconds,
} from "#engine/units";
import { useSize } from "#web/ui";
import {
  formatBareTemperature,
  formatDuration,
  formatTemperature,
  formatTime,
  metricUnits,
  type UnitPreference,
} from "#words";
import { ChartTable, type TableData } from "./chart-table.tsx";
import { curveFrame, linePath, type CurveFrame } from "./curve-frame.ts";
import { firingLines, heatworkAlong, roundStep, valueAt, type FiringLines } from "./firing-lines.ts";
import { HeatworkCurve } from "./heatwork-curve.tsx";
import "./charts.css";

export interface LogPoint {
  /** From the start [s]. */
  readonly time: Seconds;
  readonly temperature: Kelvin;
}

export interface FiringCurveProps {
  readonly forecast: Forecast;
  /** Wanted cone, as text. */
  readonly cone: string;
  /** Cones named at the right, with the temperature each goes down at for this firing's last rate. */
  readonly cones?: readonly { readonly name: string; readonly temperature: Kelvin }[];
  readonly units?: UnitPreference;
  /** Start by the clock [s after midnight]: the axis shows times of day; null: hours since the start. */
  readonly startsAt?: Seconds | null;
  /** How far the firing is [s from the start], if it is under way. */
  readonly now?: Seconds | null;
  /** What the kiln logged. */
  readonly log?: readonly LogPoint[];
  /** Cooling too; else up to the end of heating. */
  readonly withCooling?: boolean;
  /** The heatwork below. */
  readonly withHeatwork?: boolean;
  /** Shows the same data as a table. */
  readonly asTable?: boolean;
  readonly height?: number;
  readonly initialWidth?: number;
  readonly isStale?: boolean;
}

const noLog: readonly LogPoint[] = [];
const noCones: readonly { readonly name: string; readonly temperature: Kelvin }[] = [];

/** Temperatures of a firing: schedule, sensor, coldest and hottest piece, log and cones; below, the heatwork. */
export function FiringCurve(props: FiringCurveProps): ReactNode {
  const { forecast, units = metricUnits, startsAt = null, now = null, log = noLog, cones = noCones } = props;
  const [stage, { width }] = useSize<HTMLDivElement>({ width: props.initialWidth ?? 840, height: 0 });
  const [probe, setProbe] = useState<Seconds | null>(null);
  const last = props.withCooling ? (forecast.times.at(-1) ?? 0) : forecast.heatingEnds + 600;
  const lines = firingLines(forecast, last);
  const hottestKelvin = Math.max(
    ...lines.sensor,
    ...lines.scheduled,
    ...(lines.hottest?.line ?? []),
    ...log.map(({ temperature }) => temperature),
    ...cones.map(({ temperature }) => temperature),
  );
  const narrow = width < 560;
  const frame = curveFrame({
    width,
    height: props.height ?? (narrow ? 300 : 460),
    margins: { left: 50, right: cones.length > 0 ? 56 : 16, top: now === null ? 16 : 34, bottom: 36 },
    until: lines.times.at(-1) ?? 1,
    from: kelvinFromCelsius(0),
    to: hottestKelvin + 30,
  });
  if (props.asTable) return <ChartTable data={tableOf(props, lines, units)} />;
  const onMove = (event: PointerEvent<SVGSVGElement>): void => {
    const box = event.currentTarget.getBoundingClientRect();
    const x = ((event.clientX - box.left) / box.width) * width;
    const time = frame.timeOf(x);
    setProbe(time >= 0 && time <= (lines.times.at(-1) ?? 0) ? time : null);
  };
  return (
    <div className={props.isStale ? "chart firing-curve stale" : "chart firing-curve"} ref={stage}>
      <svg
        width={width}
        height={frame.height}
        viewBox={`0 0 ${width} ${frame.height}`}
        role="img"
        aria-label={summary(props, lines, units)}
        onPointerMove={onMove}
        onPointerDown={onMove}
        onPointerLeave={() => setProbe(null)}
      >
        <TemperatureAxis frame={frame} units={units} />
        <TimeAxis frame={frame} units={units} startsAt={startsAt} />
        <Lines frame={frame} lines={lines} narrow={narrow} />
        {log.map(({ time, temperature }) => (
          <circle
            key={time}
            cx={frame.xOf(time)}
            cy={frame.yOf(temperature)}
            r="3.4"
            fill="var(--surface)"
            stroke="var(--ink)"
            strokeWidth="1.7"
          />
        ))}
        <ConeLeaders frame={frame} cones={cones} />
        {now === null ? null : (
          <Now
            frame={frame}
            now={now}
            label={startsAt === null ? `now ${formatDuration(now)}` : `now ${formatTime(startsAt + now, units)}`}
          />
        )}
        {probe === null ? null : <Probe frame={frame} lines={lines} time={probe} units={units} startsAt={startsAt} />}
      </svg>
      {props.withHeatwork === false ? null : (
        <HeatworkCurve
          frame={frame}
          cone={props.cone}
          until={lines.times.at(-1) ?? 1}
          times={lines.times}
          coldest={lines.coldest ? heatworkAlong(lines.times, lines.coldest.line, props.cone) : null}
          hottest={lines.hottest ? heatworkAlong(lines.times, lines.hottest.line, props.cone) : null}
        />
      )}
    </div>
  );
}

function TemperatureAxis({ frame, units }: { readonly frame: CurveFrame; readonly units: UnitPreference }): ReactNode {
  const celsius = units.temperature === "celsius";
  const toDegrees = celsius ? celsiusFromKelvin : fahrenheitFromKelvin;
  const toKelvin = celsius ? kelvinFromCelsius : kelvinFromFahrenheit;
  const top = toDegrees(frame.to);
  const step = roundStep(top, frame.height / 60);
  const ticks = Array.from({ length: Math.floor(top / step) + 1 }, (_, i) => i * step).filter(
    (degrees) => toKelvin(degrees) >= frame.from - 1e-6,
  );
  return ticks.map((degrees) => {
    const y = frame.yOf(toKelvin(degrees));
    return (
      <g key={degrees}>
        <path d={`M${frame.left} ${y}H${frame.right}`} stroke="var(--line)" strokeWidth="1" />
        <text className="muted" x={frame.left - 8} y={y + 4.5} fontSize="13" textAnchor="end">
          {formatBareTemperature(toKelvin(degrees), units)}
        </text>
      </g>
    );
  });
}

/** Ticks at whole hours of the clock, or since the start; as many as have room for their names. */
function TimeAxis({
  frame,
  units,
  startsAt,
}: {
  readonly frame: CurveFrame;
  readonly units: UnitPreference;
  readonly startsAt: Seconds | null;
}): ReactNode {
  const hours = (frame.until / 3600) * (units.clock === "12" && startsAt !== null ? 1.3 : 1);
  const room = (frame.right - frame.left) / 64;
  const every = [1, 2, 3, 4, 6, 12, 24].find((step) => hours / step <= room) ?? 24;
  const first = startsAt === null ? 0 : (3600 - (startsAt % 3600)) % 3600;
  const count = Math.floor((frame.until - first) / 3600) + 1;
  const base = frame.bottom;
  return (
    <>
      <path d={`M${frame.left} ${base}H${frame.right}`} stroke="var(--ink)" strokeWidth="1.3" />
      {Array.from({ length: Math.max(count, 0) }, (_, i) => {
        const time = first + i * 3600;
        const x = frame.xOf(time);
        const hour = startsAt === null ? i : Math.round((startsAt + time) / 3600);
        const named = hour % every === 0;
        return (
          <g key={time}>
            <path d={`M${x} ${base}v${named ? 7 : 4}`} stroke="var(--ink)" strokeWidth="1.2" />
            {named ? (
              <text className="muted" x={x} y={base + 22} fontSize="13" textAnchor="middle">
                {startsAt === null
                  ? hour === 0
                    ? "0"
                    : formatDuration(hour * 3600)
                  : formatTime(startsAt + time, units)}
              </text>
            ) : null}
          </g>
        );
      })}
    </>
  );
}

/** The band between coldest and hottest, and the four lines, each named beside itself. */
function Lines({
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
      <path
        d={linePath(frame, times, scheduled)}
        fill="none"
        stroke="var(--muted)"
        strokeWidth="1.6"
        strokeDasharray="7 5"
      />
      <path d={linePath(frame, times, sensor)} fill="none" stroke="var(--ink)" strokeWidth="1.7" />
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
  /** Share of the time at which the leader touches the line. */
  readonly at: number;
  readonly dx: number;
  readonly dy: number;
  readonly text: string;
  readonly isQuiet?: boolean;
}): ReactNode {
  const { frame, lines, dx, dy, text, isQuiet } = props;
  const time = (lines.times.at(-1) ?? 0) * props.at;
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
function ConeLeaders({
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

function Now({
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
function Probe(props: {
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

function summary({ forecast }: FiringCurveProps, lines: FiringLines, units: UnitPreference): string {
  const peak = (line: readonly Kelvin[]): string => formatTemperature(Math.max(...line), units);
  return [
    `Temperatures of the firing. Heating takes ${formatDuration(forecast.heatingEnds)}; the sensor reaches ${peak(lines.sensor)}`,
    ...(lines.coldest && lines.hottest
      ? [`the coldest piece ${peak(lines.coldest.line)}, the hottest ${peak(lines.hottest.line)}`]
      : []),
  ].join("; ");
}

/** Every half hour, or every hour from six hours up. */
function tableOf(
  { startsAt = null, log = noLog }: FiringCurveProps,
  lines: FiringLines,
  units: UnitPreference,
): TableData {
  const end = lines.times.at(-1) ?? 0;
  const step = end > 6 * 3600 ? 3600 : 1800;
  const times = [
    ...Array.from({ length: Math.floor(end / step) + 1 }, (_, i) => i * step),
    ...(end % step > 60 ? [end] : []),
  ];
  const at = (line: readonly Kelvin[] | undefined, time: Seconds): string =>
    line ? formatTemperature(valueAt(lines.times, line, time), units) : "";
  const logAt = (time: Seconds): string => {
    const near = log
      .filter((point) => Math.abs(point.time - time) <= step / 2)
      .sort((a, b) => Math.abs(a.time - time) - Math.abs(b.time - time))[0];
    return near ? formatTemperature(near.temperature, units) : "";
  };
  return {
    caption: "Temperatures of the firing",
    columns: ["Time", "Schedule", "Sensor", "Coldest piece", "Hottest piece", ...(log.length > 0 ? ["Log"] : [])],
    rows: times.map((time) => [
      startsAt === null ? (time === 0 ? "start" : formatDuration(time)) : formatTime(startsAt + time, units),
      at(lines.scheduled, time),
      at(lines.sensor, time),
      at(lines.coldest?.line, time),
      at(lines.hottest?.line, time),
      ...(log.length > 0 ? [logAt(time)] : []),
    ]),
  };
}
