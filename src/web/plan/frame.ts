import type { Outline } from "#engine/geometry";
import type { Metres } from "#engine/units";
import { outlinePoints, reachAlong } from "#work";

/** A point of the drawing [CSS px], x right, y down. */
export interface ScreenPoint {
  readonly x: number;
  readonly y: number;
}

/** Where the kiln's plan lies on the drawing: the kiln's +x is right, its +y is up. */
export interface PlanFrame {
  readonly width: number;
  readonly height: number;
  /** CSS px per metre. */
  readonly scale: number;
  /** Of the kiln's axis. */
  readonly centreX: number;
  readonly centreY: number;
}

export interface Margins {
  readonly side: number;
  readonly top: number;
  readonly bottom: number;
}

/** Fits `outline` into a drawing `width` wide and at most `maxHeight` high [CSS px]. */
export function planFrame(outline: Outline, width: number, maxHeight: number, margins: Margins): PlanFrame {
  const points = outlinePoints(outline);
  const across = reachAlong(points, 1, 0);
  const deep = reachAlong(points, 0, 1);
  const free = Math.max(width - 2 * margins.side, 1);
  const freeHeight = Math.max(maxHeight - margins.top - margins.bottom, 1);
  const scale = Math.min(free / (across.to - across.from), freeHeight / (deep.to - deep.from));
  return {
    width,
    height: (deep.to - deep.from) * scale + margins.top + margins.bottom,
    scale,
    centreX: width / 2 - ((across.from + across.to) / 2) * scale,
    centreY: margins.top + deep.to * scale,
  };
}

export function toScreen(frame: PlanFrame, x: Metres, y: Metres): ScreenPoint {
  return { x: frame.centreX + x * frame.scale, y: frame.centreY - y * frame.scale };
}

export function toKiln(frame: PlanFrame, point: ScreenPoint): { readonly x: Metres; readonly y: Metres } {
  return { x: (point.x - frame.centreX) / frame.scale, y: (frame.centreY - point.y) / frame.scale };
}

/** What maps the drawing to the browser's window: SVGSVGElement.getScreenCTM(). */
export type ScreenMatrix = Pick<DOMMatrixReadOnly, "a" | "b" | "c" | "d" | "e" | "f">;

/**
 * From the window (PointerEvent.clientX, clientY) to the drawing, whatever zoom, scroll or CSS transform lies
 * between: the inverse of the affine map x' = a x + c y + e, y' = b x + d y + f.
 */
export function fromWindow(matrix: ScreenMatrix, clientX: number, clientY: number): ScreenPoint {
  const { a, b, c, d, e, f } = matrix;
  const determinant = a * d - b * c;
  const x = clientX - e;
  const y = clientY - f;
  return { x: (d * x - c * y) / determinant, y: (a * y - b * x) / determinant };
}
