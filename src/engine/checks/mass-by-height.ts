import type { Load } from "#engine/kiln";
import type { Kilograms, Metres } from "#engine/units";
import { draft, type Draft } from "./draft.ts";
import { message, share } from "./message-keys.ts";
import { limitOf, ruleOf } from "./rule-table.ts";
import { sceneOf, type Scene } from "./scene.ts";
import { nextShelfAbove, nextShelfBelow } from "./shelf-rules.ts";

/** Cordierite posts, 38 mm square, weigh about 29 g per cm: this per volume [kg/m3]. Common practice, no source. */
const postDensity = 2.9 / 0.038 ** 2;

/** How the mass of a load is spread over the chamber's height. */
export interface MassByHeight {
  readonly total: Kilograms;
  readonly ware: Kilograms;
  readonly furniture: Kilograms;
  /** Height of the centre of mass over the chamber's height [-]; an even load has 0.5. */
  readonly centre: number;
  /**
   * Share of the mass in the bottom, middle and top third of the height; an even load has a third in each. A shelf
   * counts from the middle of the layer under it to the middle of the layer over it, both of which it cools.
   */
  readonly thirds: readonly [number, number, number];
  /** Mass in equal bands from the floor up, each body where it is [kg]. */
  readonly bands: readonly { readonly furniture: Kilograms; readonly ware: Kilograms }[];
}

/**
 * Mass of shelves, posts and ware by height.
 *
 * Each body's mass is spread evenly over its own height: exact for shelves and posts, an estimate for ware.
 *
 * @param bands  how many equal bands, at least 1
 */
export function massByHeight(load: Load, bands: number = 12): MassByHeight {
  return massOf(sceneOf(load), bands);
}

export function massOf(scene: Scene, bandCount: number): MassByHeight {
  const height = scene.load.kiln.chamber.height;
  const bodies: Body[] = [];
  for (const shelf of scene.shelves) {
    const { bottom, top } = shelf.plate;
    const below = nextShelfBelow(scene, shelf)?.plate.top ?? 0;
    const above = nextShelfAbove(scene, shelf)?.plate.bottom ?? height;
    const cools = { bottom: (below + bottom) / 2, top: (top + above) / 2 };
    bodies.push({ mass: shelf.type.mass, bottom, top, cools, ware: false });
  }
  for (const post of scene.posts) {
    const mass = postDensity * post.width ** 2 * (post.top - post.bottom);
    bodies.push({ mass, bottom: post.bottom, top: post.top, cools: post, ware: false });
  }
  for (const piece of scene.pieces) {
    bodies.push({ mass: piece.shape.mass, bottom: piece.bottom, top: piece.top, cools: piece, ware: true });
  }
  const bands = Array.from({ length: bandCount }, () => ({ furniture: 0, ware: 0 }));
  const thirds: [number, number, number] = [0, 0, 0];
  let moment = 0;
  for (const body of bodies) {
    moment += (body.mass * (body.bottom + body.top)) / 2;
    spread(body, height, bandCount, (band, mass) => {
      bands[band][body.ware ? "ware" : "furniture"] += mass;
    });
    spread({ mass: body.mass, bottom: body.cools.bottom, top: body.cools.top }, height, 3, (third, mass) => {
      thirds[third] = thirds[third] + mass;
    });
  }
  const sum = (ware: boolean): number =>
    bodies.filter((body) => body.ware === ware).reduce((all, body) => all + body.mass, 0);
  const total = sum(true) + sum(false);
  return {
    total,
    ware: sum(true),
    furniture: sum(false),
    centre: total > 0 ? moment / total / height : 0.5,
    thirds: total > 0 ? (thirds.map((each) => each / total) as [number, number, number]) : [1 / 3, 1 / 3, 1 / 3],
    bands,
  };
}

interface Body {
  readonly mass: Kilograms;
  readonly bottom: Metres;
  readonly top: Metres;
  readonly cools: { readonly bottom: Metres; readonly top: Metres };
  readonly ware: boolean;
}

/** Deals a body's mass to equal bands of the height; what reaches beyond an end counts to the end band. */
function spread(
  body: { readonly mass: number; readonly bottom: number; readonly top: number },
  height: Metres,
  count: number,
  add: (band: number, mass: number) => void,
): void {
  const tall = Math.max(body.top - body.bottom, 1e-9);
  for (let band = 0; band < count; band++) {
    const low = band === 0 ? -Infinity : (band * height) / count;
    const high = band === count - 1 ? Infinity : ((band + 1) * height) / count;
    const within = Math.min(body.top, high) - Math.max(body.bottom, low);
    if (within > 0) add(band, (body.mass * within) / tall);
  }
}

/** Warns when one third of the height holds far more than its share. */
export function massDrafts(scene: Scene): readonly Draft[] {
  if (scene.shelves.length < 2) return [];
  const { thirds } = massOf(scene, 3);
  const limit = limitOf(ruleOf("mass-by-height"), scene.load.kiln.rules) as number;
  const heaviest = Math.max(...thirds);
  if (heaviest <= limit + 1e-9) return [];
  const third = thirds.indexOf(heaviest);
  const values = { measured: share(heaviest) };
  const found = ["found.bottom-heavy", "found.middle-heavy", "found.top-heavy"] as const;
  const advice = ["do.move-up", "do.spread-mass", "do.move-down"] as const;
  return [
    draft("mass-by-height", {
      measured: heaviest,
      limit,
      message: message(found[third], values),
      advice: message(advice[third]),
    }),
  ];
}
