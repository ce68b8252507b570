import { rayBatch } from "#engine/geometry";
import { sobolPoints } from "#engine/numerics";
import { raySource } from "./emission.ts";
import type { BodyRef, Cell, Contact, Link, Mesh } from "./mesh.ts";
import { sceneBuilder, type Emitter, type Scene, type SceneBuilder } from "./scene.ts";

/** A load as mesh and as solids for rays, with the emissivity of each patch [-]. */
export interface LoadMesh {
  readonly mesh: Mesh;
  readonly scene: Scene;
  readonly emissivity: Float64Array;
}

/** Collects bodies, patches, cells and what joins them while a load is cut up. */
export interface MeshBuilder {
  readonly scene: SceneBuilder;
  readonly body: (ref: BodyRef) => number;
  /** A new patch of a body; `wraps` if it goes right round, so that it faces no one way. */
  readonly patch: (body: number, wraps?: boolean) => number;
  readonly cell: (cell: Cell) => number;
  /** Patch on a cell's front. */
  readonly frontOf: (cell: number) => number;
  /** Adds volume [m3] to a cell. */
  readonly enlarge: (cell: number, volume: number) => void;
  readonly link: (link: Link) => void;
  readonly contact: (contact: Contact) => void;
  readonly build: () => LoadMesh;
}

export function meshBuilder(emissivityOf: (body: BodyRef) => number): MeshBuilder {
  const scene = sceneBuilder();
  const bodies: BodyRef[] = [];
  const bodyOf: number[] = [];
  const wrapping: boolean[] = [];
  const cells: Cell[] = [];
  const links: Link[] = [];
  const contacts: Contact[] = [];
  return {
    scene,
    body: (ref) => bodies.push(ref) - 1,
    patch: (body, wraps = false) => {
      bodyOf.push(body);
      wrapping.push(wraps);
      return scene.patch();
    },
    cell: (cell) => cells.push(cell) - 1,
    frontOf: (cell) => cells[cell].front,
    enlarge: (cell, volume) => {
      cells[cell] = { ...cells[cell], volume: cells[cell].volume + volume };
    },
    link: (link) => {
      if (link.a !== link.b && link.area > 0) links.push({ ...link, distance: Math.max(link.distance, 1e-4) });
    },
    contact: (contact) => {
      if (contact.area > 0) contacts.push(contact);
    },
    build: () => {
      const built = scene.build();
      const measured = measurePatches(built, wrapping);
      const emissivity = Float64Array.from(bodyOf, (body) => emissivityOf(bodies[body]));
      const mesh: Mesh = {
        bodies,
        patchCount: built.patchCount,
        ...measured,
        bodyOf: Int32Array.from(bodyOf),
        cells,
        links,
        contacts,
      };
      return { mesh, scene: built, emissivity };
    },
  };
}

/** Points over a patch that its centre is taken from. */
const centrePoints = 16;

/**
 * Area, centre and mean normal of each patch.
 *
 * Accuracy: areas exact where nothing stands on a patch; what a foot or post hides is right in sum, its share on each
 * of the patches it stands on to about 1 % of the foot. Centres to about 3 % of a patch's size.
 */
export function measurePatches(scene: Scene, wrapping: readonly boolean[]): Pick<Mesh, "area" | "centre" | "normal"> {
  const { patchCount } = scene;
  const area = new Float64Array(patchCount);
  const centre = new Float64Array(patchCount * 3);
  const normal = new Float64Array(patchCount * 3);
  const source = raySource({ ...scene, covers: scene.covers.map(() => []) });
  const rays = rayBatch(1);
  const points = sobolPoints(2, centrePoints, -1);
  for (let patch = 0; patch < patchCount; patch++) {
    const emitters = scene.emitters[patch];
    for (let i = 0; i < centrePoints; i++) {
      source(patch, (points[i * 2] + 0.5) * 2 ** -32, (points[i * 2 + 1] + 0.5) * 2 ** -32, 0, 0, rays, 0);
      centre[patch * 3] += rays.ox[0] / centrePoints;
      centre[patch * 3 + 1] += rays.oy[0] / centrePoints;
      centre[patch * 3 + 2] += rays.oz[0] / centrePoints;
    }
    const whole = emitters.reduce((sum, emitter) => sum + emitter.area, 0);
    // A patch hidden altogether keeps a sliver, so that nothing divides by zero: it then exchanges heat with itself.
    area[patch] = Math.max(whole - scene.hidden[patch], whole * 1e-3);
    if (!wrapping[patch]) meanNormal(emitters, normal, patch * 3);
  }
  return { area, centre, normal };
}

function meanNormal(emitters: readonly Emitter[], normal: Float64Array, at: number): void {
  let x = 0;
  let y = 0;
  let z = 0;
  for (const emitter of emitters) {
    if (emitter.kind === "flat") {
      x += emitter.area * emitter.normal[0];
      y += emitter.area * emitter.normal[1];
      z += emitter.area * emitter.normal[2];
    } else if (emitter.kind === "star") {
      z += emitter.area * emitter.normalZ;
    } else {
      const half = emitter.turn / 2;
      const level = (emitter.area * emitter.normalR * Math.sin(half)) / half;
      x += level * Math.cos(emitter.from + half);
      y += level * Math.sin(emitter.from + half);
      z += emitter.area * emitter.normalZ;
    }
  }
  const length = Math.hypot(x, y, z);
  const total = emitters.reduce((sum, emitter) => sum + emitter.area, 0);
  // A patch that goes round (a cylinder in one sector) has no mean direction.
  if (length < 1e-6 * total) return;
  normal[at] = x / length;
  normal[at + 1] = y / length;
  normal[at + 2] = z / length;
}
