import { inchesFromMetres, millimetres, type Metres } from "#engine/units";
import { english } from "./english/index.ts";
import type { Language } from "./language.ts";
import { formatInchParts, formatNumber, thinSpace } from "./number.ts";
import type { UnitPreference } from "./units.ts";

/** What a length is of: a gap (mm, sixteenths of an inch), a size of ware or kiln (cm, quarters of an inch), a post (both). */
export type LengthUse = "gap" | "size" | "post";

/** A length in words. Gaps and sizes in the reader's units; posts always in both. */
export function formatLength(
  length: Metres,
  units: UnitPreference,
  use: LengthUse = "gap",
  language: Language = english,
): string {
  if (use === "post") return formatPost(length, units, language);
  return formatBareLength(length, units, use, language) + lengthUnit(units, use);
}

/** The same without its unit, for the second of two lengths: "It is 47 mm from the tip and needs 50." */
export function formatBareLength(
  length: Metres,
  units: UnitPreference,
  use: "gap" | "size" = "gap",
  language: Language = english,
): string {
  if (units.length === "inch") return formatInches(length, use === "gap" ? 16 : 4);
  if (use === "gap") return formatNumber(millimetres(length), 0, language);
  const centimetres = length * 100;
  const whole = Math.abs(centimetres - Math.round(centimetres)) < 0.05;
  return formatNumber(centimetres, whole ? 0 : 1, language);
}

function lengthUnit(units: UnitPreference, use: "gap" | "size"): string {
  return thinSpace + (units.length === "inch" ? "in" : use === "gap" ? "mm" : "cm");
}

function formatInches(length: Metres, parts: number): string {
  return formatInchParts(Math.round(inchesFromMetres(length) * parts), parts);
}

/**
 * A measured length beside the limit it is held against, so that the two never read the same when they differ.
 *
 * Rounds as usual; where that would hide the difference, one step finer and away from the limit; where even that
 * does, says "just under" or "just over".
 */
export function formatAgainst(
  measured: Metres,
  limit: Metres,
  units: UnitPreference,
  language: Language = english,
): string {
  const unit = lengthUnit(units, "gap");
  const steps = units.length === "inch" ? [16, 32, 64] : [1, 10];
  const first = steps[0];
  const inUnit = (length: Metres): number => (units.length === "inch" ? inchesFromMetres(length) : millimetres(length));
  const shownLimit = Math.round(inUnit(limit) * first) / first;
  for (const step of steps) {
    const scaled = inUnit(measured) * step;
    const away = measured < limit ? Math.floor(scaled) : Math.ceil(scaled);
    const rounded = step === first ? Math.round(scaled) : away;
    const tellsApart = measured < limit ? rounded / step < shownLimit : rounded / step > shownLimit;
    if (tellsApart || measured === limit) {
      const text =
        units.length === "inch"
          ? formatInchParts(rounded, step)
          : formatNumber(rounded / step, step === 1 ? 0 : 1, language);
      return text + unit;
    }
  }
  return `${measured < limit ? language.justUnder : language.justOver} ${formatBareLength(limit, units, "gap", language)}${unit}`;
}

/**
 * A post by its two names: "63 mm (2½ in)", or "2½ in (63 mm)" for readers of inches.
 *
 * Posts keep inch names in many places and a 200 mm post is sold as 8 in, though 8 in are 203 mm: the inch name is the
 * nearest half inch, an inch taken as 25 or 25.4 mm, whichever is nearer. Common practice, no source.
 */
export function formatPost(length: Metres, units: UnitPreference, language: Language = english): string {
  const metric = `${formatNumber(millimetres(length), 0, language)}${thinSpace}mm`;
  const inch = `${postInches(length)}${thinSpace}in`;
  return units.length === "inch" ? `${inch} (${metric})` : `${metric} (${inch})`;
}

function postInches(length: Metres): string {
  const halves = [0.0254, 0.025].map((inch) => Math.round((length / inch) * 2));
  const errors = [0.0254, 0.025].map((inch, i) => Math.abs(halves[i] * (inch / 2) - length));
  const nearest = errors[0] <= errors[1] ? 0 : 1;
  if (errors[nearest] <= 0.002) return formatInchParts(halves[nearest], 2);
  return formatInches(length, 8);
}
