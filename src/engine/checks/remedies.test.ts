import { describe, expect, test } from "vitest";
import { seededRandom } from "#base";
import type { Load, Shape } from "#engine/kiln";
import {
  alderLoad,
  mugShape,
  plateShape,
  ring,
  schedule06,
  shelf,
  tumblerShape,
  usualShelves,
  usualStands,
  vaseShape,
  type Stand,
} from "./alder-fixture.ts";
import { applyRemedy, checkLoad, type Finding } from "./index.ts";

/** The product's own promise: a remedy mends its finding and breaks nothing that was whole. */
function expectMended(load: Load, finding: Finding): void {
  const setting = finding.remedy && applyRemedy(load, finding.remedy);
  if (!setting) throw new Error(`no remedy for ${finding.rule}`);
  const name = (each: Finding): string =>
    JSON.stringify([each.rule, each.level, each.place.shelfIds, each.place.pieceIds]);
  const before = new Set(checkLoad(load).findings.map(name));
  const after = checkLoad({ ...load, setting }).findings;
  expect(after.map(name), finding.rule).not.toContain(name(finding));
  if (finding.remedy?.kind === "move-piece") {
    const { pieceId } = finding.remedy;
    expect(after.filter((each) => each.level !== "tip" && each.place.pieceIds.includes(pieceId))).toEqual([]);
  }
  for (const each of after)
    if (each.level !== "tip") expect(before, `${finding.rule} → ${each.rule}`).toContain(name(each));
}

interface Layers {
  readonly first: number;
  readonly pitch: number;
  readonly count: number;
  readonly post: number;
  /** How far a shelf may lie from where its posts end, in steps of 2 mm. */
  readonly slack: number;
}

/** Pieces thrown anywhere: as untidy as a setting made by hand gets. */
function untidyLoad(seed: number, pieces: number, shapes: readonly Shape[], layers: Layers): Load {
  const random = seededRandom(seed);
  const shelves = Array.from({ length: layers.count }, (_, i) =>
    shelf(
      `s${i + 1}`,
      layers.first + i * layers.pitch + 0.002 * random.below(layers.slack + 1),
      ring([i === 0 ? 0.025 : layers.post]),
    ),
  );
  const stands = Array.from({ length: pieces }, (_, i): Stand => {
    const radius = 0.26 * Math.sqrt(random.uniform());
    const turn = 2 * Math.PI * random.uniform();
    return {
      id: `p${i}`,
      shape: shapes[random.below(shapes.length)],
      shelfId: `s${1 + random.below(layers.count)}`,
      x: radius * Math.cos(turn),
      y: radius * Math.sin(turn),
      angle: 6.28 * random.uniform(),
    };
  });
  return alderLoad({ shelves, stands });
}

const roomy: Layers = { first: 0.041, pitch: 0.166, count: 4, post: 0.15, slack: 0 };
const tight: Layers = { first: 0.041, pitch: 0.106, count: 6, post: 0.09, slack: 2 };

describe("remedies", () => {
  test("the sensor gets its room from other posts, and what stands above rides along", () => {
    // Underside of s2 at 392 mm, 47 mm over the tip at 345: three more are needed.
    const shelves = [
      usualShelves[0],
      shelf("s2", 0.392 + 0.016, ring([0.2, 0.1, 0.051])),
      shelf("s3", 0.392 + 0.016 + 0.15 + 0.016, ring([0.15])),
    ];
    const load = alderLoad({ shelves, stands: usualStands.filter((stand) => stand.shelfId === "s1") });
    const finding = checkLoad(load).findings.find((each) => each.rule === "sensor-clear") as Finding;
    expect(finding.measured).toBeCloseTo(0.047, 9);
    // From 351 mm of posts to the least in stock that clears it: 200 + 150 + 13 or 200 + 100 + 63.
    expect(finding.remedy).toMatchObject({ kind: "change-posts", shelfId: "s2" });
    const { lengths } = finding.remedy as { lengths: readonly number[] };
    expect(lengths.reduce((sum, length) => sum + length, 0)).toBeCloseTo(0.363, 9);
    expectMended(load, finding);
    const setting = applyRemedy(load, finding.remedy as NonNullable<Finding["remedy"]>);
    expect(setting?.shelves[2]?.z).toBeCloseTo(0.574 + 0.012, 9);
  });

  test("a piece at the wall moves the least it must", () => {
    const load = alderLoad({ stands: [{ id: "t", shape: tumblerShape, shelfId: "s1", x: 0.22, y: 0.0 }] });
    const tight = { ...load, kiln: { ...load.kiln, rules: { ...load.kiln.rules, wareToWall: 0.04 } } };
    const finding = checkLoad(tight).findings.find((each) => each.rule === "ware-to-wall") as Finding;
    expect(finding.remedy).toMatchObject({ kind: "move-piece", pieceId: "t", shelfId: "s1" });
    const { x, y } = finding.remedy as { x: number; y: number };
    // 10 mm short; the next distance that is tried is 13.
    expect(Math.hypot(x - 0.22, y)).toBeLessThanOrEqual(0.013 + 1e-9);
    expectMended(tight, finding);
  });

  test("a piece fixed by hand is not moved", () => {
    const load = alderLoad({ stands: [{ id: "t", shape: tumblerShape, shelfId: "s1", x: 0.24, y: 0 }] });
    const pieces = load.setting.pieces.map((piece) => ({ ...piece, fixed: true }));
    const finding = checkLoad({ ...load, setting: { ...load.setting, pieces } }).findings.find(
      (each) => each.rule === "ware-to-wall",
    );
    expect(finding?.remedy).toBeNull();
  });

  test("every remedy offered on untidy loads mends its finding and breaks nothing new", () => {
    let offered = 0;
    for (let seed = 1; seed <= 8; seed++) {
      const load = untidyLoad(seed, 24, [tumblerShape, mugShape, plateShape], roomy);
      for (const finding of checkLoad(load).findings) {
        if (finding.remedy === null) continue;
        offered++;
        expectMended(load, finding);
      }
    }
    expect(offered).toBeGreaterThan(30);
  });

  test("posts are not changed under a shelf that others also stand on from elsewhere", () => {
    const half = { ...shelf("a", 0.2, ring([0.184]), "half"), angle: 0 };
    const bridge = shelf("b", 0.4, [
      { x: -0.15, y: 0, lengths: [0.184] },
      { x: 0.15, y: 0.1, lengths: [0.2, 0.184] },
      { x: 0.15, y: -0.1, lengths: [0.2, 0.184] },
    ]);
    const load = alderLoad({ shelves: [half, bridge], stands: [], cones: [] });
    expect(applyRemedy(load, { kind: "change-posts", shelfId: "a", lengths: [0.15] })).toBeNull();
    expect(applyRemedy(load, { kind: "change-posts", shelfId: "nobody", lengths: [0.15] })).toBeNull();
    expect(applyRemedy(load, { kind: "move-piece", pieceId: "nobody", shelfId: "a", x: 0, y: 0, angle: 0 })).toBeNull();
  });
});

describe("speed", () => {
  const everyShape = [tumblerShape, mugShape, plateShape, vaseShape];
  test.each([
    ["a tidy load", () => alderLoad()],
    ["sixty untidy pieces", () => untidyLoad(3, 60, everyShape, tight)],
    ["a hundred and twenty untidy pieces", () => untidyLoad(4, 120, everyShape, tight)],
  ])("%s", (what, make) => {
    const load = make();
    const exposure = new Map(load.setting.pieces.map(({ pieceId }) => [pieceId, 0.3]));
    const run = (): number => {
      const start = process.cpuUsage();
      checkLoad(load, { schedule: schedule06, exposure });
      const used = process.cpuUsage(start);
      return (used.user + used.system) / 1000;
    };
    run();
    const best = Math.min(...Array.from({ length: 5 }, run));
    console.log(`checks: ${what}, ${load.setting.pieces.length} pieces: ${best.toFixed(1)} ms of CPU`);
    expect(best).toBeLessThan(load.setting.pieces.length > 60 ? 200 : 50);
  });
});
