/*
 * Writes src/engine/heatwork/cone-data.ts and docs/reference/cone-fit.md from the chart.
 * Run: npx tsx tools/fit-cones.ts && npx oxfmt src/engine/heatwork
 */
import { writeFileSync } from "node:fs";
import { byPlace, endAt, fitCones, kinds, readChart, rms, type ChartValue, type Fitted } from "./cone-fit.ts";

const dataFile = new URL("../src/engine/heatwork/cone-data.ts", import.meta.url);
const reportFile = new URL("../docs/reference/cone-fit.md", import.meta.url);

function report(fitted: readonly Fitted[], kinds: readonly string[]): string {
  const lines = [
    "# Kinetics against the published chart",
    "",
    "Written by `tools/fit-cones.ts`; what it means is in [heatwork](../explanation/heatwork.md).",
    "Errors are fitted less published end point [C]; left out: predicted from the other values of the family, less published.",
    "",
  ];
  for (const kind of kinds) {
    const family = fitted.filter((one) => one.kind === kind);
    const full = family.filter((one) => one.values.length >= 3);
    lines.push(`## ${kind}`, "");
    const all = full.flatMap((one) => one.values.map((v) => endAt(one.kinetics, v.rate) - v.celsius));
    if (full.length > 0) {
      lines.push(
        `Three-rate residual: RMS ${rms(all).toFixed(2)} C, largest ${Math.max(...all.map(Math.abs)).toFixed(1)} C. Left out: ${[
          15, 60, 150,
        ]
          .map(
            (rate) =>
              `${rate} C/h RMS ${rms(full.map((one) => one.leftOut[one.values.findIndex((v) => v.rate === rate)]!)).toFixed(1)} C`,
          )
          .join(", ")}.`,
        "",
      );
    } else {
      const errors = family.flatMap((one) => one.values.map((v) => endAt(one.kinetics, v.rate) - v.celsius));
      lines.push(
        `Residual RMS ${rms(errors).toFixed(2)} C over ${errors.length} values, largest ${Math.max(...errors.map(Math.abs)).toFixed(1)} C.`,
        "",
      );
    }
    lines.push(
      "| Cone | End at 60 C/h | Slope | Curvature | Rate: published, error, left out | Rests on |",
      "|---|---|---|---|---|---|",
    );
    for (const one of family) {
      const errors = one.values.map((v, i) => {
        const out = one.leftOut[i];
        return `${v.rate}: ${v.celsius}, ${(endAt(one.kinetics, v.rate) - v.celsius).toFixed(1)}${out === null || out === undefined ? "" : `, ${out.toFixed(1)}`}`;
      });
      lines.push(
        `| ${one.cone} | ${(one.kinetics.end - 273.15).toFixed(1)} | ${one.kinetics.slope.toFixed(2)} | ${one.kinetics.curvature.toFixed(2)} | ${errors.join(" · ")} | ${one.basis} |`,
      );
    }
    lines.push("");
  }
  return lines.join("\n");
}

function dataModule(chart: readonly ChartValue[], fitted: readonly Fitted[], kinds: readonly string[]): string {
  const order = (a: { kind: string; cone: string }, b: { kind: string; cone: string }): number =>
    kinds.indexOf(a.kind) - kinds.indexOf(b.kind) || byPlace(a, b);
  const scale = fitted.filter((one) => one.kind === kinds[0]).sort(byPlace);
  const chartRows = [...chart]
    .sort((a, b) => order(a, b) || a.rate - b.rate)
    .map((v) => `  ["${v.cone}", "${v.kind}", ${v.rate}, ${v.celsius}, ${v.copies}],`);
  const fitRows = fitted.map(
    ({ cone, kind, kinetics, basis }) =>
      `  ["${cone}", "${kind}", ${kinetics.end.toFixed(3)}, ${kinetics.slope.toFixed(4)}, ${kinetics.curvature.toFixed(4)}, "${basis}"],`,
  );
  return `// Written by tools/fit-cones.ts from data/cones.csv: never edit by hand. A table, so longer than other files.
import type { ConeKind } from "./cones.ts";

/** Cones of the scale, self-supporting regular, from coldest to hottest. */
export const scaleCones: readonly string[] = [
${scale.map((one) => `  "${one.cone}",`).join("\n")}
];

/** Cone, kind, heating rate over the last 100 C [C/h], end point [C], copies agreeing (0: from memory). */
export const chartRows: readonly (readonly [string, ConeKind, number, number, number])[] = [
${chartRows.join("\n")}
];

/** Cone, kind, end point at 60 K/h [K], slope [K], curvature [K], what they rest on. */
export const kineticsRows: readonly (readonly [string, ConeKind, number, number, number, string])[] = [
${fitRows.join("\n")}
];
`;
}

const chart = readChart();
const fitted = fitCones(chart);
writeFileSync(dataFile, dataModule(chart, fitted, [...kinds, "PCE"]));
writeFileSync(reportFile, report(fitted, kinds));
