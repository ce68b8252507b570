import { requirePositive, requireThat } from "#base";
import type { Seconds } from "#engine/units";
import { costOf, type Cost, type PowerTrace, type StudioTime, type Tariff } from "./tariff.ts";

/** How long a firing takes, with half the width that holds 8 in 10. */
export interface FiringLength {
  /** To the end of heating. */
  readonly heating: Seconds;
  readonly heatingGiveOrTake: Seconds;
  /** Until the ware is cool enough to open with the lid shut. */
  readonly ready: Seconds;
}

/** When someone is there. */
export interface Attendance {
  readonly from: StudioTime;
  readonly to: StudioTime;
}

/** A time to start, and what follows from it. */
export interface StartOption {
  readonly start: StudioTime;
  readonly ends: StudioTime;
  /** Early and late end by the give or take: someone must be there for all of it. */
  readonly endsEarly: StudioTime;
  readonly endsLate: StudioTime;
  readonly ready: StudioTime;
  readonly cost: Cost;
}

export interface StartWish {
  readonly earliest: StudioTime;
  readonly latest: StudioTime;
  readonly attendance: readonly Attendance[];
  readonly tariff: Tariff;
  /** Times offered are whole multiples of this from midnight. */
  readonly step: Seconds;
}

/**
 * Times to start such that the whole end, early to late, falls in one attendance, cheapest first, then soonest ready.
 *
 * Empty if there is none: then nobody would be there, and no time is offered.
 *
 * @throws RangeError naming what is out of range
 */
export function startOptions(length: FiringLength, trace: PowerTrace, wish: StartWish): readonly StartOption[] {
  requirePositive(wish.step, "step", "s");
  requireThat(
    length.ready >= length.heating,
    "ready",
    length.ready,
    `at least ${length.heating} s, the end of heating`,
  );
  const options: StartOption[] = [];
  for (let start = Math.ceil(wish.earliest / wish.step) * wish.step; start <= wish.latest; start += wish.step) {
    const ends = start + length.heating;
    const endsEarly = ends - length.heatingGiveOrTake;
    const endsLate = ends + length.heatingGiveOrTake;
    if (!wish.attendance.some(({ from, to }) => endsEarly >= from && endsLate <= to)) continue;
    options.push({
      start,
      ends,
      endsEarly,
      endsLate,
      ready: start + length.ready,
      cost: costOf(trace, start, wish.tariff),
    });
  }
  // Costs that differ by less than a thousandth are the same to a user.
  const rounded = (option: StartOption): number => Math.round(option.cost.cost * 1000);
  return options.toSorted((a, b) => rounded(a) - rounded(b) || a.ready - b.ready);
}
