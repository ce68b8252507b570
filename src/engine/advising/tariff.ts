import { requireThat } from "#base";
import type { Joules, Seconds, Watts } from "#engine/units";

/** Price of electricity in some hours of every day. */
export interface TariffBand {
  /** Hours of the day, 0 to 24; a band whose end lies before its start runs over midnight. */
  readonly from: number;
  readonly to: number;
  readonly pricePerKilowattHour: number;
}

/** Price outside the bands, and the bands; where bands overlap the first one counts. */
export interface Tariff {
  readonly pricePerKilowattHour: number;
  readonly bands: readonly TariffBand[];
}

/** Power over time, straight between points. */
export interface PowerTrace {
  /** From the start of the firing [s], never falling. */
  readonly times: ArrayLike<Seconds>;
  readonly power: ArrayLike<Watts>;
}

/** What a firing's electricity costs, in the tariff's currency. */
export interface Cost {
  readonly energy: Joules;
  readonly cost: number;
  /** Energy at each price, cheapest first. */
  readonly shares: readonly { readonly pricePerKilowattHour: number; readonly energy: Joules; readonly cost: number }[];
}

/** Moment in the studio's own time: seconds since midnight of 1970-01-01 there. Summer time is not known here. */
export type StudioTime = number;

const day = 86_400;

/** Price at a moment [per kWh]. */
export function priceAt(tariff: Tariff, moment: StudioTime): number {
  const hour = (((moment % day) + day) % day) / 3600;
  const band = tariff.bands.find(({ from, to }) =>
    from <= to ? hour >= from && hour < to : hour >= from || hour < to,
  );
  return band?.pricePerKilowattHour ?? tariff.pricePerKilowattHour;
}

/**
 * Energy and cost of a firing that starts at `start`.
 *
 * The trace is cut where a price changes and integrated exactly, being straight between its points.
 *
 * @throws RangeError if the trace's lengths differ or its times fall
 */
export function costOf(trace: PowerTrace, start: StudioTime, tariff: Tariff): Cost {
  requireThat(
    trace.times.length === trace.power.length,
    "power.length",
    trace.power.length,
    `${trace.times.length}, one per time`,
  );
  const edges = [...new Set([0, ...tariff.bands.flatMap(({ from, to }) => [from % 24, to % 24])])].toSorted(
    (a, b) => a - b,
  );
  const byPrice = new Map<number, number>();
  for (let i = 1; i < trace.times.length; i++) {
    const [from, to] = [start + trace.times[i - 1], start + trace.times[i]];
    requireThat(to >= from, `times[${i}]`, trace.times[i], "a time in s, never before the one above it");
    const slope = to > from ? (trace.power[i] - trace.power[i - 1]) / (to - from) : 0;
    for (let at = from; at < to;) {
      const next = Math.min(to, nextEdge(edges, at));
      const mean = trace.power[i - 1] + slope * ((at + next) / 2 - from);
      const price = priceAt(tariff, (at + next) / 2);
      byPrice.set(price, (byPrice.get(price) ?? 0) + mean * (next - at));
      at = next;
    }
  }
  const shares = [...byPrice]
    .toSorted(([a], [b]) => a - b)
    .map(([pricePerKilowattHour, energy]) => ({
      pricePerKilowattHour,
      energy,
      cost: (energy / 3.6e6) * pricePerKilowattHour,
    }));
  return {
    energy: shares.reduce((sum, share) => sum + share.energy, 0),
    cost: shares.reduce((sum, share) => sum + share.cost, 0),
    shares,
  };
}

/** The first moment after `at` when a price may change. */
function nextEdge(edges: readonly number[], at: number): number {
  const midnight = Math.floor(at / day) * day;
  for (const hour of edges) if (midnight + hour * 3600 > at) return midnight + hour * 3600;
  return midnight + day + edges[0] * 3600;
}
