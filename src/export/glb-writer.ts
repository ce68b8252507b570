import type { Solid } from "#work";

/** One node of the tree of a scene; missing fields are glTF's defaults. */
export interface GlbNode {
  readonly name: string;
  readonly mesh?: number;
  readonly translation?: readonly [number, number, number];
  /** Unit quaternion x, y, z, w. */
  readonly rotation?: readonly [number, number, number, number];
  readonly children?: readonly number[];
  readonly extras?: object;
}

/** A binary glTF 2.0 file being written. Each call returns the number others refer to it by. */
export interface GlbWriter {
  readonly material: (name: string, colour: readonly [number, number, number]) => number;
  readonly mesh: (name: string, solid: Solid, material: number) => number;
  readonly node: (node: GlbNode) => number;
  /** The file, with `root` as its scene. */
  readonly done: (root: number) => Uint8Array<ArrayBuffer>;
}

// Names and numbers of the format.
const float32 = 5126;
const unsigned32 = 5125;
const vertexBuffer = 34962;
const indexBuffer = 34963;
const magic = 0x46546c67;
const jsonChunk = 0x4e4f534a;
const binaryChunk = 0x004e4942;

/** Source: [khronos-gltf-2], sections 3 (accessors, meshes) and 4 (GLB container) */
export function glbWriter(): GlbWriter {
  const materials: object[] = [];
  const meshes: object[] = [];
  const nodes: GlbNode[] = [];
  const views: object[] = [];
  const accessors: object[] = [];
  const parts: (Float32Array | Uint32Array)[] = [];
  let length = 0;

  function accessor(data: Float32Array | Uint32Array, type: "VEC3" | "SCALAR", bounds: object): number {
    const target = type === "SCALAR" ? indexBuffer : vertexBuffer;
    views.push({ buffer: 0, byteOffset: length, byteLength: data.byteLength, target });
    parts.push(data);
    length += data.byteLength;
    accessors.push({
      bufferView: views.length - 1,
      componentType: type === "SCALAR" ? unsigned32 : float32,
      count: data.length / (type === "SCALAR" ? 1 : 3),
      type,
      ...bounds,
    });
    return accessors.length - 1;
  }

  return {
    material: (name, colour) => {
      materials.push({
        name,
        pbrMetallicRoughness: { baseColorFactor: [...colour, 1], metallicFactor: 0, roughnessFactor: 0.9 },
      });
      return materials.length - 1;
    },
    mesh: (name, { positions, normals, triangles }, material) => {
      const attributes = {
        POSITION: accessor(positions, "VEC3", boundsOf(positions)),
        NORMAL: accessor(normals, "VEC3", {}),
      };
      const indices = accessor(triangles, "SCALAR", {});
      meshes.push({ name, primitives: [{ attributes, indices, material }] });
      return meshes.length - 1;
    },
    node: (node) => {
      nodes.push(node);
      return nodes.length - 1;
    },
    done: (root) => {
      const json = JSON.stringify({
        asset: { version: "2.0", generator: "Spyhole" },
        scene: 0,
        scenes: [{ nodes: [root] }],
        nodes,
        meshes,
        materials,
        accessors,
        bufferViews: views,
        buffers: [{ byteLength: length }],
      });
      return container(new TextEncoder().encode(json), parts, length);
    },
  };
}

/** Least and largest corner, as floats hold them. */
function boundsOf(positions: Float32Array): { readonly min: number[]; readonly max: number[] } {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  positions.forEach((value, i) => {
    min[i % 3] = Math.min(min[i % 3], value);
    max[i % 3] = Math.max(max[i % 3], value);
  });
  return { min, max };
}

function container(
  json: Uint8Array,
  parts: readonly (Float32Array | Uint32Array)[],
  length: number,
): Uint8Array<ArrayBuffer> {
  const text = Math.ceil(json.length / 4) * 4;
  const bytes = new Uint8Array(12 + 8 + text + 8 + length);
  const view = new DataView(bytes.buffer);
  [magic, 2, bytes.length, text, jsonChunk].forEach((word, i) => view.setUint32(i * 4, word, true));
  // The text is filled up with spaces.
  bytes.fill(0x20, 20, 20 + text);
  bytes.set(json, 20);
  let at = 20 + text;
  view.setUint32(at, length, true);
  view.setUint32(at + 4, binaryChunk, true);
  at += 8;
  for (const part of parts) {
    for (const value of part) {
      if (part instanceof Float32Array) view.setFloat32(at, value, true);
      else view.setUint32(at, value, true);
      at += 4;
    }
  }
  return bytes;
}
