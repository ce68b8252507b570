import type { ShapeRecord } from "#records";

/*
 * The library of shapes a studio starts with. Outside sizes, walls and masses are usual for hand-made and slip-cast
 * studio ware, +-25 %: estimated, common practice, no source. A studio measures its own and puts them in their place.
 * Written in millimetres and grams, kept in SI.
 */

type Millimetres = number;
type Profile = readonly (readonly [radius: Millimetres, height: Millimetres])[];
type Part = { reach: Millimetres; width: Millimetres; bottom: Millimetres; top: Millimetres };

const m = (millimetres: Millimetres): number => millimetres / 1000;

function attachment(part: Part | undefined): ShapeRecord["handle"] {
  return part ? { reach: m(part.reach), width: m(part.width), bottom: m(part.bottom), top: m(part.top) } : null;
}

function shape(
  id: string,
  name: string,
  alsoCalled: readonly string[],
  grams: number,
  body: ShapeRecord["body"],
  parts: { handle?: Part; spout?: Part; lid?: Millimetres } = {},
): ShapeRecord {
  return {
    version: 1,
    id,
    name,
    alsoCalled: [...alsoCalled],
    body,
    handle: attachment(parts.handle),
    spout: attachment(parts.spout),
    lidHeight: m(parts.lid ?? 0),
    mass: grams / 1000,
    guessed: false,
  };
}

/** A body turned on the wheel or cast: its outside from foot to rim. Closed when it ends on the axis. */
function turned(profile: Profile, wall: Millimetres, foot: Millimetres): ShapeRecord["body"] {
  return {
    kind: "revolution",
    profile: profile.map(([radius, height]) => [m(radius), m(height)] as [number, number]),
    wall: m(wall),
    foot: m(foot),
    closed: profile.at(-1)?.[0] === 0,
  };
}

function slab(
  width: Millimetres,
  depth: Millimetres,
  thickness: Millimetres,
  corner: Millimetres,
): ShapeRecord["body"] {
  return { kind: "slab", width: m(width), depth: m(depth), thickness: m(thickness), corner: m(corner) };
}

/** A sphere's outside, with a small flat to stand on. */
function sphere(radius: Millimetres, foot: Millimetres): Profile {
  const lowest = Math.asin(foot / radius);
  const sunk = radius * (1 - Math.cos(lowest));
  const points: (readonly [number, number])[] = [];
  const steps = 14;
  for (let i = 0; i < steps; i += 1) {
    const angle = lowest + ((Math.PI - lowest) * i) / steps;
    const height = radius * (1 - Math.cos(angle)) - sunk;
    points.push([round(radius * Math.sin(angle)), round(Math.max(height, 0))]);
  }
  return [...points, [0, round(2 * radius - sunk)]];
}

const round = (value: number): number => Math.round(value * 100) / 100;

const vesselShapes: readonly ShapeRecord[] = [
  shape(
    "mug",
    "mug",
    ["coffee mug", "cup"],
    370,
    turned(
      [
        [33, 0],
        [35, 3],
        [39, 9],
        [41.5, 20],
        [42.5, 45],
        [42, 75],
        [42.5, 95],
      ],
      5.5,
      32,
    ),
    { handle: { reach: 35, width: 16, bottom: 20, top: 80 } },
  ),
  shape(
    "large-mug",
    "large mug",
    ["big mug", "soup mug"],
    480,
    turned(
      [
        [38, 0],
        [40, 3],
        [46, 10],
        [51, 28],
        [52.5, 55],
        [51.5, 85],
        [52, 105],
      ],
      5.5,
      37,
    ),
    { handle: { reach: 35, width: 18, bottom: 22, top: 88 } },
  ),
  shape(
    "tumbler",
    "tumbler",
    ["beaker", "glass"],
    320,
    turned(
      [
        [28, 0],
        [30, 4],
        [33, 20],
        [36.5, 60],
        [40, 115],
      ],
      5,
      27,
    ),
  ),
  shape(
    "dinner-plate",
    "dinner plate",
    ["plate", "large plate"],
    900,
    turned(
      [
        [78, 0],
        [80, 3],
        [98, 6],
        [112, 11],
        [124, 18],
        [132.5, 25],
      ],
      7,
      77,
    ),
  ),
  shape(
    "side-plate",
    "side plate",
    ["small plate", "salad plate", "dessert plate"],
    470,
    turned(
      [
        [60, 0],
        [62, 3],
        [76, 5],
        [88, 10],
        [102.5, 20],
      ],
      6,
      59,
    ),
  ),
  shape(
    "coupe-bowl",
    "coupe bowl",
    ["pasta bowl", "pasta plate"],
    580,
    turned(
      [
        [56, 0],
        [58, 3],
        [76, 8],
        [94, 20],
        [104, 34],
        [110, 50],
      ],
      6,
      55,
    ),
  ),
  shape(
    "cereal-bowl",
    "cereal bowl",
    ["bowl", "soup bowl", "small bowl"],
    400,
    turned(
      [
        [34, 0],
        [36, 4],
        [52, 12],
        [66, 28],
        [73, 46],
        [77.5, 65],
      ],
      5.5,
      33,
    ),
  ),
  shape(
    "mixing-bowl",
    "mixing bowl",
    ["large bowl", "salad bowl", "big bowl"],
    1250,
    turned(
      [
        [52, 0],
        [55, 5],
        [80, 16],
        [104, 42],
        [117, 75],
        [121, 102],
        [125, 110],
      ],
      7,
      51,
    ),
  ),
  shape(
    "round-platter",
    "round platter",
    ["platter", "serving plate"],
    1500,
    turned(
      [
        [104, 0],
        [106, 4],
        [128, 8],
        [146, 15],
        [165, 30],
      ],
      8,
      103,
    ),
  ),
  shape("long-platter", "long platter", ["oval platter", "tray", "serving tray"], 1500, {
    kind: "box",
    width: m(380),
    depth: m(280),
    height: m(35),
    wall: m(8),
    closed: false,
  }),
  shape(
    "vase",
    "vase",
    ["flower vase"],
    700,
    turned(
      [
        [34, 0],
        [36, 4],
        [44, 40],
        [50, 85],
        [49, 115],
        [40, 145],
        [27, 165],
        [24, 178],
        [26, 190],
        [31, 200],
      ],
      6,
      33,
    ),
  ),
  shape(
    "teapot",
    "teapot with lid",
    ["teapot", "tea pot", "pot"],
    850,
    turned(
      [
        [40, 0],
        [43, 4],
        [55, 22],
        [63, 50],
        [64, 72],
        [56, 96],
        [42, 112],
        [38, 118],
      ],
      5.5,
      39,
    ),
    {
      handle: { reach: 38, width: 18, bottom: 30, top: 104 },
      spout: { reach: 34, width: 26, bottom: 40, top: 116 },
      lid: 32,
    },
  ),
  shape(
    "pitcher",
    "pitcher",
    ["jug", "water jug"],
    1050,
    turned(
      [
        [44, 0],
        [46, 4],
        [54, 35],
        [60, 80],
        [58, 120],
        [47, 160],
        [43, 180],
        [47, 205],
        [52, 220],
      ],
      6,
      43,
    ),
    {
      handle: { reach: 38, width: 20, bottom: 60, top: 195 },
      spout: { reach: 12, width: 32, bottom: 180, top: 220 },
    },
  ),
];

const otherShapes: readonly ShapeRecord[] = [
  shape(
    "small-figure",
    "small figure",
    ["figure", "animal", "figurine", "small animal"],
    250,
    turned(
      [
        [24, 0],
        [32, 5],
        [35, 22],
        [31, 42],
        [22, 58],
        [18, 66],
        [22, 76],
        [24, 88],
        [20, 100],
        [10, 108],
        [0, 110],
      ],
      5,
      23,
    ),
  ),
  shape(
    "large-figure",
    "large figure",
    ["big figure", "statue", "large animal"],
    750,
    turned(
      [
        [42, 0],
        [52, 6],
        [60, 36],
        [56, 80],
        [42, 112],
        [31, 126],
        [36, 140],
        [41, 160],
        [36, 182],
        [20, 196],
        [0, 200],
      ],
      6,
      40,
    ),
  ),
  shape("small-tile", "small tile", ["tile"], 125, slab(105, 105, 6, 2)),
  shape("large-tile", "large tile", ["big tile"], 310, slab(152, 152, 7, 2)),
  shape("ornament", "flat ornament", ["ornament", "hanger"], 60, slab(90, 90, 5, 45)),
  shape("ball", "ball", ["bauble"], 120, turned(sphere(37.5, 10), 4, 10)),
  shape("bank", "bank", ["money bank", "piggy bank", "money box"], 680, {
    kind: "box",
    width: m(180),
    depth: m(120),
    height: m(120),
    wall: m(4.5),
    closed: true,
  }),
];

/** Shapes a new studio starts with, in the order a shelf of samples would stand. */
export const startingShapes: readonly ShapeRecord[] = [...vesselShapes, ...otherShapes];
