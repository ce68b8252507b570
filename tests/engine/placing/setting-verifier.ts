import type { PlacingRequest, Proposal } from "#engine/placing";
import type { Outline } from "#engine/geometry";
import type { PlacedShelf, Shape, ShelfType } from "#engine/kiln";

/*
 * Checks a proposed setting by another method than placing's: outlines of pieces, shelves and posts are sampled as
 * points, and every distance is measured from points. Imports only types from the project. Metres.
 */
type Point = readonly [number, number];

/** A convex rounded box: core corners by half sides, grown by r. */
interface Blob {
  readonly x: number;
  readonly halfX: number;
  readonly halfY: number;
  readonly r: number;
}

/** A piece seen from above as rounded boxes along its own x axis. */
function blobsOf(shape: Shape): Blob[] {
  const { body } = shape;
  const blobs: Blob[] = [];
  let join: number;
  if (body.kind === "revolution") {
    join = Math.max(...body.profile.map(([radius]) => radius));
    blobs.push({ x: 0, halfX: 0, halfY: 0, r: join });
  } else {
    join = body.width / 2;
    const r = body.kind === "slab" ? body.corner : 0;
    blobs.push({ x: 0, halfX: body.width / 2 - r, halfY: body.depth / 2 - r, r });
  }
  for (const [part, side] of [
    [shape.handle, 1],
    [shape.spout, -1],
  ] as const) {
    if (!part) continue;
    const r = part.width / 2;
    const tip = join + part.reach - r;
    const start = Math.min(join / 2, tip);
    blobs.push({ x: (side * (start + tip)) / 2, halfX: (tip - start) / 2, halfY: 0, r });
  }
  return blobs;
}

function topOf(shape: Shape): number {
  const { body } = shape;
  const bare =
    body.kind === "revolution"
      ? Math.max(...body.profile.map(([, z]) => z))
      : body.kind === "box"
        ? body.height
        : body.thickness;
  return Math.max(bare + shape.lidHeight, shape.handle?.top ?? 0, shape.spout?.top ?? 0);
}

interface Frame {
  readonly x: number;
  readonly y: number;
  readonly angle: number;
}

const out = (at: Frame, u: number, v: number): Point => [
  at.x + u * Math.cos(at.angle) - v * Math.sin(at.angle),
  at.y + u * Math.sin(at.angle) + v * Math.cos(at.angle),
];

const into = (at: Frame, [x, y]: Point): Point => [
  (x - at.x) * Math.cos(at.angle) + (y - at.y) * Math.sin(at.angle),
  -(x - at.x) * Math.sin(at.angle) + (y - at.y) * Math.cos(at.angle),
];

function outlineOf(blobs: readonly Blob[], at: Frame, step: number): Point[] {
  const points: Point[] = [];
  for (const blob of blobs) {
    const corners: Point[] = [
      [blob.halfX, blob.halfY],
      [-blob.halfX, blob.halfY],
      [-blob.halfX, -blob.halfY],
      [blob.halfX, -blob.halfY],
    ];
    const round = blob.r > 0 ? Math.max(Math.ceil((blob.r * Math.PI) / 2 / step), 2) : 0;
    corners.forEach(([u, v], k) => {
      for (let i = 0; i <= round; i++) {
        const turn = (k + (round > 0 ? i / round : 0)) * (Math.PI / 2);
        points.push(out(at, blob.x + u + blob.r * Math.cos(turn), v + blob.r * Math.sin(turn)));
      }
      const [nextU, nextV] = corners[(k + 1) % 4];
      const normal = (k + 1) * (Math.PI / 2);
      const sideSteps = Math.ceil(Math.hypot(nextU - u, nextV - v) / step);
      for (let i = 0; i <= sideSteps; i++) {
        const t = sideSteps > 0 ? i / sideSteps : 0;
        points.push(
          out(
            at,
            blob.x + u + t * (nextU - u) + blob.r * Math.cos(normal),
            v + t * (nextV - v) + blob.r * Math.sin(normal),
          ),
        );
      }
    });
  }
  return points;
}

function distanceTo(blobs: readonly Blob[], at: Frame, point: Point): number {
  const [x, y] = into(at, point);
  return Math.min(
    ...blobs.map((blob) => {
      const u = Math.abs(x - blob.x) - blob.halfX;
      const v = Math.abs(y) - blob.halfY;
      return Math.hypot(Math.max(u, 0), Math.max(v, 0)) + Math.min(Math.max(u, v), 0) - blob.r;
    }),
  );
}

/** How deep inside an outline a point of its frame is [m]; negative outside. */
function depth(outline: Outline, [x, y]: Point): number {
  switch (outline.kind) {
    case "disc":
      return outline.radius - Math.hypot(x, y);
    case "half-disc":
      return Math.min(outline.radius - Math.hypot(x, y), -x);
    case "rectangle":
      return Math.min(outline.width / 2 - Math.abs(x), outline.depth / 2 - Math.abs(y));
    case "polygon": {
      const far = Math.hypot(x, y);
      const turn = Math.atan2(y, x) - outline.rotation;
      const sector = (2 * Math.PI) / outline.sides;
      return outline.inradius - far * Math.cos(turn - Math.round(turn / sector) * sector);
    }
  }
}

/** Points all over a shelf, and round its edge. */
function pointsOn(shelf: PlacedShelf, outline: Outline, step: number): Point[] {
  const size =
    outline.kind === "rectangle"
      ? Math.hypot(outline.width, outline.depth) / 2
      : outline.kind === "polygon"
        ? outline.inradius * 1.2
        : outline.radius;
  const points: Point[] = [];
  for (let turn = 0; turn < 2 * Math.PI; turn += step / size) {
    let low = 0;
    let high = size * 1.1;
    const seed: Point = outline.kind === "half-disc" ? [-outline.radius / 2, 0] : [0, 0];
    const along = (far: number): Point => [seed[0] + far * Math.cos(turn), seed[1] + far * Math.sin(turn)];
    for (let k = 0; k < 40; k++) {
      const middle = (low + high) / 2;
      if (depth(outline, along(middle)) >= 0) low = middle;
      else high = middle;
    }
    for (const share of [1, 0.9, 0.7, 0.4, 0]) {
      const [u, v] = along(low * share);
      points.push(out(shelf, u, v));
    }
  }
  return points;
}

/** Every broken rule, in words; an empty list is a right setting. Tolerance 0.02 mm, for sampling. */
export function brokenRules(request: PlacingRequest, proposal: Proposal): string[] {
  const broken: string[] = [];
  const tolerance = 2e-5;
  const { kiln, furniture, shapes } = request;
  const { rules, chamber } = kiln;
  const { setting } = proposal;
  const gap = request.firingClass.mayTouch ? 0 : rules.glazeGap;
  const typeOf = (shelf: PlacedShelf): ShelfType => {
    const type = furniture.shelves.find((each) => each.id === shelf.typeId);
    if (!type) throw new Error(`shelf ${shelf.id} has no type`);
    return type;
  };
  const tips = kiln.sensors.map((sensor) => {
    let wall = 0;
    while (depth(chamber.plan, [wall * Math.cos(sensor.azimuth), wall * Math.sin(sensor.azimuth)]) > 0) wall += 1e-5;
    const far = wall - sensor.reach;
    return [far * Math.cos(sensor.azimuth), far * Math.sin(sensor.azimuth), sensor.z] as const;
  });
  const toTip = ([x, y]: Point, low: number, high: number): number =>
    Math.min(...tips.map(([tx, ty, tz]) => Math.hypot(x - tx, y - ty, Math.max(low - tz, tz - high, 0))), Infinity);

  // Shelves.
  const shelves = [...setting.shelves].sort((a, b) => a.z - b.z);
  const plates = shelves.map((shelf) => {
    const type = typeOf(shelf);
    return { shelf, type, under: shelf.z - type.thickness, points: pointsOn(shelf, type.outline, 0.004) };
  });
  const overlaps = (a: (typeof plates)[number], b: (typeof plates)[number]): boolean =>
    a.points.some((point) => depth(b.type.outline, into(b.shelf, point)) > 1e-4);
  for (const plate of plates) {
    const { shelf, type, under } = plate;
    for (const point of plate.points) {
      if (depth(chamber.plan, point) < rules.shelfMargin / 2 - 1e-3) broken.push(`${shelf.id} is too near the wall`);
      if (toTip(point, under, shelf.z) < rules.sensorClear - tolerance)
        broken.push(`${shelf.id} enters the sensor's ball`);
    }
    if (shelf.posts.length !== rules.postsPerShelf) broken.push(`${shelf.id} has ${shelf.posts.length} posts`);
    const below = plates.filter((other) => other.shelf.z < under && overlaps(plate, other));
    const floor = below.length === 0;
    const stand = floor ? 0 : Math.max(...below.map((other) => other.shelf.z));
    if (floor && under < rules.bottomGap - tolerance) broken.push(`${shelf.id} is ${under} above the floor`);
    for (const post of shelf.posts) {
      const length = post.lengths.reduce((sum, each) => sum + each, 0);
      if (Math.abs(stand + length - under) > tolerance)
        broken.push(`posts of ${shelf.id} are ${length}, not ${under - stand}`);
      if (post.lengths.length > furniture.maxStack) broken.push(`posts of ${shelf.id} are stacked too high`);
      const half = Math.max(...furniture.posts.map((each) => each.width)) / 2;
      const corners = [0, 1, 2, 3].map((k): Point => [
        post.x + (k & 1 ? half : -half),
        post.y + (k & 2 ? half : -half),
      ]);
      for (const corner of corners) {
        if (depth(type.outline, into(shelf, corner)) < 0) broken.push(`a post reaches out of ${shelf.id}`);
        if (toTip(corner, stand, under) < rules.sensorClear - tolerance) broken.push("a post enters the sensor's ball");
      }
      if (!floor) {
        const carrier = below.find((other) =>
          corners.every((corner) => depth(other.type.outline, into(other.shelf, corner)) >= 0),
        );
        if (!carrier) broken.push(`a post of ${shelf.id} stands on no shelf`);
        const inLine = carrier?.shelf.posts.some((other) => Math.hypot(other.x - post.x, other.y - post.y) < 1e-6);
        if (!inLine) broken.push(`a post of ${shelf.id} is not in line`);
      }
    }
  }
  for (const type of furniture.shelves) {
    const used = shelves.filter((shelf) => shelf.typeId === type.id).length;
    if (used > type.count) broken.push(`${used} shelves of ${type.id}, ${type.count} in stock`);
  }
  for (const post of furniture.posts) {
    const used = shelves
      .flatMap((shelf) => shelf.posts.flatMap((stack) => stack.lengths))
      .filter((length) => Math.abs(length - post.length) < 1e-9).length;
    if (used > post.count) broken.push(`${used} posts of ${post.length}, ${post.count} in stock`);
  }

  // Ware and cones, as blobs between two heights.
  const solids: {
    name: string;
    blobs: Blob[];
    at: Frame;
    shelf: (typeof plates)[number];
    top: number;
    points: Point[];
    reach: number;
    mass: number;
  }[] = [];
  const add = (name: string, blobs: Blob[], at: Frame, shelfId: string, height: number, mass: number): void => {
    const plate = plates.find((each) => each.shelf.id === shelfId);
    if (!plate) {
      broken.push(`${name} stands on no shelf`);
      return;
    }
    const reach = Math.max(...blobs.map((blob) => Math.abs(blob.x) + Math.hypot(blob.halfX, blob.halfY) + blob.r));
    const points = outlineOf(blobs, at, 0.001);
    solids.push({ name, blobs, at, shelf: plate, top: plate.shelf.z + height, points, reach, mass });
  };
  for (const placed of setting.pieces) {
    const piece = request.pieces.find((each) => each.id === placed.pieceId);
    const shape = piece && shapes.get(piece.shapeId);
    if (!piece || !shape) throw new Error(`piece ${placed.pieceId} is unknown`);
    const lift = furniture.stilts.find((stilt) => stilt.id === piece.stiltId)?.lift ?? 0;
    add(piece.id, blobsOf(shape), placed, placed.shelfId, topOf(shape) + lift, shape.mass);
  }
  setting.cones.forEach((cones, k) => {
    const half = (0.022 * cones.cones.length + 0.02) / 2;
    add(`cones ${k}`, [{ x: 0, halfX: half, halfY: 0.015, r: 0 }], cones, cones.shelfId, 0.07, 0);
  });
  for (const solid of solids) {
    const { shelf, under: _under, type } = { ...solid.shelf };
    const above = plates.filter((other) => other.shelf.z > shelf.z + 1e-6 && overlaps(solid.shelf, other));
    const ceiling = Math.min(chamber.height, ...above.map((other) => other.under));
    const air = above.length === 0 ? rules.lidHeadroom : rules.headroom;
    if (solid.top + air > ceiling + tolerance)
      broken.push(`${solid.name} is ${ceiling - solid.top} under what is above it`);
    const posts = plates
      .filter((other) => other.shelf.z > shelf.z + 1e-6)
      .flatMap((other) =>
        other.shelf.posts.map((post) => ({
          post,
          foot: other.under - post.lengths.reduce((sum, each) => sum + each, 0),
          head: other.under,
        })),
      )
      .filter(({ foot, head }) => foot < solid.top && head > shelf.z + 1e-6);
    const half = Math.max(...furniture.posts.map((each) => each.width)) / 2;
    for (const point of solid.points) {
      if (depth(type.outline, into(shelf, point)) < -tolerance) broken.push(`${solid.name} reaches out of its shelf`);
      if (depth(chamber.plan, point) < rules.wareToWall - tolerance) broken.push(`${solid.name} is too near the wall`);
      if (toTip(point, shelf.z, solid.top) < rules.sensorClear - tolerance)
        broken.push(`${solid.name} enters the sensor's ball`);
      for (const { post } of posts) {
        const off = Math.hypot(
          Math.max(Math.abs(point[0] - post.x) - half, 0),
          Math.max(Math.abs(point[1] - post.y) - half, 0),
        );
        if (off < rules.postGap - tolerance) broken.push(`${solid.name} is ${off} from a post`);
      }
    }
  }
  solids.forEach((a, i) => {
    for (const b of solids.slice(i + 1)) {
      if (a.shelf.shelf.z >= b.top || b.shelf.shelf.z >= a.top) continue;
      if (Math.hypot(a.at.x - b.at.x, a.at.y - b.at.y) > a.reach + b.reach + gap) continue;
      const least = Math.min(
        ...a.points.map((point) => distanceTo(b.blobs, b.at, point)),
        ...b.points.map((point) => distanceTo(a.blobs, a.at, point)),
      );
      if (least < gap - tolerance) broken.push(`${a.name} and ${b.name} are ${least} apart`);
    }
  });
  for (const { shelf, type } of plates) {
    const on = solids.filter((solid) => solid.shelf.shelf.id === shelf.id);
    const load = on.reduce((sum, solid) => sum + solid.mass, 0);
    if (load > rules.shelfLoad + 1e-9) broken.push(`${shelf.id} carries ${load} kg`);
    if (!isBalanced(shelf, type, on)) broken.push(`${shelf.id} would tip over`);
  }

  // Everyone is placed once or waits once; fixed pieces have not moved; the bound is no less than the value.
  const ids = [...setting.pieces.map((placed) => placed.pieceId), ...proposal.waiting.map((each) => each.pieceId)];
  if (new Set(ids).size !== ids.length || ids.length !== request.pieces.length)
    broken.push("pieces are lost or doubled");
  for (const fixed of request.keep?.pieces.filter((placed) => placed.fixed) ?? []) {
    const now = setting.pieces.find((placed) => placed.pieceId === fixed.pieceId);
    if (JSON.stringify(now) !== JSON.stringify(fixed)) broken.push(`${fixed.pieceId} was moved`);
  }
  if (proposal.value > proposal.bound + 1e-9) broken.push("the value exceeds the bound");
  return [...new Set(broken)];
}

/** Does the centre of gravity of a shelf and what stands on it lie between its posts? */
function isBalanced(shelf: PlacedShelf, type: ShelfType, on: readonly { at: Frame; mass: number }[]): boolean {
  const [cu, cv]: Point = type.outline.kind === "half-disc" ? [(-4 * type.outline.radius) / (3 * Math.PI), 0] : [0, 0];
  const [sx, sy] = out(shelf, cu, cv);
  let mass = type.mass;
  let x = sx * type.mass;
  let y = sy * type.mass;
  for (const solid of on) {
    mass += solid.mass;
    x += solid.at.x * solid.mass;
    y += solid.at.y * solid.mass;
  }
  x /= mass;
  y /= mass;
  const centre = shelf.posts.reduce((sum, post) => [sum[0] + post.x, sum[1] + post.y] as Point, [0, 0] as Point);
  const [mx, my] = [centre[0] / shelf.posts.length, centre[1] / shelf.posts.length];
  const ring = [...shelf.posts].sort((a, b) => Math.atan2(a.y - my, a.x - mx) - Math.atan2(b.y - my, b.x - mx));
  return ring.every((a, k) => {
    const b = ring[(k + 1) % ring.length];
    return (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x) > 0;
  });
}
