import type { StudioDocument } from "#records";
import { dayNumberOf, isoDateOf } from "#work";
import { english, formatDay, type UnitPreference } from "#words";

/** Units of the studio. */
export const unitsOf = (document: StudioDocument): UnitPreference => document.studio.units;

/** Today on the studio's own calendar: this computer's local date. */
export function todayIso(now: Date = new Date()): string {
  const minutes = now.getTime() / 60_000 - now.getTimezoneOffset();
  return isoDateOf(Math.floor(minutes / 1440));
}

/** "Thu 26 Nov"; with the year when it is not this one. */
export function dayWords(iso: string, today: string): string {
  return formatDay(dayNumberOf(iso), english, iso.slice(0, 4) !== today.slice(0, 4));
}

/** "today", "tomorrow", "in 6 days", "2 days ago". */
export function distanceWords(iso: string, today: string): string {
  const days = dayNumberOf(iso) - dayNumberOf(today);
  if (days === 0) return "today";
  if (days === 1) return "tomorrow";
  if (days === -1) return "yesterday";
  return days > 0 ? `in ${days} days` : `${-days} days ago`;
}

/** "14 tumblers", "1 teapot". */
export function countWords(count: number, name: string): string {
  return `${count} ${english.pluralName(name, count)}`;
}

/** The first letter large, for a sentence that starts with a name. */
export function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
