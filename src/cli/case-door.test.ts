import { unattended } from "#base";
import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, test } from "vitest";
import { solveCase } from "./case-door.ts";

const reference = (name: string): string => readFileSync(path.resolve("tests/reference", name), "utf8");
const began = performance.now();
const options = { seconds: 3, seed: 1, control: { ...unattended, elapsed: () => (performance.now() - began) / 1000 } };

async function answer<Answer>(text: string): Promise<Answer> {
  const solved = await solveCase(text, options);
  if (!solved.ok) throw new Error(solved.failure);
  return solved.value as Answer;
}

const wrong = async (text: string): Promise<string> => {
  const solved = await solveCase(text, options);
  return solved.ok ? "" : solved.failure;
};

describe("cases are known by their content", () => {
  test("a lumped enclosure, against two independent ODE solvers (lumped-1, Radau and DOP853)", async () => {
    const file = JSON.parse(reference("lumped-1.json")) as { t_s: number[]; T_K: number[][] };
    const { t_s, T_K } = await answer<{ t_s: number[]; T_K: number[][] }>(reference("lumped-1.json"));
    expect(t_s).toEqual(file.t_s);
    T_K.forEach((row, i) => row.forEach((value, j) => expect(Math.abs(value - file.T_K[i][j])).toBeLessThan(0.01)));
  });

  test("an enclosure, against an independent finite-volume answer (enclosure-1, self-converged to 0.6 K)", async () => {
    const [head, ...lines] = reference("enclosure-1.axisymmetric.csv").trim().split(/\r?\n/);
    const names = head.split(",").slice(1);
    const { t_s, probes } = await answer<{ t_s: number[]; probes: Record<string, number[]> }>(
      reference("enclosure-1.json"),
    );
    expect(Object.keys(probes).sort()).toEqual([...names].sort());
    const theirs = lines.map((line) => line.split(",").map(Number)).filter(([time]) => time > 0);
    expect(t_s).toEqual(theirs.map(([time]) => time));
    let worst = 0;
    theirs.forEach((row, i) =>
      names.forEach((name, j) => (worst = Math.max(worst, Math.abs(probes[name][i] - row[j + 1])))),
    );
    // The shelf's rim corners of the reference itself are good to 2 K.
    expect(worst).toBeLessThan(4);
  });

  test("a history: a plain ramp of 60 C/h to 1063 C brings cone 04 down [orton-chart]", async () => {
    const { cone_equivalent: cone } = await answer<{ cone_equivalent: string }>("t_s,temp_c\n0,23\n62400,1063\n");
    expect(cone).toBe("04");
  });

  test("unequal circles: radii 1 to 5, container 9.00139774 (best known, Ye, Huang, Lu 2013)", async () => {
    const { radius } = await answer<{ radius: number }>('{"radii":[1,2,3,4,5]}');
    expect(radius).toBeGreaterThan(9.00139774 - 1e-6);
    expect(radius).toBeLessThan(9.00139774 * 1.0005);
  });
});

describe("a bad case names place and remedy", () => {
  const lumped = JSON.parse(reference("lumped-1.json")) as Record<string, unknown>;
  const enclosure = JSON.parse(reference("enclosure-1.json")) as Record<string, Record<string, unknown>>;
  test.each<[string, unknown, RegExp]>([
    ["a missing list", { ...lumped, A: undefined }, /^A is missing; give a list of 1 or more$/],
    ["a text among numbers", { ...lumped, emissivity: [0.8, "x", 0.9] }, /^emissivity\[1\] is "x"; give a number$/],
    ["a row too many", { ...lumped, A: [1, 1] }, /^A: 2 values for 3 surfaces/],
    [
      "a negative size",
      { ...enclosure, shelf: { ...enclosure.shelf, r: -1 } },
      /^shelf\.r is -1; give a number above 0$/,
    ],
    ["a part missing", { ...enclosure, wall: undefined }, /^wall is missing|^wall\.k/],
    ["a list of nothing", { radii: [] }, /^radii is \[\]; give a list of 1 or more$/],
    ["a list", [1, 2], /no kind known here/],
  ])("%s", async (_, json, says) => {
    expect(await wrong(JSON.stringify(json))).toMatch(says);
  });

  test("an empty file and a word are no cases", async () => {
    expect(await wrong("")).toMatch(/line 1: .+/);
    expect(await wrong("hello")).toMatch(/t_s,temp_c/);
  });
});
