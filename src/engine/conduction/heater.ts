/**
 * Power into some nodes, that may follow from what a sensor reads at the very time it acts.
 *
 * The time step asks it inside every stage, so that controller and heat are solved together: a controller that acts
 * once per step lags by a step and overshoots.
 */
export interface Heater {
  /** Nodes heated, and the share of the power each gets. */
  readonly nodes: Int32Array;
  readonly shares: Float64Array;
  /** Nodes of the sensor that governs it, and their weights (summing to 1). Empty: governed by time alone. */
  readonly sensors: Int32Array;
  readonly weights: Float64Array;
  /** Step from `time` of length `step` begins, and may be tried again with another length. */
  readonly beginStep: (time: number, step: number) => void;
  /**
   * Which instant of the step is asked for from here on: 0 its start, 1 its middle stage, 2 its end. Stage k may rely
   * on the last answers given in the stages before it.
   */
  readonly openStage: (stage: 0 | 1 | 2) => void;
  /**
   * Answers for a sensor temperature [K], for what it would settle to where it is [K] (its lead), and for the delay
   * with which it does [s]. Sets `power` and its derivatives.
   */
  readonly evaluate: (sensor: number, lead: number, delay: number) => void;
  /** The step is taken. */
  readonly acceptStep: () => void;
  /** [W] */
  power: number;
  /** Change of power with the sensor's temperature and with its lead [W/K]. */
  bySensor: number;
  byLead: number;
}

/** A heater that gives a set power by time [W]. */
export function timedHeater(nodes: Int32Array, shares: Float64Array, power: (time: number) => number): Heater {
  let start = 0;
  let length = 0;
  let stage: 0 | 1 | 2 = 0;
  const heater: Heater = {
    nodes,
    shares,
    sensors: new Int32Array(0),
    weights: new Float64Array(0),
    beginStep: (time, step) => {
      start = time;
      length = step;
    },
    openStage: (next) => {
      stage = next;
    },
    evaluate: () => {
      heater.power = power(start + stageFraction[stage] * length);
    },
    acceptStep: () => {},
    power: 0,
    bySensor: 0,
    byLead: 0,
  };
  return heater;
}

/** Where in the step the stages of TR-BDF2 lie. */
export const stageFraction = [0, 2 - Math.SQRT2, 1] as const;
/** Weight of the earlier stages, and of the newest one, in units of the step. */
export const stageWeight = { earlier: Math.SQRT2 / 4, newest: 1 - Math.SQRT1_2 } as const;
