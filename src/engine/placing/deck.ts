import { areaOf, flatsOf, placeFootprint, radiusAt, type Flat, type Outline, type Placement } from "#engine/geometry";
import type { Furniture, Kiln, ShelfType } from "#engine/kiln";

/** One shelf of a deck: where it lies and where its posts stand, in the kiln's plan. */
export interface Bay {
  readonly at: Placement;
  readonly posts: readonly (readonly [number, number])[];
}

/** Shelves of one kind side by side at one height, the same on every level so that posts stand in line. */
export interface Deck {
  readonly shelf: ShelfType;
  readonly bays: readonly Bay[];
  /** How many levels the stock allows. */
  readonly levels: number;
}

/** Share of its width that a post may differ from a square seen across its corners. */
const halfDiagonal = Math.SQRT1_2;
/** A post's corners stay this far inside the shelf's edge [m]; common practice, no source. */
const postInset = 0.006;

/** Radius of the circle a post may fill however it is turned [m]. */
export function postReach(furniture: Furniture): number {
  return furniture.posts.reduce((most, post) => Math.max(most, post.width), 0) * halfDiagonal;
}

/** Every deck that fits the chamber with the shelf margin: posts clear of sensors first, then the most area. */
export function decksFor(kiln: Kiln, furniture: Furniture): readonly Deck[] {
  const decks: { deck: Deck; clear: boolean; usable: number }[] = [];
  for (const shelf of furniture.shelves) {
    for (const variants of layoutsOf(kiln, shelf)) {
      const laid = variants
        .filter((places) => places.every((at) => fits(kiln, shelf.outline, at)))
        .flatMap((places) => postings(kiln, furniture, shelf.outline, places))
        .map((bays) => ({ bays, far: farFromSensors(kiln, bays) }))
        .sort((a, b) => b.far - a.far)[0];
      const levels = laid ? Math.floor(shelf.count / laid.bays.length) : 0;
      if (!laid || levels < 1) continue;
      decks.push({
        deck: { shelf, bays: laid.bays, levels },
        clear: laid.far >= kiln.rules.sensorClear + postReach(furniture),
        usable: areaOf(shelf.outline) * laid.bays.length * Math.min(levels, 6),
      });
    }
  }
  return decks
    .sort((a, b) => Number(b.clear) - Number(a.clear) || b.usable - a.usable || a.deck.bays.length - b.deck.bays.length)
    .map(({ deck }) => deck);
}

/** Distance in the plan from the nearest sensor's tip to the nearest post's axis [m]. */
function farFromSensors(kiln: Kiln, bays: readonly Bay[]): number {
  let least = Infinity;
  for (const sensor of kiln.sensors) {
    const radius = radiusAt(kiln.chamber.plan, sensor.azimuth) - sensor.reach;
    for (const [x, y] of bays.flatMap((bay) => bay.posts)) {
      const far = Math.hypot(x - radius * Math.cos(sensor.azimuth), y - radius * Math.sin(sensor.azimuth));
      least = Math.min(least, far);
    }
  }
  return least;
}

/** Ways to lay shelves of one kind at one height (alone, two halves, rows of rectangles), each with its variants. */
function layoutsOf(kiln: Kiln, shelf: ShelfType): readonly (readonly (readonly Placement[])[])[] {
  const { outline } = shelf;
  if (outline.kind === "half-disc") {
    const seams = Array.from({ length: 12 }, (_, k) => (k * Math.PI) / 12);
    // A millimetre of air at the seam, so that the halves do not rub.
    const half = (angle: number): Placement => ({
      x: -0.0005 * Math.cos(angle),
      y: -0.0005 * Math.sin(angle),
      angle,
    });
    return [seams.map((seam) => [half(seam), half(seam + Math.PI)])];
  }
  const middle = { x: 0, y: 0, angle: 0 };
  if (outline.kind !== "rectangle") return [[[middle]]];
  const layouts: Placement[][] = [[middle]];
  const turned = outline.width === outline.depth ? [0] : [0, Math.PI / 2];
  for (const angle of turned) {
    const width = angle === 0 ? outline.width : outline.depth;
    const depth = angle === 0 ? outline.depth : outline.width;
    for (let columns = 1; columns <= 3; columns++) {
      for (let rows = 1; rows <= 3; rows++) {
        if (columns * rows === 1 && angle === 0) continue;
        layouts.push(
          Array.from({ length: columns * rows }, (_, k) => ({
            x: ((k % columns) - (columns - 1) / 2) * (width + 0.001),
            y: (Math.floor(k / columns) - (rows - 1) / 2) * (depth + 0.001),
            angle,
          })),
        );
      }
    }
  }
  const room = 2 * Math.max(radiusAt(kiln.chamber.plan, 0), radiusAt(kiln.chamber.plan, Math.PI / 2));
  return layouts.filter((places) => places.every((at) => Math.hypot(at.x, at.y) < room)).map((places) => [places]);
}

/** The bays of a layout, once for every way its posts may stand. */
function postings(kiln: Kiln, furniture: Furniture, outline: Outline, places: readonly Placement[]): Bay[][] {
  return [0, 1, 2, 3]
    .map((variant) => places.map((at) => ({ at, posts: postsFor(kiln, furniture, outline, at, variant) })))
    .filter((bays) => bays.every((bay) => bay.posts.length > 0));
}

/** Corners of a shelf, or points round its rim, in the kiln's plan. */
export function rimOf(outline: Outline, at: Placement): readonly (readonly [number, number])[] {
  const local: [number, number][] = [];
  if (outline.kind === "rectangle") {
    for (const [sx, sy] of [
      [1, 1],
      [-1, 1],
      [-1, -1],
      [1, -1],
    ] as const) {
      local.push([(sx * outline.width) / 2, (sy * outline.depth) / 2]);
    }
  } else if (outline.kind === "polygon") {
    const corner = outline.inradius / Math.cos(Math.PI / outline.sides);
    for (let k = 0; k < outline.sides; k++) {
      const azimuth = outline.rotation + ((k + 0.5) * 2 * Math.PI) / outline.sides;
      local.push([corner * Math.cos(azimuth), corner * Math.sin(azimuth)]);
    }
  } else {
    const from = outline.kind === "disc" ? 0 : Math.PI / 2;
    const span = outline.kind === "disc" ? 2 * Math.PI : Math.PI;
    for (let k = 0; k <= 96; k++) {
      const azimuth = from + (span * k) / 96;
      local.push([outline.radius * Math.cos(azimuth), outline.radius * Math.sin(azimuth)]);
    }
  }
  return placeFootprint(
    local.map(([x, y]) => ({ x, y, angle: 0, halfX: 0, halfY: 0, radius: 0 })),
    at,
  ).map((point) => [point.x, point.y] as const);
}

function fits(kiln: Kiln, outline: Outline, at: Placement): boolean {
  const { plan } = kiln.chamber;
  const margin = kiln.rules.shelfMargin / 2 - 1e-6;
  if (outline.kind === "disc" && plan.kind !== "disc") {
    return flatsOf(plan).every((flat) => at.x * flat.nx + at.y * flat.ny + outline.radius <= flat.distance - margin);
  }
  // Half discs lie a hair off the axis: the sampled rim stands for both halves.
  return rimOf(outline, at).every(([x, y]) => {
    if (plan.kind === "disc")
      return Math.hypot(x, y) <= plan.radius - margin + (outline.kind === "half-disc" ? 6e-4 : 0);
    return flatsOf(plan).every((flat) => x * flat.nx + y * flat.ny <= flat.distance - margin + 6e-4);
  });
}

/** Posts of one shelf: as many as the rules ask, far out but well inside, clear of sensors and spyholes; none if they cannot stand. */
function postsFor(kiln: Kiln, furniture: Furniture, outline: Outline, at: Placement, variant: number): Bay["posts"] {
  const reach = postReach(furniture) + postInset;
  const count = kiln.rules.postsPerShelf;
  const place = (points: readonly (readonly [number, number])[]): Bay["posts"] =>
    placeFootprint(
      points.map(([x, y]) => ({ x, y, angle: 0, halfX: 0, halfY: 0, radius: 0 })),
      at,
    ).map((point) => [point.x, point.y] as const);
  switch (outline.kind) {
    case "disc":
    case "polygon": {
      const radius = (outline.kind === "disc" ? outline.radius : outline.inradius) - reach;
      if (radius <= 0) return [];
      const azimuth = bestTurn(kiln, count) - at.angle;
      return place(
        Array.from({ length: count }, (_, k) => {
          const turn = azimuth + (2 * Math.PI * k) / count;
          return [radius * Math.cos(turn), radius * Math.sin(turn)];
        }),
      );
    }
    case "half-disc": {
      const radius = outline.radius - reach;
      const edge = Math.sqrt(Math.max(radius * radius - reach * reach, 0));
      if (edge <= 0) return [];
      if (count <= 3) {
        return place([
          [-reach, edge],
          [-radius, 0],
          [-reach, -edge],
        ]);
      }
      const out = radius * Math.SQRT1_2;
      return place([
        [-reach, edge],
        [-out, out],
        [-out, -out],
        [-reach, -edge],
      ]);
    }
    case "rectangle": {
      const x = outline.width / 2 - reach;
      const y = outline.depth / 2 - reach;
      if (x <= 0 || y <= 0) return [];
      const corners: [number, number][] = [
        [x, y],
        [-x, y],
        [-x, -y],
        [x, -y],
      ];
      if (count >= 4) return place(corners);
      // Two at the ends of one side, one in the middle of the side across.
      const turned: [number, number][][] = [
        [
          [x, y],
          [-x, y],
          [0, -y],
        ],
        [
          [x, -y],
          [-x, -y],
          [0, y],
        ],
        [
          [-x, y],
          [-x, -y],
          [x, 0],
        ],
        [
          [x, y],
          [x, -y],
          [-x, 0],
        ],
      ];
      return place(turned[variant]);
    }
  }
}

/** Azimuth of the first post that keeps all posts farthest from sensors and spyholes. */
function bestTurn(kiln: Kiln, count: number): number {
  const avoid = [...kiln.sensors.map((sensor) => sensor.azimuth), ...kiln.spyholes.map((hole) => hole.azimuth)];
  const step = (2 * Math.PI) / count;
  let best = 0;
  let bestFar = -1;
  for (let k = 0; k < 72; k++) {
    const turn = (step * k) / 72;
    const far = avoid.reduce((least, azimuth) => {
      const off = (((azimuth - turn) % step) + step) % step;
      return Math.min(least, off, step - off);
    }, Infinity);
    if (far > bestFar + 1e-9) {
      best = turn;
      bestFar = far;
    }
  }
  return best;
}

/** Flats that a piece on the bay must keep: the shelf's, and the chamber's less the ware's distance to the wall. */
export function flatsOfBay(kiln: Kiln, deck: Deck, bay: Bay, gap: number): readonly Flat[] {
  const { outline } = deck.shelf;
  const cos = Math.cos(bay.at.angle);
  const sin = Math.sin(bay.at.angle);
  // Shelves side by side: each keeps half a gap from the seam, so that pieces on both sides keep the whole.
  const inset = deck.bays.length > 1 ? gap / 2 : 0;
  const own = flatsOf(outline).map((flat): Flat => {
    const nx = cos * flat.nx - sin * flat.ny;
    const ny = sin * flat.nx + cos * flat.ny;
    return { nx, ny, distance: flat.distance + nx * bay.at.x + ny * bay.at.y - inset };
  });
  const walls = flatsOf(kiln.chamber.plan).map((flat): Flat => ({
    nx: flat.nx,
    ny: flat.ny,
    distance: flat.distance - kiln.rules.wareToWall,
  }));
  return [...own, ...walls];
}
