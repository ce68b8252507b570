import { expect, test } from "vitest";
import type { Forecast } from "#engine/firing";
import { coneRange, heatOfPieces, heatOfShelves } from "./heat-of-pieces.ts";

const piece = (pieceId: string, mean: number, chanceWanted: number) => ({
  pieceId,
  heatwork: { coldest: mean - 0.1, mean, hottest: mean + 0.2 },
  peak: 1270,
  history: { coldest: [], mean: [], hottest: [] },
  giveOrTake: 0.5,
  chanceWanted,
});
const forecast = {
  pieces: [piece("a", -6.75, 0.2), piece("b", -6, 0.9), piece("c", -5.4, 0.4)],
} as unknown as Forecast;
const glaze06 = {
  id: "g",
  name: "Glaze 06",
  kind: "glaze",
  cone: "06",
  tolerance: { colder: -0.5, hotter: 0.5 },
  mayTouch: false,
} as const;

test("pieces are told by how far they land from cone 06, at -6 on the scale", () => {
  const heats = heatOfPieces(forecast, glaze06);
  expect(heats.get("a")).toMatchObject({ offset: -0.75, heat: "cold2", outside: "cold", eitherWay: false });
  expect(heats.get("b")).toMatchObject({ offset: 0, heat: "wanted", outside: null });
  expect(heats.get("c")).toMatchObject({ heat: "hot2", outside: "hot", eitherWay: true });
  expect(heats.get("a")!.coldest).toBeCloseTo(-0.85, 12);
  expect(heats.get("a")!.hottest).toBeCloseTo(-0.55, 12);
});

test("a shelf is told by its coldest and hottest piece", () => {
  const at = (pieceId: string, shelfId: string) => ({ pieceId, shelfId, x: 0, y: 0, angle: 0, fixed: false });
  const setting = { shelves: [], cones: [], pieces: [at("c", "s"), at("a", "s"), at("b", "t"), at("unknown", "u")] };
  const shelves = heatOfShelves(setting, heatOfPieces(forecast, glaze06));
  expect(shelves.get("s")!.coldest.pieceId).toBe("a");
  expect(shelves.get("s")!.hottest.pieceId).toBe("c");
  expect(shelves.get("t")!.coldest.pieceId).toBe("b");
  expect(shelves.has("u")).toBe(false);
});

test("the axis holds every band, to the next half cone", () => {
  expect(coneRange([], glaze06.tolerance)).toEqual({ from: -1.5, to: 1.5 });
  expect(coneRange(heatOfPieces(forecast, glaze06).values(), glaze06.tolerance)).toEqual({ from: -1.5, to: 1.5 });
  const wide = { ...heatOfPieces(forecast, glaze06).get("a")!, offset: -1.2, giveOrTake: 1 };
  expect(coneRange([wide], glaze06.tolerance)).toEqual({ from: -2.5, to: 1.5 });
});
