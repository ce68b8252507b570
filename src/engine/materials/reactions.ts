/*
 * What raw clay does besides warming up. Source: [materials-ware]
 */

/** Heat taken up or given off once, while a body first passes a span of temperature. */
export interface OnceOnly {
  readonly name: string;
  /** [K] */
  readonly from: number;
  readonly to: number;
  /** Taken up [J per kg of body]; negative gives heat off. */
  readonly heat: number;
}

/** Loss of the clay's bound water: third-order kinetics in the share left. */
export interface Dehydroxylation {
  /** Rate factor [1/s]. */
  readonly rate: number;
  /** Activation energy over the gas constant [K]. */
  readonly activation: number;
  /** Taken up by a complete reaction [J per kg of body]. */
  readonly heat: number;
}

/** Share of kaolinite in a usual throwing body [-]. An estimate (quality D): bodies run from 0.3 to 0.55. */
const kaolinite = 0.4;
/** Water an air-dry piece still holds [kg per kg of body]. An estimate (quality D). */
const airDryWater = 0.015;

export const rawClay: { readonly onceOnly: readonly OnceOnly[]; readonly dehydroxylation: Dehydroxylation } = {
  onceOnly: [
    // Quality B: 2.26 MJ per kg of water, 20-200 C; most of it leaves between 40 and 160 C.
    { name: "drying", from: 313.15, to: 433.15, heat: airDryWater * 2.26e6 },
    // Quality B: 105 kJ per kg of clay given off between 950 and 990 C (1926 calorimetry). Spread over 920-1020 C here
    // (D): released within 40 K it would outrun the body's own heat capacity, and a body without kinetics would jump.
    { name: "spinel", from: 1193.15, to: 1293.15, heat: -105e3 * kaolinite },
  ],
  // Quality A for 222 kJ/mol and third order; C for 650 +-200 kJ per kg of kaolinite. The rate factor printed beside
  // them, 9.4e9 1/s, would put the half-way point at 665 C when heated at 5 K/min, outside the range of 450-650 C that
  // three sources give; this one puts it at 550 C (quality D).
  dehydroxylation: { rate: 6.5e11, activation: 222e3 / 8.314462618, heat: 650e3 * kaolinite },
};
