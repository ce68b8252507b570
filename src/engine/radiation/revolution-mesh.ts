import type { Shape } from "#engine/kiln";
import {
  areaOfPolygon,
  crossSection,
  lengths,
  partOf,
  pointAlong,
  volumeOfRevolution,
  type Point,
} from "./cross-section.ts";
import type { MeshBuilder } from "./mesh-builder.ts";
import type { Resolution } from "./mesh.ts";
import type { PieceBase, Stance } from "./piece-mesh.ts";
import { floorCells, floorInside, floorRings, floorStrip, footOf, type Foot } from "./turned-floor.ts";
import { bandCuts, surfaceOfRevolution, type Table, type Turned } from "./turned-surface.ts";

/** Bands and sectors are not made smaller than about this [m]. */
const smallest = 0.045;

/**
 * Cuts a body of revolution: bands up its wall and sectors round it, outside and inside; rings of its floor.
 *
 * The lip belongs to the outside patches of the top band. A form without room inside is cut into solid wedges. With
 * one sector per piece the whole form is one cell, with a patch outside and one inside.
 */
export function revolutionMesh(
  builder: MeshBuilder,
  body: number,
  shape: Shape & { readonly body: { readonly kind: "revolution" } },
  stance: Stance,
  resolution: Resolution,
): PieceBase {
  const section = crossSection(shape.body, shape.lidHeight);
  const widest = section.outside.reduce((most, [r]) => Math.max(most, r), 0);
  const whole = resolution.pieceSectors === 1;
  const sectors = Math.max(1, Math.min(resolution.pieceSectors, Math.round((2 * Math.PI * widest) / smallest)));
  const along = lengths(section.outside);
  const total = along.at(-1)!;
  const wanted = whole ? 1 : Math.max(1, Math.min(resolution.pieceBands, Math.round(total / smallest)));
  const { outer: cuts, inner: innerCuts, strips } = bandCuts(section, wanted);
  const start = stance.angle - Math.PI / sectors;
  const turned: Turned = { builder, body, section, stance, sectors, start, along, cuts };

  const table = (): Table =>
    strips.map(() => Array.from({ length: sectors }, () => builder.patch(body, sectors === 1)));
  const outside = table();
  surfaceOfRevolution(turned, section.outside, cuts, outside, true);
  const rings = whole ? [1] : floorRings(section.outside[0][0]);
  const foot = footOf(turned, rings, () => (whole ? outside[0][0] : builder.patch(body)));
  if (!section.inside) return solidWedges(turned, strips, outside, foot);

  const inside = table();
  const innerAlong = lengths(section.inside);
  surfaceOfRevolution(turned, section.inside, innerCuts, inside, false);
  topRing(turned, section.inside.at(-1)![0], outside.at(-1)!);

  const floorVolume = whole ? volumeOfRevolution(floorStrip(turned, foot, 0)) : 0;
  const wall = outside.map((row, k) =>
    row.map((front, s) => {
      const volume = volumeOfRevolution(strips[k]) / sectors + floorVolume;
      return builder.cell({ body, front, back: inside[k][s], edges: [], thickness: section.wall, volume });
    }),
  );
  if (whole) {
    floorInside(turned, foot, [inside[0]]);
    return base(turned, wall, wall[0], foot);
  }
  linkWall(turned, wall, strips, (k) => pointAlong(section.inside!, innerAlong, innerCuts[k]));
  return base(turned, wall, floorCells(turned, foot, wall[0]), foot);
}

/** The level top of the outside line: lip of an open form, flat top of a solid one. */
function topRing({ builder, section, stance, start }: Turned, inner: number, patches: readonly number[]): void {
  const [outer, z] = section.outside.at(-1)!;
  if (section.inside && inner === 0) return;
  if (outer - inner < 1e-6) return;
  builder.scene.ring({ x: stance.x, y: stance.y, z: stance.z + z, inner, outer, up: true }, start, patches);
}

/** Joins wall cells up and round; `innerCut` is the inner end of the seam below band k. */
function linkWall(
  { builder, section, sectors, along, cuts }: Turned,
  wall: Table,
  strips: readonly (readonly Point[])[],
  innerCut: (k: number) => Point,
): void {
  const turn = (2 * Math.PI) / sectors;
  wall.forEach((row, k) => {
    const middle = pointAlong(section.outside, along, (cuts[k] + cuts[k + 1]) / 2);
    const chord = turn * Math.max(middle[0] - section.wall / 2, 0.002);
    const p = pointAlong(section.outside, along, cuts[k + 1]);
    const q = innerCut(k + 1);
    const seam = (turn * (p[0] + q[0]) * Math.hypot(p[0] - q[0], p[1] - q[1])) / 2;
    row.forEach((cell, s) => {
      if (sectors > 1) {
        builder.link({ a: cell, b: row[(s + 1) % sectors], area: areaOfPolygon(strips[k]), distance: chord });
      }
      const above = wall[k + 1];
      if (above) builder.link({ a: cell, b: above[s], area: seam, distance: (cuts[k + 2] - cuts[k]) / 2 });
    });
  });
}

/** A form with no room inside: wedges from the axis, the underside shared out to the lowest ones. */
function solidWedges(turned: Turned, strips: readonly (readonly Point[])[], outside: Table, foot: Foot): PieceBase {
  const { builder, body, section, sectors, along, cuts } = turned;
  topRing(turned, 0, outside.at(-1)!);
  const parts = outside.map((_, k) => partOf(section.outside, along, cuts[k], cuts[k + 1]));
  const cells = outside.map((row, k) =>
    row.map((front, s) => {
      const volume = volumeOfRevolution(strips[k]) / sectors;
      // The disc in the middle of the underside is one patch: it goes to the first sector.
      const edges = k === 0 ? foot.underside.flatMap((ring, i) => (i > 0 || s === 0 ? [ring[s]] : [])) : [];
      const thickness = volume / (sideArea(parts[k]) / sectors);
      return builder.cell({
        body,
        front,
        back: -1,
        edges: edges.filter((patch) => patch !== front),
        thickness,
        volume,
      });
    }),
  );
  linkWall(turned, cells, strips, (k) => [0, pointAlong(section.outside, along, cuts[k])[1]]);
  return base(turned, cells, cells[0], foot);
}

/** Surface swept by a line [m2]. */
function sideArea(line: readonly Point[]): number {
  let area = 0;
  for (let i = 0; i + 1 < line.length; i++) {
    const [r0, z0] = line[i];
    const [r1, z1] = line[i + 1];
    area += Math.PI * (r0 + r1) * Math.hypot(r1 - r0, z1 - z0);
  }
  return area;
}

function base(turned: Turned, wall: Table, lowest: readonly number[], foot: Foot): PieceBase {
  const { section, stance, sectors, along, cuts } = turned;
  return {
    joint: (side, z) => {
      let row = 0;
      while (row < wall.length - 1 && pointAlong(section.outside, along, cuts[row + 1])[1] < z) row++;
      // Sector 0 is centred on the handle's side, the spout's is opposite.
      return wall[row][side > 0 ? 0 : sectors >> 1];
    },
    footCell: (x, y) => {
      const turn = (Math.atan2(y - stance.y, x - stance.x) - stance.angle) / (2 * Math.PI) + 0.5 / sectors;
      return lowest[Math.floor((turn - Math.floor(turn)) * sectors) % sectors];
    },
    cover: foot.cover,
  };
}
