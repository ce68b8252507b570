import { failure, success, type Outcome, type RunControl } from "#base";
import { exchangeRows, NetworkBuilder, ThermalSystem, TimeStepper } from "#engine/conduction";
import { heatContentOf } from "#engine/materials";
import { depthGrid, discGrid, addRingSolid, type RingGrid, type RingMatter, type RingSolid } from "./enclosure-mesh.ts";
import { gradedLine } from "./graded-line.ts";
import { piecewiseLinear } from "./lumped.ts";
import { ringExchange, type Ring } from "./ring-exchange.ts";

interface CaseMatter {
  readonly k: number;
  readonly rho: number;
  readonly cp: number;
  readonly emissivity: number;
}

interface CaseDisc extends CaseMatter {
  readonly r: number;
  readonly z0: number;
  readonly z1: number;
}

/** A closed cylinder with a hot band in its wall, a shelf and a piece floating in it; all SI and kelvin. */
export interface EnclosureCase {
  readonly enclosure: { readonly R: number; readonly H: number; readonly t: number };
  readonly band: { readonly z0: number; readonly z1: number; readonly emissivity: number };
  readonly wall: CaseMatter;
  readonly shelf: CaseDisc;
  readonly piece: CaseDisc;
  readonly T0: number;
  readonly band_T: readonly (readonly [number, number])[];
  readonly t_end: number;
}

export interface EnclosureResult {
  /** Every 600 s. */
  readonly t_s: readonly number[];
  /** By probe, one temperature per time [K]. */
  readonly probes: Readonly<Record<string, readonly number[]>>;
}

export interface EnclosureAccuracy {
  readonly grid: RingGrid;
  readonly raysPerRing: number;
  /** Error allowed per time step [K]. */
  readonly perStep: number;
}

export const usualEnclosureAccuracy: EnclosureAccuracy = {
  grid: { first: 0.015, growth: 0.15, widest: 0.05, deepest: 0.03 },
  raysPerRing: 16384,
  perStep: 0.05,
};

const interval = 600;

/**
 * Temperatures in a heated enclosure at its probes, every 600 s [K].
 *
 * Rings of revolution throughout: conduction in r and z, view factors between rings by rays.
 *
 * @returns a failure in plain words naming the field, if the case makes no sense or cannot be solved
 * @throws Cancelled when `control` asks to stop
 *
 * Accuracy: against two finer axisymmetric answers in verification/enclosures.ts.
 */
export function solveEnclosure(
  problem: EnclosureCase,
  control: RunControl,
  accuracy: EnclosureAccuracy = usualEnclosureAccuracy,
): Outcome<EnclosureResult, string> {
  const fault = enclosureFault(problem);
  if (fault) return failure(fault);
  const { enclosure, band, wall, shelf, piece } = problem;
  const { R, H, t } = enclosure;
  const { grid } = accuracy;
  const builder = new NetworkBuilder();
  const rings: Ring[] = [];
  const wallMatter = matterOf(wall);
  const cavity = { solid: -1 } as const;
  const across = (): Float64Array => gradedLine(R, grid.widest * R, grid.first * t * 2, grid.growth, grid.widest * R);
  const depth = depthGrid(t, grid);
  const floor = addRingSolid(builder, rings, across(), depth.map((d) => -d).reverse(), wallMatter, {
    ...cavity,
    top: true,
  });
  const lid = addRingSolid(
    builder,
    rings,
    across(),
    depth.map((d) => H + d),
    wallMatter,
    { ...cavity, bottom: true },
  );
  const around = depth.map((d) => R + d);
  for (const [from, to] of [
    [0, band.z0],
    [band.z1, H],
  ] as const) {
    if (to - from < 1e-9) continue;
    const z = gradedLine(to - from, grid.first * t * 2, grid.first * t * 2, grid.growth, grid.widest * H).map(
      (s) => s + from,
    );
    addRingSolid(builder, rings, around, z, wallMatter, { ...cavity, inside: true });
  }
  const hot = builder.node(0, null, "fittings");
  builder.prescribe(hot, (time) => piecewiseLinear(problem.band_T, time));
  const bands = Math.max(4, Math.ceil((band.z1 - band.z0) / (grid.widest * H)));
  for (let i = 0; i < bands; i++) {
    const z0 = band.z0 + ((band.z1 - band.z0) * i) / bands;
    const z1 = band.z0 + ((band.z1 - band.z0) * (i + 1)) / bands;
    const patch = rings.push({ facing: "in", r0: R, r1: R, z0, z1, solid: -1 }) - 1;
    builder.surface(patch, hot, { base: band.emissivity, slope: 0 });
  }
  const solids = [shelf, piece].map((disc, solid): RingSolid => {
    const { r, z } = discGrid(disc.r, disc.z0, disc.z1, grid);
    return addRingSolid(builder, rings, r, z, matterOf(disc), { solid, top: true, bottom: true, outside: true });
  });
  const exchange = ringExchange(R, H, [shelf, piece], rings, accuracy.raysPerRing, control);
  const network = builder.build();
  const system = new ThermalSystem(network, exchangeRows(exchange), [], problem.T0);
  const stepper = new TimeStepper(
    system,
    // While all is cold, small differences of radiosity carry the heat: they need far tighter balance than the step.
    { perStep: accuracy.perStep, balance: 1e-5, shortest: 1e-4, longest: interval },
    network.massive,
    system.uniform(problem.T0),
    1,
  );
  const probes = probesOf(floor, lid, solids[0]!, solids[1]!);
  const times: number[] = [];
  const values: Record<string, number[]> = Object.fromEntries(Object.keys(probes).map((name) => [name, []]));
  const corners = problem.band_T.map(([time]) => time);
  for (let time = interval; time <= problem.t_end + 1e-6; time += interval) {
    const stops = [...corners.filter((corner) => corner > stepper.time && corner < time), time].sort((a, b) => a - b);
    for (const stop of stops) {
      while (stepper.time < stop - 1e-6) {
        control.progress(stepper.time / problem.t_end, "heating");
        const step = stepper.step(stop);
        if (!step.ok) return failure(`the equations could not be solved beyond ${step.failure.time} s`);
      }
      if (corners.includes(stop)) stepper.restart();
    }
    times.push(time);
    for (const [name, read] of Object.entries(probes)) values[name]!.push(read(stepper.state));
  }
  return success({ t_s: times, probes: values });
}

function matterOf({ k, rho, cp, emissivity }: CaseMatter): RingMatter {
  return { k, rho, emissivity, heat: heatContentOf([[20, cp]]) };
}

/**
 * A rim probe is the mean of the face over the outermost 2 % of the radius (its value at 99 %). At the very corner,
 * where heat comes in from two sides, the temperature changes by up to 10 K within that ring; the reference answers'
 * own outermost rings are about that wide.
 */
const rimRing = 0.99;

type Probe = (state: Float64Array) => number;

function probesOf(floor: RingSolid, lid: RingSolid, shelf: RingSolid, piece: RingSolid): Record<string, Probe> {
  const at = (solid: RingSolid, r: number, z: number): Probe => interpolate(solid, r, z);
  const top = (solid: RingSolid): number => solid.z.at(-1)!;
  const bottom = (solid: RingSolid): number => solid.z[0]!;
  const rim = (solid: RingSolid): number => solid.r.at(-1)!;
  const middle = (solid: RingSolid): number => (top(solid) + bottom(solid)) / 2;
  const mean =
    (solid: RingSolid): Probe =>
    (state) =>
      solid.nodes.reduce((sum, node, i) => sum + state[node]! * solid.share[i]!, 0);
  return {
    floor_center: at(floor, 0, top(floor)),
    lid_center: at(lid, 0, bottom(lid)),
    shelf_bottom_center: at(shelf, 0, bottom(shelf)),
    shelf_top_center: at(shelf, 0, top(shelf)),
    shelf_rim_top: at(shelf, rimRing * rim(shelf), top(shelf)),
    shelf_rim_bottom: at(shelf, rimRing * rim(shelf), bottom(shelf)),
    piece_core: at(piece, 0, middle(piece)),
    piece_side_mid: at(piece, rim(piece), middle(piece)),
    piece_top_center: at(piece, 0, top(piece)),
    piece_bottom_center: at(piece, 0, bottom(piece)),
    shelf_mean: mean(shelf),
    piece_mean: mean(piece),
  };
}

/** Temperature between the nodes, straight in r and z. */
function interpolate({ r, z, nodes }: RingSolid, atR: number, atZ: number): Probe {
  const place = (points: Float64Array, at: number): readonly [number, number] => {
    let i = 0;
    while (i < points.length - 2 && points[i + 1]! < at) i++;
    return [i, (at - points[i]!) / (points[i + 1]! - points[i]!)];
  };
  const [i, u] = place(r, atR);
  const [k, v] = place(z, atZ);
  const node = (di: number, dk: number): number => nodes[(k + dk) * r.length + i + di]!;
  return (state) =>
    (1 - v) * ((1 - u) * state[node(0, 0)]! + u * state[node(1, 0)]!) +
    v * ((1 - u) * state[node(0, 1)]! + u * state[node(1, 1)]!);
}

/** What is wrong with a case, naming the field, or null. */
function enclosureFault(problem: EnclosureCase): string | null {
  const positive: [string, number][] = [
    ["enclosure.R", problem.enclosure.R],
    ["enclosure.H", problem.enclosure.H],
    ["enclosure.t", problem.enclosure.t],
    ["T0", problem.T0],
    ["t_end", problem.t_end],
  ];
  for (const part of ["wall", "shelf", "piece"] as const) {
    for (const name of ["k", "rho", "cp", "emissivity"] as const)
      positive.push([`${part}.${name}`, problem[part][name]]);
  }
  for (const [name, value] of positive) {
    if (!(Number.isFinite(value) && value > 0)) return `${name} is ${value}; give a number above 0`;
  }
  for (const part of ["wall", "shelf", "piece", "band"] as const) {
    if (!(problem[part].emissivity > 0 && problem[part].emissivity <= 1)) {
      return `${part}.emissivity is ${problem[part].emissivity}; give a number above 0, at most 1`;
    }
  }
  const { R, H } = problem.enclosure;
  const { band, shelf, piece } = problem;
  if (!(band.z0 >= 0 && band.z1 > band.z0 && band.z1 <= H))
    return `band.z0, band.z1 are ${band.z0}, ${band.z1}; they must rise within 0..${H}`;
  for (const part of ["shelf", "piece"] as const) {
    const { r, z0, z1 } = problem[part];
    if (!(r > 0 && r < R)) return `${part}.r is ${r}; it must lie between 0 and ${R}`;
    if (!(z0 > 0 && z1 > z0 && z1 < H)) return `${part}.z0, ${part}.z1 are ${z0}, ${z1}; they must rise within 0..${H}`;
  }
  if (piece.z0 < shelf.z1 && shelf.z0 < piece.z1) return "shelf and piece overlap in height; move one of them";
  if (problem.band_T.length === 0) return "band_T is empty; give [time, temperature] pairs";
  return null;
}
