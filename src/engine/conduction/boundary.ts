import type { Network } from "./network.ts";
import { stefanBoltzmann } from "./radiating-faces.ts";
import type { TridiagonalPart } from "./tridiagonal-part.ts";

/** Where heat leaves: skins to the room, air carried by the vent, nodes held at a temperature. */
export class Boundary {
  lostBySkin = 0;
  lostByVent = 0;
  /** Into the network from nodes held at a given temperature [W]. */
  fromPrescribed = 0;
  private readonly skinNode: Int32Array;
  private readonly skinConvection: Float64Array;
  private readonly skinRadiation: Float64Array;
  private readonly skinSlope: Float64Array;
  private readonly held: Float64Array;

  constructor(
    private readonly network: Network,
    private readonly room: number,
  ) {
    const { skins } = network;
    this.skinNode = Int32Array.from(skins, (skin) => skin.node);
    this.skinConvection = Float64Array.from(skins, (skin) => skin.area * skin.convection);
    this.skinRadiation = Float64Array.from(skins, (skin) => skin.area * skin.emissivity * stefanBoltzmann);
    this.skinSlope = new Float64Array(skins.length);
    this.held = new Float64Array(network.prescribed.length);
  }

  /** Takes the held temperatures at a time. */
  setTime(time: number): void {
    this.network.prescribed.forEach(({ temperature }, i) => (this.held[i] = temperature(time)));
  }

  addFlows(state: Float64Array, q: Float64Array): void {
    const { room, skinNode, skinConvection, skinRadiation } = this;
    const roomSquare = room * room;
    let bySkin = 0;
    for (let k = 0; k < skinNode.length; k++) {
      const t = state[skinNode[k]];
      const over = t - room;
      const square = t * t;
      const loss =
        skinConvection[k] * over * Math.cbrt(Math.abs(over)) +
        skinRadiation[k] * (square * square - roomSquare * roomSquare);
      q[skinNode[k]] -= loss;
      bySkin += loss;
    }
    this.lostBySkin = bySkin;
    let byVent = 0;
    for (const { from, to, capacityFlow, leaves } of this.network.streams) {
      q[to] += capacityFlow * ((from < 0 ? room : state[from]) - state[to]);
      if (leaves) byVent += capacityFlow * (state[to] - room);
    }
    this.lostByVent = byVent;
  }

  /** Puts the distance from the held temperature in place of the held nodes' balances; call it last. */
  hold(state: Float64Array, q: Float64Array): void {
    let from = 0;
    this.network.prescribed.forEach(({ node }, i) => {
      from -= q[node];
      q[node] = this.held[i] - state[node];
    });
    this.fromPrescribed = from;
  }

  linearise(state: Float64Array, part: TridiagonalPart): void {
    const { room, skinNode, skinConvection, skinRadiation, skinSlope } = this;
    for (let k = 0; k < skinNode.length; k++) {
      const t = state[skinNode[k]];
      skinSlope[k] = (4 / 3) * skinConvection[k] * Math.cbrt(Math.abs(t - room)) + 4 * skinRadiation[k] * t * t * t;
      part.diagonal[skinNode[k]] += skinSlope[k];
    }
    for (const { from, to, capacityFlow } of this.network.streams) {
      part.diagonal[to] += capacityFlow;
      if (from >= 0) part.couple(to, from, -capacityFlow, 0);
    }
  }

  addDerivative(v: Float64Array, y: Float64Array): void {
    const { skinNode, skinSlope } = this;
    for (let k = 0; k < skinNode.length; k++) y[skinNode[k]] += skinSlope[k] * v[skinNode[k]];
    for (const { from, to, capacityFlow } of this.network.streams) {
      y[to] += capacityFlow * (v[to] - (from < 0 ? 0 : v[from]));
    }
  }
}
