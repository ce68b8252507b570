import { unattended } from "#base";
import { prepareFiring, runFiring, type FiringOptions, type Forecast, type Grade } from "#engine/firing";
import type { Kiln, Load, Schedule } from "#engine/kiln";
import { evenMugs, grid, studyKiln, studyLoad, studySchedule, type Level } from "./study-load.ts";

/** What loaders say, as a comparison of computed firings. Positive `effect` means the computation agrees. */
export interface LoadingFact {
  readonly id: string;
  /** The rule in the trade's words. */
  readonly says: string;
  readonly source: "common practice, no source";
  /** What is compared. */
  readonly compares: string;
  /** The range its effect must lie in; the lower end at or below 0 where the computation does not bear the rule out. */
  readonly expected: readonly [least: number, most: number];
  readonly run: (grade: Grade) => FactFound;
}

export interface FactFound {
  /** Size of what the rule says, right sign positive. */
  readonly effect: number;
  readonly unit: "cone" | "K" | "h";
  /** Layer means from the bottom up, or the like. */
  readonly figures: string;
}

function fire(load: Load, grade: Grade, schedule: Schedule = studySchedule(), options: FiringOptions = {}): Forecast {
  const run = runFiring(prepareFiring(load, grade, 1, unattended), schedule, options, unattended);
  if (!run.ok) throw new Error(run.failure.message);
  return run.value;
}

const mean = (values: readonly number[]): number => values.reduce((sum, each) => sum + each, 0) / values.length;

/** Mean heatwork of each shelf's ware, from the bottom up [cones]. */
function layers(load: Load, { pieces }: Forecast): readonly number[] {
  return load.setting.shelves.map((shelf) => {
    const own = new Set(load.setting.pieces.filter((each) => each.shelfId === shelf.id).map((each) => each.pieceId));
    return mean(pieces.filter((each) => own.has(each.pieceId)).map((each) => each.heatwork.mean));
  });
}

const spreadOf = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
const told = (values: readonly number[]): string => values.map((each) => each.toFixed(2)).join(" ");

const tiles = grid(0.118, 0.06);
const mugs = grid(0.11, 0.043);
/** Four low layers of tiles, then mugs. */
const heavyBelow: readonly Level[] = [
  ...[0.041, 0.091, 0.141, 0.191].map((z) => ({ z, shape: "tile", at: tiles })),
  { z: 0.241, shape: "mug", at: mugs },
  { z: 0.42, shape: "mug", at: mugs },
];
/** The same turned upside down. */
const heavyAbove: readonly Level[] = [
  { z: 0.041, shape: "mug", at: mugs },
  { z: 0.22, shape: "mug", at: mugs },
  ...[0.399, 0.449, 0.499, 0.549].map((z) => ({ z, shape: "tile", at: tiles })),
];

function ofLevels(levels: readonly Level[], grade: Grade, options: FiringOptions = {}, kiln: Kiln = studyKiln) {
  const load = studyLoad(levels, { kiln });
  const forecast = fire(load, grade, studySchedule(), options);
  return { load, forecast, layers: layers(load, forecast) };
}

const meanOfLoad = ({ pieces }: Forecast): number => mean(pieces.map((each) => each.heatwork.mean));

/** Three shelves of mugs with a plate amid vases, or a plate amid low bowls, on the middle one. */
function plateAmong(neighbour: string, pitch: number, grade: Grade): number {
  const ring = Array.from({ length: 6 }, (_, i): readonly [number, number] => [
    pitch * Math.cos((i * Math.PI) / 3),
    pitch * Math.sin((i * Math.PI) / 3),
  ]);
  const load = studyLoad([
    { z: 0.041, shape: "mug", at: mugs },
    { z: 0.2, shape: "plate", at: [[0, 0]], also: [{ shape: neighbour, at: ring }] },
    { z: 0.48, shape: "mug", at: mugs },
  ]);
  const forecast = fire(load, grade);
  const own = load.setting.pieces.filter((each) => each.shelfId === "shelf-2").map((each) => each.pieceId);
  const heat = (id: string): number => forecast.pieces.find((each) => each.pieceId === id)!.heatwork.mean;
  return mean(own.slice(1).map(heat)) - heat(own[0]);
}

export const loadingFacts: readonly LoadingFact[] = [
  {
    id: "bottom-heavy",
    says: "Full sets of low layers below and an airy top fire cold at the bottom.",
    source: "common practice, no source",
    compares: "four layers of tiles under two of mugs, without the vent: upper half less lower half",
    expected: [0.7, 2.5],
    run: (grade) => {
      const found = ofLevels(heavyBelow, grade, { vent: false });
      const effect = mean(found.layers.slice(3)) - mean(found.layers.slice(0, 3));
      return { effect, unit: "cone", figures: told(found.layers) };
    },
  },
  {
    id: "top-heavy",
    says: "It is dense layers anywhere: the same upside down fires cold at the top.",
    source: "common practice, no source",
    compares: "two layers of mugs under four of tiles, without the vent: lower half less upper half",
    expected: [0.2, 1.5],
    run: (grade) => {
      const found = ofLevels(heavyAbove, grade, { vent: false });
      const effect = mean(found.layers.slice(0, 3)) - mean(found.layers.slice(3));
      return { effect, unit: "cone", figures: told(found.layers) };
    },
  },
  {
    id: "tight-spacing",
    says: "Leave air between pieces: a crowded load fires unevenly.",
    source: "common practice, no source",
    compares: "mugs 89 mm apart against 120 mm, five layers: spread within the ware",
    expected: [-0.05, 0.6],
    run: (grade) => {
      const spread = (pitch: number): number => {
        const at = grid(pitch, 0.043);
        const levels = [0.041, 0.17, 0.299, 0.428, 0.557].map((z) => ({ z, shape: "mug", at }));
        return ofLevels(levels, grade, { vent: false }).forecast.spread;
      };
      const [wide, tight] = [spread(0.12), spread(0.089)];
      return { effect: tight - wide, unit: "cone", figures: `${wide.toFixed(2)} wide, ${tight.toFixed(2)} tight` };
    },
  },
  {
    id: "shelf-at-sensor",
    says: "A shelf near the sensor makes it read low, and the load over-fires.",
    source: "common practice, no source",
    compares: "the middle shelf's edge level with the sensor against 45 mm below it: mean of the load",
    expected: [-0.15, 0.2],
    run: (grade) => {
      const at = (z: number): number =>
        meanOfLoad(
          ofLevels(
            [0.041, 0.17, z, 0.474, 0.603].map((each) => ({ z: each, shape: "bowl", at: grid(0.17, 0.078) })),
            grade,
          ).forecast,
        );
      const [clear, near] = [at(0.3), at(0.353)];
      return { effect: near - clear, unit: "cone", figures: `${clear.toFixed(2)} clear, ${near.toFixed(2)} level` };
    },
  },
  {
    id: "dense-at-sensor",
    says: "Heavy, crowded layers at the sensor make it read low, and the rest of the load over-fires.",
    source: "common practice, no source",
    compares:
      "four layers of tiles about the sensor's height between two of mugs, against one layer of mugs there, without the vent: mean of the outer mugs",
    expected: [-0.2, 1],
    run: (grade) => {
      const outerMugs = (middle: readonly Level[]): number => {
        const levels = [{ z: 0.041, shape: "mug", at: mugs }, ...middle, { z: 0.42, shape: "mug", at: mugs }];
        const found = ofLevels(levels, grade, { vent: false }).layers;
        return mean([found[0], found.at(-1)!]);
      };
      const airy = outerMugs([{ z: 0.22, shape: "mug", at: mugs }]);
      const dense = outerMugs([0.22, 0.27, 0.32, 0.37].map((z) => ({ z, shape: "tile", at: tiles })));
      return { effect: dense - airy, unit: "cone", figures: `mugs ${airy.toFixed(2)}, tiles ${dense.toFixed(2)}` };
    },
  },
  {
    id: "ringed-flat-ware",
    says: "A flat piece ringed by tall ones lags behind its ring.",
    source: "common practice, no source",
    compares: "a dinner plate amid six vases: ring less plate",
    expected: [0, 0.4],
    run: (grade) => {
      const ringed = plateAmong("vase", 0.19, grade);
      const open = plateAmong("tile", 0.2, grade);
      return {
        effect: ringed,
        unit: "cone",
        figures: `amid vases ${ringed.toFixed(2)}, amid tiles ${open.toFixed(2)}`,
      };
    },
  },
  {
    id: "bottom-gap",
    says: "Put the bottom shelf on 25 mm posts, out of the coolest place.",
    source: "common practice, no source",
    compares: "bottom shelf 25 mm above the floor against 5 mm, without the vent: mean of the bottom layer",
    expected: [-0.05, 0.15],
    run: (grade) => {
      const at = (lift: number): { bottom: number; stress: number } => {
        const levels = [0.016 + lift, 0.17, 0.299, 0.428, 0.557].map((z) => ({ z, shape: "mug", at: mugs }));
        const { layers: found, forecast } = ofLevels(levels, grade, { vent: false });
        return { bottom: found[0], stress: forecast.shelves[0].throughDifference };
      };
      const [high, low] = [at(0.025), at(0.005)];
      return {
        effect: high.bottom - low.bottom,
        unit: "cone",
        figures: `top to underside ${low.stress.toFixed(0)} K at 5 mm, ${high.stress.toFixed(0)} K at 25 mm`,
      };
    },
  },
  {
    id: "tall-at-the-rim",
    says: "Tall pieces in the middle, low ones at the rim, so that all see the elements.",
    source: "common practice, no source",
    compares: "a vase in the middle and tiles round it against the other way about: spread on that shelf",
    expected: [-0.02, 0.3],
    run: (grade) => {
      const middle: readonly (readonly [number, number])[] = [
        [0, 0],
        [0.11, 0],
        [-0.055, 0.095],
        [-0.055, -0.095],
      ];
      const rim = [0, 120, 240].flatMap((base) =>
        [-28, 0, 28].map((off): readonly [number, number] => {
          const angle = ((base + off) * Math.PI) / 180;
          return [0.2 * Math.cos(angle), 0.2 * Math.sin(angle)];
        }),
      );
      const spread = (inside: string, outside: string): number => {
        const load = studyLoad([
          { z: 0.041, shape: "mug", at: mugs },
          { z: 0.2, shape: inside, at: middle, also: [{ shape: outside, at: rim }] },
          { z: 0.48, shape: "mug", at: mugs },
        ]);
        const own = new Set(
          load.setting.pieces.filter((each) => each.shelfId === "shelf-2").map((each) => each.pieceId),
        );
        return spreadOf(
          fire(load, grade)
            .pieces.filter((each) => own.has(each.pieceId))
            .map((each) => each.heatwork.mean),
        );
      };
      const [good, bad] = [spread("vase", "tile"), spread("tile", "vase")];
      return {
        effect: bad - good,
        unit: "cone",
        figures: `tall inside ${good.toFixed(2)}, tall outside ${bad.toFixed(2)}`,
      };
    },
  },
  {
    id: "staggered-halves",
    says: "Half shelves at staggered heights fire more evenly than full layers.",
    source: "common practice, no source",
    compares:
      "five full layers of mugs against five and five half shelves, staggered by half a layer, without the vent",
    expected: [0.1, 0.8],
    run: (grade) => {
      const full = ofLevels(
        [0.041, 0.17, 0.299, 0.428, 0.557].map((z) => ({ z, shape: "mug", at: mugs })),
        grade,
        {
          vent: false,
        },
      ).forecast.spread;
      const half = (side: "left" | "right"): readonly (readonly [number, number])[] =>
        mugs.filter(([x]) => (side === "left" ? x < -0.048 : x > 0.048));
      const staggered = ofLevels(
        [
          ...[0.041, 0.17, 0.299, 0.428, 0.557].map((z) => ({
            z,
            shape: "mug",
            at: half("left"),
            half: "left" as const,
          })),
          ...[0.041, 0.235, 0.364, 0.493].map((z) => ({ z, shape: "mug", at: half("right"), half: "right" as const })),
        ],
        grade,
        { vent: false },
      ).forecast.spread;
      return {
        effect: full - staggered,
        unit: "cone",
        figures: `full ${full.toFixed(2)}, staggered ${staggered.toFixed(2)}`,
      };
    },
  },
  {
    id: "dead-row",
    says: "One level pale every time: its element row is dead.",
    source: "common practice, no source",
    compares: "even mugs with the lowest row dead: bottom layer against the same kiln sound",
    expected: [0.8, 3],
    run: (grade) => {
      const dead = { ...studyKiln, rows: studyKiln.rows.map((row, i) => (i === 0 ? { ...row, condition: 0 } : row)) };
      const load = evenMugs({ kiln: dead });
      const forecast = fire(load, grade, studySchedule(), { vent: false });
      const sound = layers(load, fire(evenMugs(), grade, studySchedule(), { vent: false }));
      const found = layers(load, forecast);
      return {
        effect: sound[0] - found[0],
        unit: "cone",
        figures: `${told(found)}; energy ${(forecast.ledger.electric / 3.6e6).toFixed(1)} kWh`,
      };
    },
  },
  {
    id: "low-voltage",
    says: "Low voltage or worn elements make a firing slow.",
    source: "common practice, no source",
    compares: "208 V on a 240 V kiln of 8.5 kW: hours to the end against 240 V",
    expected: [0.3, 3],
    run: (grade) => {
      const hours = (supplyVoltage: number): number => {
        const rows = studyKiln.rows.map((row) => ({ ...row, power: row.power * 0.74 }));
        return fire(evenMugs({ kiln: { ...studyKiln, rows, supplyVoltage } }), grade).heatingEnds / 3600;
      };
      const [full, low] = [hours(240), hours(208)];
      return { effect: low - full, unit: "h", figures: `${full.toFixed(2)} h, ${low.toFixed(2)} h` };
    },
  },
  {
    id: "hold-narrows",
    says: "A hold at the end evens out the load.",
    source: "common practice, no source",
    compares: "bottom-heavy load, hold of 0, 10, 30, 60 min, vent off: spread without less spread with 60 min",
    expected: [0.3, 1.5],
    run: (grade) => {
      const prepared = prepareFiring(studyLoad(heavyBelow), grade, 1, unattended);
      const spreads = [0, 10, 30, 60].map((minutes) => {
        const run = runFiring(prepared, studySchedule(minutes * 60), { vent: false }, unattended);
        if (!run.ok) throw new Error(run.failure.message);
        return run.value.spread;
      });
      return { effect: spreads[0] - spreads[3], unit: "cone", figures: told(spreads) };
    },
  },
  {
    id: "slow-end-narrows",
    says: "A slower end evens out the load.",
    source: "common practice, no source",
    compares: "bottom-heavy load, last 100 C at 110, 60, 30, 15 C/h: spread at 110 less spread at 15",
    expected: [1, 4.5],
    run: (grade) => {
      const prepared = prepareFiring(studyLoad(heavyBelow), grade, 1, unattended);
      const spreads = [110, 60, 30, 15].map((rate) => {
        const run = runFiring(prepared, studySchedule(0, rate), { vent: false }, unattended);
        if (!run.ok) throw new Error(run.failure.message);
        return run.value.spread;
      });
      return { effect: spreads[0] - spreads[3], unit: "cone", figures: told(spreads) };
    },
  },
];
