/*
 * Fits the kinetics of every cone to the published chart and writes src/engine/heatwork/cone-data.ts.
 * Run: node tools/run-source.mjs tools/fit-cones.ts   (prints the error report; --check only compares)
 */
import { readFileSync, writeFileSync } from "node:fs";
import { rampEnd, rateIntegral, type Kinetics } from "../src/engine/heatwork/kinetics.ts";

const folder = new URL("../src/engine/heatwork/", import.meta.url);

interface ChartValue {
  readonly cone: string;
  readonly kind: string;
  /** [C/h] */
  readonly rate: number;
  /** [C] */
  readonly celsius: number;
  readonly copies: number;
  readonly fromMemory: boolean;
}

function readChart(): ChartValue[] {
  const lines = readFileSync(new URL("data/cones.csv", folder), "utf8").trim().split("\n").slice(1);
  return lines
    .map((line) => line.split(","))
    .filter((cells) => !cells.slice(8).join(",").includes("DISPUTED"))
    .map((cells) => ({
      cone: cells[0]!,
      kind: cells[1]!,
      rate: Number(cells[2]),
      celsius: Number(cells[3]),
      copies: Number(cells[6]),
      fromMemory: cells[7] === "yes",
    }));
}

/** Kinetics with the given end point at 60 C/h [C] and Kelvin per e-fold of rate there. */
function kineticsOf(end60: number, efold: number): Kinetics {
  const temperature = end60 + 273.15;
  const activation = (temperature * temperature) / efold;
  const unit: Kinetics = { activation, lnA: activation / temperature };
  return { activation, lnA: unit.lnA - Math.log(rateIntegral(unit, temperature) / (60 / 3600)) };
}

const endAt = (kinetics: Kinetics, rate: number): number => rampEnd(kinetics, rate / 3600) - 273.15;

/** Least squares in temperature over the given chart values, in (end60, efold); efold fixed if given. */
function fit(values: readonly ChartValue[], efoldFixed?: number): [number, number] {
  let end60 = values.reduce((sum, value) => sum + value.celsius, 0) / values.length;
  let efold = efoldFixed ?? 20;
  for (let step = 0; step < 50; step++) {
    const h = 1e-3;
    const model = (a: number, b: number): number[] => values.map((value) => endAt(kineticsOf(a, b), value.rate));
    const now = model(end60, efold);
    const dEnd = model(end60 + h, efold).map((value, i) => (value - now[i]!) / h);
    const dFold = model(end60, efold + h).map((value, i) => (value - now[i]!) / h);
    const rest = values.map((value, i) => value.celsius - now[i]!);
    const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, x, i) => sum + x * b[i]!, 0);
    if (efoldFixed !== undefined) {
      end60 += dot(dEnd, rest) / dot(dEnd, dEnd);
      continue;
    }
    const [aa, ab, bb] = [dot(dEnd, dEnd), dot(dEnd, dFold), dot(dFold, dFold)];
    const [ra, rb] = [dot(dEnd, rest), dot(dFold, rest)];
    const det = aa * bb - ab * ab;
    end60 += (ra * bb - rb * ab) / det;
    efold += (rb * aa - ra * ab) / det;
  }
  return [end60, efold];
}

interface Fitted {
  readonly cone: string;
  readonly kind: string;
  readonly kinetics: Kinetics;
  readonly efold: number;
  readonly basis: "own" | "slope of 019" | "slope of self-supporting";
  readonly values: readonly ChartValue[];
}

function fitAll(chart: readonly ChartValue[]): Fitted[] {
  const fitted: Fitted[] = [];
  const groups = new Map<string, ChartValue[]>();
  for (const value of chart) {
    if (value.kind === "PCE") continue;
    const key = `${value.kind}|${value.cone}`;
    groups.set(key, [...(groups.get(key) ?? []), value]);
  }
  const slopeOf = (kind: string, cone: string): number | undefined =>
    fitted.find((one) => one.kind === kind && one.cone === cone)?.efold;
  const own = [...groups.values()].sort((a, b) => b.length - a.length);
  for (const values of own) {
    const { cone, kind } = values[0]!;
    const iron = kind.includes("iron-free") ? "self-supporting iron-free" : "self-supporting regular";
    const borrowed =
      values.length >= 3 ? undefined : (slopeOf(iron, cone) ?? slopeOf("self-supporting regular", "019"));
    const [end60, efold] = fit(values, borrowed);
    const basis =
      values.length >= 3 ? "own" : slopeOf(iron, cone) && kind !== iron ? "slope of self-supporting" : "slope of 019";
    fitted.push({ cone, kind, kinetics: kineticsOf(end60, efold), efold, basis, values });
  }
  return fitted;
}

const positionOf = (cone: string): number => (cone.startsWith("0") ? -Number(cone.slice(1)) : Number(cone) - 1);
const kinds = [
  "self-supporting regular",
  "self-supporting iron-free",
  "large regular",
  "large iron-free",
  "small regular",
  "PCE",
];
const byPlace = (a: { cone: string; kind: string }, b: { cone: string; kind: string }): number =>
  kinds.indexOf(a.kind) - kinds.indexOf(b.kind) || positionOf(a.cone) - positionOf(b.cone);

function write(chart: readonly ChartValue[], fitted: readonly Fitted[]): string {
  const scale = fitted.filter((one) => one.kind === kinds[0]).sort(byPlace);
  const chartRows = [...chart]
    .sort((a, b) => byPlace(a, b) || a.rate - b.rate)
    .map((v) => `  ["${v.cone}", "${v.kind}", ${v.rate}, ${v.celsius}, ${v.copies}],`);
  const fitRows = [...fitted]
    .sort(byPlace)
    .map(
      (f) =>
        `  ["${f.cone}", "${f.kind}", ${f.kinetics.lnA.toFixed(6)}, ${f.kinetics.activation.toFixed(3)}, "${f.basis}"],`,
    );
  return `// Written by tools/fit-cones.ts from data/cones.csv: never edit by hand.
/* oxfmt-ignore */
import type { ConeKind } from "./cones.ts";

/** Cones of the scale, self-supporting regular, from coldest to hottest. */
export const scaleCones: readonly string[] = [
${scale.map((one) => `  "${one.cone}",`).join("\n")}
];

/** Cone, kind, heating rate over the last 100 C [C/h], end point [C], transcriptions agreeing (0: from memory). */
export const chartRows: readonly (readonly [string, ConeKind, number, number, number])[] = [
${chartRows.join("\n")}
];

/** Cone, kind, ln of the rate factor [1/s], activation E/R [K], what the slope rests on. */
export const kineticsRows: readonly (readonly [string, ConeKind, number, number, string])[] = [
${fitRows.join("\n")}
];
`;
}

const chart = readChart();
const fitted = fitAll(chart);
for (const one of [...fitted].sort(byPlace)) {
  const errors = one.values.map((value) => (endAt(one.kinetics, value.rate) - value.celsius).toFixed(1).padStart(6));
  console.log(
    one.cone.padEnd(5),
    one.kind.padEnd(26),
    one.efold.toFixed(2).padStart(6),
    errors.join(" "),
    ` ${one.basis}`,
  );
}
writeFileSync(new URL("cone-data.ts", folder), write(chart, fitted));
