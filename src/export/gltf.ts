import type { Placement } from "#engine/geometry";
import { known, liftOf, shapeOf, shelvesFromBottom, shelfTypeOf, type PlacedPost } from "#engine/kiln";
import { conePackSolid, pieceSolid, postSolid, shelfSolid, wallStrips, type HeatClass, type Solid } from "#work";
import { heatColours, linearOf, materialColours } from "./colours.ts";
import { glbWriter } from "./glb-writer.ts";
import type { Plan } from "./plan.ts";

/**
 * The setting as a binary glTF 2.0 file: floor, the back half of the wall with its element rows, shelves, posts, cones
 * and every piece as a node with its name, number, party and forecast. Metres; glTF's y is up, so that the kiln's z is
 * turned to it by the root node. Pieces of one shape and step of heat share a mesh.
 *
 * Source: [khronos-gltf-2]
 */
export function settingGlb(plan: Plan): Uint8Array<ArrayBuffer> {
  const { load, numbers } = plan;
  const { kiln, setting } = load;
  const write = glbWriter();
  const material = new Map<string, number>();
  const materialOf = (name: string, colour: string): number => {
    const at = material.get(name) ?? write.material(name, linearOf(colour));
    material.set(name, at);
    return at;
  };
  const meshes = new Map<string, number>();
  const meshOf = (key: string, solid: () => Solid, materialIndex: number): number => {
    const at = meshes.get(key) ?? write.mesh(key, solid(), materialIndex);
    meshes.set(key, at);
    return at;
  };
  const nodes: number[] = [];
  const place = (name: string, mesh: number, at: Placement, z: number, extras?: object): void => {
    const half = at.angle / 2;
    nodes.push(
      write.node({
        name,
        mesh,
        translation: [at.x, at.y, z],
        rotation: [0, 0, Math.sin(half), Math.cos(half)],
        ...(extras ? { extras } : {}),
      }),
    );
  };
  const origin = { x: 0, y: 0, angle: 0 };
  const brick = materialOf("brick", materialColours.brick);
  const element = materialOf("element", materialColours.element);
  wallStrips(kiln).forEach(({ brick: solid, rows, outY }, i) => {
    if (outY < -0.1) return;
    place(`wall ${i + 1}`, write.mesh(`wall ${i + 1}`, solid, brick), origin, 0);
    if (rows) place(`element rows ${i + 1}`, write.mesh(`element rows ${i + 1}`, rows, element), origin, 0);
  });
  const postMaterial = materialOf("post", materialColours.post);
  const shelfMaterial = materialOf("shelf", materialColours.shelf);
  const shelves = shelvesFromBottom(setting);
  shelves.forEach((shelf, i) => {
    const name = `shelf ${i + 1}`;
    place(
      name,
      meshOf(`shelf ${shelf.typeId}`, () => shelfSolid(load, shelf), shelfMaterial),
      shelf,
      shelf.z,
    );
    for (const post of shelf.posts) {
      const key = `posts ${post.lengths.map((length) => `${Math.round(length * 1000)} mm`).join(" + ")}`;
      const foot = shelf.z - shelfTypeOf(load, shelf).thickness - stackOf(post);
      place(
        `${key} under ${name}`,
        meshOf(key, () => postSolid(load, post), postMaterial),
        { ...post, angle: 0 },
        foot,
      );
    }
  });
  const topOf = (shelfId: string): number => shelves.find(({ id }) => id === shelfId)?.z ?? 0;
  for (const pack of setting.cones) {
    const key = `${pack.cones.length} cones`;
    const mesh = meshOf(key, () => conePackSolid(pack), brick);
    place(`cones ${pack.cones.join(" ")}`, mesh, pack, topOf(pack.shelfId), { cones: pack.cones });
  }
  for (const placed of setting.pieces) {
    const { pieceId } = placed;
    const shape = shapeOf(load, pieceId);
    const heat = plan.forecast?.heats.get(pieceId);
    const step: HeatClass = heat?.heat ?? "wanted";
    const name = heat ? `ware ${step}` : "ware";
    const mesh = meshOf(`${shape.name}, ${name}`, () => pieceSolid(shape), materialOf(name, heatColours[step]));
    const number = numbers.get(pieceId);
    const party = plan.partyOf(pieceId);
    place(
      `shelf ${number?.shelf ?? "?"}, no. ${number?.number ?? "?"}, ${shape.name}${party === "" ? "" : `, ${party}`}`,
      mesh,
      placed,
      topOf(placed.shelfId) + liftOf(load, known(load.pieces, pieceId, "piece")),
      {
        pieceId,
        party,
        ...(heat
          ? { wanted: `cone ${load.firingClass.cone}`, conesFromWanted: Math.round(heat.offset * 4) / 4, heat: step }
          : {}),
      },
    );
  }
  // A quarter turn about x brings z up to y up.
  const root = write.node({
    name: `${kiln.name}, setting ${plan.settingName}`,
    rotation: [-Math.SQRT1_2, 0, 0, Math.SQRT1_2],
    children: nodes,
  });
  return write.done(root);
}

const stackOf = (post: PlacedPost): number => post.lengths.reduce((sum, length) => sum + length, 0);
