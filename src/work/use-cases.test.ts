import { unattended, type RunControl } from "#base";
import type { MipSolver } from "#engine/placing";
import { readStudio, type SettingRecord, type StudioDocument } from "#records";
import { createHash } from "node:crypto";
import { beforeAll, describe, expect, test } from "vitest";
import { createHighsSolver } from "../solvers/index.ts";
import { check, exposures } from "./check.ts";
import { demoStudio } from "./demo/studio.ts";
import { forecast, forecastKey } from "./forecast.ts";
import { propose, readyPieces, type ProposeRequest } from "./propose.ts";

const demo = demoStudio("2026-03-02", 1);
const hash = (text: string): string => createHash("sha256").update(text).digest("hex");
let solver: MipSolver;
let setting: SettingRecord;

const request: ProposeRequest = {
  kilnId: "rowan",
  classId: "mid-6",
  day: "2026-03-02",
  settingId: null,
  seconds: 20,
  seed: 1,
  steps: 20_000,
};

/** Wall time stops what steps should have stopped. */
const began = performance.now();
const control: RunControl = { ...unattended, elapsed: () => (performance.now() - began) / 1000 };

function proposed(document: StudioDocument, change: Partial<ProposeRequest> = {}): SettingRecord {
  const made = propose(document, { ...request, ...change }, solver, control);
  if (!made.ok) throw new Error(made.failure.error);
  return made.value;
}

beforeAll(async () => {
  solver = await createHighsSolver();
  setting = proposed(demo);
});

const withSetting = (document: StudioDocument, ...settings: SettingRecord[]): StudioDocument => ({
  ...document,
  settings,
});

describe("propose", () => {
  test("makes a record the studio takes, of ready pieces of the class only", () => {
    const document = withSetting(demo, setting);
    expect(readStudio(JSON.parse(JSON.stringify(document)))).toEqual({ ok: true, value: document });
    const { pieces } = setting.setting;
    expect(pieces.length).toBeGreaterThan(4);
    const ready = new Set(readyPieces(demo, "mid-6", "2026-03-02", null).map((each) => each.id));
    for (const { pieceId } of pieces) expect(ready).toContain(pieceId);
    const waiting = setting.proposal!.waiting.map((each) => each.pieceId);
    expect(new Set([...pieces.map((each) => each.pieceId), ...waiting])).toEqual(ready);
    expect(setting.proposal!.value).toBeLessThanOrEqual(setting.proposal!.bound + 1e-9);
    expect(setting).toMatchObject({ id: "rowan-a", name: "A", scheduleId: "mid-6-usual", day: "2026-03-02" });
  });

  test("the same seed gives the same setting", () => {
    // Only the time it took differs.
    const text = (made: SettingRecord): string =>
      JSON.stringify({ ...made, proposal: { ...made.proposal!, seconds: 0 } });
    expect(text(proposed(demo))).toBe(text(setting));
  });

  test("leaves alone what another setting holds, and takes the next name", () => {
    const half = { ...setting, setting: { ...setting.setting, pieces: setting.setting.pieces.slice(0, 3) } };
    const next = proposed(withSetting(demo, half));
    expect(next).toMatchObject({ id: "rowan-b", name: "B" });
    const taken = new Set(half.setting.pieces.map((each) => each.pieceId));
    expect(next.setting.pieces.filter((each) => taken.has(each.pieceId))).toEqual([]);
  });

  test("starts from a setting: its id, name and fixed pieces stay where they are", () => {
    const [first, ...others] = setting.setting.pieces;
    const before: SettingRecord = {
      ...setting,
      name: "Front",
      note: "keep the bowl",
      startsAt: 3600,
      setting: { ...setting.setting, pieces: [{ ...first, fixed: true }, ...others] },
    };
    const again = proposed(withSetting(demo, before), { settingId: before.id });
    expect(again).toMatchObject({ id: before.id, name: "Front", note: "keep the bowl", startsAt: 3600 });
    const kept = again.setting.pieces.find((each) => each.pieceId === first.pieceId)!;
    expect(kept).toMatchObject({ x: first.x, y: first.y, angle: first.angle, fixed: true });
  });

  test("a piece that dries later, or is held back, waits for its day", () => {
    const ids = (day: string): readonly string[] => readyPieces(demo, "glaze-06", day, null).map((each) => each.id);
    const drying = demo.pieces.filter((each) => each.classId === "glaze-06" && each.dryFrom !== null);
    expect(drying.length).toBeGreaterThan(0);
    for (const { id } of drying) {
      expect(ids("2026-03-02")).not.toContain(id);
      expect(ids("2026-03-03")).toContain(id);
    }
    const held = { ...demo, pieces: demo.pieces.map((each) => Object.assign({}, each, { held: true })) };
    expect(readyPieces(held, "glaze-06", "2026-03-03", null)).toEqual([]);
  });

  test.each<[string, Partial<ProposeRequest>, RegExp]>([
    ["a kiln that is not there", { kilnId: "elm" }, /no kiln "elm".*|alder, rowan/],
    ["a class that is not there", { classId: "raku" }, /no firing class "raku"/],
    ["a setting that is not there", { settingId: "z" }, /no setting "z"/],
    ["a piece that is not there", { pieceIds: ["ghost"] }, /piece "ghost" is not in this studio/],
    ["no pieces at all", { pieceIds: [] }, /No piece of Mid-range 6 is ready/],
  ])("refuses %s in plain words", (_, change, says) => {
    const made = propose(demo, { ...request, ...change }, solver, control);
    expect(made.ok).toBe(false);
    if (made.ok) return;
    expect(made.failure.error).toMatch(says);
    expect(made.failure.remedy).not.toBe("");
  });
});

describe("check", () => {
  test("finds nothing to stop for in a proposal, and decides every rule once exposure is known", () => {
    const document = withSetting(demo, setting);
    const without = check(document, setting);
    expect(without.undecided).toContain("exposure");
    const seen = exposures(document, setting);
    expect(seen.size).toBe(setting.setting.pieces.length);
    for (const share of seen.values()) {
      expect(share).toBeGreaterThan(0);
      expect(share).toBeLessThan(1);
    }
    const result = check(document, setting, seen);
    expect(result.undecided).toEqual([]);
    expect(result.findings.filter((each) => each.level === "stop")).toEqual([]);
  });

  test("a piece pushed into the wall is a stop", () => {
    const [first, ...others] = setting.setting.pieces;
    const pushed = { ...setting, setting: { ...setting.setting, pieces: [{ ...first, x: 0.2, y: 0.2 }, ...others] } };
    const stops = check(demo, pushed).findings.filter((each) => each.level === "stop");
    expect(stops.map((each) => each.rule)).toContain("ware-to-wall");
  });

  test("a schedule for another cone is a stop", () => {
    const wrong = { ...setting, scheduleId: "glaze-06-usual" };
    const stops = check(demo, wrong).findings.filter((each) => each.level === "stop");
    expect(stops.map((each) => each.rule)).toContain("cone-set");
  });
});

describe("forecast", () => {
  test("is the same for the same inputs, byte for byte, whatever the order of keys", () => {
    const first = forecast(demo, setting, "preview", { hash }, unattended);
    const turned = JSON.parse(
      JSON.stringify(demo, (_, value: unknown) =>
        typeof value === "object" && value !== null && !Array.isArray(value)
          ? Object.fromEntries(Object.entries(value).reverse())
          : value,
      ),
    ) as StudioDocument;
    const second = forecast(turned, setting, "preview", { hash }, unattended);
    expect(first.ok).toBe(true);
    expect(JSON.stringify(first)).toBe(JSON.stringify(second));
    if (first.ok) {
      expect(first.value.forecast.pieces).toHaveLength(setting.setting.pieces.length);
      expect(first.value.key).toMatch(/^[0-9a-f]{64}$/);
    }
  });

  const key = (document: StudioDocument, each: SettingRecord = setting): string =>
    forecastKey(document, each, "full", hash);
  const mapped = <Each extends { id: string }>(list: readonly Each[], id: string, change: Partial<Each>): Each[] =>
    list.map((each) => (each.id === id ? Object.assign({}, each, change) : each));

  test("its key changes with all it depends on", () => {
    const placed = setting.setting.pieces[0];
    const onIt = demo.pieces.find((each) => each.id === placed.pieceId)!;
    const rowan = demo.kilns.find((each) => each.id === "rowan")!;
    const shape = demo.shapes.find((each) => each.id === onIt.shapeId)!;
    const schedule = demo.schedules.find((each) => each.id === setting.scheduleId)!;
    const changed = [
      forecastKey(demo, setting, "preview", hash),
      key({ ...demo, kilns: mapped(demo.kilns, "rowan", { supplyVoltage: 208 }) }),
      key({ ...demo, kilns: mapped(demo.kilns, "rowan", { wall: { ...rowan.wall, thickness: 0.1 } }) }),
      key({ ...demo, shapes: mapped(demo.shapes, onIt.shapeId, { mass: shape.mass * 1.1 }) }),
      key({ ...demo, pieces: mapped(demo.pieces, onIt.id, { state: "raw" }) }),
      key({ ...demo, studio: { ...demo.studio, roomTemperature: 280 } }),
      key({
        ...demo,
        schedules: mapped(demo.schedules, schedule.id, { segments: schedule.segments.slice(0, -1) }),
      }),
      key(demo, { ...setting, setting: { ...setting.setting, pieces: [{ ...placed, x: placed.x + 1e-4 }] } }),
    ];
    expect(new Set([key(demo), ...changed]).size).toBe(changed.length + 1);
  });

  test("its key stays with all it does not depend on", () => {
    const placed = setting.setting.pieces[0].pieceId;
    expect(key({ ...demo, pieces: mapped(demo.pieces, placed, { note: "n", promised: "2027-01-01", value: 9 }) })).toBe(
      key(demo),
    );
    expect(key({ ...demo, studio: { ...demo.studio, name: "Other", paper: "letter" } })).toBe(key(demo));
    expect(key(demo, { ...setting, name: "Z", note: "n", day: "2026-04-01", proposal: null })).toBe(key(demo));
  });

  test("says in plain words why it cannot be computed", () => {
    const gone = forecast(demo, { ...setting, kilnId: "elm" }, "preview", { hash }, unattended);
    expect(gone).toMatchObject({ ok: false, failure: { error: expect.stringContaining('kilnId is "elm"') as string } });
    const weak = { ...demo, kilns: mapped(demo.kilns, "rowan", { supplyVoltage: 60 }) };
    const cold = forecast(weak, setting, "preview", { hash }, unattended);
    expect(cold.ok).toBe(false);
    if (!cold.ok) expect(cold.failure.error).toMatch(/stops rising|asks for/);
  });
});
