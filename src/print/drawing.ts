import { round } from "./text.ts";

/** Point of a drawing on the page [pt], y down. */
export type PagePoint = readonly [x: number, y: number];

export interface Stroke {
  /** Line width [pt]. */
  readonly width?: number;
  readonly fill?: "white" | "black" | "none";
  readonly dash?: readonly number[];
}

function paint({ width = 0.8, fill = "none", dash }: Stroke): string {
  const line = width === 0 ? 'stroke="none"' : `stroke="black" stroke-width="${width}"`;
  return `fill="${fill}" ${line}${dash ? ` stroke-dasharray="${dash.join(" ")}"` : ""}`;
}

export function polyline(points: readonly PagePoint[], closed: boolean, stroke: Stroke = {}): string {
  return `<path d="${pathOf(points, closed)}" ${paint(stroke)} stroke-linejoin="round"/>`;
}

export function pathOf(points: readonly PagePoint[], closed: boolean): string {
  const steps = points.map(([x, y], i) => `${i === 0 ? "M" : "L"}${round(x)} ${round(y)}`).join("");
  return closed ? `${steps}Z` : steps;
}

export function line(from: PagePoint, to: PagePoint, stroke: Stroke = {}): string {
  return polyline([from, to], false, stroke);
}

export function circle([x, y]: PagePoint, radius: number, stroke: Stroke = {}): string {
  return `<circle cx="${round(x)}" cy="${round(y)}" r="${round(radius)}" ${paint(stroke)}/>`;
}

export function rectangle([x, y]: PagePoint, width: number, height: number, stroke: Stroke = {}, corner = 0): string {
  return `<rect x="${round(x)}" y="${round(y)}" width="${round(width)}" height="${round(height)}"${corner > 0 ? ` rx="${corner}"` : ""} ${paint(stroke)}/>`;
}

/** An empty box to tick, its top left corner at `at`. */
export const tickBox = (at: PagePoint, size = 15): string =>
  rectangle(at, size, size, { width: 1, fill: "white" }, 1.5);

export interface Bounds {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

export function boundsOf(points: readonly PagePoint[]): Bounds {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return { x0: Math.min(...xs), y0: Math.min(...ys), x1: Math.max(...xs), y1: Math.max(...ys) };
}

/**
 * Slanting lines, `spacing` apart [pt], inside a closed polygon.
 *
 * Cut to the shape here and not by a clip path: in a PDF that would be a transparency mask, which printers turn into
 * pixels.
 */
export function hatched(shape: readonly PagePoint[], spacing: number, width = 0.5): string {
  const { x0, y0, x1, y1 } = boundsOf(shape);
  const step = spacing * Math.SQRT2;
  let lines = "";
  // Lines x + y = level; they start on a grid of the page, so that neighbours line up.
  for (let level = Math.ceil((x0 + y0) / step) * step; level <= x1 + y1; level += step) {
    const cuts = crossings(shape, ([x, y]) => x + y - level).sort(([a], [b]) => a - b);
    for (let i = 0; i + 1 < cuts.length; i += 2) {
      const [fromX, fromY] = cuts[i];
      const [toX, toY] = cuts[i + 1];
      lines += `M${round(fromX)} ${round(fromY)}L${round(toX)} ${round(toY)}`;
    }
  }
  return lines === "" ? "" : `<path d="${lines}" fill="none" stroke="black" stroke-width="${width}"/>`;
}

/** Points where the polygon's edges cross a line, given by its signed distance; always an even number. */
function crossings(shape: readonly PagePoint[], distance: (point: PagePoint) => number): PagePoint[] {
  const found: PagePoint[] = [];
  shape.forEach((from, i) => {
    const to = shape[(i + 1) % shape.length];
    const here = distance(from);
    const there = distance(to);
    if (here < 0 === there < 0) return;
    const t = here / (here - there);
    found.push([from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])]);
  });
  return found;
}

/** Dots, `spacing` apart [pt], whose middles lie inside a closed polygon. */
export function dotted(shape: readonly PagePoint[], spacing: number, radius: number): string {
  const { y0, y1 } = boundsOf(shape);
  const rise = (spacing * Math.sqrt(3)) / 2;
  let dots = "";
  for (let row = Math.ceil((y0 + radius) / rise); row * rise <= y1 - radius; row++) {
    const y = row * rise;
    const shift = row % 2 === 0 ? 0 : spacing / 2;
    const cuts = crossings(shape, (point) => point[1] - y)
      .map(([x]) => x)
      .sort((a, b) => a - b);
    for (let i = 0; i + 1 < cuts.length; i += 2) {
      const from = cuts[i] + radius;
      const to = cuts[i + 1] - radius;
      for (let x = Math.ceil((from - shift) / spacing) * spacing + shift; x <= to; x += spacing) {
        dots += `<circle cx="${round(x)}" cy="${round(y)}" r="${round(radius)}"/>`;
      }
    }
  }
  return dots === "" ? "" : `<g fill="black">${dots}</g>`;
}
