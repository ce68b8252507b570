import { stopIfCancelled, unattended, type RunControl } from "#base";
import { celsiusFromKelvin, kelvinFromCelsius, type Kelvin, type KelvinDifference, type Seconds } from "#engine/units";
import type { Advice, AdviceRequest, AdviserRun } from "./advice.ts";
import { whyImpossible } from "./impossible.ts";
import { standingOf } from "./room-between.ts";
import { endOf, equalTarget, lastClimb, withEnd, type ScheduleEnd } from "./schedule-end.ts";

/** A piece may be this far outside its range with the margin taken off [K]; targets are whole degrees. */
const near = 0.5;
/** Room to aim for when the hold is chosen [K]. */
const inside = 1.5;
/** With an excess the target need only be about in the middle [K]. */
const aboutMiddle = 3;

/**
 * Finds the end of a schedule that gives every piece enough and none too much, with the least time, energy or cost.
 *
 * A few runs of the forecast, no grid: heat work is turned into temperature, where a higher target lifts all pieces
 * about alike. Then only the excess matters, what the coldest lacks plus what the hottest has too much. It falls as
 * the hold grows or the end slows. For each rate the shortest hold without excess is found by false position on
 * exp(-hold / 40 min), the shape of a lag dying out. Every answer was computed, none is extrapolated.
 *
 * When every rate keeps an excess at its longest hold there is no such schedule: a target trades lack against surplus
 * but not their sum, which is checked at a second target.
 *
 * @throws RangeError if there are no wishes, or a wished piece is not in the forecast
 * @throws Cancelled when the control says so
 */
export async function adviseSchedule(request: AdviceRequest, control: RunControl = unattended): Promise<Advice> {
  const search = new Search(request, control);
  const own = endOf(request.schedule).rate;
  const rates = request.endRates ?? (own === "full" ? [own] : [own, own / 2]);
  let found: AdviserRun | null = null;
  let smallest: AdviserRun | null = null;
  for (const rate of rates) {
    if (found !== null && search.cannotBeat(found, rate)) continue;
    const run = await search.shortestHold(rate);
    if (suits(run)) {
      if (found === null || search.price(run) < search.price(found)) found = run;
    } else if (smallest === null || search.shortfall(run) < search.shortfall(smallest)) {
      smallest = run;
    }
  }
  if (found !== null) {
    return { kind: "found", schedule: withEnd(request.schedule, found.end), best: found, runs: search.runs };
  }
  return whyImpossible(request, control, smallest!, search.runs, (end) => search.run(end));
}

function suits({ standing }: AdviserRun): boolean {
  return standing.lacks <= near && standing.over <= near;
}

class Search {
  readonly runs: AdviserRun[] = [];

  constructor(
    private readonly request: AdviceRequest,
    private readonly control: RunControl,
  ) {}

  /** Computes one firing; the target is brought to a whole degree Celsius within the kiln's limit. */
  async run(end: ScheduleEnd): Promise<AdviserRun> {
    stopIfCancelled(this.control);
    const target = Math.min(wholeDegree(end.target), this.highest());
    const before = this.runs.find((each) => same(each.end, { ...end, target }));
    if (before) return before;
    const outcome = await this.request.forecastFor(withEnd(this.request.schedule, { ...end, target }));
    const standing = standingOf(outcome.pieces, this.request.wishes, this.request.margin);
    const run = { end: { rate: end.rate, hold: end.hold, target }, outcome, standing };
    this.runs.push(run);
    this.control.progress(1 - Math.exp(-this.runs.length / 6), `${this.runs.length} firings computed`);
    return run;
  }

  private highest(): Kelvin {
    return kelvinFromCelsius(Math.floor(celsiusFromKelvin(this.request.maxTemperature) + 1e-6));
  }

  /** What keeps a settled run from suiting [K]: the excess, or at the kiln's limit what the coldest lacks. */
  shortfall({ end, standing }: AdviserRun): KelvinDifference {
    return end.target >= this.highest() ? Math.max(standing.excess, standing.lacks) : standing.excess;
  }

  price({ outcome }: AdviserRun): number {
    if (this.request.least === "time") return outcome.heating;
    return this.request.least === "energy" ? outcome.energy : (outcome.cost ?? outcome.energy);
  }

  /** True if a slower end is longer even without a hold. Energy and cost have no such bound: they are computed. */
  cannotBeat(found: AdviserRun, rate: ScheduleEnd["rate"]): boolean {
    if (this.request.least !== "time" || rate === "full" || found.end.rate === "full") return false;
    const climb = lastClimb(withEnd(this.request.schedule, found.end));
    return climb / rate - climb / found.end.rate >= found.end.hold;
  }

  /** The run with the shortest hold at this rate that suits, or the one that comes nearest. */
  async shortestHold(rate: ScheduleEnd["rate"]): Promise<AdviserRun> {
    const { longestHold } = this.request;
    const start = this.runs.at(-1)?.end ?? endOf(this.request.schedule);
    const noHold = await this.settled(this.guess(start, 0, rate));
    if (suits(noHold) || longestHold <= 0) return noHold;
    let low = noHold;
    let high = await this.run(this.guess(low.end, longestHold, rate));
    if (this.shortfall(high) > -2 * near) {
      high = await this.settled(high.end);
      if (!suits(high)) return this.shortfall(high) < this.shortfall(low) ? high : low;
    }
    // Only the excess is looked at on the way, and it hardly depends on the target: one run a step, target as guessed.
    for (let step = 0; step < 3; step++) {
      const [a, b] = [fade(low.end.hold), fade(high.end.hold)];
      const [atLow, atHigh] = [this.shortfall(low), this.shortfall(high)];
      // Aim a little inside, so that a whole degree suits; never so near an end that nothing is learned.
      const share = atLow > atHigh ? (atLow + inside) / (atLow - atHigh) : 0.5;
      const faded = a + Math.min(Math.max(share, 0.05), 0.95) * (b - a);
      const hold = wholeMinutes(-lag * Math.log(faded));
      if (hold - low.end.hold < worthwhile || high.end.hold - hold < worthwhile) break;
      const middle = await this.run(this.guess(this.nearer(low, high, hold), hold, rate));
      if (this.shortfall(middle) > -2 * near) low = middle;
      else high = middle;
      if (this.shortfall(high) > -2 * inside) break;
    }
    // The excess may grow a little on the way to the right target: some minutes more then; the longest is known to do.
    let settled = await this.settled(high.end);
    for (const more of [300, 900, longestHold]) {
      if (suits(settled) || settled.end.hold >= longestHold) break;
      settled = await this.settled(this.guess(settled.end, Math.min(settled.end.hold + more, longestHold), rate));
    }
    return settled;
  }

  /** The end to guess from, its target already brought to where the coldest piece has just enough. */
  private nearer(low: AdviserRun, high: AdviserRun, hold: Seconds): ScheduleEnd {
    const run = hold - low.end.hold < high.end.hold - hold ? low : high;
    const { excess, lacks, over } = run.standing;
    return { ...run.end, target: run.end.target + (excess > 0 ? (lacks - over) / 2 : lacks) };
  }

  /** Moves the target until the coldest piece has just enough; with an excess, until both sides share it. */
  private async settled(end: ScheduleEnd): Promise<AdviserRun> {
    let run = await this.run(end);
    // Kelvin of heat work per Kelvin of target; long holds and lags make it differ from 1.
    let gain = 1;
    for (let step = 0; step < 3; step++) {
      const { lacks, over, excess } = run.standing;
      const wanted = excess > 0 ? (lacks - over) / 2 : lacks + Math.min(near, -excess / 2);
      const target = Math.min(wholeDegree(run.end.target + wanted / gain), this.highest());
      if (target === run.end.target || (excess > 0 && Math.abs(wanted) < aboutMiddle)) return run;
      // Inside its range and close to the lower edge: one more run would save less than it costs.
      if (suits(run) && wanted > -2) return run;
      const next = await this.run({ ...run.end, target });
      const change = (run.standing.lacks - next.standing.lacks) / (next.end.target - run.end.target);
      if (Number.isFinite(change)) gain = Math.min(Math.max(change, 0.5), 2);
      run = next;
    }
    return run;
  }

  private guess(from: ScheduleEnd, hold: Seconds, rate: ScheduleEnd["rate"]): ScheduleEnd {
    return { target: equalTarget(this.request.schedule, from, hold, rate), hold, rate };
  }
}

/** A lag dying out over about 40 minutes: estimated by us from shelves and thick ware. */
const lag = 2400;
const fade = (hold: Seconds): number => Math.exp(-hold / lag);
/** Holds closer than this are not told apart [s]. */
const worthwhile = 120;
const wholeMinutes = (seconds: number): number => Math.round(seconds / 60) * 60;
const wholeDegree = (target: Kelvin): Kelvin => kelvinFromCelsius(Math.round(celsiusFromKelvin(target)));

function same(a: ScheduleEnd, b: ScheduleEnd): boolean {
  return a.rate === b.rate && Math.abs(a.hold - b.hold) < 1 && Math.abs(a.target - b.target) < 0.05;
}
