import { radiusAt } from "#engine/geometry";
import type { Load } from "#engine/kiln";
import { formatBareLength, formatLength, type UnitPreference } from "#words";
import { circle, line, polyline, rectangle, type PagePoint } from "./drawing.ts";
import { type } from "./paper.ts";
import type { SideScale } from "./side-scale.ts";
import { plain, strong, textLine } from "./text.ts";

/** The kiln itself from the side: brick, element rows with their numbers, spyholes, sensor with its clear zone, ruler. */
export function sideKiln(
  load: Load,
  at: SideScale,
  units: UnitPreference,
): { readonly behind: string; readonly before: string } {
  return {
    behind: [brick(load, at), spyholes(load, at), rows(load, at), clearZones(load, at), ruler(load, at, units)].join(
      "",
    ),
    before: sensors(load, at),
  };
}

function box(at: SideScale, left: number, bottom: number, right: number, top: number, width = 0.8): string {
  const [x, y] = at.toPage(left, top);
  return rectangle([x, y], (right - left) * at.scale, (top - bottom) * at.scale, { width, fill: "white" });
}

function brick(load: Load, at: SideScale): string {
  const { outer, wall } = at;
  const { chamber, floor } = load.kiln;
  const course = 0.064;
  const long = 0.2;
  let joints = "";
  const joint = (x0: number, z0: number, x1: number, z1: number): void => {
    const [a, b] = at.toPage(x0, z0);
    const [c, d] = at.toPage(x1, z1);
    joints += `M${a.toFixed(2)} ${b.toFixed(2)}L${c.toFixed(2)} ${d.toFixed(2)}`;
  };
  // Floor and lid in courses across, walls with one joint a course.
  for (const [low, high] of [
    [-floor.thickness, 0],
    [chamber.height, outer.top],
  ] as const) {
    const middle = (low + high) / 2;
    joint(outer.left, middle, outer.right, middle);
    for (const [from, to, shift] of [
      [low, middle, 0],
      [middle, high, long / 2],
    ] as const) {
      for (let x = outer.left + shift + long; x < outer.right; x += long) joint(x, from, x, to);
    }
  }
  for (let z = course; z < chamber.height; z += course) {
    joint(outer.left, z, wall.left, z);
    joint(wall.right, z, outer.right, z);
  }
  const foot = 0.05;
  return [
    box(at, outer.left + 0.02, outer.bottom, outer.left + 0.02 + foot, -floor.thickness),
    box(at, outer.right - 0.02 - foot, outer.bottom, outer.right - 0.02, -floor.thickness),
    box(at, outer.left, -floor.thickness, outer.right, outer.top, 1),
    `<path d="${joints}" fill="none" stroke="black" stroke-width="0.2"/>`,
    box(at, wall.left, 0, wall.right, chamber.height, 1),
  ].join("");
}

function rows(load: Load, at: SideScale): string {
  // Numbers need their height; where rows are closer, every other one is numbered.
  const sorted = [...load.kiln.rows].sort((a, b) => a.z - b.z);
  const pitch = Math.min(...sorted.slice(1).map((row, i) => row.z - (sorted[i]?.z ?? 0)), 1) * at.scale;
  const every = Math.max(1, Math.ceil(15 / pitch));
  const atLeft = load.kiln.spyholes.every(({ azimuth }) => Math.cos(azimuth + at.turn) > -Math.SQRT1_2);
  return sorted
    .map((row, i) => {
      const half = row.height / 2;
      const deep = Math.min(0.018, load.kiln.wall.thickness / 3);
      const radius = Math.min(half, deep) * 0.5 * at.scale;
      const ends = (side: -1 | 1, inner: number): string => {
        const from = side < 0 ? inner - deep : inner;
        const [, low] = at.toPage(inner, row.z - half / 2);
        const [x, high] = at.toPage(from + deep / 2, row.z + half / 2);
        return [
          box(at, from, row.z - half, from + deep, row.z + half, 0.6),
          circle([x, low], radius, { width: 0.6, fill: "white" }),
          circle([x, high], radius, { width: 0.6, fill: "white" }),
        ].join("");
      };
      const [left, y] = at.toPage(at.wall.left, row.z);
      const [right] = at.toPage(at.wall.right, row.z);
      const label = String(i + 1);
      const wide = label.length * 9 + 2;
      // Beside the coil in the brick, on the side that has no spyhole.
      const begins = atLeft ? left - deep * at.scale - wide - 1 : right + deep * at.scale + 1;
      const numbered =
        i % every === 0
          ? rectangle([begins, y - 6.5], wide, 13, { width: 0, fill: "white" }) +
            textLine([strong(label)], { x: begins + wide / 2, y: y + 5, size: type.text, anchor: "middle" })
          : "";
      return (
        line([left, y], [right, y], { width: 0.35, dash: [2, 3] }) +
        ends(-1, at.wall.left) +
        ends(1, at.wall.right) +
        numbered
      );
    })
    .join("");
}

/** Spyholes that the cut shows: those within 45 degrees of left or right. */
function spyholes(load: Load, at: SideScale): string {
  return load.kiln.spyholes
    .map(({ azimuth, z }) => {
      const side = Math.cos(azimuth + at.turn);
      if (Math.abs(side) < Math.SQRT1_2) return "";
      const [inner, outer] = side < 0 ? [at.wall.left, at.outer.left] : [at.wall.right, at.outer.right];
      const points: readonly PagePoint[] = [
        at.toPage(inner, z - 0.011),
        at.toPage(outer, z - 0.005),
        at.toPage(outer, z + 0.014),
        at.toPage(inner, z + 0.008),
      ];
      return polyline(points, true, { width: 0.7, fill: "white" });
    })
    .join("");
}

function tips(
  load: Load,
  at: SideScale,
): readonly { readonly right: number; readonly z: number; readonly side: -1 | 0 | 1 }[] {
  const { kiln } = load;
  return kiln.sensors.map(({ azimuth, z, reach }) => {
    const radius = radiusAt(kiln.chamber.plan, azimuth) - reach;
    const { right } = at.across(radius * Math.cos(azimuth), radius * Math.sin(azimuth));
    const facing = Math.cos(azimuth + at.turn);
    return { right, z, side: facing > 0.5 ? 1 : facing < -0.5 ? -1 : 0 };
  });
}

/** The ball to keep clear, as far as it lies in the chamber: small crosses inside a dotted edge. */
function clearZones(load: Load, at: SideScale): string {
  const radius = load.kiln.rules.sensorClear;
  return tips(load, at)
    .map(({ right, z }) => {
      const inside = (x: number, up: number): boolean =>
        x > at.wall.left && x < at.wall.right && up > 0 && up < load.kiln.chamber.height;
      let marks = "";
      const step = Math.max(5 / at.scale, 0.011);
      for (let dx = -radius; dx <= radius; dx += step) {
        for (let dz = -radius; dz <= radius; dz += step) {
          if (Math.hypot(dx, dz) > radius - 0.004 || !inside(right + dx, z + dz)) continue;
          const [x, y] = at.toPage(right + dx, z + dz);
          marks += `M${(x - 1).toFixed(2)} ${y.toFixed(2)}h2M${x.toFixed(2)} ${(y - 1).toFixed(2)}v2`;
        }
      }
      const edge = Array.from({ length: 73 }, (_, i) => (i * Math.PI) / 36)
        .map((turn) => [right + radius * Math.cos(turn), z + radius * Math.sin(turn)] as const)
        .filter(([x, up]) => inside(x, up))
        .map(([x, up]) => at.toPage(x, up));
      const arcs = edge.map(([x, y]) => `<circle cx="${x.toFixed(2)}" cy="${y.toFixed(2)}" r="0.5"/>`).join("");
      return `<path d="${marks}" fill="none" stroke="black" stroke-width="0.35"/><g fill="black">${arcs}</g>`;
    })
    .join("");
}

function sensors(load: Load, at: SideScale): string {
  return tips(load, at)
    .map(({ right, z, side }) => {
      const [x, y] = at.toPage(right, z);
      if (side === 0) return circle([x, y], 2.6, { width: 0, fill: "black" });
      const [end] = at.toPage(side > 0 ? at.outer.right : at.outer.left, z);
      return (
        line([x, y], [end + side * 3, y], { width: 2.4 }) +
        rectangle([side > 0 ? end + 2 : end - 10, y - 5], 8, 10, { width: 0, fill: "black" })
      );
    })
    .join("");
}

/** Heights in centimetres or inches, at the left. */
function ruler(load: Load, at: SideScale, units: UnitPreference): string {
  const { height } = load.kiln.chamber;
  const inch = units.length === "inch";
  const step = inch ? 0.0254 * 4 : 0.1;
  const [axis] = at.toPage(at.outer.left, 0);
  const x = axis - 8;
  const [, bottom] = at.toPage(0, 0);
  const [, top] = at.toPage(0, height);
  const every = Math.max(1, Math.ceil(16 / (step * at.scale)));
  const marks: string[] = [line([x, bottom], [x, top], { width: 0.8 })];
  for (let i = 0; i * step <= height + 1e-9; i++) {
    const [, y] = at.toPage(0, i * step);
    marks.push(line([x - 4, y], [x, y], { width: 0.8 }));
    const nearTop = (height - i * step) * at.scale < 15;
    if (i % every === 0 && !nearTop) {
      const label = formatBareLength(i * step, units, "size");
      marks.push(textLine([plain(label)], { x: x - 7, y: y + 5, size: type.text, anchor: "end" }));
    }
  }
  marks.push(line([x - 4, top], [x, top], { width: 0.8 }));
  marks.push(
    textLine([strong(formatLength(height, units, "size"))], { x: x - 7, y: top + 5, size: type.text, anchor: "end" }),
  );
  return marks.join("");
}
