import { requireThat } from "#base";
import type { DayNumber } from "#engine/units";

/** Days since 1970-01-01 of an ISO date; the calendar is Gregorian and has no time zone here. */
export function dayNumberOf(isoDate: string): DayNumber {
  const [year, month, day] = isoDate.split("-").map(Number) as [number, number, number];
  // Howard Hinnant's days-from-civil, exact for all Gregorian dates. Source: [hinnant-dates]
  const shiftedYear = month <= 2 ? year - 1 : year;
  const era = Math.floor(shiftedYear / 400);
  const yearOfEra = shiftedYear - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  return (
    era * 146_097 + yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear - 719_468
  );
}

/** The ISO date of a day number; the inverse of `dayNumberOf` for years 0 to 9999. Source: [hinnant-dates] */
export function isoDateOf(day: DayNumber): string {
  requireThat(Number.isInteger(day), "day", day, "a whole day number");
  const shifted = day + 719_468;
  const era = Math.floor(shifted / 146_097);
  const dayOfEra = shifted - era * 146_097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36_524) - Math.floor(dayOfEra / 146_096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shiftedMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const date = dayOfYear - Math.floor((153 * shiftedMonth + 2) / 5) + 1;
  const month = shiftedMonth + (shiftedMonth < 10 ? 3 : -9);
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  const digits = (value: number, length: number): string => String(value).padStart(length, "0");
  return `${digits(year, 4)}-${digits(month, 2)}-${digits(date, 2)}`;
}

/** Day of the week, Sunday = 0 … Saturday = 6. 1970-01-01 was a Thursday. */
export function weekdayOf(day: DayNumber): number {
  return (((day + 4) % 7) + 7) % 7;
}
