import type { Language } from "./language.ts";

/** Thin space that never breaks (U+202F): between a number and its unit. */
export const thinSpace = "\u202f";

/** Minus sign, not a hyphen. */
const minus = "\u2212";

const quarterSigns = ["", "¼", "½", "¾"] as const;

/** `value` with `decimals` digits after the language's decimal sign; never "-0". */
export function formatNumber(value: number, decimals: number, language: Language): string {
  const digits = Math.abs(value).toFixed(decimals);
  const negative = value < 0 && Number(digits) !== 0;
  return (negative ? minus : "") + digits.replace(".", language.decimal);
}

/** A count of quarters, 0 or more, as "½", "1¼", "2", "0". */
export function formatQuarters(quarters: number): string {
  const whole = Math.floor(quarters / 4);
  const sign = quarterSigns[quarters % 4] as string;
  return whole === 0 && sign !== "" ? sign : `${whole}${sign}`;
}

/**
 * Inches as whole and fraction, from a whole number of `parts` of an inch: "2½", "1 3⁄8", "0".
 *
 * Quarters are single signs; finer parts are written with the fraction slash, which fonts draw as a fraction.
 */
export function formatInchParts(count: number, parts: number): string {
  const sign = count < 0 ? minus : "";
  let above = Math.abs(count);
  let below = parts;
  while (below > 1 && above % 2 === 0) {
    above /= 2;
    below /= 2;
  }
  const whole = Math.floor(above / below);
  const rest = above - whole * below;
  if (rest === 0) return `${sign}${whole}`;
  if (below <= 4) return `${sign}${whole === 0 ? "" : whole}${quarterSigns[(rest * 4) / below] as string}`;
  return `${sign}${whole === 0 ? "" : `${whole}${thinSpace}`}${rest}\u2044${below}`;
}

/** A share 0..1 as whole per cent: "63 %". */
export function formatShare(share: number): string {
  return `${Math.round(share * 100)}${thinSpace}%`;
}
