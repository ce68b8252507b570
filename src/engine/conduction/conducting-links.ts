import { lineAt } from "#engine/materials";
import type { Network } from "./network.ts";
import { stefanBoltzmann } from "./radiating-faces.ts";
import type { TridiagonalPart } from "./tridiagonal-part.ts";

/**
 * Conduction and films between pairs of nodes, with conductivities that are straight lines in temperature, and
 * radiation between pairs that see only each other.
 */
export class ConductingLinks {
  private readonly a: Int32Array;
  private readonly b: Int32Array;
  private readonly base: Float64Array;
  private readonly slope: Float64Array;
  private readonly byA: Float64Array;
  private readonly byB: Float64Array;
  private readonly radiantA: Int32Array;
  private readonly radiantB: Int32Array;
  private readonly radiantArea: Float64Array;
  private readonly radiantByA: Float64Array;
  private readonly radiantByB: Float64Array;

  constructor({ links, radiantLinks }: Network) {
    this.a = Int32Array.from(links, (link) => link.a);
    this.b = Int32Array.from(links, (link) => link.b);
    this.base = Float64Array.from(links, (link) => link.shape * lineAt(link.conductivity, 0));
    this.slope = Float64Array.from(links, (link) => link.shape * link.conductivity.slope);
    this.byA = new Float64Array(links.length);
    this.byB = new Float64Array(links.length);
    this.radiantA = Int32Array.from(radiantLinks, (link) => link.a);
    this.radiantB = Int32Array.from(radiantLinks, (link) => link.b);
    this.radiantArea = Float64Array.from(radiantLinks, (link) => link.area * stefanBoltzmann);
    this.radiantByA = new Float64Array(radiantLinks.length);
    this.radiantByB = new Float64Array(radiantLinks.length);
  }

  /** What a node would lose per kelvin through its links with the others held [W/K]. */
  conductanceOf(node: number, temperature: number): number {
    let sum = 0;
    for (let k = 0; k < this.a.length; k++) {
      if (this.a[k] === node || this.b[k] === node) sum += this.base[k] + this.slope[k] * temperature;
    }
    return sum;
  }

  addFlows(state: Float64Array, q: Float64Array): void {
    const { a, b, base, slope, radiantA, radiantB, radiantArea } = this;
    for (let k = 0; k < a.length; k++) {
      const ta = state[a[k]];
      const tb = state[b[k]];
      const flow = (base[k] + slope[k] * 0.5 * (ta + tb)) * (ta - tb);
      q[a[k]] -= flow;
      q[b[k]] += flow;
    }
    for (let k = 0; k < radiantA.length; k++) {
      const sa = state[radiantA[k]] * state[radiantA[k]];
      const sb = state[radiantB[k]] * state[radiantB[k]];
      const flow = radiantArea[k] * (sa * sa - sb * sb);
      q[radiantA[k]] -= flow;
      q[radiantB[k]] += flow;
    }
  }

  linearise(state: Float64Array, part: TridiagonalPart): void {
    const { a, b, base, slope, byA, byB, radiantA, radiantB, radiantArea, radiantByA, radiantByB } = this;
    for (let k = 0; k < a.length; k++) {
      byA[k] = base[k] + slope[k] * state[a[k]];
      byB[k] = base[k] + slope[k] * state[b[k]];
      part.diagonal[a[k]] += byA[k];
      part.diagonal[b[k]] += byB[k];
      part.couple(a[k], b[k], -byB[k], -byA[k]);
    }
    for (let k = 0; k < radiantA.length; k++) {
      const ta = state[radiantA[k]];
      const tb = state[radiantB[k]];
      radiantByA[k] = 4 * radiantArea[k] * ta * ta * ta;
      radiantByB[k] = 4 * radiantArea[k] * tb * tb * tb;
      part.diagonal[radiantA[k]] += radiantByA[k];
      part.diagonal[radiantB[k]] += radiantByB[k];
      part.couple(radiantA[k], radiantB[k], -radiantByB[k], -radiantByA[k]);
    }
  }

  addDerivative(v: Float64Array, y: Float64Array): void {
    const { a, b, byA, byB, radiantA, radiantB, radiantByA, radiantByB } = this;
    for (let k = 0; k < a.length; k++) {
      const flow = byA[k] * v[a[k]] - byB[k] * v[b[k]];
      y[a[k]] += flow;
      y[b[k]] -= flow;
    }
    for (let k = 0; k < radiantA.length; k++) {
      const flow = radiantByA[k] * v[radiantA[k]] - radiantByB[k] * v[radiantB[k]];
      y[radiantA[k]] += flow;
      y[radiantB[k]] -= flow;
    }
  }
}
