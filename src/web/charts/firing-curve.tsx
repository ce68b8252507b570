import { useState, type PointerEvent, type ReactNode } from "react";
import type { Forecast } from "#engine/firing";
import { kelvinFromCelsius, type Kelvin, type Seconds } from "#engine/units";
import { useSize } from "#web/ui";
import { formatDuration, formatTemperature, formatTime, metricUnits, type UnitPreference } from "#words";
import { ChartTable, type TableData } from "./chart-table.tsx";
import { TemperatureAxis, TimeAxis } from "./curve-axes.tsx";
import { Now, Probe } from "./curve-cursor.tsx";
import { curveFrame } from "./curve-frame.ts";
import { ConeLeaders, Lines } from "./curve-lines.tsx";
import { firingLines, heatworkAlong, valueAt, type FiringLines } from "./firing-lines.ts";
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
    rows: times.map((time) => {
      const row = [
        startsAt === null ? (time === 0 ? "start" : formatDuration(time)) : formatTime(startsAt + time, units),
        at(lines.scheduled, time),
        at(lines.sensor, time),
        at(lines.coldest?.line, time),
        at(lines.hottest?.line, time),
      ];
      if (log.length > 0) row.push(logAt(time));
      return row;
    }),
  };
}
