/// <reference types="node" />
import { beforeAll, describe, expect, test } from "vitest";
import { unattended } from "#base";
import { checkLoad } from "#engine/checks";
import { distanceBetweenFootprints, placeFootprint } from "#engine/geometry";
import { footprintOf, shapeOf, type Load, type PlacedPiece, type PlacedShelf } from "#engine/kiln";
import type { SettingRecord } from "#records";
import { createHighsSolver } from "#solvers";
import { demoStudio, loadOf, propose } from "#work";
import { pieceAt, piecesOut, piecesSwapped, standsOn } from "./setting-edits.ts";
import { freeSpot, isAllowed, shelfSpots } from "./spots.ts";

const today = "2026-11-24";
const studio = demoStudio(today, 1);
const settings: SettingRecord[] = [];

beforeAll(async () => {
  const solver = await createHighsSolver();
  for (const kilnId of ["alder", "rowan"]) {
    const request = { kilnId, classId: "glaze-06", day: today, settingId: null, seconds: 2, seed: 1 };
    const began = process.cpuUsage();
    const elapsed = (): number => process.cpuUsage(began).user / 1e6;
    const proposed = propose(studio, request, solver, { ...unattended, elapsed });
    if (!proposed.ok) throw new Error(proposed.failure.error);
    settings.push(proposed.value);
  }
});

const loads = (): readonly (readonly [SettingRecord, Load])[] =>
  settings.map((setting) => [setting, loadOf(studio, setting)] as const);
/** Two pieces of the fullest shelf. */
function neighbours(load: Load): readonly [PlacedPiece, PlacedPiece] {
  const onShelf = (id: string) => load.setting.pieces.filter(({ shelfId }) => shelfId === id);
  const shelves = load.setting.shelves.map(({ id }) => onShelf(id)).sort((a, b) => b.length - a.length);
  return [shelves[0][0], shelves[0][1]];
}
const shelfOf = (load: Load, id: string) => load.setting.shelves.find((shelf) => shelf.id === id)!;

describe("room on a shelf", () => {
  test("every piece of a proposal stands where it may: placing and moving by hand keep the same rules", () => {
    for (const [, load] of loads()) {
      expect(load.setting.pieces.length).toBeGreaterThan(10);
      for (const piece of load.setting.pieces) {
        const room = shelfSpots(load, piece.pieceId, shelfOf(load, piece.shelfId)).roomAt(piece);
        expect(isAllowed(room), `${piece.pieceId} ${JSON.stringify(room)}`).toBe(true);
      }
    }
  });

  test("a piece put on its neighbour is not allowed, names it, and the checks say the same", () => {
    for (const [setting, load] of loads()) {
      const [first, second] = neighbours(load);
      const at = { x: second.x + 0.01, y: second.y, angle: first.angle };
      const room = shelfSpots(load, first.pieceId, shelfOf(load, first.shelfId)).roomAt(at);
      expect(isAllowed(room)).toBe(false);
      expect(room.nearest).toEqual({ kind: "piece", pieceId: second.pieceId });
      const moved = loadOf(studio, pieceAt(setting, first.pieceId, first.shelfId, at));
      const found = checkLoad(moved).findings.filter(({ place }) => place.pieceIds.includes(first.pieceId));
      expect(found.some(({ level }) => level === "stop")).toBe(true);
    }
  });

  test("the distance it tells is the one of the footprints", () => {
    const [, load] = loads()[0];
    const [first, second] = neighbours(load);
    const at = { x: second.x + 0.01, y: second.y, angle: 0 };
    const room = shelfSpots(load, first.pieceId, shelfOf(load, first.shelfId)).roomAt(at);
    const print = (id: string, place: typeof at) => placeFootprint(footprintOf(shapeOf(load, id)), place);
    expect(room.distance).toBeCloseTo(
      distanceBetweenFootprints(print(first.pieceId, at), print(second.pieceId, second)),
      9,
    );
  });

  test("off the shelf, at the wall and too high are named", () => {
    const [, load] = loads()[0];
    const piece = load.setting.pieces[0];
    const shelf = shelfOf(load, piece.shelfId);
    const far = shelfSpots(load, piece.pieceId, shelf).roomAt({ x: 0.4, y: 0, angle: 0 });
    expect(far.spare).toBeLessThan(0);
    expect(["edge", "wall"]).toContain(far.nearest.kind);
    const low = { ...load.kiln, chamber: { ...load.kiln.chamber, height: shelf.z + 0.02 } };
    const alone = { ...load, kiln: low, setting: { ...load.setting, shelves: [shelf], pieces: [piece] } };
    expect(shelfSpots(alone, piece.pieceId, shelf).roomAt({ x: 0.05, y: 0.05, angle: 0 }).nearest.kind).toBe("height");
  });

  test("answers within a tenth of a millisecond, as moving by pointer needs", () => {
    const [, load] = loads()[0];
    const piece = load.setting.pieces[0];
    const { roomAt, isFree } = shelfSpots(load, piece.pieceId, shelfOf(load, piece.shelfId));
    const spots = Array.from({ length: 4000 }, (_, i) => ({ x: 0.2 * Math.cos(i), y: 0.2 * Math.sin(i), angle: i }));
    for (const spot of spots) expect(isFree(spot)).toBe(isAllowed(roomAt(spot)));
    const began = process.cpuUsage();
    for (const spot of spots) roomAt(spot);
    const { user, system } = process.cpuUsage(began);
    expect((user + system) / spots.length).toBeLessThan(100);
  });
});

/** Spots of a coarse grid over a shelf, unturned. */
const everywhere = (shelf: PlacedShelf): readonly { x: number; y: number; angle: number }[] =>
  Array.from({ length: 400 }, (_, i) => ({
    x: shelf.x + ((i % 20) - 9.5) * 0.028,
    y: shelf.y + (Math.floor(i / 20) - 9.5) * 0.028,
    angle: 0,
  }));

describe("a free spot", () => {
  test("is allowed, and the wanted one if that is", () => {
    for (const [, load] of loads()) {
      const piece = load.setting.pieces[0];
      const shelf = shelfOf(load, piece.shelfId);
      const own = freeSpot(load, piece.pieceId, shelf, piece);
      expect(own).toMatchObject({ x: piece.x, y: piece.y });
      for (const other of load.setting.shelves) {
        const spot = freeSpot(load, piece.pieceId, other, piece);
        if (spot) expect(isAllowed(shelfSpots(load, piece.pieceId, other).roomAt(spot))).toBe(true);
        else expect(everywhere(other).some((at) => shelfSpots(load, piece.pieceId, other).isFree(at))).toBe(false);
      }
    }
  });

  test("is found on an emptied shelf", () => {
    const [setting] = loads()[0];
    const shelfId = setting.setting.shelves[0].id;
    const onIt = setting.setting.pieces.filter((piece) => piece.shelfId === shelfId).map(({ pieceId }) => pieceId);
    const emptied = loadOf(studio, piecesOut(setting, onIt));
    expect(freeSpot(emptied, onIt[0], shelfOf(emptied, shelfId), { x: 0, y: 0, angle: 0 })).not.toBeNull();
  });
});

test("posts stand on the shelf below; the lowest ones on the floor", () => {
  for (const [, load] of loads()) {
    const levels = [...load.setting.shelves].sort((a, b) => a.z - b.z);
    for (const shelf of levels) {
      for (const post of shelf.posts) {
        const below = standsOn(load, shelf, post);
        expect(below === null).toBe(shelf.z === levels[0].z);
      }
    }
  }
});

test("swapped pieces have each other's place and their own turn", () => {
  const [setting] = loads()[0];
  const [a, b] = setting.setting.pieces as [
    SettingRecord["setting"]["pieces"][0],
    SettingRecord["setting"]["pieces"][0],
  ];
  const swapped = piecesSwapped(setting, a.pieceId, b.pieceId).setting.pieces;
  expect(swapped.find(({ pieceId }) => pieceId === a.pieceId)).toEqual({ ...a, x: b.x, y: b.y, shelfId: b.shelfId });
  expect(swapped.find(({ pieceId }) => pieceId === b.pieceId)).toEqual({ ...b, x: a.x, y: a.y, shelfId: a.shelfId });
});
