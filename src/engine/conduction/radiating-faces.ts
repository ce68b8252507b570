import { requireThat } from "#base";
import { lineAt } from "#engine/materials";
import { plainProduct, type SparseProduct, type SparseRows } from "#engine/numerics";
import type { Exchange } from "#engine/radiation";
import type { Network } from "./network.ts";
import type { TridiagonalPart } from "./tridiagonal-part.ts";

/** Stefan-Boltzmann constant, exact in the SI since 2019 to the digits shown [W/(m2 K4)]. Source: [codata-2018] */
export const stefanBoltzmann = 5.670374419e-8;

/** Emissivities are kept within these bounds, so that the surface resistance stays finite and positive. */
const leastEmissivity = 0.02;
const mostEmissivity = 0.9995;

/** Exchange areas in single precision, rows of the full symmetric matrix. */
export function exchangeRows(exchange: Exchange): SparseRows {
  return { rowStart: exchange.rowStart, column: exchange.column, value: Float32Array.from(exchange.exchangeArea) };
}

/**
 * Grey diffuse exchange among the faces of a network.
 *
 * The surface resistance (1 - e)/(e A) stands between a face's black-body emission and its radiosity J, and radiosities
 * exchange A_i F_ij (J_i - J_j). With the radiosities as unknowns the view factors stay as traced whatever the
 * emissivities, and one product with the exchange matrix serves a whole evaluation.
 */
export class RadiatingFaces {
  private readonly product: SparseProduct;
  private readonly count: number;
  private readonly rowSum: Float64Array;
  private readonly selfExchange: Float64Array;
  /** By patch: node, and vertex of the radiosity or -1 for a black face. */
  private readonly node: Int32Array;
  private readonly vertex: Int32Array;
  /** e A / (1 - e) [m2]. */
  private readonly gain: Float64Array;
  private readonly emissivityBase: Float64Array;
  private readonly emissivitySlope: Float64Array;
  private readonly emission: Float64Array;
  /** Change of black-body emission with temperature [W/(m2 K)]. */
  private readonly slope: Float64Array;
  private readonly radiosity: Float64Array;
  private readonly received: Float64Array;

  constructor(network: Network, rows: SparseRows, makeProduct: (rows: SparseRows) => SparseProduct = plainProduct) {
    const { surfaces } = network;
    this.product = makeProduct(rows);
    const count = rows.rowStart.length - 1;
    this.count = count;
    requireThat(surfaces.length === count, "surfaces.length", surfaces.length, `${count} patches`);
    const zeros = (): Float64Array => new Float64Array(count);
    this.rowSum = zeros();
    this.selfExchange = zeros();
    for (let p = 0; p < count; p++) {
      for (let k = rows.rowStart[p]; k < rows.rowStart[p + 1]; k++) {
        this.rowSum[p] += rows.value[k];
        if (rows.column[k] === p) this.selfExchange[p] += rows.value[k];
      }
    }
    this.node = new Int32Array(count).fill(-1);
    this.vertex = new Int32Array(count);
    this.emissivityBase = zeros();
    this.emissivitySlope = zeros();
    for (const { patch, node, radiosity, emissivity } of surfaces) {
      this.node[patch] = node;
      this.vertex[patch] = radiosity;
      this.emissivityBase[patch] = lineAt(emissivity, 0);
      this.emissivitySlope[patch] = emissivity.slope;
    }
    requireThat(this.node.indexOf(-1) < 0, "surfaces", this.node.indexOf(-1), "a node for every patch");
    this.gain = zeros();
    this.emission = zeros();
    this.slope = zeros();
    this.radiosity = zeros();
    this.received = zeros();
  }

  /** Takes emissivities at the temperatures of `state`; they hold until called again. */
  setEmissivities(state: Float64Array): void {
    for (let p = 0; p < this.count; p++) {
      if (this.vertex[p] < 0) continue;
      const value = this.emissivityBase[p] + this.emissivitySlope[p] * state[this.node[p]];
      const emissivity = Math.min(Math.max(value, leastEmissivity), mostEmissivity);
      this.gain[p] = (this.rowSum[p] * emissivity) / (1 - emissivity);
    }
  }

  /** What a node would lose per kelvin through its faces with everything around it held [W/K]. */
  conductanceOf(node: number, temperature: number): number {
    let sum = 0;
    for (let p = 0; p < this.count; p++) {
      if (this.node[p] !== node) continue;
      const gain = this.gain[p];
      const net = this.rowSum[p];
      sum += this.vertex[p] < 0 ? net : (gain * net) / (gain + net);
    }
    return sum * 4 * stefanBoltzmann * temperature * temperature * temperature;
  }

  /** Adds the net heat into every vertex [W] to `q`. */
  addFlows(state: Float64Array, q: Float64Array): void {
    const { count, node, vertex, gain, rowSum, emission, radiosity, received } = this;
    for (let p = 0; p < count; p++) {
      const t = state[node[p]];
      const square = t * t;
      const black = stefanBoltzmann * square * square;
      const at = vertex[p];
      emission[p] = black;
      radiosity[p] = at < 0 ? black : state[at];
    }
    this.product.multiply(radiosity, received);
    for (let p = 0; p < count; p++) {
      const own = radiosity[p];
      const net = rowSum[p] * own - received[p];
      const at = vertex[p];
      const leaving = at < 0 ? net : gain[p] * (emission[p] - own);
      q[node[p]] -= leaving;
      if (at >= 0) q[at] += leaving - net;
    }
  }

  /** Takes the derivative of the flows at `state`: its diagonal and neighbouring entries, and `scale` of radiosities. */
  linearise(state: Float64Array, part: TridiagonalPart, scale: Float64Array): void {
    const { count, node, vertex, gain, rowSum, selfExchange, slope } = this;
    for (let p = 0; p < count; p++) {
      const t = state[node[p]];
      const each = 4 * stefanBoltzmann * t * t * t;
      slope[p] = each;
      const at = vertex[p];
      const net = each * (rowSum[p] - selfExchange[p]);
      if (at < 0) {
        part.diagonal[node[p]] += net;
      } else {
        const across = gain[p] * each;
        scale[at] = each;
        part.diagonal[node[p]] += across;
        part.diagonal[at] += across + net;
        part.couple(node[p], at, -across, -across);
      }
    }
  }

  /** Adds the derivative of what leaves every vertex, times v, to y. */
  addDerivative(v: Float64Array, y: Float64Array): void {
    const { count, node, vertex, gain, rowSum, slope, radiosity, received } = this;
    for (let p = 0; p < count; p++) {
      const at = vertex[p];
      radiosity[p] = slope[p] * v[at < 0 ? node[p] : at];
    }
    this.product.multiply(radiosity, received);
    for (let p = 0; p < count; p++) {
      const own = radiosity[p];
      const net = rowSum[p] * own - received[p];
      const at = vertex[p];
      const leaving = at < 0 ? net : gain[p] * (slope[p] * v[node[p]] - own);
      y[node[p]] += leaving;
      if (at >= 0) y[at] += net - leaving;
    }
  }
}
