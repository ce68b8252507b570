import { heightOf, known, liftOf, shapeOf, type Load } from "#engine/kiln";
import { exposureOf } from "./exposure.ts";
import { locator } from "./locate.ts";
import type { BodyRef } from "./mesh.ts";
import { meshLoad } from "./mesh-load.ts";
import { resolutionFor } from "./resolution.ts";
import { seenKindOf, seenKinds, type SeenShares } from "./seen.ts";
import { plainRayTracer, type RayTracer } from "./trace.ts";

/**
 * What a piece sees, as a round picture: straight up in the middle, the horizon a ring, a little below it at the
 * edge. Equal areas of the picture are equal parts of the view.
 *
 * Directions lie as on the plan seen from above: +x to the right, +y up the page.
 */
export interface PieceView {
  readonly pieceId: string;
  /** Pixels across and down. */
  readonly size: number;
  /** Index into `seenKinds`, row by row from the top; 255 outside the disc. */
  readonly kind: Uint8Array;
  /** Index into `bodies`; -1 outside the disc. */
  readonly body: Int16Array;
  readonly bodies: readonly BodyRef[];
  /** To what is seen [m]. */
  readonly distance: Float32Array;
  /** Radius of the horizon's ring over the disc's [-]. */
  readonly horizon: number;
  /** Point the picture is taken from [m]. */
  readonly eye: readonly [number, number, number];
  /** Over the piece's whole outside, by the cosine law; see `exposureOf`. */
  readonly shares: SeenShares;
  readonly exposure: number;
}

export interface ViewOptions {
  /** Pixels across, by default 96. */
  readonly size?: number | undefined;
  readonly tracer?: RayTracer | undefined;
}

/** The edge of the picture is this far from straight up [rad]. */
const widest = (115 / 180) * Math.PI;

/**
 * The view from the middle of a piece, itself taken away.
 *
 * @throws RangeError if the piece is not in the setting
 */
export function viewFromPiece(load: Load, pieceId: string, options: ViewOptions = {}): PieceView {
  const size = options.size ?? 96;
  const tracer = options.tracer ?? plainRayTracer;
  const placed = load.setting.pieces.find((piece) => piece.pieceId === pieceId);
  if (!placed) throw new RangeError(`piece "${pieceId}" is not in this setting`);
  const shelf = load.setting.shelves.find((candidate) => candidate.id === placed.shelfId);
  if (!shelf) throw new RangeError(`shelf "${placed.shelfId}" is not in this setting`);
  const lift = liftOf(load, known(load.pieces, pieceId, "piece"));
  const eye = [placed.x, placed.y, shelf.z + lift + 0.6 * heightOf(shapeOf(load, pieceId))] as const;

  const others = load.setting.pieces.filter((piece) => piece !== placed);
  const rest: Load = { ...load, setting: { ...load.setting, pieces: others } };
  const { mesh, scene } = meshLoad(rest, resolutionFor(load, "preview"));
  const { rays, trace } = tracer.prepare(scene);
  const locate = locator(scene);
  const kindOfBody = mesh.bodies.map((body) => seenKinds.indexOf(seenKindOf(body)));

  const kind = new Uint8Array(size * size).fill(255);
  const body = new Int16Array(size * size).fill(-1);
  const distance = new Float32Array(size * size).fill(Infinity);
  const edge = Math.sin(widest / 2);
  const pixels: number[] = [];
  const flush = (): void => {
    trace(rays, pixels.length);
    pixels.forEach((pixel, i) => {
      const solid = rays.solid[i];
      if (solid < 0) return;
      const t = rays.distance[i];
      const [dx, dy, dz] = [rays.dx[i], rays.dy[i], rays.dz[i]];
      const patch = locate(solid, eye[0] + t * dx, eye[1] + t * dy, eye[2] + t * dz, dx, dy, dz);
      // An eye inside something else (pieces pushed into each other) sees that from within.
      const seen = mesh.bodyOf[patch < 0 ? ~patch : patch];
      if (seen === undefined) return;
      body[pixel] = seen;
      kind[pixel] = kindOfBody[seen]!;
      distance[pixel] = t;
    });
    pixels.length = 0;
  };
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++) {
      const x = ((column + 0.5) / size) * 2 - 1;
      const y = 1 - ((row + 0.5) / size) * 2;
      const radius = Math.hypot(x, y);
      if (radius > 1) continue;
      // Equal-area fisheye: distance from the middle goes with the sine of half the angle from straight up.
      const half = Math.asin(radius * edge);
      const level = Math.sin(2 * half);
      const i = pixels.push(row * size + column) - 1;
      [rays.ox[i], rays.oy[i], rays.oz[i]] = eye;
      rays.dx[i] = radius > 0 ? (level * x) / radius : 0;
      rays.dy[i] = radius > 0 ? (level * y) / radius : 0;
      rays.dz[i] = Math.cos(2 * half);
      if (pixels.length === rays.capacity) flush();
    }
  }
  flush();
  const exposure = exposureOf(load, { pieceIds: [pieceId], raysPerPiece: 4096, tracer })[0];
  const horizon = Math.sin(Math.PI / 4) / edge;
  return { ...exposure, size, kind, body, bodies: mesh.bodies, distance, horizon, eye };
}
