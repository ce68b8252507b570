import { renderToStaticMarkup } from "react-dom/server";
import { expect, test } from "vitest";
import { coneRange, heatClassOf, type PieceHeat } from "#work";
import { stackDots } from "./cone-stacks.ts";
import { ConeLine } from "./cone-line.tsx";

const heatAt = (pieceId: string, offset: number): PieceHeat => ({
  pieceId,
  offset,
  coldest: offset,
  hottest: offset,
  giveOrTake: 0.5,
  chanceWanted: 0.5,
  heat: heatClassOf(offset),
  outside: offset < -0.5 ? "cold" : offset > 0.5 ? "hot" : null,
  eitherWay: false,
});
const glaze06 = {
  id: "g",
  name: "Glaze 06",
  kind: "glaze",
  cone: "06",
  tolerance: { colder: -0.5, hotter: 0.5 },
  mayTouch: false,
} as const;
const pieces = [heatAt("cup", -0.8), heatAt("jug", 0.1), heatAt("cat", 0.6)];
const heats = new Map(pieces.map((heat) => [heat.pieceId, heat]));
const html = renderToStaticMarkup(
  <ConeLine
    heats={heats}
    firingClass={glaze06}
    range={coneRange(pieces, glaze06.tolerance)}
    nameOf={(id) => `the ${id}`}
  />,
);

test("every piece has a dot, and a row in the table, coldest first", () => {
  expect(html.match(/<circle/g)).toHaveLength(3);
  const rows = [...html.matchAll(/<th scope="row">([^<]*)<\/th>/g)].map((match) => match[1]);
  expect(rows).toEqual(["the cup", "the jug", "the cat"]);
});

test("the picture is said in words: both ends, and how many are outside", () => {
  expect(html).toContain("Coldest: the cup, ¾ cone cold");
  expect(html).toContain("Hottest: the cat, ½ cone hot");
  expect(html).toContain("2 outside the wanted range");
});

test("the axis names cones as text: 07, cone 06, 05", () => {
  const names = [...html.matchAll(/class="strong">([^<]*)<\/text>/g)].map((match) => match[1]);
  expect(names).toEqual(["07", "cone 06", "05"]);
});

test("a dot is drawn at most half a dot from its place, and no two on one spot", () => {
  const crowd = Array.from({ length: 60 }, (_, i) => heatAt(`p${i}`, Math.sin(i) * 0.9));
  const xOf = (offset: number): number => 200 + offset * 140;
  const { dots, diameter } = stackDots(crowd, xOf, 70);
  for (const { heat, x } of dots) expect(Math.abs(x - xOf(heat.offset))).toBeLessThanOrEqual(diameter / 2);
  expect(new Set(dots.map(({ x, level }) => `${x} ${level}`)).size).toBe(60);
});

test("a crowd on one spot stands in columns side by side that fit, in the order the pieces land", () => {
  const crowd = Array.from({ length: 40 }, (_, i) => heatAt(`p${i}`, 0.02 + i * 1e-4));
  const { dots, diameter } = stackDots([heatAt("far", 0.4), ...crowd], (offset) => 200 + offset * 140, 60);
  expect(Math.max(...dots.map(({ level }) => (level + 1) * diameter))).toBeLessThanOrEqual(60);
  expect(new Set(dots.map(({ x, level }) => `${x} ${level}`)).size).toBe(41);
  for (let i = 1; i < dots.length; i++) expect(dots[i].x).toBeGreaterThanOrEqual(dots[i - 1].x);
  for (const { heat, x } of dots) expect(Math.abs(x - (200 + heat.offset * 140))).toBeLessThanOrEqual(3 * diameter);
});
