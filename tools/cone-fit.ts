/*
 * Fits the kinetics of every cone to the published chart.
 *
 * One Gaussian-process regression per family: T = end + slope L + curvature L², L = ln(rate / 60 C/h). End points are
 * free; slopes and curvatures share strength between neighbouring cones, whose recipes are alike. The numbers below
 * are the restricted maximum-likelihood values for the self-supporting regular family, rounded, but for two: the noise
 * is held at 1 C, as the chart is in whole degrees, and the curvature's spread at half of what the likelihood prefers.
 * With all of it the chart is met to 0.3 C instead of 0.6, left-out errors hardly change (5.1, 2.0, 2.4 C), but the
 * rate of some cones stops rising with temperature, which no heated glass does, and holds go astray.
 */
import { readFileSync } from "node:fs";
import { rampEnd, type Kinetics } from "../src/engine/heatwork/kinetics.ts";

const prior = {
  slope: 17,
  slopeSd: 7.7,
  slopeLength: 7,
  slopeOwnSd: 0.9,
  curvature: 1,
  curvatureSd: 1,
  curvatureLength: 1.1,
  noise: 1,
  vague: 1000,
};

const chartFile = new URL("../src/engine/heatwork/data/cones.csv", import.meta.url);

export interface ChartValue {
  readonly cone: string;
  readonly kind: string;
  /** [C/h] */
  readonly rate: number;
  /** [C] */
  readonly celsius: number;
  readonly copies: number;
}

export interface Fitted {
  readonly cone: string;
  readonly kind: string;
  readonly kinetics: Kinetics;
  readonly basis: string;
  readonly values: readonly ChartValue[];
  /** Predicted less published when the value itself was left out [C]; null where that leaves too little. */
  readonly leftOut: readonly (number | null)[];
}

export function readChart(): ChartValue[] {
  const lines = readFileSync(chartFile, "utf8").trim().split("\n").slice(1);
  return lines
    .map((line) => line.split(","))
    .filter((cells) => !cells.slice(8).join(",").includes("DISPUTED"))
    .map(([cone, kind, rate, celsius, , , copies]) => ({
      cone: cone,
      kind: kind,
      rate: Number(rate),
      celsius: Number(celsius),
      copies: Number(copies),
    }));
}

const positionOf = (cone: string): number => (cone.startsWith("0") ? -Number(cone.slice(1)) : Number(cone) - 1);
const logRate = (rate: number): number => Math.log(rate / 60);
export const endAt = (kinetics: Kinetics, rate: number): number => rampEnd(kinetics, rate / 3600) - 273.15;

/** Inverse of a symmetric positive definite matrix by Gauss-Jordan; small and run once. */
function inverse(matrix: readonly (readonly number[])[]): number[][] {
  const n = matrix.length;
  const work = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  for (let column = 0; column < n; column++) {
    const pivot = work[column];
    const scale = pivot[column];
    for (let j = 0; j < 2 * n; j++) pivot[j] /= scale;
    for (let i = 0; i < n; i++) {
      const factor = work[i][column];
      if (i === column || factor === 0) continue;
      for (let j = 0; j < 2 * n; j++) work[i][j] -= factor * pivot[j];
    }
  }
  return work.map((row) => row.slice(n));
}

/** A family of cones whose recipes run on from one to the next. */
function fitFamily(kind: string, values: readonly ChartValue[]): Fitted[] {
  const cones = [...new Set(values.map((value) => value.cone))];
  const centre = (cone: string): number => {
    const own = values.filter((value) => value.cone === cone);
    return (
      own.reduce(
        (sum, v) => sum + v.celsius - prior.slope * logRate(v.rate) - prior.curvature * logRate(v.rate) ** 2,
        0,
      ) / own.length
    );
  };
  const centres = new Map(cones.map((cone) => [cone, centre(cone)]));
  const apart = (a: string, b: string): number => Math.abs(positionOf(a) - positionOf(b));
  // Covariance of ends, slopes and curvatures of two cones; the vague terms let the family's means be free.
  const endOf = (a: string, b: string): number => (a === b ? prior.vague ** 2 : 0);
  const slopeOf = (a: string, b: string): number =>
    prior.vague ** 2 +
    prior.slopeSd ** 2 * Math.exp(-apart(a, b) / prior.slopeLength) +
    (a === b ? prior.slopeOwnSd ** 2 : 0);
  const curveOf = (a: string, b: string): number =>
    prior.vague ** 2 + prior.curvatureSd ** 2 * Math.exp(-apart(a, b) / prior.curvatureLength);
  const rest = values.map(
    (v) => v.celsius - centres.get(v.cone)! - prior.slope * logRate(v.rate) - prior.curvature * logRate(v.rate) ** 2,
  );
  const precision = inverse(
    values.map((a, i) =>
      values.map((b, j) => {
        const [la, lb] = [logRate(a.rate), logRate(b.rate)];
        return (
          endOf(a.cone, b.cone) +
          slopeOf(a.cone, b.cone) * la * lb +
          curveOf(a.cone, b.cone) * la * la * lb * lb +
          (i === j ? prior.noise ** 2 : 0)
        );
      }),
    ),
  );
  const weights = precision.map((row) => row.reduce((sum, x, j) => sum + x * rest[j], 0));
  const project = (cone: string, covariance: (a: string, b: string) => number, power: number): number =>
    values.reduce((sum, v, j) => sum + covariance(cone, v.cone) * logRate(v.rate) ** power * weights[j], 0);

  return cones.map((cone) => {
    let end = centres.get(cone)! + project(cone, endOf, 0);
    let slope = prior.slope + project(cone, slopeOf, 1);
    let curvature = prior.curvature + project(cone, curveOf, 2);
    const own = values.filter((value) => value.cone === cone);
    // The rate k(T) must not fall with temperature between 15 and 150 C/h: slope + 2 curvature L >= 2 curvature.
    const steepest = 1 / (2 * (1 - logRate(15)));
    if (curvature > slope * steepest) {
      const column = own.map((v) => logRate(v.rate) + steepest * logRate(v.rate) ** 2);
      const meanColumn = column.reduce((sum, x) => sum + x, 0) / own.length;
      const mean = own.reduce((sum, v) => sum + v.celsius, 0) / own.length;
      slope =
        column.reduce((sum, x, i) => sum + (x - meanColumn) * (own[i].celsius - mean), 0) /
        column.reduce((sum, x) => sum + (x - meanColumn) ** 2, 0);
      curvature = slope * steepest;
      end = mean - slope * meanColumn;
    }
    return {
      cone,
      kind,
      kinetics: { end: end + 273.15, slope, curvature },
      basis: own.length >= 3 ? "three rates" : "two rates and neighbours",
      values: own,
      leftOut: values.flatMap((v, i) =>
        v.cone === cone ? [own.length >= 3 ? -weights[i] / precision[i][i] : null] : [],
      ),
    };
  });
}

/** Same recipe, other size: slope and curvature of the self-supporting cone, own end point. */
function fitShifted(kind: string, values: readonly ChartValue[], model: readonly Fitted[]): Fitted[] {
  const cones = [...new Set(values.map((value) => value.cone))];
  return cones.map((cone) => {
    const own = values.filter((value) => value.cone === cone);
    const like = model.find((one) => one.cone === cone);
    if (!like) throw new Error(`no self-supporting cone ${cone} to lend its slope to ${kind}`);
    let end = like.kinetics.end;
    const shifted = (): Kinetics => ({ ...like.kinetics, end });
    for (let step = 0; step < 5; step++) {
      end += own.reduce((sum, v) => sum + v.celsius - endAt(shifted(), v.rate), 0) / own.length;
    }
    return {
      cone,
      kind,
      kinetics: shifted(),
      basis: "slope of self-supporting",
      values: own,
      leftOut: own.map(() => null),
    };
  });
}

export const byPlace = (a: { cone: string }, b: { cone: string }): number => positionOf(a.cone) - positionOf(b.cone);
export const rms = (errors: readonly number[]): number =>
  Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length);

export const kinds = [
  "self-supporting regular",
  "self-supporting iron-free",
  "large regular",
  "large iron-free",
  "small regular",
];

/** Kinetics of every cone the chart has, PCE cones excepted, coldest first within a kind. */
export function fitCones(chart: readonly ChartValue[]): readonly Fitted[] {
  const of = (kind: string): ChartValue[] => chart.filter((value) => value.kind === kind).sort(byPlace);
  const [regular, ironFree] = [fitFamily(kinds[0], of(kinds[0])), fitFamily(kinds[1], of(kinds[1]))];
  return [
    ...regular,
    ...ironFree,
    ...fitShifted(kinds[2], of(kinds[2]), regular),
    ...fitShifted(kinds[3], of(kinds[3]), ironFree),
    ...fitShifted(kinds[4], of(kinds[4]), regular),
  ];
}
