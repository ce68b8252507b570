import { stageWeight } from "./heater.ts";
import { stores, type Store } from "./network.ts";
import type { Flows, ThermalSystem } from "./system.ts";

/** Heat in, out and stored since the start [J]. */
export interface LedgerTotals {
  readonly electric: number;
  readonly fromPrescribed: number;
  readonly stored: Readonly<Record<Store, number>>;
  readonly reactions: number;
  readonly lostBySkin: number;
  readonly lostByVent: number;
  /** What is missing or too much, over all that came in [-]. */
  readonly imbalance: number;
}

/**
 * Books heat in and out with the weights of the time step itself, so that what is left over shows equations that were
 * not solved, not the coarseness of the step.
 */
export class Ledger {
  private readonly power: [Float64Array, Float64Array];
  private readonly boundary: [Boundary, Boundary] = [nothing(), nothing()];
  private electric = 0;
  private readonly total = nothing();
  private atStart: Float64Array = new Float64Array(stores.length);

  constructor(private readonly system: ThermalSystem) {
    this.power = [new Float64Array(system.heaters.length), new Float64Array(system.heaters.length)];
  }

  begin(contents: Float64Array): void {
    this.atStart = this.byStore(contents);
  }

  noteStart(flows: Flows): void {
    this.power[0].set(flows.power);
    copy(flows, this.boundary[0]);
  }

  noteMiddle(flows: Flows): void {
    this.power[1].set(flows.power);
    copy(flows, this.boundary[1]);
  }

  /** Books the step whose end has the given flows. */
  add(length: number, end: Flows): void {
    const earlier = stageWeight.earlier * length;
    const newest = stageWeight.newest * length;
    for (let h = 0; h < end.power.length; h++) {
      this.electric += earlier * (this.power[0][h] + this.power[1][h]) + newest * end.power[h];
    }
    const [start, middle] = this.boundary;
    for (const way of ways) this.total[way] += earlier * (start[way] + middle[way]) + newest * end[way];
    this.noteStart(end);
  }

  totals(contents: Float64Array): LedgerTotals {
    const now = this.byStore(contents);
    const reactions = this.system.rawWare.taken();
    const gained = stores.map((_, s) => now[s] - this.atStart[s]);
    const stored = Object.fromEntries(stores.map((store, s) => [store, gained[s]])) as Record<Store, number>;
    stored.ware -= reactions;
    const { lostBySkin, lostByVent, fromPrescribed } = this.total;
    const held = gained.reduce((sum, heat) => sum + heat, 0);
    const left = this.electric + fromPrescribed - held - lostBySkin - lostByVent;
    const turnover = Math.max(Math.abs(this.electric) + Math.abs(fromPrescribed), Math.abs(held), 1e-9);
    return {
      electric: this.electric,
      fromPrescribed,
      stored,
      reactions,
      lostBySkin,
      lostByVent,
      imbalance: Math.abs(left) / turnover,
    };
  }

  private byStore(contents: Float64Array): Float64Array {
    const { massive, storeOf } = this.system.network;
    const sum = new Float64Array(stores.length);
    for (const i of massive) sum[storeOf[i]] += contents[i];
    return sum;
  }
}

type Boundary = { lostBySkin: number; lostByVent: number; fromPrescribed: number };
const ways = ["lostBySkin", "lostByVent", "fromPrescribed"] as const;
const nothing = (): Boundary => ({ lostBySkin: 0, lostByVent: 0, fromPrescribed: 0 });

function copy(from: Flows, to: Boundary): void {
  for (const way of ways) to[way] = from[way];
}
