/*
 * Checks a printed load case against the rules of the reference data's README, by another method than the engine's:
 * outlines are sampled as points and every distance is measured from points; stacks of posts are found by trying all.
 * Millimetres. Imports nothing from the project.
 */
interface Prim {
  readonly x: number;
  readonly y: number;
  readonly angle: number;
  readonly halfX: number;
  readonly halfY: number;
  readonly r: number;
}

interface LoadFile {
  readonly kiln: {
    readonly innerDia_mm: number;
    readonly depth_mm: number;
    readonly shelfR_mm: number;
    readonly glazeGap_mm: number;
    readonly postR_mm: number;
    readonly postCircle_mm: number;
    readonly nPosts: number;
    readonly shelfThick_mm: number;
    readonly floor_mm: number;
    readonly headroom_mm: number;
    readonly lid_mm: number;
    readonly thermocouple: { readonly angle_deg: number; readonly z_mm: number; readonly r_mm: number };
    readonly postAngle_deg: number;
    readonly postSets_halfInches: readonly (readonly [number, number])[];
    readonly maxPostsPerStack: number;
  };
  readonly items: readonly {
    readonly id: string | number;
    readonly prims: readonly Prim[];
    readonly h_mm: number;
    readonly value: number;
  }[];
}

interface Answer {
  readonly value: number;
  readonly layers: readonly { readonly z_mm: number; readonly height_mm: number }[];
  readonly placed: readonly {
    readonly id: string | number;
    readonly layer: number;
    readonly x_mm: number;
    readonly y_mm: number;
    readonly angle_rad: number;
  }[];
}

type Point = readonly [number, number];

/** Points every `step` mm along the outline of each rounded box, placed. */
function samplesOf(prims: readonly Prim[], at: Answer["placed"][number], step: number): Point[] {
  const points: Point[] = [];
  const put = (prim: Prim, u: number, v: number): void => {
    const px = prim.x + u * Math.cos(prim.angle) - v * Math.sin(prim.angle);
    const py = prim.y + u * Math.sin(prim.angle) + v * Math.cos(prim.angle);
    points.push([
      at.x_mm + px * Math.cos(at.angle_rad) - py * Math.sin(at.angle_rad),
      at.y_mm + px * Math.sin(at.angle_rad) + py * Math.cos(at.angle_rad),
    ]);
  };
  for (const prim of prims) {
    const round = Math.max(Math.ceil((2 * Math.PI * prim.r) / step / 4), 2);
    for (let corner = 0; corner < 4; corner++) {
      const su = corner === 0 || corner === 3 ? 1 : -1;
      const sv = corner < 2 ? 1 : -1;
      for (let k = 0; k <= round; k++) {
        const turn = (corner + k / round) * (Math.PI / 2);
        put(prim, su * prim.halfX + prim.r * Math.cos(turn), sv * prim.halfY + prim.r * Math.sin(turn));
      }
    }
    for (let u = -prim.halfX; u <= prim.halfX; u += step) {
      put(prim, u, prim.halfY + prim.r);
      put(prim, u, -prim.halfY - prim.r);
    }
    for (let v = -prim.halfY; v <= prim.halfY; v += step) {
      put(prim, prim.halfX + prim.r, v);
      put(prim, -prim.halfX - prim.r, v);
    }
  }
  return points;
}

/** Distance from a point to a placed rounded box, by turning the point into the box's frame. */
function distance([x, y]: Point, prim: Prim, at: Answer["placed"][number]): number {
  const ax = (x - at.x_mm) * Math.cos(at.angle_rad) + (y - at.y_mm) * Math.sin(at.angle_rad) - prim.x;
  const ay = -(x - at.x_mm) * Math.sin(at.angle_rad) + (y - at.y_mm) * Math.cos(at.angle_rad) - prim.y;
  const u = Math.abs(ax * Math.cos(prim.angle) + ay * Math.sin(prim.angle)) - prim.halfX;
  const v = Math.abs(-ax * Math.sin(prim.angle) + ay * Math.cos(prim.angle)) - prim.halfY;
  return Math.hypot(Math.max(u, 0), Math.max(v, 0)) + Math.min(Math.max(u, v), 0) - prim.r;
}

/** Can stacks of these heights (half inches) be built at once from the sets in stock? Tries all. */
function buildable(heights: readonly number[], stock: ReadonlyMap<number, number>, most: number): boolean {
  if (heights.length === 0) return true;
  const [height, ...rest] = heights as [number, ...number[]];
  const lengths = [...stock.keys()];
  const extend = (left: number, from: number, used: number, sets: ReadonlyMap<number, number>): boolean => {
    if (left === 0) return buildable(rest, sets, most);
    if (used === most) return false;
    return lengths.some((length, k) => {
      if (k < from || length > left || (sets.get(length) ?? 0) === 0) return false;
      return extend(left - length, k, used + 1, new Map(sets).set(length, (sets.get(length) as number) - 1));
    });
  };
  return extend(height, 0, 0, stock);
}

/** Every broken rule, in words; an empty list is a right layout. Tolerance 0.01 mm for sampling and rounding. */
export function brokenRules(file: LoadFile, answer: Answer): string[] {
  const broken: string[] = [];
  const tolerance = 0.01;
  const { kiln } = file;
  const items = new Map(file.items.map((item) => [item.id, item]));
  const { layers } = answer;
  let z = kiln.floor_mm + kiln.shelfThick_mm;
  const heights: number[] = [];
  layers.forEach((layer, k) => {
    if (Math.abs(layer.z_mm - z) > tolerance) broken.push(`layer ${k} stands at ${layer.z_mm}, not ${z}`);
    if (k < layers.length - 1) {
      const half = layer.height_mm / 12.7;
      if (Math.abs(half - Math.round(half)) > 1e-6) broken.push(`layer ${k} is ${half} half inches high`);
      heights.push(Math.round(half));
    }
    z += layer.height_mm + kiln.shelfThick_mm;
  });
  if (layers.length > 0 && z - kiln.shelfThick_mm > kiln.depth_mm + tolerance)
    broken.push("layers are higher than the kiln");
  if (!buildable(heights, new Map(kiln.postSets_halfInches), kiln.maxPostsPerStack)) {
    broken.push(`no posts for layers of ${heights.join(", ")} half inches`);
  }
  const seen = new Set<string | number>();
  let value = 0;
  const tip = (kiln.thermocouple.angle_deg * Math.PI) / 180;
  const tipX = (kiln.innerDia_mm / 2) * Math.cos(tip);
  const tipY = (kiln.innerDia_mm / 2) * Math.sin(tip);
  const solids = answer.placed.map((at) => {
    const item = items.get(at.id);
    if (!item) throw new Error(`item ${at.id} is not in the queue`);
    if (seen.has(at.id)) broken.push(`item ${at.id} is placed twice`);
    seen.add(at.id);
    value += item.value;
    return { at, item, points: samplesOf(item.prims, at, 0.5), reach: reachOf(item.prims) };
  });
  if (Math.abs(value - answer.value) > 1e-9) broken.push(`value is ${value}, not ${answer.value}`);
  for (const { at, item, points } of solids) {
    const layer = layers[at.layer];
    if (!layer) {
      broken.push(`item ${at.id} is on layer ${at.layer}, which does not exist`);
      continue;
    }
    const top = at.layer === layers.length - 1;
    const air = top ? kiln.lid_mm : kiln.headroom_mm;
    if (item.h_mm + air > layer.height_mm + tolerance) broken.push(`item ${at.id} is too tall for layer ${at.layer}`);
    const above = Math.max(layer.z_mm - kiln.thermocouple.z_mm, kiln.thermocouple.z_mm - layer.z_mm - item.h_mm, 0);
    let far = 0;
    let nearPost = Infinity;
    let nearTip = Infinity;
    for (const [x, y] of points) {
      far = Math.max(far, Math.hypot(x, y));
      nearTip = Math.min(nearTip, Math.hypot(x - tipX, y - tipY, above));
      for (let k = 0; k < (top ? 0 : kiln.nPosts); k++) {
        const turn = (kiln.postAngle_deg * Math.PI) / 180 + (2 * Math.PI * k) / kiln.nPosts;
        nearPost = Math.min(
          nearPost,
          Math.hypot(x - kiln.postCircle_mm * Math.cos(turn), y - kiln.postCircle_mm * Math.sin(turn)),
        );
      }
    }
    if (far > kiln.shelfR_mm + tolerance) broken.push(`item ${at.id} reaches ${far} from the axis`);
    if (nearPost < kiln.postR_mm - tolerance) broken.push(`item ${at.id} is ${nearPost} from a post's axis`);
    if (nearTip < kiln.thermocouple.r_mm - tolerance) broken.push(`item ${at.id} is ${nearTip} from the sensor`);
  }
  solids.forEach((a, i) => {
    for (const b of solids.slice(i + 1)) {
      if (a.at.layer !== b.at.layer) continue;
      if (Math.hypot(a.at.x_mm - b.at.x_mm, a.at.y_mm - b.at.y_mm) > a.reach + b.reach + kiln.glazeGap_mm) continue;
      let least = Infinity;
      for (const point of a.points)
        for (const prim of b.item.prims) least = Math.min(least, distance(point, prim, b.at));
      for (const point of b.points)
        for (const prim of a.item.prims) least = Math.min(least, distance(point, prim, a.at));
      if (least < kiln.glazeGap_mm - tolerance) broken.push(`items ${a.at.id} and ${b.at.id} are ${least} apart`);
    }
  });
  return broken;
}

const reachOf = (prims: readonly Prim[]): number =>
  Math.max(...prims.map((prim) => Math.hypot(prim.x, prim.y) + Math.hypot(prim.halfX, prim.halfY) + prim.r));
