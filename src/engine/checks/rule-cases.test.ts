import { describe, expect, test } from "vitest";
import type { Load, PlacedShelf } from "#engine/kiln";
import {
  alder,
  alderLoad,
  furniture,
  glaze06,
  mugShape,
  plateShape,
  ring,
  schedule06,
  shelf,
  tumblerShape,
  turned,
  usualShelves,
  usualStands,
  vaseShape,
  type Stand,
} from "./alder-fixture.ts";
import { checkLoad, coneOfSchedule, digitTwins, type CheckExtras, type Finding, type RuleId } from "./index.ts";

/*
 * Rules that count or compare, and what findings say. Numbers of the rules: common practice, no source. Cones and
 * their temperatures come from the published chart through #engine/heatwork. Source: [orton-chart]
 */

const found = (load: Load, rule: RuleId, extras: CheckExtras = {}): readonly Finding[] =>
  checkLoad(load, extras).findings.filter((finding) => finding.rule === rule);
const first = (load: Load, rule: RuleId, extras: CheckExtras = {}): Finding => {
  const finding = found(load, rule, extras)[0];
  if (!finding) throw new Error(`no finding of ${rule}`);
  return finding;
};
const at = (id: string, x: number, y: number, shape = tumblerShape, shelfId = "s1"): Stand => ({
  id,
  shape,
  shelfId,
  x,
  y,
});
const bottomShelf = usualShelves[0];
const middleShelf = usualShelves[1];

describe("posts", () => {
  test("three are enough, two are not; where the kiln asks for four, three are not", () => {
    const two = usualShelves.map((each) => (each.id === "s2" ? { ...each, posts: each.posts.slice(0, 2) } : each));
    expect(first(alderLoad({ shelves: two }), "posts-count")).toMatchObject({ measured: 2, limit: 3, level: "stop" });
    expect(found(alderLoad({ rules: { postsPerShelf: 4 } }), "posts-count")).toHaveLength(3);
  });

  test.each([
    [0.0005, false],
    [-0.0005, false],
    [0.001, true],
    [-0.001, true],
  ])("a stack %d m off its gap", (off, broken) => {
    const shelves = [bottomShelf, shelf("s2", 0.257 + off, ring([0.2]))];
    const load = alderLoad({ shelves, stands: [] });
    expect(found(load, "posts-reach").length > 0).toBe(broken);
    if (broken) {
      const finding = first(load, "posts-reach");
      expect(finding.message.key).toBe(off > 0 ? "found.posts-short" : "found.posts-long");
      expect(finding.measured).toBeCloseTo(0.001, 9);
      expect(finding.remedy).toEqual({ kind: "change-posts", shelfId: "s2", lengths: [0.2] });
    }
  });

  test("a post in the air stands on the floor in the end", () => {
    const shelves = [
      { ...bottomShelf, typeId: "half" },
      shelf("s2", 0.257, [...ring([0.2]).slice(1), { x: 0.2, y: 0.1, lengths: [0.2] }]),
    ];
    // 0.241 m from the floor to the underside, 0.2 m of post.
    expect(first(alderLoad({ shelves, stands: [] }), "posts-reach").measured).toBeCloseTo(0.041, 9);
  });

  test("stacks, posts, shelves and stilts that are not there", () => {
    const stacked = usualShelves.map((each) =>
      each.id === "s2" ? { ...each, posts: ring([0.05, 0.05, 0.05, 0.05]) } : each,
    );
    expect(first(alderLoad({ shelves: stacked }), "posts-in-stack")).toMatchObject({ measured: 4, limit: 3 });
    const few = {
      ...furniture,
      posts: furniture.posts.map((post) => ({ ...post, count: post.length === 0.2 ? 5 : 12 })),
    };
    expect(first(alderLoad({ furniture: few }), "posts-in-stock")).toMatchObject({
      measured: 6,
      limit: 5,
      level: "stop",
    });
    expect(
      found(
        alderLoad({ furniture: { ...few, posts: furniture.posts.map((post) => ({ ...post, count: 6 })) } }),
        "posts-in-stock",
      ),
    ).toEqual([]);
    const strange = usualShelves.with(1, { ...middleShelf, posts: ring([0.17, 0.03]) });
    expect(
      found(alderLoad({ shelves: strange }), "posts-in-stock").map(({ measured, limit }) => [measured, limit]),
    ).toEqual([
      [3, 0],
      [3, 0],
    ]);
    const noShelf = { ...furniture, shelves: furniture.shelves.map((type) => ({ ...type, count: 2 })) };
    expect(first(alderLoad({ furniture: noShelf }), "shelves-in-stock")).toMatchObject({ measured: 3, limit: 2 });
    const stilted = [
      { ...at("a", 0, 0), stiltId: "star" },
      { ...at("b", 0.1, 0), stiltId: "star" },
    ];
    const oneStilt = { ...furniture, stilts: furniture.stilts.map((stilt) => ({ ...stilt, count: 1 })) };
    expect(first(alderLoad({ stands: stilted, furniture: oneStilt }), "stilts-in-stock")).toMatchObject({
      measured: 2,
      limit: 1,
    });
  });

  test("a post that carries two half shelves at their seam is one post", () => {
    const seam = [
      { x: 0, y: 0.2, lengths: [0.025] },
      { x: 0, y: -0.2, lengths: [0.025] },
    ];
    const halves: readonly PlacedShelf[] = [
      { ...shelf("a", 0.041, [...seam, { x: -0.2, y: 0, lengths: [0.025] }], "half"), angle: 0 },
      { ...shelf("b", 0.041, [...seam, { x: 0.2, y: 0, lengths: [0.025] }], "half"), angle: Math.PI },
    ];
    const four = { ...furniture, posts: furniture.posts.map(({ length, width }) => ({ length, width, count: 4 })) };
    const load = alderLoad({ stands: [], shelves: halves, furniture: four });
    expect(found(load, "posts-in-stock")).toEqual([]);
    expect(found(load, "post-outside")).toEqual([]);
    expect(found(load, "posts-hold")).toEqual([]);
  });
});

describe("ware", () => {
  test("bisque may touch, and may still not stand in one another", () => {
    const bisque = { ...glaze06, id: "glaze-06", kind: "bisque" as const, mayTouch: true };
    const touching = [at("a", 0, 0), at("b", 0.08, 0)];
    expect(found(alderLoad({ stands: touching }), "glaze-gap")).toHaveLength(1);
    expect(found(alderLoad({ stands: touching, firingClass: bisque }), "glaze-gap")).toEqual([]);
    expect(
      found(alderLoad({ stands: [at("a", 0, 0), at("b", 0.078, 0)], firingClass: bisque }), "pieces-overlap"),
    ).toHaveLength(1);
  });

  test("a handle may reach over a plate's rim", () => {
    const stands = [at("m", 0, 0, mugShape), at("p", 0.163, 0, { ...plateShape, body: { ...plateShape.body } })];
    // In the plan the handle (to 77 mm) overlaps the plate (from 63 mm); in height it ends 20 mm up, where the plate ends.
    const load = alderLoad({ stands });
    expect(found(load, "pieces-overlap")).toEqual([]);
    expect(found(load, "glaze-gap")).toHaveLength(1);
    const higher = { ...mugShape, handle: { reach: 0.035, width: 0.015, bottom: 0.026, top: 0.08 } };
    expect(found(alderLoad({ stands: [at("m", 0, 0, higher), stands[1]] }), "glaze-gap")).toEqual([]);
  });

  test("headroom looks at the shelf that is there: under a half shelf's open side there is none", () => {
    const half = { ...shelf("a", 0.15, ring([0.025]), "half"), angle: 0 };
    const cup = turned("cup", "cup", 0.03, 0.105, 0.2);
    const under = alderLoad({ stands: [at("c", -0.1, 0, cup)], shelves: [bottomShelf, half], cones: [] });
    const beside = alderLoad({ stands: [at("c", 0.1, 0, cup)], shelves: [bottomShelf, half], cones: [] });
    expect(first(under, "headroom")).toMatchObject({ level: "stop" });
    expect(found(beside, "headroom")).toEqual([]);
  });

  test("one finding for a low shelf names the tallest piece and rings all", () => {
    const shelves = [bottomShelf, shelf("s2", 0.16, ring([0.103]))];
    const stands = [at("t1", 0, 0), at("m1", 0.1, 0.05, mugShape), at("t2", -0.1, 0.05)];
    const finding = first(alderLoad({ shelves, stands }), "headroom");
    expect(finding.measured).toBeCloseTo(0.003, 9);
    expect(finding.place.pieceIds.toSorted()).toEqual(["m1", "t1", "t2"]);
    expect(["t1", "t2"]).toContain(finding.place.pieceIds[0]);
    // 113 mm over the shelf are the least: 100 + 13.
    expect(finding.remedy).toEqual({ kind: "change-posts", shelfId: "s2", lengths: [0.1, 0.013] });
  });

  test("a foot on two half shelves straddles them", () => {
    const halves = [
      { ...shelf("a", 0.041, ring([0.025]), "half"), angle: 0 },
      { ...shelf("b", 0.041, ring([0.025]), "half"), angle: Math.PI },
    ];
    const finding = first(
      alderLoad({ stands: [at("t", -0.02, 0, tumblerShape, "a")], shelves: halves }),
      "foot-overhang",
    );
    expect(finding.message.key).toBe("found.foot-straddle");
    expect(finding.place.shelfIds.toSorted()).toEqual(["a", "b"]);
    expect(finding.measured).toBeCloseTo(0.02, 9);
  });

  test("ware of another class is taken out", () => {
    const load = alderLoad({
      stands: usualStands.map((stand) => (stand.id === "t1" ? { ...stand, classId: "bisque-04" } : stand)),
    });
    expect(first(load, "one-class")).toMatchObject({
      level: "stop",
      measured: 1,
      remedy: { kind: "take-out", pieceIds: ["t1"] },
    });
  });
});

describe("cones and schedules", () => {
  test("06 is not 6", () => {
    expect(digitTwins("06", "6")).toBe(true);
    expect(digitTwins("6", "06")).toBe(true);
    expect(digitTwins("06", "06")).toBe(false);
    expect(digitTwins("010", "10")).toBe(true);
    expect(digitTwins("01", "010")).toBe(false);
    const finding = first(alderLoad(), "cone-set", { coneSet: "6" });
    expect(finding).toMatchObject({
      level: "stop",
      message: { key: "found.cone-digits", values: { set: "6", wanted: "06" } },
    });
    expect(finding.measured).toBe(11);
    expect(first(alderLoad(), "cone-set", { coneSet: "05" }).level).toBe("check");
    expect(found(alderLoad(), "cone-set", { coneSet: "06" })).toEqual([]);
  });

  test("a schedule to the chart's own 06 is 06, to its 6 is 6", () => {
    // Chart, self-supporting, 60 C/h: cone 06 at 998 C, cone 6 at 1222 C. Source: [orton-chart]
    const to = (celsius: number) => ({
      ...schedule06,
      segments: [{ rate: 60 / 3600, target: celsius + 273.15, hold: 0 }],
    });
    expect(coneOfSchedule(to(998))).toBeCloseTo(-6, 0);
    expect(found(alderLoad(), "cone-set", { schedule: to(998) })).toEqual([]);
    expect(first(alderLoad(), "cone-set", { schedule: to(1222) })).toMatchObject({
      level: "stop",
      message: { key: "found.schedule-digits" },
    });
    expect(first(alderLoad(), "cone-set", { schedule: to(1100) }).message.key).toBe("found.schedule-cone");
  });

  test("without a schedule the class's cone decides what a stilt must bear", () => {
    const stands = [{ ...at("t", 0, 0), stiltId: "pin" }];
    expect(found(alderLoad({ stands }), "stilt-heat")).toEqual([]);
    expect(first(alderLoad({ stands, firingClass: { ...glaze06, cone: "6" } }), "stilt-heat").measured).toBeCloseTo(
      1222 + 273.15,
      0,
    );
  });

  test("a pack without the class's cone, and one with its twin", () => {
    const cones = (names: readonly string[]) => [{ shelfId: "s1", x: -0.22, y: 0, angle: Math.PI / 2, cones: names }];
    expect(first(alderLoad({ cones: cones(["05", "04", "03"]) }), "cones-for-class").message.key).toBe(
      "found.cones-for-class",
    );
    expect(first(alderLoad({ cones: cones(["7", "6", "5"]) }), "cones-for-class").message.key).toBe(
      "found.cones-digits",
    );
    expect(found(alderLoad({ cones: cones(["06"]) }), "cones-for-class")).toEqual([]);
  });

  test("cones on bottom, middle and top", () => {
    const pack = (shelfId: string) => ({ shelfId, x: -0.22, y: 0, angle: Math.PI / 2, cones: ["06"] });
    expect(found(alderLoad({ cones: ["s1", "s2", "s3"].map(pack) }), "cones-on-levels")).toEqual([]);
    expect(first(alderLoad({ cones: ["s1", "s2"].map(pack) }), "cones-on-levels")).toMatchObject({
      measured: 2,
      limit: 3,
    });
    expect(first(alderLoad({ cones: [] }), "cones-on-levels").measured).toBe(0);
    expect(found(alderLoad({ shelves: [bottomShelf], stands: [], cones: [pack("s1")] }), "cones-on-levels")).toEqual(
      [],
    );
  });

  test("a pack far from any spyhole is out of view, once; behind a mug only the hidden cone is named", () => {
    const away = [{ shelfId: "s1", x: 0.2, y: 0.05, angle: 0, cones: ["07", "06", "05"] }];
    const kiln = { ...alder, spyholes: [{ azimuth: Math.PI, z: 0.6 }] };
    expect(found(alderLoad({ cones: away, kiln }), "cones-seen").map((each) => each.message.key)).toEqual([
      "found.cones-out-of-view",
    ]);
    const cup = turned("cup", "cup", 0.01, 0.1, 0.1);
    const seen = found(alderLoad({ stands: [at("c", -0.255, -0.012, cup)] }), "cones-seen");
    expect(seen.map((each) => each.message.key)).toEqual(["found.cones-behind-piece"]);
    expect(seen[0]?.message.values).toMatchObject({ cone: "07", shelf: 1, blocker: { pieceId: "c" } });
  });
});

describe("advice", () => {
  test("tall ware at the rim, low inside, turns at a correlation of 0.3", () => {
    // Six tumblers and vases on one shelf; one vase slides outward until the correlation, computed here, is 0.3.
    const radii = [0.05, 0.1, 0.1, 0.18, 0.16];
    const heights = [0.1, 0.18, 0.1, 0.18, 0.1, 0.18];
    const correlation = (last: number): number => {
      const all = [...radii, last];
      const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / 6;
      const [mr, mh] = [mean(all), mean(heights)];
      const cov = all.reduce((sum, r, i) => sum + (r - mr) * (heights[i] - mh), 0);
      const size = (values: readonly number[], m: number): number =>
        Math.sqrt(values.reduce((sum, v) => sum + (v - m) ** 2, 0));
      return cov / (size(all, mr) * size(heights, mh));
    };
    let [low, high] = [0.05, 0.21];
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (correlation(middle) < 0.3) low = middle;
      else high = middle;
    }
    const load = (last: number): Load =>
      alderLoad({
        stands: [...radii, last].map((r, i) => {
          const shape = heights[i] === 0.18 ? vaseShape : tumblerShape;
          return at(`p${i}`, r * Math.cos((i * Math.PI) / 3), r * Math.sin((i * Math.PI) / 3), shape);
        }),
      });
    expect(found(load(low - 0.001), "tall-at-rim")).toEqual([]);
    expect(first(load(low + 0.001), "tall-at-rim").measured).toBeCloseTo(correlation(low + 0.001), 9);
  });

  test("flat ware that sees less than half of the median is named, once exposures are known", () => {
    const load = alderLoad();
    const exposure = (plate: number) =>
      new Map(load.setting.pieces.map(({ pieceId }) => [pieceId, pieceId === "p1" ? plate : 0.4]));
    expect(found(load, "exposure", { exposure: exposure(0.2) })).toEqual([]);
    expect(first(load, "exposure", { exposure: exposure(0.199) })).toMatchObject({
      measured: 0.199,
      limit: 0.2,
      level: "tip",
    });
    expect(first(load, "exposure", { exposure: exposure(0.199) }).place.pieceIds).toEqual(["p1"]);
  });

  test("platters at the bottom and at the top are two tips; in the middle none", () => {
    const platter = turned("platter", "platter", 0.16, 0.03, 1.5, 0.09);
    const on = (...ids: readonly string[]): Load =>
      alderLoad({ stands: ids.map((id) => at(`p${id}`, 0, 0, platter, id)) });
    expect(found(on("s2"), "platter-place")).toEqual([]);
    expect(found(on("s1", "s3"), "platter-place").map((each) => each.message.key)).toEqual([
      "found.platter-bottom",
      "found.platter-top",
    ]);
  });
});

describe("what comes back", () => {
  test("stops come first, tips last", () => {
    const load = alderLoad({ stands: [...usualStands, at("x", 0.001, 0.15), at("y", 0.22, 0.1)], cones: [] });
    const order = checkLoad(load).findings.map(({ level }) => ["stop", "check", "tip"].indexOf(level));
    expect(order).toEqual(order.toSorted((a, b) => a - b));
    expect(new Set(order).size).toBe(3);
  });

  test("a setting that names what is not there is refused by name", () => {
    const load = alderLoad();
    const lost = {
      ...load,
      setting: { ...load.setting, pieces: [{ pieceId: "ghost", shelfId: "s1", x: 0, y: 0, angle: 0, fixed: false }] },
    };
    expect(() => checkLoad(lost)).toThrow(/piece "ghost" is not in this load/);
  });

  test("what to look at yourself is always the same list", () => {
    expect(checkLoad(alderLoad()).lookYourself.map(({ rule }) => rule)).toContain("dry-ware");
  });
});
