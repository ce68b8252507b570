import type { MeshNetwork } from "#engine/conduction";
import { coneNames, heatworkAccumulator, kineticsOf, rampEnd, type HeatworkAccumulator } from "#engine/heatwork";
import type { Mesh } from "#engine/radiation";
import { bodiesOf, extremesOf, meanOf, type BodyNodes } from "./bodies.ts";
import type { Heatwork, History } from "./forecast.ts";

/** Cones kept on either side of the class's. */
const conesAside = 9;

/** Cones to count: about the class's, and about what the schedule's highest target [K] would bring down. */
function coneRange(cone: string, highest: number): { readonly from: string; readonly to: string } {
  const ends = coneNames.map((name) => rampEnd(kineticsOf(name), 60 / 3600));
  const own = Math.max(coneNames.indexOf(cone), 0);
  const below = ends.findLastIndex((end) => end < highest - 250);
  const above = ends.findIndex((end) => end > highest + 100);
  const last = coneNames.length - 1;
  const from = Math.max(Math.min(own - conesAside, below), 0);
  const to = Math.min(Math.max(own + conesAside, above < 0 ? last : above), last);
  return { from: coneNames[from]!, to: coneNames[to]! };
}

class Trace {
  readonly coldest: number[] = [];
  readonly mean: number[] = [];
  readonly hottest: number[] = [];
  peak = 0;

  constructor(readonly of: BodyNodes) {}

  note(state: Float64Array): void {
    const [coldest, hottest] = extremesOf(state, this.of.nodes);
    this.coldest.push(coldest);
    this.mean.push(meanOf(state, this.of.nodes, this.of.share));
    this.hottest.push(hottest);
    this.peak = Math.max(this.peak, hottest);
  }

  history(keep: readonly number[]): History {
    // To 0.01 K: what is stored and sent, not what is counted.
    const pick = (values: readonly number[]): number[] => keep.map((i) => Math.round(values[i]! * 100) / 100);
    return { coldest: pick(this.coldest), mean: pick(this.mean), hottest: pick(this.hottest) };
  }
}

/** Watches ware, shelves and cones while a firing runs: histories at every step, heat work at every stage. */
export class Recorder {
  readonly times: number[] = [];
  readonly scheduled: number[] = [];
  readonly power: number[] = [];
  readonly readings: number[][] = [];
  readonly pieces;
  readonly shelves;
  readonly cones;
  /** Largest mean difference between a shelf's top and underside while heating [K], by shelf. */
  readonly throughDifference: number[];
  private readonly counted: Int32Array;
  private readonly temperatures: Float64Array;
  private readonly placeOf = new Map<number, number>();
  private readonly heatwork: HeatworkAccumulator;

  constructor(mesh: Mesh, network: MeshNetwork, state: Float64Array, cone: string, highest: number) {
    this.pieces = bodiesOf(mesh, network, "piece").map((of) => ({ body: of.body, trace: new Trace(of) }));
    this.shelves = bodiesOf(mesh, network, "shelf").map((of) => ({ body: of.body, trace: new Trace(of) }));
    this.cones = bodiesOf(mesh, network, "cones");
    this.throughDifference = this.shelves.map(() => 0);
    const all: number[] = [];
    for (const { trace } of [...this.pieces, ...this.shelves]) all.push(...trace.of.nodes);
    for (const { nodes } of this.cones) all.push(...nodes);
    all.forEach((node, place) => this.placeOf.set(node, place));
    this.counted = Int32Array.from(all);
    this.temperatures = new Float64Array(all.length);
    this.heatwork = heatworkAccumulator(this.gather(state), coneRange(cone, highest));
  }

  private gather(state: Float64Array): Float64Array {
    for (let i = 0; i < this.counted.length; i++) this.temperatures[i] = state[this.counted[i]!]!;
    return this.temperatures;
  }

  count(seconds: number, state: Float64Array): void {
    this.heatwork.add(seconds, this.gather(state));
  }

  note(
    time: number,
    state: Float64Array,
    now: { readonly scheduled: number; readonly readings: readonly number[]; readonly power: number },
    heating: boolean,
  ): void {
    this.times.push(time);
    this.scheduled.push(now.scheduled);
    this.readings.push([...now.readings]);
    this.power.push(now.power);
    for (const { trace } of this.pieces) trace.note(state);
    this.shelves.forEach(({ trace }, i) => {
      trace.note(state);
      if (!heating) return;
      const difference = Math.abs(meanOf(state, trace.of.front) - meanOf(state, trace.of.back));
      this.throughDifference[i] = Math.max(this.throughDifference[i]!, difference);
    });
  }

  heatworkOf(of: BodyNodes): Heatwork {
    let coldest = Infinity;
    let hottest = -Infinity;
    let mean = 0;
    of.nodes.forEach((node, i) => {
      const position = this.heatwork.positionOf(this.placeOf.get(node)!);
      coldest = Math.min(coldest, position);
      hottest = Math.max(hottest, position);
      mean += of.share[i]! * position;
    });
    return { coldest, mean, hottest };
  }
}
