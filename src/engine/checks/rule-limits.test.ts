import { describe, expect, test } from "vitest";
import type { Load, PlacedShelf, Schedule } from "#engine/kiln";
import {
  alder,
  alderLoad,
  furniture,
  ring,
  schedule06,
  shelf,
  tileShape,
  tumblerShape,
  turned,
  usualShelves,
  usualStands,
  vaseShape,
  type Change,
  type Stand,
} from "./alder-fixture.ts";
import { checkLoad, ruleIds, rules, type CheckExtras, type RuleId } from "./index.ts";

/*
 * Every rule with a number, at its limit, a millimetre (gram, kelvin) better and a millimetre worse. The limits are
 * those of `usualRules`: common practice, no source. What is tested is that the rule turns exactly there; each case
 * says in `at` by hand how far from the limit it lies.
 */

interface Limit {
  readonly rule: RuleId;
  readonly what: string;
  /** A load (and what else is known) that keeps the rule by `off`, or breaks it by `-off`. */
  readonly at: (off: number) => { readonly load: Load; readonly extras?: CheckExtras };
  /** How far to go to either side; 1 mm if left out. */
  readonly step?: number;
  /** Share of a step that still counts as on the limit, for rules with play. */
  readonly play?: number;
}

const load = (change: Change, extras: CheckExtras = {}) => ({ load: alderLoad(change), extras });
const none: readonly Stand[] = [];
const only = (...stands: readonly Stand[]): readonly Stand[] => stands;
const tumbler = (x: number, y = 0, shelfId = "s1", id = "t"): Stand => ({ id, shape: tumblerShape, shelfId, x, y });
const disc = (radius: number, count = 5) => ({
  ...furniture,
  shelves: [
    {
      ...furniture.shelves[0],
      outline: { kind: "disc", radius } as const,
      count,
    },
  ],
});
const bottomShelf = usualShelves[0];
const middleShelf = usualShelves[1];
const topShelf = usualShelves[2];
const half = (id: string, z: number, x: number, angle: number): PlacedShelf => ({
  ...shelf(id, z, ring([0.025]), "half"),
  x,
  angle,
});

const limits: readonly Limit[] = [
  {
    rule: "shelf-outside",
    what: "room from a disc's edge to a flat wall",
    at: (off) => load({ stands: none, shelves: [{ ...bottomShelf, x: 0.025 - off }] }),
  },
  {
    rule: "shelf-outside",
    what: "top of a shelf and the lid",
    at: (off) => load({ stands: none, shelves: [bottomShelf, { ...topShelf, z: 0.69 - off }] }),
  },
  {
    rule: "shelf-margin",
    what: "25 mm all round",
    at: (off) => load({ stands: none, furniture: disc(0.26), shelves: [{ ...bottomShelf, x: 0.005 - off }] }),
  },
  {
    rule: "shelf-overlap",
    what: "two halves across their straight edges",
    at: (off) => load({ stands: none, shelves: [half("a", 0.041, 0, 0), half("b", 0.041, off, Math.PI)] }),
  },
  {
    rule: "shelf-overlap",
    what: "two full shelves in height",
    at: (off) => load({ stands: none, shelves: [bottomShelf, shelf("s2", 0.041 + 0.016 + off, [])] }),
  },
  {
    rule: "bottom-gap",
    what: "25 mm under the bottom shelf",
    at: (off) => load({ stands: none, shelves: [{ ...bottomShelf, z: 0.041 + off }] }),
  },
  {
    rule: "posts-hold",
    what: "the shelf's middle and the line between two posts",
    at: (off) =>
      load({
        stands: none,
        shelves: [
          shelf("s1", 0.041, [
            { x: off - 0.019, y: 0.1, lengths: [0.025] },
            { x: off - 0.019, y: -0.1, lengths: [0.025] },
            { x: -0.2, y: 0, lengths: [0.025] },
          ]),
        ],
      }),
  },
  {
    rule: "post-outside",
    what: "a post's middle and the shelf's edge",
    at: (off) => load({ stands: none, shelves: [shelf("s1", 0.041, ring([0.025], 0.265 - off))] }),
  },
  {
    rule: "post-in-shelf",
    what: "a long post beside a half shelf's straight edge",
    at: (off) =>
      load({
        stands: none,
        shelves: [
          half("a", 0.241, 0, 0),
          shelf("b", 0.46, [
            { x: 0.019 + off, y: 0, lengths: [0.444] },
            { x: 0.1, y: 0.15, lengths: [0.444] },
            { x: 0.1, y: -0.15, lengths: [0.444] },
          ]),
        ],
      }),
  },
  {
    rule: "posts-in-line",
    what: "half a post's width beside the post below",
    at: (off) =>
      load({
        stands: none,
        shelves: [
          bottomShelf,
          { ...middleShelf, posts: ring([0.2]).map(({ x, y, lengths }) => ({ x, y: y + 0.019 - off, lengths })) },
        ],
      }),
  },
  {
    rule: "ware-to-wall",
    what: "25 mm from a tumbler to a flat wall",
    at: (off) => load({ stands: only(tumbler(0.29 - 0.025 - 0.04 - off)) }),
  },
  {
    rule: "sensor-clear",
    what: "a shelf right above the tip",
    at: (off) => load({ stands: none, shelves: [bottomShelf, { ...middleShelf, z: 0.345 + 0.05 + 0.016 + off }] }),
  },
  {
    rule: "sensor-clear",
    what: "a shelf's rim level with the tip",
    at: (off) =>
      load({ stands: none, furniture: disc(0.21 - off), shelves: [bottomShelf, { ...middleShelf, z: 0.353 }] }),
  },
  {
    rule: "sensor-clear",
    what: "a shelf's upper rim, aslant: 30 mm across, 40 down",
    at: (off) =>
      load({
        stands: none,
        furniture: disc(0.23),
        shelves: [bottomShelf, { ...middleShelf, z: 0.345 - Math.sqrt((0.05 + off) ** 2 - 0.03 ** 2) }],
      }),
  },
  {
    rule: "sensor-clear",
    what: "a post's face",
    at: (off) =>
      load({
        stands: none,
        shelves: [
          bottomShelf,
          {
            ...topShelf,
            posts: [
              { x: 0.26 - 0.05 - 0.019 - off, y: 0, lengths: [0.2, 0.2, 0.016] },
              { x: -0.2, y: 0.1, lengths: [0.2, 0.2, 0.016] },
              { x: -0.2, y: -0.1, lengths: [0.2, 0.2, 0.016] },
            ],
          },
        ],
      }),
  },
  {
    rule: "sensor-clear",
    what: "a tumbler's side",
    at: (off) => load({ stands: only(tumbler(0.26 - 0.05 - 0.04 - off, 0, "s2")), cones: [] }),
  },
  {
    rule: "sensor-clear",
    what: "a bowl's rim below the tip, aslant: 30 mm across, 40 down",
    at: (off) => {
      const down = Math.sqrt((0.05 + off) ** 2 - 0.03 ** 2);
      const bowl = turned("bowl", "bowl", 0.08, 0.345 - down - 0.257, 0.4, 0.03);
      return load({ stands: only({ id: "b", shape: bowl, shelfId: "s2", x: 0.26 - 0.03 - 0.08, y: 0 }), cones: [] });
    },
  },
  {
    rule: "sensor-clear",
    what: "a cone pack's flank",
    at: (off) =>
      load({
        stands: none,
        shelves: [bottomShelf, { ...middleShelf, z: 0.32 }],
        cones: [{ shelfId: "s2", x: 0.26 - 0.05 - 0.015 - off, y: 0, angle: Math.PI / 2, cones: ["07", "06", "05"] }],
        furniture: disc(0.2),
      }),
  },
  {
    rule: "headroom",
    what: "13 mm over a tumbler",
    at: (off) =>
      load({
        stands: only(tumbler(0)),
        shelves: [bottomShelf, { ...middleShelf, z: 0.041 + 0.1 + 0.013 + 0.016 + off }],
      }),
  },
  {
    rule: "headroom",
    what: "13 mm over a tumbler half under a half shelf, with an airy one on the other side",
    at: (off) =>
      load({
        stands: only(tumbler(0)),
        shelves: [bottomShelf, half("a", 0.041 + 0.1 + 0.013 + 0.016 + off, 0, 0), half("b", 0.5, 0, Math.PI)],
      }),
  },
  {
    rule: "lid-headroom",
    what: "25 mm over a tumbler to the lid",
    at: (off) =>
      load({
        stands: only(tumbler(0, 0, "s3")),
        kiln: { ...alder, chamber: { ...alder.chamber, height: 0.473 + 0.1 + 0.025 + off } },
      }),
  },
  {
    rule: "beside-shelf",
    what: "6 mm from a tall vase to the straight edge of a half shelf",
    at: (off) =>
      load({
        stands: only({ id: "v", shape: vaseShape, shelfId: "s1", x: 0.05 + 0.006 + off, y: 0 }),
        shelves: [bottomShelf, half("a", 0.16, 0, 0)],
        cones: [],
      }),
  },
  {
    rule: "pieces-overlap",
    what: "two tumblers side by side",
    at: (off) => load({ stands: only(tumbler(0), tumbler(0.08 + off, 0, "s1", "u")) }),
  },
  {
    rule: "pieces-overlap",
    what: "a tumbler and a cone pack",
    at: (off) => load({ stands: only(tumbler(-0.22 + 0.015 + 0.04 + off)) }),
  },
  {
    rule: "glaze-gap",
    what: "6 mm between two tumblers",
    at: (off) => load({ stands: only(tumbler(0), tumbler(0.086 + off, 0, "s1", "u")) }),
  },
  {
    rule: "glaze-gap",
    what: "6 mm from a bowl's rim over a tile to the tile: in height, not in the plan",
    at: (off) => {
      const bowl = turned("bowl", "bowl", 0.08, 0.03, 0.4, 0.03);
      // The flank rises 30 mm over 50 from the foot's edge; the tile's upper edge, 6 mm high, lies square below it.
      const slope = Math.atan2(0.03, 0.05);
      const edge = 0.03 + 0.006 / Math.tan(slope) + (0.006 + off) / Math.sin(slope);
      return load({
        stands: only(
          { id: "b", shape: bowl, shelfId: "s1", x: 0, y: 0 },
          { id: "t", shape: tileShape, shelfId: "s1", x: edge + 0.0525, y: 0 },
        ),
      });
    },
  },
  {
    rule: "piece-on-post",
    what: "a tumbler and a post of the shelf above",
    at: (off) => load({ stands: only(tumbler(0, -0.235 + 0.019 + 0.04 + off)) }),
  },
  {
    rule: "post-gap",
    what: "3 mm from a tumbler to a post",
    at: (off) => load({ stands: only(tumbler(0, -0.235 + 0.019 + 0.04 + 0.003 + off)) }),
  },
  {
    rule: "foot-overhang",
    what: "a tumbler's foot at the rim",
    at: (off) => load({ stands: only(tumbler(0.265 - 0.04 - off)) }),
  },
  {
    rule: "foot-overhang",
    what: "a tile at the straight edge of a half shelf",
    at: (off) =>
      load({
        stands: only({ id: "t", shape: tileShape, shelfId: "a", x: -0.0525 - off, y: 0 }),
        shelves: [half("a", 0.041, 0, 0)],
        cones: [],
      }),
  },
  {
    rule: "stilt-span",
    what: "100 mm between the points",
    at: (off) =>
      load({
        stands: only({ ...tumbler(0), stiltId: "star", shape: { ...turned("dish", "dish", 0.09, 0.03, 0.5, 0.05) } }),
        furniture: {
          ...furniture,
          stilts: [{ ...furniture.stilts[0], span: 0.1 - off }],
        },
      }),
  },
  {
    rule: "stilt-span",
    what: "a foot that stands out 100 mm beyond its stilt",
    at: (off) =>
      load({
        stands: only({
          ...tumbler(0),
          stiltId: "star",
          shape: turned("dish", "dish", 0.09, 0.03, 0.5, 0.08 - off / 2),
        }),
      }),
  },
  {
    rule: "stilt-heat",
    what: "metal points at 1100 C",
    step: 1,
    at: (off) => load({ stands: only({ ...tumbler(0), stiltId: "pin" }) }, { schedule: upTo(1373.15 - off) }),
  },
  {
    rule: "stilt-heat",
    what: "ceramic points at what they are made for",
    step: 1,
    at: (off) => load({ stands: only({ ...tumbler(0), stiltId: "star" }) }, { schedule: upTo(1473.15 - off) }),
  },
  {
    rule: "shelf-load",
    what: "the weight of two tumblers",
    at: (off) => load({ stands: only(tumbler(0), tumbler(0.1, 0, "s1", "u")), rules: { shelfLoad: 0.7 + off } }),
  },
  {
    rule: "two-person-lift",
    what: "the weight of a shelf",
    at: (off) => load({ stands: none, rules: { soloLift: 7.2 + off } }),
  },
  {
    rule: "mass-by-height",
    // Shelves of 7.2 kg cool 12.5…189 mm and 189…521.5 mm; a third is 230 mm: bottom 1 + 41/332.5 shelves of 2.
    what: "half of the weight in the bottom third",
    at: (off) => {
      const inBottom = 7.2 * (1 + 0.041 / 0.3325);
      const weight = turned("weight", "weight", 0.04, 0.01, inBottom / 0.5 - 14.4 + off);
      return load({
        stands: only({ id: "w", shape: weight, shelfId: "s2", x: 0, y: 0, stiltId: "high" }),
        shelves: [bottomShelf, { ...middleShelf, z: 0.353 }],
        furniture: {
          ...furniture,
          posts: furniture.posts.map(({ length, count }) => ({ length, width: 1e-9, count })),
          stilts: [
            { id: "high", name: "high", lift: 0.2, span: 0.05, points: "ceramic", maxTemperature: 1500, count: 9 },
          ],
        },
      });
    },
  },
  {
    rule: "first-gap",
    what: "150 mm over the bottom shelf",
    at: (off) => load({ stands: none, shelves: [bottomShelf, { ...middleShelf, z: 0.041 + 0.15 + 0.016 + off }] }),
  },
  {
    rule: "gap-under-lid",
    what: "150 mm under the lid",
    at: (off) => load({ stands: none, shelves: [bottomShelf, { ...middleShelf, z: 0.69 - 0.15 - off }] }),
  },
  {
    rule: "staggered-halves",
    what: "the shortest post between two halves",
    at: (off) => load({ stands: none, shelves: [half("a", 0.041, 0, 0), half("b", 0.054 + off, 0, Math.PI)] }),
  },
  {
    rule: "ringed",
    // Six tumblers hide 2 asin(r/d) each: 2/3 of the way round when r/d = sin 20 degrees.
    what: "a dish in a ring of six tumblers",
    at: (off) => {
      const away = 0.04 / Math.sin(Math.PI / 9) + off;
      const tumblers = Array.from({ length: 6 }, (_, i) =>
        tumbler(away * Math.cos((i * Math.PI) / 3), away * Math.sin((i * Math.PI) / 3), "s1", `t${i}`),
      );
      return load({
        stands: [...tumblers, { id: "d", shape: turned("dish", "dish", 0.06, 0.02, 0.3), shelfId: "s1", x: 0, y: 0 }],
      });
    },
  },
  {
    rule: "platter-place",
    what: "a platter 300 mm wide on the bottom shelf",
    at: (off) =>
      load({
        stands: only({
          id: "p",
          shape: turned("platter", "platter", 0.15 - off / 2, 0.03, 1.5, 0.09),
          shelfId: "s1",
          x: 0,
          y: 0,
        }),
      }),
    // At 300 mm it is a platter.
    play: -1,
  },
  {
    rule: "cones-fit",
    // Three cones in a row cover 86 x 30 mm and stand 70 mm tall.
    what: "a cone pack's end at the rim",
    at: (off) =>
      load({
        stands: none,
        cones: [
          {
            shelfId: "s1",
            x: 0,
            y: Math.sqrt(0.265 ** 2 - 0.015 ** 2) - 0.043 - off,
            angle: Math.PI / 2,
            cones: ["07", "06", "05"],
          },
        ],
      }),
  },
  {
    rule: "cones-fit",
    what: "a cone pack under the next shelf",
    at: (off) => load({ stands: none, shelves: [bottomShelf, { ...middleShelf, z: 0.041 + 0.07 + 0.016 + off }] }),
  },
  {
    rule: "cones-seen",
    // The line from the spyhole at (-290, 0) to the outer cone at (-220, -22); a thin cup stands beside it.
    what: "a cup beside the line of sight",
    at: (off) => {
      const cup = turned("cup", "cup", 0.01, 0.1, 0.1);
      const length = Math.hypot(0.07, 0.022);
      const away = 0.01 + off;
      return load({
        stands: only({
          id: "c",
          shape: cup,
          shelfId: "s1",
          x: -0.255 - (0.022 / length) * away,
          y: -0.011 - (0.07 / length) * away,
        }),
        cones: [{ shelfId: "s1", x: -0.22, y: 0, angle: Math.PI / 2, cones: ["07", "06", "05"] }],
      });
    },
  },
];

function upTo(target: number): Schedule {
  return { ...schedule06, segments: [{ rate: 0.03, target, hold: 0 }] };
}

const breaks = (rule: RuleId, { load, extras = {} }: ReturnType<Limit["at"]>): boolean =>
  checkLoad(load, extras).findings.some((finding) => finding.rule === rule);

describe("rules with a number turn at their limit", () => {
  test.each(limits.map((limit) => [limit.rule, limit.what, limit] as const))("%s: %s", (rule, _, limit) => {
    const step = limit.step ?? 0.001;
    expect(breaks(rule, limit.at(step)), "kept by one step").toBe(false);
    expect(breaks(rule, limit.at(-step)), "broken by one step").toBe(true);
    expect(breaks(rule, limit.at(0)), "at the limit").toBe(limit.play === -1);
  });
});

describe("what the cases cover", () => {
  test("a usual load keeps every rule", () => {
    const usual = alderLoad();
    const exposure = new Map(usual.setting.pieces.map(({ pieceId }) => [pieceId, 0.3]));
    const result = checkLoad(usual, { schedule: schedule06, coneSet: "06", exposure });
    expect(result.findings).toEqual([]);
    expect(result.kept.map((rule) => rule.rule)).toEqual(rules.map((rule) => rule.id));
    expect(result.undecided).toEqual([]);
    expect(usualStands.length).toBeGreaterThan(5);
  });

  test("every rule is in the table once", () => {
    expect(rules.map((rule) => rule.id)).toEqual([...ruleIds]);
    expect(rules.every((rule) => rule.source === "common practice, no source")).toBe(true);
  });

  test("a rule is undecided, not kept, when nothing is known of it", () => {
    const result = checkLoad(alderLoad({ kiln: { ...alder, spyholes: [] } }));
    expect(result.undecided).toEqual(["cone-set", "cones-seen", "exposure"]);
    for (const rule of result.undecided) expect(result.kept.map((each) => each.rule)).not.toContain(rule);
  });
});
