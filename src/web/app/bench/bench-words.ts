import type { StudioDocument } from "#records";
import { found } from "#work";
import { formatLength, formatTime, type UnitPreference } from "#words";
import { countWords, dayWords, unitsOf } from "../words.ts";
import { tooBig, type BenchCount, type BenchRow, type RowFit } from "./bench-rows.ts";

/** "46 in setting A, Alder. Ready: 20 Bisque 04, 9 Mid-range 6. 6 still dry, 1 too big." */
export function benchDetail(count: BenchCount, document: StudioDocument): string {
  const placed = count.placed.map(({ setting, count: pieces }) => {
    const kiln = found(document.kilns, setting.kilnId, "kiln");
    return `${pieces} in setting ${setting.name}, ${kiln.name}`;
  });
  const free = count.free.map(({ firingClass, count: pieces }) => `${pieces} ${firingClass.name}`);
  const rest = [
    count.drying > 0 ? `${count.drying} still dry` : null,
    count.held > 0 ? `${count.held} held back` : null,
    count.tooBig > 0 ? `${count.tooBig} too big` : null,
  ].filter((part) => part !== null);
  return [...placed, free.length > 0 ? `Ready: ${free.join(", ")}` : "", rest.join(", ")]
    .filter((part) => part !== "")
    .map((part) => `${part}.`)
    .join(" ");
}

/** "Ready", "Dries until Thu 26 Nov", "Held back". */
export function stateWords(row: BenchRow, today: string, units: UnitPreference): string {
  if (row.held) return "Held back";
  if (row.dryFrom === null) return "Ready";
  const at = new Date(row.dryFrom);
  const local = new Date(at.getTime() - at.getTimezoneOffset() * 60_000).toISOString();
  const seconds = at.getHours() * 3600 + at.getMinutes() * 60;
  return `Dries until ${dayWords(local.slice(0, 10), today)}, ${formatTime(seconds, units)}`;
}

/** "Alder, Rowan", or "too big". */
export function fitWords(row: BenchRow): string {
  if (tooBig(row)) return "too big";
  return row.fits
    .filter(({ fit }) => fit.fits)
    .map(({ kilnName }) => kilnName)
    .join(", ");
}

/** Why a kiln cannot take it: "Alder: 54 cm across, widest 52". */
export function unfitWords({ kilnName, fit }: RowFit, document: StudioDocument): string {
  const units = unitsOf(document);
  if (fit.fits) return `${kilnName}: fits`;
  if (fit.reason === "too-tall") {
    return `${kilnName}: too tall. It may be ${formatLength(fit.tallest, units, "size")} at most.`;
  }
  if (fit.widest === 0) return `${kilnName}: no shelf in stock fits this kiln.`;
  return `${kilnName}: too wide. The widest shelf is ${formatLength(fit.widest, units, "size")} across.`;
}

/** What happens to it next: the setting it is in, or why it waits. */
export function planWords(row: BenchRow): string {
  if (row.setting) return `Setting ${row.setting.name}`;
  if (tooBig(row)) return `too big: tell ${row.party.name}`;
  switch (row.waits) {
    case "no-room":
      return "waits: no room";
    case "no-stilt":
      return "waits: no stilt left";
    case "later-promise":
      return "waits: later promise";
    case "too-heavy":
      return "waits: too heavy";
    case "too-tall":
      return "waits: too tall";
    case "too-wide":
      return "waits: too wide";
    case "other-class":
    case null:
      return "waits";
  }
}

/** "14 tumblers, Tomas". */
export const rowName = (row: BenchRow): string => `${countWords(row.pieces.length, row.shape.name)}, ${row.party.name}`;
