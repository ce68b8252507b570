import type { Outline, Placement, RoundedBox } from "#engine/geometry";
import { outlinePoints } from "#work";
import { toScreen, type PlanFrame } from "./frame.ts";

const fixed = (value: number): string => String(Math.round(value * 100) / 100);

/** The outline of a shelf or chamber as an SVG path; discs as true arcs. */
export function outlinePath(outline: Outline, frame: PlanFrame, at: Placement = { x: 0, y: 0, angle: 0 }): string {
  if (outline.kind === "disc") {
    const { x, y } = toScreen(frame, at.x, at.y);
    return circlePath(x, y, outline.radius * frame.scale);
  }
  const points = outlinePoints(outline, at).map(([x, y]) => toScreen(frame, x, y));
  if (outline.kind === "half-disc") {
    const first = points[0]!;
    const last = points.at(-1)!;
    const radius = fixed(outline.radius * frame.scale);
    // Counter-clockwise in the kiln is counter-clockwise on the screen too: the sweep flag is 0.
    return `M${fixed(first.x)} ${fixed(first.y)}A${radius} ${radius} 0 0 0 ${fixed(last.x)} ${fixed(last.y)}Z`;
  }
  return `M${points.map(({ x, y }) => `${fixed(x)} ${fixed(y)}`).join("L")}Z`;
}

export function circlePath(x: number, y: number, radius: number): string {
  const r = fixed(radius);
  return `M${fixed(x - radius)} ${fixed(y)}A${r} ${r} 0 1 1 ${fixed(x + radius)} ${fixed(y)}A${r} ${r} 0 1 1 ${fixed(x - radius)} ${fixed(y)}Z`;
}

/**
 * A rounded box as an SVG path, grown by `grow` [CSS px] (shrunk if negative).
 *
 * The box is in metres about some origin that the drawing has at (0, 0); y is turned to point down.
 */
export function boxPath(box: RoundedBox, scale: number, grow = 0): string {
  const x = box.x * scale;
  const y = -box.y * scale;
  let radius = box.radius * scale + grow;
  let halfX = box.halfX * scale;
  let halfY = box.halfY * scale;
  if (radius < 0) {
    halfX = Math.max(halfX + radius, 0);
    halfY = Math.max(halfY + radius, 0);
    radius = 0;
  }
  if (halfX === 0 && halfY === 0) return circlePath(x, y, Math.max(radius, 0));
  const cos = Math.cos(-box.angle);
  const sin = Math.sin(-box.angle);
  const point = (u: number, v: number): string => `${fixed(x + cos * u - sin * v)} ${fixed(y + sin * u + cos * v)}`;
  const [w, h, r] = [halfX + radius, halfY + radius, fixed(radius)];
  const arc = (u: number, v: number): string => (radius > 0 ? `A${r} ${r} 0 0 1 ${point(u, v)}` : `L${point(u, v)}`);
  return [
    `M${point(-halfX, -h)}L${point(halfX, -h)}`,
    arc(w, -halfY),
    `L${point(w, halfY)}`,
    arc(halfX, h),
    `L${point(-halfX, h)}`,
    arc(-w, halfY),
    `L${point(-w, -halfY)}`,
    `${arc(-halfX, -h)}Z`,
  ].join("");
}
