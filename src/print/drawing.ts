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

/** Numbers the clips of one page, so that their names never clash. */
export interface Page {
  readonly nextName: () => string;
}

export function newPage(name: string): Page {
  let count = 0;
  return { nextName: () => `${name}-${++count}` };
}

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

/** Slanting lines, `spacing` apart [pt], inside a closed shape. */
export function hatched(page: Page, shape: readonly PagePoint[], spacing: number, width = 0.5): string {
  const { x0, y0, x1, y1 } = boundsOf(shape);
  const tall = y1 - y0;
  const step = spacing * Math.SQRT2;
  let lines = "";
  // Lines start on a grid of the page, so that neighbours line up.
  for (let x = Math.floor((x0 - tall) / step) * step; x <= x1; x += step) {
    lines += `M${round(x)} ${round(y1)}L${round(x + tall)} ${round(y0)}`;
  }
  return clipped(page, shape, `<path d="${lines}" fill="none" stroke="black" stroke-width="${width}"/>`);
}

/** Dots, `spacing` apart [pt], inside a closed shape. */
export function dotted(page: Page, shape: readonly PagePoint[], spacing: number, radius: number): string {
  const { x0, y0, x1, y1 } = boundsOf(shape);
  const rise = (spacing * Math.sqrt(3)) / 2;
  let dots = "";
  for (let row = Math.floor(y0 / rise); row * rise <= y1; row++) {
    const shift = row % 2 === 0 ? 0 : spacing / 2;
    for (let x = Math.floor((x0 - shift) / spacing) * spacing + shift; x <= x1; x += spacing) {
      dots += `<circle cx="${round(x)}" cy="${round(row * rise)}" r="${round(radius)}"/>`;
    }
  }
  return clipped(page, shape, `<g fill="black">${dots}</g>`);
}

function clipped(page: Page, shape: readonly PagePoint[], content: string): string {
  const name = page.nextName();
  return `<clipPath id="${name}"><path d="${pathOf(shape, true)}"/></clipPath><g clip-path="url(#${name})">${content}</g>`;
}
