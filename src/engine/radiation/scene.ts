import {
  boxFace,
  buildHierarchy,
  solidsBuilder,
  type Band,
  type Box,
  type Hierarchy,
  type Panel,
  type Plate,
  type RoundedBox,
  type Solids,
} from "#engine/geometry";
import { slicesPerSector, type Star } from "./star.ts";

/*
 * Solids that know their patches. Each solid carries a grid that tells which patch a point on it belongs to, and each
 * patch knows the pieces of surface it is made of, so that rays can start evenly from all of it.
 */

/** How a point on a solid finds its patch: `single` one patch; `band` height x azimuth; `star` ring x sector; `panel` along x height; `box` one per face. */
export const gridKind = { single: 0, band: 1, star: 2, panel: 3, box: 4 } as const;

export interface Grid {
  readonly kind: number;
  /** Rising cuts: heights (band, panel: in `across`), gauge of rings (star). */
  readonly cuts: Float64Array;
  /** Rising cuts along a panel from its start [m]. */
  readonly across: Float64Array;
  /** Sectors round the axis (band), or of the star. */
  readonly sectors: number;
  /** Azimuth where sector 0 begins (band). */
  readonly start: number;
  readonly star: PlacedStar | null;
  /** Patch of cell [row * columns + column]; a box's six faces. */
  readonly patches: Int32Array;
}

/** A star region put at (x, y), turned; its height is the plate's. */
export interface PlacedStar {
  readonly star: Star;
  readonly x: number;
  readonly y: number;
  readonly cos: number;
  readonly sin: number;
}

/** A piece of a patch's surface that rays can start from. */
export type Emitter =
  /** Part of a cone, cylinder or flat ring about a vertical axis. */
  | {
      readonly kind: "ring";
      readonly area: number;
      readonly x: number;
      readonly y: number;
      readonly r0: number;
      readonly z0: number;
      readonly r1: number;
      readonly z1: number;
      readonly from: number;
      readonly turn: number;
      readonly normalR: number;
      readonly normalZ: number;
    }
  | {
      readonly kind: "flat";
      readonly area: number;
      readonly origin: readonly [number, number, number];
      readonly u: readonly [number, number, number];
      readonly v: readonly [number, number, number];
      readonly normal: readonly [number, number, number];
    }
  | {
      readonly kind: "star";
      readonly area: number;
      readonly placed: PlacedStar;
      readonly z: number;
      readonly normalZ: number;
      readonly inner: number;
      readonly outer: number;
      readonly firstSlice: number;
      readonly slices: number;
    };

/** What stands on a patch and hides part of it: a rounded box in the plan, less a round hole about its centre. */
export interface Cover extends RoundedBox {
  readonly hole: number;
}

export interface Scene {
  readonly solids: Solids;
  readonly hierarchy: Hierarchy;
  readonly grids: readonly Grid[];
  readonly patchCount: number;
  readonly emitters: readonly (readonly Emitter[])[];
  readonly covers: readonly (readonly Cover[])[];
  /** Area of each patch that its covers hide [m2]. */
  readonly hidden: Float64Array;
}

export interface SceneBuilder {
  /** A new patch; returns its index. */
  readonly patch: () => number;
  /** Rows of `patches` follow `heights` upward, columns the sectors from azimuth `start`. */
  readonly band: (
    band: Band,
    heights: readonly number[],
    start: number,
    patches: readonly (readonly number[])[],
  ) => void;
  /** A disc or ring as one row of sectors. */
  readonly ring: (plate: RingPlate, start: number, patches: readonly number[]) => void;
  /** Rows of `patches` follow the rings outward. `overhang` only widens what rays can hit. */
  readonly star: (
    placed: PlacedStar,
    plate: Plate,
    gauges: readonly number[],
    patches: readonly (readonly number[])[],
  ) => void;
  /** Rows of `patches` follow `heights` upward, columns the cuts `across` [m from the start]. */
  readonly panel: (
    panel: Panel,
    heights: readonly number[],
    across: readonly number[],
    patches: readonly (readonly number[])[],
  ) => void;
  /** A rectangle (a plate without rounding) as one patch. */
  readonly rectangle: (plate: Plate, patch: number) => void;
  /** Six patches in the order of `boxFace`; a face with -1 sends no rays. */
  readonly box: (box: Box, patches: readonly number[]) => void;
  /** `area`: how much of the patch it hides [m2]. */
  readonly cover: (patch: number, cover: Cover, area: number) => void;
  readonly build: () => Scene;
}

export interface RingPlate {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly inner: number;
  readonly outer: number;
  readonly up: boolean;
}

export function sceneBuilder(): SceneBuilder {
  const solids = solidsBuilder();
  const grids: Grid[] = [];
  const emitters: Emitter[][] = [];
  const covers: Cover[][] = [];
  const hidden: number[] = [];
  const none = new Float64Array(0);
  const addGrid = (grid: Partial<Grid> & Pick<Grid, "kind" | "patches">): void => {
    grids.push({ cuts: none, across: none, sectors: 1, start: 0, star: null, ...grid });
  };
  const emit = (patch: number, emitter: Emitter): void => {
    if (patch >= 0 && emitter.area > 0) emitters[patch].push(emitter);
  };

  return {
    patch: () => {
      covers.push([]);
      return emitters.push([]) - 1;
    },

    band: (band, heights, start, patches) => {
      solids.band(band);
      const sectors = patches[0].length;
      addGrid({
        kind: patches.length === 1 && sectors === 1 ? gridKind.single : gridKind.band,
        cuts: Float64Array.from(heights),
        sectors,
        start,
        patches: Int32Array.from(patches.flat()),
      });
      const { x, y, r0, z0, r1, z1, outward, chord } = band;
      const slant = Math.hypot(r1 - r0, z1 - z0);
      const side = outward ? 1 : -1;
      const rise = Math.sign(z1 - z0);
      const normalR = (side * Math.abs(z1 - z0)) / slant;
      const normalZ = (-side * rise * (r1 - r0)) / slant;
      const radius = (z: number): number => r0 + ((r1 - r0) * (z - z0)) / (z1 - z0);
      // A chord leaves one arc, which is always one column.
      const arc = chord ? arcBeyond(band) : { from: start, turn: (2 * Math.PI) / sectors };
      patches.forEach((row, k) => {
        const low = heights[k];
        const high = heights[k + 1];
        const length = (slant * (high - low)) / Math.abs(z1 - z0);
        row.forEach((patch, s) => {
          emit(patch, {
            kind: "ring",
            area: (arc.turn * length * (radius(low) + radius(high))) / 2,
            x,
            y,
            r0: radius(low),
            z0: low,
            r1: radius(high),
            z1: high,
            from: arc.from + s * arc.turn,
            turn: arc.turn,
            normalR,
            normalZ,
          });
        });
      });
    },

    ring: ({ x, y, z, inner, outer, up }, start, patches) => {
      solids.plate({ x, y, z, radius: outer, hole: inner, up });
      const sectors = patches.length;
      addGrid({
        kind: sectors === 1 ? gridKind.single : gridKind.band,
        cuts: Float64Array.of(z - 1, z + 1),
        sectors,
        start,
        patches: Int32Array.from(patches),
      });
      const turn = (2 * Math.PI) / sectors;
      patches.forEach((patch, s) => {
        emit(patch, {
          kind: "ring",
          area: (turn / 2) * (outer ** 2 - inner ** 2),
          x,
          y,
          r0: inner,
          z0: z,
          r1: outer,
          z1: z,
          from: start + s * turn,
          turn,
          normalR: 0,
          normalZ: up ? 1 : -1,
        });
      });
    },

    star: (placed, plate, gauges, patches) => {
      solids.plate(plate);
      const { star } = placed;
      addGrid({
        kind: patches.length === 1 && new Set(patches[0]).size === 1 ? gridKind.single : gridKind.star,
        cuts: Float64Array.from(gauges),
        sectors: star.sectors,
        star: placed,
        patches: Int32Array.from(patches.flat()),
      });
      patches.forEach((row, ring) => {
        const inner = gauges[ring];
        const outer = gauges[ring + 1];
        // Neighbouring sectors that share a patch emit as one.
        for (let first = 0; first < row.length;) {
          let last = first + 1;
          while (last < row.length && row[last] === row[first]) last++;
          emit(row[first], {
            kind: "star",
            area: (star.area * (outer ** 2 - inner ** 2) * (last - first)) / star.sectors,
            placed,
            z: plate.z,
            normalZ: plate.up ? 1 : -1,
            inner,
            outer,
            firstSlice: first * slicesPerSector,
            slices: (last - first) * slicesPerSector,
          });
          first = last;
        }
      });
    },

    panel: (panel, heights, across, patches) => {
      solids.panel(panel);
      addGrid({
        kind: patches.length === 1 && patches[0]?.length === 1 ? gridKind.single : gridKind.panel,
        cuts: Float64Array.from(heights),
        across: Float64Array.from(across),
        sectors: across.length - 1,
        patches: Int32Array.from(patches.flat()),
      });
      const { x0, y0, x1, y1, left } = panel;
      const length = Math.hypot(x1 - x0, y1 - y0);
      const ux = (x1 - x0) / length;
      const uy = (y1 - y0) / length;
      const side = left ? 1 : -1;
      patches.forEach((row, k) => {
        const low = heights[k];
        const high = heights[k + 1];
        row.forEach((patch, c) => {
          const from = across[c];
          const width = across[c + 1] - from;
          emit(patch, {
            kind: "flat",
            area: width * (high - low),
            origin: [x0 + ux * from, y0 + uy * from, low],
            u: [ux * width, uy * width, 0],
            v: [0, 0, high - low],
            normal: [-uy * side, ux * side, 0],
          });
        });
      });
    },

    rectangle: (plate, patch) => {
      solids.plate(plate);
      addGrid({ kind: gridKind.single, patches: Int32Array.of(patch) });
      const { x, y, z, angle = 0, halfX = 0, halfY = 0, up } = plate;
      const faces = boxFaces({ x, y, angle, halfX, halfY, z0: z, z1: z });
      emit(patch, faces[up ? boxFace.top : boxFace.bottom]);
    },

    box: (box, patches) => {
      solids.box(box);
      addGrid({ kind: gridKind.box, patches: Int32Array.from(patches) });
      boxFaces(box).forEach((face, i) => {
        emit(patches[i], face);
      });
    },

    cover: (patch, cover, area) => {
      covers[patch].push(cover);
      hidden[patch] = (hidden[patch] ?? 0) + area;
    },

    build: () => {
      const built = solids.build();
      return {
        solids: built,
        hierarchy: buildHierarchy(built.bounds, built.count),
        grids,
        patchCount: emitters.length,
        emitters,
        covers,
        hidden: Float64Array.from(emitters, (_, patch) => hidden[patch] ?? 0),
      };
    },
  };
}

/** The arc a chord leaves of a band: the chord's distance from the axis sets its half angle. */
function arcBeyond(band: Band): { readonly from: number; readonly turn: number } {
  const { nx, ny, distance } = band.chord as NonNullable<Band["chord"]>;
  const half = Math.acos(Math.min(1, Math.max(-1, (distance - nx * band.x - ny * band.y) / band.r0)));
  return { from: Math.atan2(ny, nx) - half, turn: 2 * half };
}

function boxFaces({ x, y, angle, halfX, halfY, z0, z1 }: Box): readonly Emitter[] {
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  const at = (lx: number, ly: number, z: number): readonly [number, number, number] => [
    x + cos * lx - sin * ly,
    y + sin * lx + cos * ly,
    z,
  ];
  const alongX: readonly [number, number, number] = [2 * halfX * cos, 2 * halfX * sin, 0];
  const alongY: readonly [number, number, number] = [-2 * halfY * sin, 2 * halfY * cos, 0];
  const alongZ: readonly [number, number, number] = [0, 0, z1 - z0];
  const upright = (lx: number, nx: number, ny: number): Emitter => ({
    kind: "flat",
    area: 2 * (nx === 0 ? halfX : halfY) * (z1 - z0),
    origin: nx === 0 ? at(-halfX, lx, z0) : at(lx, -halfY, z0),
    u: nx === 0 ? alongX : alongY,
    v: alongZ,
    normal: [cos * nx - sin * ny, sin * nx + cos * ny, 0],
  });
  const level = (z: number, nz: number): Emitter => ({
    kind: "flat",
    area: 4 * halfX * halfY,
    origin: at(-halfX, -halfY, z),
    u: alongX,
    v: alongY,
    normal: [0, 0, nz],
  });
  return [
    upright(halfX, 1, 0),
    upright(-halfX, -1, 0),
    upright(halfY, 0, 1),
    upright(-halfY, 0, -1),
    level(z1, 1),
    level(z0, -1),
  ];
}
