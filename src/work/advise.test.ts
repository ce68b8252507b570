import { beforeAll, describe, expect, it } from "vitest";
import { unattended } from "#base";
import { checkLoad } from "#engine/checks";
import type { SettingRecord, StudioDocument } from "#records";
import { createHighsSolver } from "#solvers";
import {
  advise,
  demoStudio,
  loadOf,
  propose,
  startChoices,
  timeAndMoney,
  usualAdviseRequest,
  wishesOf,
} from "./index.ts";

const document = demoStudio("2026-03-02", 1);
let setting: SettingRecord;

beforeAll(async () => {
  const start = process.cpuUsage();
  const elapsed = (): number => {
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1e6;
  };
  const request = { kilnId: "alder", classId: "glaze-06", day: "2026-03-03", settingId: null, seconds: 2, seed: 1 };
  const proposed = propose(document, request, await createHighsSolver(), { ...unattended, elapsed });
  if (!proposed.ok) throw new Error(proposed.failure.error);
  setting = proposed.value;
});

const tolerant = (cones: number): StudioDocument => ({
  ...document,
  classes: document.classes.map((each) =>
    each.id === "glaze-06" ? { ...each, tolerance: { colder: -cones, hotter: cones } } : each,
  ),
});

const advised = async (studio: StudioDocument, record: SettingRecord) => {
  const result = await advise(studio, record, { ...usualAdviseRequest, grade: "preview" }, unattended);
  if (!result.ok) throw new Error(result.failure.error);
  return result.value;
};

describe("advise, on the computed firing of the demo's load", () => {
  it("finds an end that gives every piece enough and none too much, in a few runs", async () => {
    const studio = tolerant(2);
    const { advice, forecast } = await advised(studio, setting);
    expect(advice.kind).toBe("found");
    expect(advice.runs.length).toBeLessThanOrEqual(10);
    for (const { pieceId, least, most } of wishesOf(loadOf(studio, setting))) {
      const { heatwork } = forecast.pieces.find((piece) => piece.pieceId === pieceId)!;
      expect(heatwork.coldest).toBeGreaterThanOrEqual(least);
      expect(heatwork.hottest).toBeLessThanOrEqual(most);
    }
  });

  it("says that no schedule does where the range is narrower than any spread, and tries moves that break no rule", async () => {
    const studio = tolerant(0.1);
    const { advice, moves } = await advised(studio, setting);
    expect(advice.kind).toBe("impossible");
    if (advice.kind !== "impossible") return;
    expect(advice.excess).toBeGreaterThan(0);
    expect(advice.excessAtOtherTarget).toBeGreaterThan(0);
    expect(advice.spread).toBeGreaterThan(advice.allowed);
    expect(advice.leaveOut.length).toBeGreaterThan(0);
    const load = loadOf(studio, setting);
    const stops = (each: SettingRecord["setting"]): number =>
      checkLoad({ ...load, setting: each }).findings.filter(({ level }) => level === "stop").length;
    expect(advice.moves.length).toBe(Math.min(moves.length, 5));
    for (const move of moves)
      expect(stops(move.setting as SettingRecord["setting"])).toBeLessThanOrEqual(stops(setting.setting));
    for (const { move, gain, excess } of advice.moves) {
      expect(gain + excess).toBeCloseTo(advice.excess, 9);
      expect(moves.map(({ id }) => id)).toContain(move.id);
    }
  });

  it("tells hours, money and times to start with someone there", async () => {
    const { forecast } = await advised(tolerant(2), setting);
    const { start, ends, ready, cost } = timeAndMoney(document, setting, forecast);
    expect(ends - start).toBeCloseTo(forecast.heatingEnds, 3);
    expect(ready).toBeCloseTo(start + forecast.readyAt!, 3);
    // The engine's ledger counts the same energy another way.
    expect(cost.energy / forecast.ledger.electric).toBeCloseTo(1, 2);
    const midnight = start - setting.startsAt;
    const attendance = [{ from: midnight + 15 * 3600, to: midnight + 19 * 3600 }];
    const choices = startChoices(document, setting, forecast, attendance, 1);
    expect(choices.length).toBeGreaterThan(0);
    for (const { endsEarly, endsLate } of choices) {
      expect(endsEarly).toBeGreaterThanOrEqual(attendance[0].from);
      expect(endsLate).toBeLessThanOrEqual(attendance[0].to);
    }
  });

  it("refuses an empty setting and a schedule the kiln cannot follow, in plain words", async () => {
    const empty = { ...setting, setting: { ...setting.setting, pieces: [], cones: [] } };
    expect(await advise(document, empty, usualAdviseRequest, unattended)).toMatchObject({
      ok: false,
      failure: { error: "There are no pieces in this setting." },
    });
    const weak = { ...document, kilns: [{ ...document.kilns[0], supplyVoltage: 100 }, ...document.kilns.slice(1)] };
    const result = await advise(weak, setting, { ...usualAdviseRequest, grade: "preview" }, unattended);
    expect(result.ok).toBe(false);
    if (!result.ok) expect(result.failure.remedy).toMatch(/lower end|ware out/);
  });
});
