import type { Heater } from "#engine/conduction";
import { stageFraction, stageWeight } from "#engine/conduction";
import type { Program } from "./program.ts";

/** Full power for this much missing [K]: as tight as a well-tuned controller holds. */
const band = 8;
/** Time in which a lasting difference is worked off [s]. */
const resetTime = 300;
/** Time in which the stored correction gives way at full or no power [s]. */
const windDown = 60;

/**
 * The controller of one zone: power that keeps its sensor on the set point, between nothing and all the rows can give.
 *
 * It knows its sensor's delay and acts on where the sensor is heading, so it follows slopes and corners within about
 * 1 K while power lasts. Its two states, the lagged reading and the stored correction, are stepped with the same
 * formula as the heat, and it answers inside the step.
 */
export class ZoneController implements Heater {
  power = 0;
  bySensor = 0;
  byLead = 0;
  off = false;
  /** What the sensor reads at the last answer [K], its offset included. */
  private reading: number;
  private correction = 0;
  private readonly known = { reading: 0, correction: 0 };
  private readonly start: { reading: number; correction: number };
  private readonly slopeStart = { reading: 0, correction: 0 };
  private readonly slopeMiddle = { reading: 0, correction: 0 };
  private readonly slope = { reading: 0, correction: 0 };
  private time = 0;
  private length = 0;
  private stage: 0 | 1 | 2 = 0;

  constructor(
    readonly nodes: Int32Array,
    readonly shares: Float64Array,
    readonly sensors: Int32Array,
    readonly weights: Float64Array,
    /** All the zone's rows can give now [W]. */
    readonly available: number,
    private readonly sensor: { readonly lag: number; readonly offset: number },
    private readonly program: Program,
    ambient: number,
  ) {
    this.start = { reading: ambient, correction: 0 };
    this.reading = ambient;
  }

  /** What the controller sees now [K]. */
  get reads(): number {
    return this.reading + this.sensor.offset;
  }

  readonly beginStep = (time: number, length: number): void => {
    this.time = time;
    this.length = length;
    this.openStage(0);
  };

  readonly openStage = (stage: 0 | 1 | 2): void => {
    const { known, start, slopeStart, slopeMiddle, slope, length } = this;
    if (stage === 2) Object.assign(slopeMiddle, slope);
    this.stage = stage;
    for (const part of ["reading", "correction"] as const) {
      known[part] = start[part];
      if (stage === 1) known[part] += stageWeight.newest * length * slopeStart[part];
      if (stage === 2) known[part] += stageWeight.earlier * length * (slopeStart[part] + slopeMiddle[part]);
    }
  };

  readonly evaluate = (sensor: number, lead: number, delay: number): void => {
    const { known, available, program, slope } = this;
    const { lag, offset } = this.sensor;
    const weight = this.stage === 0 ? 0 : stageWeight.newest * this.length;
    const time = this.time + stageFraction[this.stage] * this.length;
    const follow = lag > 0 ? weight / (lag + weight) : this.stage === 0 ? 0 : 1;
    this.reading = lag > 0 ? known.reading + follow * (sensor - known.reading) : sensor;
    slope.reading = lag > 0 ? (sensor - this.reading) / lag : 0;
    const gain = available / band;
    const setPoint = program.setPoint(time);
    const missing = setPoint - this.reading - offset;
    const ahead = setPoint + (lag + delay) * program.slope - lead - offset;
    const pull = (gain / resetTime) * missing;
    this.correction = known.correction + weight * pull;
    const wanted = gain * ahead + this.correction;
    this.bySensor = 0;
    this.byLead = 0;
    if (this.off || available <= 0) {
      this.power = 0;
      slope.correction = 0;
    } else if (wanted > available || wanted < 0) {
      this.power = wanted < 0 ? 0 : available;
      const fits = this.power - gain * ahead;
      this.correction = (known.correction + (weight * fits) / windDown) / (1 + weight / windDown);
      slope.correction = (fits - this.correction) / windDown;
    } else {
      this.power = wanted;
      this.byLead = -gain;
      this.bySensor = -(weight * gain * (lag > 0 ? follow : 1)) / resetTime;
      slope.correction = pull;
    }
  };

  readonly acceptStep = (): void => {
    this.start.reading = this.sensor.lag > 0 ? this.reading : this.start.reading;
    this.start.correction = this.correction;
    Object.assign(this.slopeStart, this.slope);
    this.stage = 0;
    this.length = 0;
  };
}
