import { expect, test } from "vitest";
import type { Setting } from "#engine/kiln";
import { demoStudio } from "./demo/studio.ts";
import { pieceNumbers } from "./piece-numbers.ts";

const studio = demoStudio("2026-11-24", 1);
const placed = (pieceId: string, shelfId: string, x = 0): Setting["pieces"][number] => ({
  pieceId,
  shelfId,
  x,
  y: 0,
  angle: 0,
  fixed: false,
});
const setting: Setting = {
  shelves: [
    { id: "top", typeId: "full-530", x: 0, y: 0, angle: 0, z: 0.3, posts: [] },
    { id: "bottom", typeId: "full-530", x: 0, y: 0, angle: 0, z: 0.04, posts: [] },
  ],
  pieces: [
    placed("tumbler-10", "bottom"),
    placed("tumbler-2", "bottom", 0.1),
    placed("mug-1", "bottom"),
    placed("pitcher-1", "top"),
    placed("side-plate-1", "bottom"),
  ],
  cones: [],
};

test("shelves count from the bottom; a party is a run, in it shapes, in these the order of intake", () => {
  const numbers = pieceNumbers(studio, setting);
  // Ivy's mug before Tomas's side plate and tumblers.
  expect(
    [...numbers].sort(([a], [b]) => a.localeCompare(b)).map(([id, { shelf, number }]) => `${id} ${shelf}.${number}`),
  ).toEqual(["mug-1 1.1", "pitcher-1 2.1", "side-plate-1 1.2", "tumbler-10 1.4", "tumbler-2 1.3"]);
});

test("moving a piece on its shelf changes no number", () => {
  const moved = { ...setting, pieces: setting.pieces.map((each) => ({ ...each, x: each.x + 0.2, angle: 1 })) };
  expect(pieceNumbers(studio, moved)).toEqual(pieceNumbers(studio, setting));
});
