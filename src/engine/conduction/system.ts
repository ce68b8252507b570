import { heatTables, rawClay, type HeatTables } from "#engine/materials";
import { plainProduct, type SparseProduct, type SparseRows } from "#engine/numerics";
import { Boundary } from "./boundary.ts";
import { ConductingLinks } from "./conducting-links.ts";
import type { Heater } from "./heater.ts";
import type { Network } from "./network.ts";
import { RadiatingFaces, stefanBoltzmann } from "./radiating-faces.ts";
import { RawWare } from "./raw-ware.ts";
import { TridiagonalPart } from "./tridiagonal-part.ts";

/** Where heat goes in one instant [W]. */
export interface Flows {
  /** By heater. */
  readonly power: Float64Array;
  readonly lostBySkin: number;
  readonly lostByVent: number;
  /** Into the network from nodes held at a given temperature. */
  readonly fromPrescribed: number;
}

/**
 * The equations of a network: net heat into every vertex, and the exact derivative of that.
 *
 * State: temperature [K] of a node, radiosity [W/m2] of a grey surface, by vertex. For node i the balance is
 * dH_i/dt = q_i(state); for a node without mass and for a radiosity, q_i = 0. All flows but the vent's come in equal
 * and opposite pairs, so heat is neither made nor lost however coarse the mesh.
 */
export class ThermalSystem {
  readonly size: number;
  readonly rawWare: RawWare;
  private readonly faces: RadiatingFaces;
  private readonly links: ConductingLinks;
  private readonly boundary: Boundary;
  private readonly part: TridiagonalPart;
  private readonly tables: HeatTables;
  private readonly power: Float64Array;
  private readonly storage: Float64Array;
  /** What one unit of the iteration is: 1 K for nodes; for radiosities what 1 K does to black-body emission. */
  private readonly scale: Float64Array;
  /** By heater: what its sensor's nodes would lose per kelvin [W/K], and the delay that makes [s]. */
  private readonly leadConductance: readonly Float64Array[];
  private readonly delay: Float64Array;

  constructor(
    readonly network: Network,
    rows: SparseRows,
    readonly heaters: readonly Heater[],
    room: number,
    makeProduct: (rows: SparseRows) => SparseProduct = plainProduct,
  ) {
    this.size = network.vertexCount;
    this.faces = new RadiatingFaces(network, rows, makeProduct);
    this.links = new ConductingLinks(network);
    this.boundary = new Boundary(network, room);
    this.part = new TridiagonalPart(this.size);
    this.tables = heatTables(network.heats);
    this.rawWare = new RawWare(network.raw, rawClay);
    this.power = new Float64Array(heaters.length);
    this.storage = new Float64Array(this.size);
    this.scale = new Float64Array(this.size).fill(1);
    this.leadConductance = heaters.map((heater) => new Float64Array(heater.sensors.length));
    this.delay = new Float64Array(heaters.length);
  }

  /** What crossed the boundary at the last `evaluate`. */
  get flows(): Flows {
    const { lostBySkin, lostByVent, fromPrescribed } = this.boundary;
    return { power: this.power, lostBySkin, lostByVent, fromPrescribed };
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
    const { mass, massive } = this.network;
    this.faces.setEmissivities(state);
    this.storage.fill(0);
    this.tables.specificHeats(this.network.heatOf, massive, mass, state, this.storage, 1);
    this.heaters.forEach((heater, h) => {
      let delay = 0;
      for (let s = 0; s < heater.sensors.length; s++) {
        const node = heater.sensors[s];
        const at = state[node];
        const conductance = this.faces.conductanceOf(node, at) + this.links.conductanceOf(node, at);
        this.leadConductance[h][s] = conductance;
        delay += (heater.weights[s] * this.storage[node]) / conductance;
      }
      this.delay[h] = delay;
    });
  }

  setTime(time: number): void {
    this.boundary.setTime(time);
  }

  /** Heat content of every massive vertex [J], into `heat`. */
  contents(state: Float64Array, heat: Float64Array): void {
    const { massive, mass, heatOf } = this.network;
    this.tables.contents(heatOf, massive, mass, state, heat);
    this.rawWare.addContents(state, heat);
  }

  /** Net heat flow into every vertex [W], into `q`. */
  evaluate(state: Float64Array, q: Float64Array): void {
    q.fill(0);
    this.faces.addFlows(state, q);
    this.links.addFlows(state, q);
    this.boundary.addFlows(state, q);
    for (let h = 0; h < this.heaters.length; h++) {
      const heater = this.heaters[h];
      let sensor = 0;
      let lead = 0;
      for (let s = 0; s < heater.sensors.length; s++) {
        const node = heater.sensors[s];
        sensor += heater.weights[s] * state[node];
        lead += (heater.weights[s] * q[node]) / this.leadConductance[h][s];
      }
      heater.evaluate(sensor, sensor + lead, this.delay[h]);
      this.power[h] = heater.power;
    }
    for (const { nodes, shares, power } of this.heaters) {
      for (let n = 0; n < nodes.length; n++) q[nodes[n]] += shares[n] * power;
    }
    this.boundary.hold(state, q);
  }

  /**
   * Takes the derivative at `state`, where `evaluate` was called last, of heat content / weight - q.
   *
   * @param weight  of the newest stage [s]: the step's implicit part
   */
  linearise(state: Float64Array, weight: number): void {
    const { network, storage, part } = this;
    part.begin();
    storage.fill(0);
    this.tables.specificHeats(network.heatOf, network.massive, network.mass, state, storage, 1 / weight);
    this.rawWare.addStorage(storage, weight);
    part.diagonal.set(storage);
    this.faces.linearise(state, part, this.scale);
    this.links.linearise(state, part);
    this.boundary.linearise(state, part);
    for (const { node } of network.prescribed) part.fix(node);
    part.finish();
  }

  /** y = derivative x v, at the point last linearised. */
  readonly applyDerivative = (v: Float64Array, y: Float64Array): void => {
    const { storage, size } = this;
    for (let i = 0; i < size; i++) y[i] = storage[i] * v[i];
    this.faces.addDerivative(v, y);
    this.links.addDerivative(v, y);
    this.boundary.addDerivative(v, y);
    for (let h = 0; h < this.heaters.length; h++) {
      const heater = this.heaters[h];
      if (heater.bySensor === 0 && heater.byLead === 0) continue;
      let sensor = 0;
      let lead = 0;
      for (let s = 0; s < heater.sensors.length; s++) {
        const node = heater.sensors[s];
        sensor += heater.weights[s] * v[node];
        // y holds what leaves the sensor, and its storage, which is no flow.
        lead -= (heater.weights[s] * (y[node] - storage[node] * v[node])) / this.leadConductance[h][s];
      }
      const power = heater.bySensor * sensor + heater.byLead * (sensor + lead);
      const { nodes, shares } = heater;
      for (let n = 0; n < nodes.length; n++) y[nodes[n]] -= shares[n] * power;
    }
    for (const { node } of this.network.prescribed) y[node] = v[node]!;
  };

  /** Solves, in place, with the part of the derivative that couples vertices neighbouring in number. */
  readonly precondition = (v: Float64Array): void => {
    this.part.solve(v);
  };

  /** Adds an increment in the iteration's units to the state. */
  addIncrement(state: Float64Array, increment: Float64Array): void {
    const { scale, size } = this;
    for (let i = 0; i < size; i++) state[i] += scale[i] * increment[i];
  }
}
