import { requireNotNegative, requirePositive, requireThat } from "#base";
import { lineAt, type HeatContent, type Line } from "#engine/materials";

/** What a node's stored heat is booked under in the energy ledger. */
export type Store = "brick" | "furniture" | "ware" | "fittings";
export const stores: readonly Store[] = ["brick", "furniture", "ware", "fittings"];

/** Above this emissivity a surface is taken as black: its surface resistance would be too small to matter. */
const black = 0.9995;

/**
 * A network of nodes that store heat, links that conduct it and surfaces that radiate it.
 *
 * *Vertices* are nodes (unknown: temperature) and, for every grey surface, its radiosity (unknown: J), numbered as they
 * are made. Make vertices that are strongly coupled one after the other: neighbours in number are solved together
 * exactly (a wall's layers, a shelf's faces), everything else by iteration.
 */
export interface Network {
  readonly vertexCount: number;
  /** [kg] by vertex; 0 where nothing is stored. */
  readonly mass: Float64Array;
  /** Vertices that store heat, in order. */
  readonly massive: Int32Array;
  /** Index into `heats`, by vertex. */
  readonly heatOf: Int32Array;
  readonly heats: readonly HeatContent[];
  /** Index into `stores`, by vertex. */
  readonly storeOf: Int32Array;
  /** True for vertices whose unknown is a temperature. */
  readonly isNode: Uint8Array;
  readonly surfaces: readonly Surface[];
  readonly links: readonly ThermalLink[];
  readonly radiantLinks: readonly RadiantLink[];
  readonly skins: readonly Skin[];
  readonly streams: readonly Stream[];
  readonly prescribed: readonly Prescribed[];
  readonly raw: readonly { readonly node: number; readonly mass: number }[];
}

/** Patch `patch` of the exchange is the face of `node`. */
export interface Surface {
  readonly patch: number;
  readonly node: number;
  /** Vertex of its radiosity, or -1 for a black surface. */
  readonly radiosity: number;
  readonly emissivity: Line;
}

/** Heat flow from a to b = shape x integral of the conductivity from b's temperature to a's. */
export interface ThermalLink {
  readonly a: number;
  readonly b: number;
  /** Area over distance [m]; or area [m2] where `conductivity` is a film coefficient [W/(m2 K)]. */
  readonly shape: number;
  readonly conductivity: Line;
}

/** Radiation between two nodes that see only each other: exchange area x sigma (Ta^4 - Tb^4). */
export interface RadiantLink {
  readonly a: number;
  readonly b: number;
  readonly area: number;
}

/** The kiln's outside, cooled by the room's air and walls. */
export interface Skin {
  readonly node: number;
  readonly area: number;
  /** Turbulent natural convection: coefficient x (T - room)^(4/3) [W/(m2 K^(4/3))]. */
  readonly convection: number;
  readonly emissivity: number;
}

/** Air carried from one air node to another; `from` = -1 is the room. */
export interface Stream {
  readonly from: number;
  readonly to: number;
  /** Mass flow x specific heat [W/K]. */
  readonly capacityFlow: number;
  /** True where what `to` receives leaves the kiln from there. */
  readonly leaves: boolean;
}

/** A node held at a given temperature. */
export interface Prescribed {
  readonly node: number;
  readonly temperature: (time: number) => number;
}

export class NetworkBuilder {
  private readonly masses: number[] = [];
  private readonly heatIndex: number[] = [];
  private readonly store: number[] = [];
  private readonly nodes: number[] = [];
  private readonly heats: HeatContent[] = [];
  private readonly surfaces: Surface[] = [];
  private readonly links: ThermalLink[] = [];
  private readonly radiantLinks: RadiantLink[] = [];
  private readonly skins: Skin[] = [];
  private readonly streams: Stream[] = [];
  private readonly prescribed: Prescribed[] = [];
  private readonly raw: { node: number; mass: number }[] = [];

  /** A node of the given mass [kg]; mass 0 stores nothing. Returns its vertex number. */
  node(mass: number, heat: HeatContent | null, store: Store): number {
    requireNotNegative(mass, "mass", "kg");
    requireThat(mass === 0 || heat !== null, "heat", heat, "a heat content for a node with mass");
    return this.vertex(mass, heat, store, 1);
  }

  private vertex(mass: number, heat: HeatContent | null, store: Store, isNode: number): number {
    let index = heat ? this.heats.indexOf(heat) : 0;
    if (heat && index < 0) index = this.heats.push(heat) - 1;
    this.masses.push(mass);
    this.heatIndex.push(index);
    this.store.push(stores.indexOf(store));
    return this.nodes.push(isNode) - 1;
  }

  /**
   * Lets `patch` be the face of `node`, or of the node made next, so that radiosity, face and what lies behind it are
   * neighbours in number. Returns the radiosity's vertex.
   */
  surface(patch: number, node: number | "next", emissivity: Line): number {
    const value = lineAt(emissivity, 293.15);
    requireThat(value > 0 && value <= 1, `emissivity of patch ${patch}`, value, "a number above 0, at most 1");
    const radiosity = value >= black ? -1 : this.vertex(0, null, "fittings", 0);
    this.surfaces.push({ patch, node: node === "next" ? this.masses.length : node, radiosity, emissivity });
    return radiosity;
  }

  /** Surfaces made so far. */
  get faces(): readonly Surface[] {
    return this.surfaces;
  }

  link(a: number, b: number, shape: number, conductivity: Line): void {
    requirePositive(shape, `shape of the link from ${a} to ${b}`, "m");
    this.links.push({ a, b, shape, conductivity });
  }

  radiantLink(a: number, b: number, area: number): void {
    requirePositive(area, `area of the radiant link from ${a} to ${b}`, "m2");
    this.radiantLinks.push({ a, b, area });
  }

  skin(skin: Skin): void {
    this.skins.push(skin);
  }

  stream(stream: Stream): void {
    this.streams.push(stream);
  }

  prescribe(node: number, temperature: (time: number) => number): void {
    this.prescribed.push({ node, temperature });
  }

  /** Marks the node's mass as unfired clay, which dries and changes while it is heated. */
  unfired(node: number): void {
    this.raw.push({ node, mass: this.masses[node] });
  }

  build(): Network {
    const mass = Float64Array.from(this.masses);
    const massive = Int32Array.from(this.masses.flatMap((value, vertex) => (value > 0 ? [vertex] : [])));
    return {
      vertexCount: mass.length,
      mass,
      massive,
      heatOf: Int32Array.from(this.heatIndex),
      heats: [...this.heats],
      storeOf: Int32Array.from(this.store),
      isNode: Uint8Array.from(this.nodes),
      surfaces: [...this.surfaces],
      links: [...this.links],
      radiantLinks: [...this.radiantLinks],
      skins: [...this.skins],
      streams: [...this.streams],
      prescribed: [...this.prescribed],
      raw: [...this.raw],
    };
  }
}
