import { describe, expect, test } from "vitest";
import type { SettingRecord } from "#records";
import { demoStudio } from "#work";
import { benchCount, benchRows, groupsOf, rowsFound, tooBig } from "./bench-rows.ts";

const today = "2026-11-24";
const studio = demoStudio(today, 1);
const rows = benchRows(studio, today);
const pieces = (list: typeof rows): number => list.reduce((sum, row) => sum + row.pieces.length, 0);

const settingA: SettingRecord = {
  version: 1,
  id: "alder-a",
  name: "A",
  kilnId: "alder",
  classId: "glaze-06",
  scheduleId: "glaze-06-usual",
  day: today,
  startsAt: 25_200,
  setting: {
    shelves: [{ id: "s1", typeId: studio.furniture[0].shelves[0].id, x: 0, y: 0, angle: 0, z: 0.04, posts: [] }],
    pieces: ["tumbler-1", "tumbler-2"].map((pieceId) => ({
      pieceId,
      shelfId: "s1",
      x: 0,
      y: 0,
      angle: 0,
      fixed: false,
    })),
    cones: [],
  },
  proposal: { value: 1, bound: 1, seed: 1, seconds: 1, waiting: [{ pieceId: "tumbler-3", reason: "no-room" }] },
  note: "",
};

describe("bench rows", () => {
  test("hold every piece once", () => {
    expect(pieces(rows)).toBe(studio.pieces.length);
    expect(new Set(rows.flatMap((row) => row.pieces.map((piece) => piece.id))).size).toBe(studio.pieces.length);
  });

  test("come by promised day, then party", () => {
    const keys = rows.map((row) => `${row.promised} ${row.party.name}`);
    expect(keys).toEqual([...keys].sort());
  });

  test("part pieces that are in a setting, wait for room, or do neither", () => {
    const with2 = benchRows({ ...studio, settings: [settingA] }, today).filter((row) => row.shape.id === "tumbler");
    expect(with2.map((row) => [row.setting?.name ?? "", row.waits ?? "", row.pieces.length].join(" ")).sort()).toEqual(
      ["  11", "A  2", " no-room 1"].sort(),
    );
  });

  test("say what is too big, and what still dries", () => {
    expect(rows.filter(tooBig).map((row) => row.shape.id)).toEqual(["garden-planter"]);
    const drying = rows.filter((row) => row.dryFrom !== null);
    expect(drying.length).toBeGreaterThan(0);
    expect(drying.every((row) => row.dryFrom!.slice(0, 10) > today)).toBe(true);
  });

  test("are counted without a piece left over", () => {
    const count = benchCount(benchRows({ ...studio, settings: [settingA] }, today));
    const free = count.free.reduce((sum, each) => sum + each.count, 0);
    const placed = count.placed.reduce((sum, each) => sum + each.count, 0);
    expect(placed).toBe(2);
    expect(free + placed + count.drying + count.held + count.tooBig).toBe(studio.pieces.length);
  });
});

describe("search", () => {
  test.each([
    ["tomas", (row: (typeof rows)[number]) => row.party.name === "Tomas"],
    ["tumblers tomas", (row: (typeof rows)[number]) => row.party.name === "Tomas" && row.shape.id === "tumbler"],
    ["bisque", (row: (typeof rows)[number]) => row.firingClass.id === "bisque-04"],
  ])("%s", (search, wanted) => {
    const found = rowsFound(rows, search);
    expect(found.length).toBeGreaterThan(0);
    expect(found).toEqual(rows.filter(wanted));
  });

  test("without words finds all; with nonsense nothing", () => {
    expect(rowsFound(rows, "  ")).toBe(rows);
    expect(rowsFound(rows, "xyzzy")).toEqual([]);
  });
});

test.each(["day", "class", "fit"] as const)("groups by %s hold every row once", (by) => {
  const groups = groupsOf(rows, by);
  expect(groups.flatMap((group) => group.rows).length).toBe(rows.length);
  expect(new Set(groups.map((group) => group.key)).size).toBe(groups.length);
});
