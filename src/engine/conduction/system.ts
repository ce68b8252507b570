import { requireThat } from "#base";
import { heatContentAt, lineAt, rawClay, specificHeatAt } from "#engine/materials";
import {
  factorTridiagonal,
  plainProduct,
  solveTridiagonal,
  tridiagonalFactors,
  type SparseProduct,
  type SparseRows,
} from "#engine/numerics";
import type { Exchange } from "#engine/radiation";
import type { Heater } from "./heater.ts";
import type { Network } from "./network.ts";
import { RawWare } from "./raw-ware.ts";

/** Stefan-Boltzmann constant, exact in the SI since 2019 to the digits shown [W/(m2 K4)]. Source: [codata-2018] */
export const stefanBoltzmann = 5.670374419e-8;

/** Exchange areas in single precision, rows of the full symmetric matrix. */
export function exchangeRows(exchange: Exchange): SparseRows {
  return { rowStart: exchange.rowStart, column: exchange.column, value: Float32Array.from(exchange.exchangeArea) };
}

/** Where heat went in one instant [W]. */
export interface Flows {
  /** By heater. */
  power: Float64Array;
  lostBySkin: number;
  lostByVent: number;
  /** Into the network from nodes held at a given temperature. */
  fromPrescribed: number;
}

/**
 * The equations of a network: net heat into every vertex, and the exact derivative of that.
 *
 * State: temperature [K] of a node, radiosity [W/m2] of a grey surface, by vertex. For node i the balance is
 * dH_i/dt = q_i(state); for a node without mass and for a radiosity, q_i = 0. Radiation is grey and diffuse:
 * the surface resistance (1 - e)/(e A) stands between a face's black-body emission and its radiosity, and
 * radiosities exchange A_i F_ij (J_i - J_j). All flows but the vent's come in equal and opposite pairs, so heat is
 * neither made nor lost however coarse the mesh.
 */
export class ThermalSystem {
  readonly size: number;
  readonly flows: Flows;
  private readonly product: SparseProduct;
  private readonly patchCount: number;
  private readonly rowSum: Float64Array;
  private readonly selfExchange: Float64Array;
  /** By patch: node, radiosity vertex or -1, and emissivity/(1 - emissivity) x area [m2]. */
  private readonly patchNode: Int32Array;
  private readonly patchRadiosity: Int32Array;
  private readonly patchGain: Float64Array;
  private readonly emissivityBase: Float64Array;
  private readonly emissivitySlope: Float64Array;
  private readonly emission: Float64Array;
  private readonly emissionSlope: Float64Array;
  private readonly radiosity: Float64Array;
  private readonly received: Float64Array;
  private readonly linkA: Int32Array;
  private readonly linkB: Int32Array;
  private readonly linkBase: Float64Array;
  private readonly linkSlope: Float64Array;
  private readonly linkByA: Float64Array;
  private readonly linkByB: Float64Array;
  private readonly radiantByA: Float64Array;
  private readonly radiantByB: Float64Array;
  private readonly skinSlope: Float64Array;
  private readonly storage: Float64Array;
  /** Unknown per step of the iteration: K for nodes; for radiosities the same in terms of 4 sigma T^3. */
  private readonly scale: Float64Array;
  private readonly below: Float64Array;
  private readonly diagonal: Float64Array;
  private readonly above: Float64Array;
  private readonly factors;
  private readonly leadConductance: Float64Array[];
  private readonly delay: Float64Array;
  private readonly heldTemperature: Float64Array;
  readonly rawWare: RawWare;

  constructor(
    readonly network: Network,
    rows: SparseRows,
    readonly heaters: readonly Heater[],
    private readonly room: number,
    makeProduct: (rows: SparseRows) => SparseProduct = plainProduct,
  ) {
    const { vertexCount, surfaces, links } = network;
    this.size = vertexCount;
    this.product = makeProduct(rows);
    this.patchCount = rows.rowStart.length - 1;
    requireThat(surfaces.length === this.patchCount, "surfaces.length", surfaces.length, `${this.patchCount} patches`);
    this.rowSum = new Float64Array(this.patchCount);
    this.selfExchange = new Float64Array(this.patchCount);
    for (let p = 0; p < this.patchCount; p++) {
      for (let k = rows.rowStart[p]!; k < rows.rowStart[p + 1]!; k++) {
        this.rowSum[p]! += rows.value[k]!;
        if (rows.column[k] === p) this.selfExchange[p]! += rows.value[k]!;
      }
    }
    this.patchNode = new Int32Array(this.patchCount).fill(-1);
    this.patchRadiosity = new Int32Array(this.patchCount);
    this.emissivityBase = new Float64Array(this.patchCount);
    this.emissivitySlope = new Float64Array(this.patchCount);
    for (const { patch, node, radiosity, emissivity } of surfaces) {
      this.patchNode[patch] = node;
      this.patchRadiosity[patch] = radiosity;
      this.emissivityBase[patch] = lineAt(emissivity, 0);
      this.emissivitySlope[patch] = emissivity.slope;
    }
    requireThat(this.patchNode.indexOf(-1) < 0, "surfaces", this.patchNode.indexOf(-1), "a node for every patch");
    this.patchGain = new Float64Array(this.patchCount);
    this.emission = new Float64Array(this.patchCount);
    this.emissionSlope = new Float64Array(this.patchCount);
    this.radiosity = new Float64Array(this.patchCount);
    this.received = new Float64Array(this.patchCount);
    this.linkA = Int32Array.from(links, (link) => link.a);
    this.linkB = Int32Array.from(links, (link) => link.b);
    this.linkBase = Float64Array.from(links, (link) => link.shape * lineAt(link.conductivity, 0));
    this.linkSlope = Float64Array.from(links, (link) => link.shape * link.conductivity.slope);
    this.linkByA = new Float64Array(links.length);
    this.linkByB = new Float64Array(links.length);
    this.radiantByA = new Float64Array(network.radiantLinks.length);
    this.radiantByB = new Float64Array(network.radiantLinks.length);
    this.skinSlope = new Float64Array(network.skins.length);
    this.storage = new Float64Array(vertexCount);
    this.scale = new Float64Array(vertexCount).fill(1);
    this.below = new Float64Array(vertexCount);
    this.diagonal = new Float64Array(vertexCount);
    this.above = new Float64Array(vertexCount);
    this.factors = tridiagonalFactors(vertexCount);
    this.leadConductance = heaters.map((heater) => new Float64Array(heater.sensors.length));
    this.delay = new Float64Array(heaters.length);
    this.heldTemperature = new Float64Array(network.prescribed.length);
    this.rawWare = new RawWare(network.raw, rawClay);
    this.flows = { power: new Float64Array(heaters.length), lostBySkin: 0, lostByVent: 0, fromPrescribed: 0 };
  }

  /** A state with everything at one temperature, radiosities in balance. */
  uniform(temperature: number): Float64Array {
    const emission = stefanBoltzmann * temperature ** 4;
    const state = Float64Array.from(this.network.isNode, (node) => (node ? temperature : emission));
    this.network.prescribed.forEach(({ node, temperature: held }) => (state[node] = held(0)));
    return state;
  }

  /** Fixes what changes slowly (emissivities, the sensors' delay) for a step that starts from `state`. */
  beginStep(state: Float64Array): void {
    for (let p = 0; p < this.patchCount; p++) {
      if (this.patchRadiosity[p]! < 0) continue;
      const value = this.emissivityBase[p]! + this.emissivitySlope[p]! * state[this.patchNode[p]!]!;
      const emissivity = Math.min(Math.max(value, 0.02), 0.9995);
      this.patchGain[p] = (this.rowSum[p]! * emissivity) / (1 - emissivity);
    }
    this.heaters.forEach((heater, h) => {
      let delay = 0;
      for (let s = 0; s < heater.sensors.length; s++) {
        const node = heater.sensors[s]!;
        const conductance = this.conductanceToSurroundings(node, state);
        this.leadConductance[h]![s] = conductance;
        delay += (heater.weights[s]! * this.capacityOf(node, state[node]!)) / conductance;
      }
      this.delay[h] = delay;
    });
  }

  private capacityOf(node: number, temperature: number): number {
    const { mass, heats, heatOf } = this.network;
    return mass[node]! > 0 ? mass[node]! * specificHeatAt(heats[heatOf[node]!]!, temperature) : 0;
  }

  /** What a node would lose per kelvin to radiation and air with everything around it held [W/K]. */
  private conductanceToSurroundings(node: number, state: Float64Array): number {
    let sum = 0;
    const slope = 4 * stefanBoltzmann * state[node]! ** 3;
    for (let p = 0; p < this.patchCount; p++) {
      if (this.patchNode[p] !== node) continue;
      const gain = this.patchGain[p]!;
      const net = this.rowSum[p]!;
      sum += slope * (this.patchRadiosity[p]! < 0 ? net : (gain * net) / (gain + net));
    }
    this.network.links.forEach(({ a, b, shape, conductivity }) => {
      if (a === node || b === node) sum += shape * lineAt(conductivity, state[node]!);
    });
    return sum;
  }

  holdPrescribed(time: number): void {
    this.network.prescribed.forEach(({ temperature }, i) => (this.heldTemperature[i] = temperature(time)));
  }

  /** Heat content of every massive vertex [J], into `heat`. */
  contents(state: Float64Array, heat: Float64Array): void {
    const { massive, mass, heatOf, heats } = this.network;
    for (const i of massive) heat[i] = mass[i]! * heatContentAt(heats[heatOf[i]!]!, state[i]!);
    this.rawWare.addContents(state, heat);
  }

  /** Net heat flow into every vertex [W], into `q`; what crosses the boundary, into `flows`. */
  evaluate(state: Float64Array, q: Float64Array): void {
    const { patchCount, patchNode, patchRadiosity, patchGain, emission, radiosity, received, rowSum, flows } = this;
    q.fill(0);
    for (let p = 0; p < patchCount; p++) {
      const t = state[patchNode[p]!]!;
      const black = stefanBoltzmann * t * t * t * t;
      emission[p] = black;
      const vertex = patchRadiosity[p]!;
      radiosity[p] = vertex < 0 ? black : state[vertex]!;
    }
    this.product.multiply(radiosity, received);
    for (let p = 0; p < patchCount; p++) {
      const net = rowSum[p]! * radiosity[p]! - received[p]!;
      const vertex = patchRadiosity[p]!;
      if (vertex < 0) {
        q[patchNode[p]!]! -= net;
      } else {
        const leaving = patchGain[p]! * (emission[p]! - radiosity[p]!);
        q[patchNode[p]!]! -= leaving;
        q[vertex]! += leaving - net;
      }
    }
    const { linkA, linkB, linkBase, linkSlope } = this;
    for (let k = 0; k < linkA.length; k++) {
      const a = state[linkA[k]!]!;
      const b = state[linkB[k]!]!;
      const flow = (linkBase[k]! + (linkSlope[k]! * (a + b)) / 2) * (a - b);
      q[linkA[k]!]! -= flow;
      q[linkB[k]!]! += flow;
    }
    for (const { a, b, area } of this.network.radiantLinks) {
      const flow = area * stefanBoltzmann * (state[a]! ** 4 - state[b]! ** 4);
      q[a]! -= flow;
      q[b]! += flow;
    }
    flows.lostBySkin = 0;
    for (const { node, area, convection, emissivity } of this.network.skins) {
      const t = state[node]!;
      const over = t - this.room;
      const loss =
        area *
        (convection * over * Math.cbrt(Math.abs(over)) + emissivity * stefanBoltzmann * (t ** 4 - this.room ** 4));
      q[node]! -= loss;
      flows.lostBySkin += loss;
    }
    flows.lostByVent = 0;
    for (const { from, to, capacityFlow, leaves } of this.network.streams) {
      q[to]! += capacityFlow * ((from < 0 ? this.room : state[from]!) - state[to]!);
      if (leaves) flows.lostByVent += capacityFlow * (state[to]! - this.room);
    }
    this.heaters.forEach((heater, h) => {
      let sensor = 0;
      let lead = 0;
      for (let s = 0; s < heater.sensors.length; s++) {
        const node = heater.sensors[s]!;
        sensor += heater.weights[s]! * state[node]!;
        lead += (heater.weights[s]! * q[node]!) / this.leadConductance[h]![s]!;
      }
      heater.evaluate(sensor, sensor + lead, this.delay[h]!);
      flows.power[h] = heater.power;
    });
    for (const heater of this.heaters) {
      for (let n = 0; n < heater.nodes.length; n++) q[heater.nodes[n]!]! += heater.shares[n]! * heater.power;
    }
    flows.fromPrescribed = 0;
    this.network.prescribed.forEach(({ node }, i) => {
      flows.fromPrescribed -= q[node]!;
      q[node] = this.heldTemperature[i]! - state[node]!;
    });
  }

  /**
   * Takes the derivative at `state`, where `evaluate` was called last, of heat content / weight - q.
   *
   * @param weight  of the newest stage [s]: the step's implicit part
   */
  linearise(state: Float64Array, weight: number): void {
    const { network, storage, scale, below, diagonal, above, patchCount } = this;
    const { massive, mass, heatOf, heats } = network;
    storage.fill(0);
    for (const i of massive) storage[i] = (mass[i]! * specificHeatAt(heats[heatOf[i]!]!, state[i]!)) / weight;
    this.rawWare.addStorage(storage, weight);
    diagonal.set(storage);
    below.fill(0);
    above.fill(0);
    for (let p = 0; p < patchCount; p++) {
      const node = this.patchNode[p]!;
      const t = state[node]!;
      const slope = 4 * stefanBoltzmann * t * t * t;
      this.emissionSlope[p] = slope;
      const vertex = this.patchRadiosity[p]!;
      const net = this.rowSum[p]! - this.selfExchange[p]!;
      if (vertex < 0) {
        diagonal[node]! += slope * net;
      } else {
        const gain = this.patchGain[p]! * slope;
        scale[vertex] = slope;
        diagonal[node]! += gain;
        diagonal[vertex]! += gain + slope * net;
        this.couple(node, vertex, -gain, -gain);
      }
    }
    for (let k = 0; k < this.linkA.length; k++) {
      const a = this.linkA[k]!;
      const b = this.linkB[k]!;
      const byA = this.linkBase[k]! + this.linkSlope[k]! * state[a]!;
      const byB = this.linkBase[k]! + this.linkSlope[k]! * state[b]!;
      this.linkByA[k] = byA;
      this.linkByB[k] = byB;
      diagonal[a]! += byA;
      diagonal[b]! += byB;
      this.couple(a, b, -byB, -byA);
    }
    network.radiantLinks.forEach(({ a, b, area }, k) => {
      this.radiantByA[k] = area * 4 * stefanBoltzmann * state[a]! ** 3;
      this.radiantByB[k] = area * 4 * stefanBoltzmann * state[b]! ** 3;
      diagonal[a]! += this.radiantByA[k]!;
      diagonal[b]! += this.radiantByB[k]!;
      this.couple(a, b, -this.radiantByB[k]!, -this.radiantByA[k]!);
    });
    network.skins.forEach(({ node, area, convection, emissivity }, k) => {
      const t = state[node]!;
      const convected = (4 / 3) * convection * Math.cbrt(Math.abs(t - this.room));
      this.skinSlope[k] = area * (convected + emissivity * 4 * stefanBoltzmann * t ** 3);
      diagonal[node]! += this.skinSlope[k]!;
    });
    for (const { from, to, capacityFlow } of network.streams) {
      diagonal[to]! += capacityFlow;
      if (from >= 0) this.couple(to, from, -capacityFlow, 0);
    }
    for (const { node } of network.prescribed) {
      diagonal[node] = 1;
      below[node] = 0;
      above[node] = 0;
    }
    // A face that is wholly covered exchanges nothing: its radiosity may be anything.
    for (let i = 0; i < this.size; i++) if (diagonal[i] === 0) diagonal[i] = 1;
    factorTridiagonal(below, diagonal, above, this.factors);
  }

  /** Notes the entries (row, column) and (column, row) if both vertices are neighbours in number. */
  private couple(row: number, column: number, entry: number, mirrored: number): void {
    if (column === row + 1) {
      this.above[row]! += entry;
      this.below[column]! += mirrored;
    } else if (column === row - 1) {
      this.below[row]! += entry;
      this.above[column]! += mirrored;
    }
  }

  /** y = derivative x v, at the point last linearised. */
  readonly applyDerivative = (v: Float64Array, y: Float64Array): void => {
    const { network, patchCount, patchNode, patchRadiosity, patchGain, emissionSlope, radiosity, received } = this;
    for (let i = 0; i < this.size; i++) y[i] = this.storage[i]! * v[i]!;
    for (let p = 0; p < patchCount; p++) {
      const vertex = patchRadiosity[p]!;
      radiosity[p] = emissionSlope[p]! * v[vertex < 0 ? patchNode[p]! : vertex]!;
    }
    this.product.multiply(radiosity, received);
    for (let p = 0; p < patchCount; p++) {
      const net = this.rowSum[p]! * radiosity[p]! - received[p]!;
      const node = patchNode[p]!;
      const vertex = patchRadiosity[p]!;
      if (vertex < 0) {
        y[node]! += net;
      } else {
        const leaving = patchGain[p]! * (emissionSlope[p]! * v[node]! - radiosity[p]!);
        y[node]! += leaving;
        y[vertex]! += net - leaving;
      }
    }
    const { linkA, linkB, linkByA, linkByB } = this;
    for (let k = 0; k < linkA.length; k++) {
      const a = linkA[k]!;
      const b = linkB[k]!;
      const flow = linkByA[k]! * v[a]! - linkByB[k]! * v[b]!;
      y[a]! += flow;
      y[b]! -= flow;
    }
    for (let k = 0; k < network.radiantLinks.length; k++) {
      const { a, b } = network.radiantLinks[k]!;
      const flow = this.radiantByA[k]! * v[a]! - this.radiantByB[k]! * v[b]!;
      y[a]! += flow;
      y[b]! -= flow;
    }
    for (let k = 0; k < network.skins.length; k++) {
      const node = network.skins[k]!.node;
      y[node]! += this.skinSlope[k]! * v[node]!;
    }
    for (const { from, to, capacityFlow } of network.streams) {
      y[to]! += capacityFlow * (v[to]! - (from < 0 ? 0 : v[from]!));
    }
    for (let h = 0; h < this.heaters.length; h++) {
      const heater = this.heaters[h]!;
      if (heater.bySensor === 0 && heater.byLead === 0) continue;
      let sensor = 0;
      let lead = 0;
      for (let s = 0; s < heater.sensors.length; s++) {
        const node = heater.sensors[s]!;
        sensor += heater.weights[s]! * v[node]!;
        // y holds -dq of the sensor node, and its storage, which is no flow.
        lead -= (heater.weights[s]! * (y[node]! - this.storage[node]! * v[node]!)) / this.leadConductance[h]![s]!;
      }
      const power = heater.bySensor * sensor + heater.byLead * (sensor + lead);
      for (let n = 0; n < heater.nodes.length; n++) y[heater.nodes[n]!]! -= heater.shares[n]! * power;
    }
    for (const { node } of network.prescribed) y[node] = v[node]!;
  };

  /** Solves, in place, with the part of the derivative that couples vertices neighbouring in number. */
  readonly precondition = (v: Float64Array): void => {
    solveTridiagonal(this.factors, v);
  };

  /** Adds an increment in the iteration's units to the state. */
  addIncrement(state: Float64Array, increment: Float64Array): void {
    for (let i = 0; i < this.size; i++) state[i]! += this.scale[i]! * increment[i]!;
  }
}
