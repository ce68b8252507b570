import type { DayNumber, Seconds } from "#engine/units";
import { english } from "./english/index.ts";
import type { Language } from "./language.ts";
import { formatQuarters, thinSpace } from "./number.ts";
import type { UnitPreference } from "./units.ts";

const fiveMinutes = 300;

/** A duration: "8 h 40", "25 min", "12 h". Rounded to `step` [s], 5 minutes if left out. */
export function formatDuration(duration: Seconds, step: Seconds = fiveMinutes, language: Language = english): string {
  const minutes = Math.round((Math.round(duration / step) * step) / 60);
  const hours = Math.floor(minutes / 60);
  const rest = minutes - hours * 60;
  if (hours === 0) return `${rest}${thinSpace}${language.minute}`;
  const whole = `${hours}${thinSpace}${language.hour}`;
  return rest === 0 ? whole : `${whole}${thinSpace}${String(rest).padStart(2, "0")}`;
}

/** Half width of a band of time: "± 25 min", from an hour up in quarters "± 1½ h". Rounded up: a band never shrinks. */
export function formatDurationBand(halfWidth: Seconds, language: Language = english): string {
  const minutes = Math.ceil(halfWidth / fiveMinutes - 1e-9) * 5;
  if (minutes < 60) return `±${thinSpace}${minutes}${thinSpace}${language.minute}`;
  return `±${thinSpace}${formatQuarters(Math.ceil(minutes / 15))}${thinSpace}${language.hour}`;
}

/** Weekday, day and month, day first: "Thu 26 Nov". With `year` for dates far off. */
export function formatDay(day: DayNumber, language: Language = english, year: boolean = false): string {
  const date = new Date(Math.floor(day) * 86_400_000);
  const text = language.day(
    language.weekdays[date.getUTCDay()],
    date.getUTCDate(),
    language.months[date.getUTCMonth()],
  );
  return year ? `${text} ${date.getUTCFullYear()}` : text;
}

/** A time of day [s since midnight] by the reader's clock: "15:55", "3:55 pm". Whole minutes. */
export function formatTime(sinceMidnight: Seconds, units: UnitPreference): string {
  const minutes = ((Math.round(sinceMidnight / 60) % 1440) + 1440) % 1440;
  const hour = Math.floor(minutes / 60);
  const rest = String(minutes % 60).padStart(2, "0");
  if (units.clock === "24") return `${String(hour).padStart(2, "0")}:${rest}`;
  return `${hour % 12 === 0 ? 12 : hour % 12}:${rest}${thinSpace}${hour < 12 ? "am" : "pm"}`;
}

/** A moment [s since 1970-01-01 00:00 of the studio's own clock]: "Fri 06:55"; `full` adds the date. */
export function formatMoment(
  moment: Seconds,
  units: UnitPreference,
  language: Language = english,
  full: boolean = false,
): string {
  const rounded = Math.round(moment / 60) * 60;
  const day = Math.floor(rounded / 86_400);
  const name = full ? formatDay(day, language) : language.weekdays[new Date(day * 86_400_000).getUTCDay()];
  return `${name} ${formatTime(rounded - day * 86_400, units)}`;
}
