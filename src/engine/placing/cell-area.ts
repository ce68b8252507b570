/*
 * Least area a convex body must have to itself in any packing, counting the sides of its cell.
 *
 * Disjoint convex bodies in a disc D can be enclosed in disjoint convex cells, each bounded by straight sides and arcs
 * of D, with (straight sides) + 2 (arcs) summing to at most 6 n - 6 over n >= 2 cells: grow the bodies to a maximal
 * family and count edges by Euler's formula (docs/explanation/placing.md#bound). So for every price L >= 0
 *   Σ min over cells [area + L (straight + 2 arcs - 6)] <= area(D) - 6 L.
 * These functions give that minimum, or a little less: never more. [m2]
 * Source: [fejes-toth-1972]
 */

/** Numbers below are lowered by this share for their integration and search grids. */
const caution = 1 - 2e-4;
const mostSides = 40;
const angleSteps = 180;

/**
 * Area of the part of a disc D of radius `outer` seen within `angle` from the centre of a disc of `radius` that touches D's
 * edge from inside, about the direction of touching: the least for any place of the small disc and any directions.
 */
function arcArea(outer: number, radius: number, angle: number): number {
  const within = Math.min(angle, Math.PI);
  const far = outer - radius;
  const steps = 48;
  let sum = 0;
  for (let k = 0; k <= steps; k++) {
    const turn = (-0.5 + k / steps) * within;
    const reach = -far * Math.cos(turn) + Math.sqrt(outer * outer - (far * Math.sin(turn)) ** 2);
    sum += reach * reach * (k === 0 || k === steps ? 1 : k % 2 === 1 ? 4 : 2);
  }
  // Beyond half a turn: no less than the small disc itself.
  return (sum * within) / steps / 6 + (radius * radius * (angle - within)) / 2;
}

/** Tables of the arc areas of one container, by radius. */
export class CellAreas {
  private readonly outer: number;
  private readonly arcs = new Map<string, Float64Array>();
  private readonly cells = new Map<string, number>();

  /** @param outer radius of the container [m] */
  constructor(outer: number) {
    this.outer = outer;
  }

  /** Share of a layer a disc takes at a price per side. */
  disc(radius: number, price: number): number {
    return caution * this.ofDisc(radius, price);
  }

  /** Share of a layer that a rectangle with half sides grown by `radius` takes at a price per side. */
  box(halfX: number, halfY: number, radius: number, price: number): number {
    if (halfX === 0 && halfY === 0) return this.disc(radius, price);
    const corners = halfX === 0 || halfY === 0 ? 2 : 4;
    // Steiner's formula: what the core adds to any cell of the disc, at least.
    const added = 4 * radius * (halfX + halfY) + 4 * halfX * halfY;
    const area = Math.PI * radius * radius + added;
    const inner = Math.min(halfX, halfY) + radius;
    // A triangle about a parallelogram has at least twice its area.
    const square = (2 * halfX + Math.SQRT2 * radius) * (2 * halfY + Math.SQRT2 * radius);
    const triangle = Math.max(2 * square, this.plain(radius, 3) + added) - 3 * price;
    let least = triangle;
    for (let sides = 4; sides <= mostSides; sides++) {
      const cell = Math.max(this.plain(radius, sides) + added, area);
      least = Math.min(least, cell + price * (sides - 6));
    }
    for (let sides = 1; sides <= 6; sides++) {
      if (area + price * (sides - 4) >= least) break;
      const asBox = this.rounded(radius, corners, sides) + added;
      const asDisc = this.rounded(inner, 1, sides);
      least = Math.min(least, Math.max(asBox, asDisc, area) + price * (sides - 4));
    }
    return caution * Math.min(least, area + 3 * price);
  }

  private ofDisc(radius: number, price: number): number {
    const disc = Math.PI * radius * radius;
    let least = Infinity;
    for (let sides = 3; sides <= mostSides; sides++) {
      least = Math.min(least, this.plain(radius, sides) + price * (sides - 6));
      // More sides cost more, and no cell is smaller than the disc.
      if (disc + price * (sides - 5) >= least) break;
    }
    for (let sides = 1; sides <= mostSides; sides++) {
      if (disc + price * (sides - 4) >= least) break;
      least = Math.min(least, this.rounded(radius, 1, sides) + price * (sides - 4));
    }
    return Math.min(least, disc + price * (mostSides - 5));
  }

  /** Regular polygon about a disc. */
  private plain(radius: number, sides: number): number {
    return radius * radius * sides * Math.tan(Math.PI / sides);
  }

  /** Least cell about a disc with some straight sides, and arcs of the container in `corners` parts. */
  private rounded(radius: number, corners: number, sides: number): number {
    const key = `${radius}/${corners}/${sides}`;
    const known = this.cells.get(key);
    if (known !== undefined) return known;
    const arcs = this.arcsOf(radius, corners);
    let least = Infinity;
    for (let k = 1; k < angleSteps; k++) {
      const half = (Math.PI * (1 - k / angleSteps)) / sides;
      if (half >= Math.PI / 2) continue;
      least = Math.min(least, (arcs[k] as number) + sides * radius * radius * Math.tan(half));
    }
    // The grid of angles misses the least by no more than this share.
    least *= 1 - 1e-4;
    this.cells.set(key, least);
    return least;
  }

  private arcsOf(radius: number, corners: number): Float64Array {
    const key = `${radius}/${corners}`;
    const known = this.arcs.get(key);
    if (known) return known;
    const arcs = Float64Array.from(
      { length: angleSteps },
      (_, k) => corners * arcArea(this.outer, radius, (2 * Math.PI * k) / angleSteps / corners),
    );
    this.arcs.set(key, arcs);
    return arcs;
  }
}
