import { costOf, startOptions, type Attendance, type Cost, type StartOption, type StudioTime } from "#engine/advising";
import type { Forecast } from "#engine/firing";
import type { Seconds } from "#engine/units";
import type { SettingRecord, StudioDocument } from "#records";
import { dayNumberOf } from "./day.ts";

/** When a firing ends, when it can be opened, and what it costs, in the studio's own time and currency. */
export interface TimeAndMoney {
  readonly start: StudioTime;
  readonly ends: StudioTime;
  /** Early and late end: 8 in 10 fall between. Someone must be there for all of it. */
  readonly endsEarly: StudioTime;
  readonly endsLate: StudioTime;
  /** Lid shut, cool enough to open; null if the forecast did not run that far. */
  readonly ready: StudioTime | null;
  readonly cost: Cost;
  /** Half width that holds 8 in 10, in the studio's currency. */
  readonly costGiveOrTake: number;
}

const day = 86_400;

/** Moment a setting's firing is to start, seconds since midnight of 1970-01-01 in the studio's own time. */
export function startOf(setting: Pick<SettingRecord, "day" | "startsAt">): StudioTime {
  return dayNumberOf(setting.day) * day + setting.startsAt;
}

/** Hours and money of a forecast, started when the setting says. */
export function timeAndMoney(document: StudioDocument, setting: SettingRecord, forecast: Forecast): TimeAndMoney {
  const start = startOf(setting);
  const ends = start + forecast.heatingEnds;
  const cost = costOf({ times: forecast.times, power: forecast.power }, start, document.studio.tariff);
  return {
    start,
    ends,
    endsEarly: ends - forecast.uncertainty.heating,
    endsLate: ends + forecast.uncertainty.heating,
    ready: forecast.readyAt === null ? null : start + forecast.readyAt,
    cost,
    costGiveOrTake: cost.energy > 0 ? (cost.cost * forecast.uncertainty.energy) / cost.energy : 0,
  };
}

/**
 * Times to start a setting's firing so that someone is there for its whole end, cheapest first.
 *
 * @param days  how many days ahead of the setting's own day are looked at
 * @param step  times offered are whole multiples of this from midnight [s]
 */
export function startChoices(
  document: StudioDocument,
  setting: SettingRecord,
  forecast: Forecast,
  attendance: readonly Attendance[],
  days = 7,
  step: Seconds = 900,
): readonly StartOption[] {
  const earliest = dayNumberOf(setting.day) * day;
  return startOptions(
    {
      heating: forecast.heatingEnds,
      heatingGiveOrTake: forecast.uncertainty.heating,
      ready: forecast.readyAt ?? forecast.times.at(-1)!,
    },
    { times: forecast.times, power: forecast.power },
    { earliest, latest: earliest + days * day, attendance, tariff: document.studio.tariff, step },
  );
}
