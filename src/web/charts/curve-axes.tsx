import type { ReactNode } from "react";
import {
  celsiusFromKelvin,
  fahrenheitFromKelvin,
  kelvinFromCelsius,
  kelvinFromFahrenheit,
  type Seconds,
} from "#engine/units";
import { formatBareTemperature, formatDuration, formatTime, type UnitPreference } from "#words";
import type { CurveFrame } from "./curve-frame.ts";
import { roundStep } from "./firing-lines.ts";

/** Horizontal lines at round temperatures of the reader's scale. */
export function TemperatureAxis({
  frame,
  units,
}: {
  readonly frame: CurveFrame;
  readonly units: UnitPreference;
}): ReactNode {
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
export function TimeAxis({
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
