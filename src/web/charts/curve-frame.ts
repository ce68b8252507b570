import type { Kelvin, Seconds } from "#engine/units";

/** Where time and temperature lie on a chart [CSS px]. */
export interface CurveFrame {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly until: Seconds;
  readonly from: Kelvin;
  readonly to: Kelvin;
  readonly xOf: (time: Seconds) => number;
  readonly yOf: (temperature: Kelvin) => number;
  readonly timeOf: (x: number) => Seconds;
}

export function curveFrame(options: {
  readonly width: number;
  readonly height: number;
  readonly margins: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  readonly until: Seconds;
  readonly from: Kelvin;
  readonly to: Kelvin;
}): CurveFrame {
  const { width, height, margins, until, from, to } = options;
  const [left, right] = [margins.left, Math.max(width - margins.right, margins.left + 1)];
  const [top, bottom] = [margins.top, Math.max(height - margins.bottom, margins.top + 1)];
  return {
    width,
    height,
    left,
    right,
    top,
    bottom,
    until,
    from,
    to,
    xOf: (time) => left + (time / until) * (right - left),
    yOf: (temperature) => bottom - ((temperature - from) / (to - from)) * (bottom - top),
    timeOf: (x) => ((x - left) / (right - left)) * until,
  };
}

const tenth = (value: number): number => Math.round(value * 10) / 10;

/** A line as an SVG path; points closer together than half a pixel are left out. */
export function linePath(
  frame: Pick<CurveFrame, "xOf" | "yOf">,
  times: readonly Seconds[],
  line: readonly number[],
  backwards = false,
): string {
  const points: string[] = [];
  let lastX = -Infinity;
  for (const [i, time] of times.entries()) {
    const x = frame.xOf(time);
    if (x - lastX < 0.5 && i < times.length - 1) continue;
    lastX = x;
    points.push(`${tenth(x)} ${tenth(frame.yOf(line[i] ?? Number.NaN))}`);
  }
  if (backwards) points.reverse();
  return `M${points.join("L")}`;
}
