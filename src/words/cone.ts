import { english } from "./english/index.ts";
import type { Language } from "./language.ts";
import { formatQuarters } from "./number.ts";

/** A cone's digits as written for readers: "06", "5½" for the scale's "5.5". */
export function coneDigits(cone: string): string {
  return cone.replace(/\.5$/, "½");
}

/** A cone in full: "cone oh-six (06), low fire". For titles, the sheet and wherever a cone is set. */
export function coneWords(cone: string, language: Language = english): string {
  return `${coneName(cone, language)}, ${coneFire(cone, language)}`;
}

/** A cone with its digits spelt: "cone oh-six (06)". */
export function coneName(cone: string, language: Language = english): string {
  return `${language.cone} ${language.spellCone(cone)} (${coneDigits(cone)})`;
}

/** A cone for screen readers and speech: "cone oh-six, low fire". */
export function coneSpoken(cone: string, language: Language = english): string {
  return `${language.cone} ${language.spellCone(cone)}, ${coneFire(cone, language)}`;
}

/** "low fire" for cones with a leading zero, else "high fire": what keeps 06 apart from 6. */
export function coneFire(cone: string, language: Language = english): string {
  return cone.startsWith("0") ? language.lowFire : language.highFire;
}

/**
 * How far from the wanted cone, in words and quarters: "½ cone cold", "as wanted", "1¼ cones hot".
 *
 * Within a quarter of a cone is "as wanted", as in the drawings; beyond, the nearest quarter.
 *
 * @param offset  heatwork less what was wanted [cones]; above 0 is hot
 */
export function offsetWords(offset: number, language: Language = english): string {
  const size = Math.abs(offset);
  if (size < 0.25) return language.asWanted;
  return `${cones(size, language)} ${offset < 0 ? language.cold : language.hot}`;
}

/** A difference between pieces, in quarters of a cone: "1¼ cones", "under ¼ cone". */
export function spreadWords(spread: number, language: Language = english): string {
  return spread < 0.125 ? `${language.under} ¼ ${language.cone}` : cones(spread, language);
}

function cones(size: number, language: Language): string {
  const quarters = Math.max(Math.round(size * 4), 1);
  return `${formatQuarters(quarters)} ${quarters > 4 ? language.cones : language.cone}`;
}

/** How sure: "give or take ½". To the nearest quarter of a cone, never under a quarter. */
export function giveOrTakeWords(halfWidth: number, language: Language = english): string {
  return `${language.giveOrTake} ${formatQuarters(Math.max(Math.round(halfWidth * 4), 1))}`;
}

/** A chance 0..1 as "2 in 10"; near the ends "under 1 in 10", "over 9 in 10": nothing is called certain. */
export function chanceWords(chance: number, language: Language = english): string {
  const tenths = Math.round(chance * 10);
  if (tenths < 1) return language.chance(1, "under");
  if (tenths > 9) return language.chance(9, "over");
  return language.chance(tenths, "about");
}
