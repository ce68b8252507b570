import { cautions, coneWords, formatDuration, formatMoment, metricUnits } from "#words";
import type { Plan } from "./plan.ts";

/**
 * A firing as calendar entries: heating, the hours in which someone must be there, and when the kiln may be opened.
 *
 * Times are the studio's own clock, without a zone (a "floating" time: the same on every device that stands there).
 * The end's entry covers 8 firings in 10 and reminds half an hour before.
 *
 * @param stamp  now, seconds since 1970-01-01 UTC
 * @returns null without a forecast: nobody knows when it ends
 *
 * Source: [rfc-5545]
 */
export function firingCalendar(plan: Plan, stamp: number): string | null {
  if (!plan.forecast) return null;
  const { when, grade } = plan.forecast;
  const { kiln, firingClass } = plan.load;
  const what = `${kiln.name}, ${coneWords(firingClass.cone)}`;
  const pieces = `Setting ${plan.settingName}, ${plan.load.setting.pieces.length} pieces.`;
  const estimate = `${cautions.forecast.join(" ")}${grade === "preview" ? " Quick forecast: a full one is surer." : ""}`;
  const entry = (kind: string, start: number, end: number, summary: string, description: string, alarm: boolean) => [
    "BEGIN:VEVENT",
    `UID:${uidPart(plan.settingId)}-${kind}@spyhole.invalid`,
    `DTSTAMP:${moment(stamp)}Z`,
    `DTSTART:${moment(start)}`,
    `DTEND:${moment(Math.max(end, start + 60))}`,
    `SUMMARY:${escaped(summary)}`,
    `DESCRIPTION:${escaped(description)}`,
    "TRANSP:TRANSPARENT",
    ...(alarm
      ? ["BEGIN:VALARM", "ACTION:DISPLAY", `DESCRIPTION:${escaped(summary)}`, "TRIGGER:-PT30M", "END:VALARM"]
      : []),
    "END:VEVENT",
  ];
  const lines = [
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "PRODID:-//Spyhole//Firing//EN",
    "CALSCALE:GREGORIAN",
    ...entry(
      "heating",
      when.start,
      when.ends,
      `${what}: heating`,
      `${pieces} Heating takes ${formatDuration(when.ends - when.start)}. ${cautions.light.join(" ")} ${estimate}`,
      false,
    ),
    ...entry(
      "end",
      when.endsEarly,
      when.endsLate,
      `Be here: ${what} ends about ${formatMoment(when.ends, metricUnits)}`,
      `${pieces} The end falls in these hours 8 times in 10. ${cautions.watch.join(" ")} ${estimate}`,
      true,
    ),
    ...(when.ready === null
      ? []
      : entry(
          "open",
          when.ready,
          when.ready + 1800,
          `${kiln.name}: cool enough to open`,
          `${pieces} ${cautions.open.join(" ")} ${estimate}`,
          false,
        )),
    "END:VCALENDAR",
  ];
  return lines.map((line) => `${folded(line)}\r\n`).join("");
}

/** "20260302T080000" of seconds since 1970-01-01, on whichever clock they count. */
function moment(seconds: number): string {
  const iso = new Date(Math.round(seconds / 60) * 60_000).toISOString();
  return iso.slice(0, 19).replaceAll(/[-:]/g, "");
}

const escaped = (text: string): string => text.replaceAll(/[\\;,]/g, (sign) => `\\${sign}`).replaceAll("\n", "\\n");

const uidPart = (id: string): string => id.replaceAll(/[^A-Za-z0-9-]/g, "-");

/** No line longer than 75 bytes; a character of several bytes is never parted. */
function folded(line: string): string {
  let out = "";
  let bytes = 0;
  for (const sign of line) {
    const code = sign.codePointAt(0)!;
    const size = code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
    if (bytes + size > 75) {
      out += "\r\n ";
      bytes = 1;
    }
    out += sign;
    bytes += size;
  }
  return out;
}
