import { inchesFromMetres, metresFromInches } from "#engine/units";

interface Size {
  readonly across: number;
  readonly high: number | null;
}

/** "8.4 × 10": across and high in cm, or in inches to a hundredth. */
export function sizeText({ across, high }: Size, units: "metric" | "inch"): string {
  const number = (metres: number): string =>
    units === "metric"
      ? String(Math.round(metres * 1000) / 10)
      : String(Math.round(inchesFromMetres(metres) * 100) / 100);
  return high === null ? number(across) : `${number(across)} × ${number(high)}`;
}

/** The size a text says, in metres; null if it is not two numbers (or one, for across) of a sensible size. */
export function sizeIn(text: string, units: "metric" | "inch"): Size | null {
  const found = /^\s*(\d+(?:[.,]\d+)?)\s*(?:[x×*]\s*(\d+(?:[.,]\d+)?)\s*)?$/i.exec(text);
  if (!found) return null;
  const metres = (digits: string): number => {
    const value = Number(digits.replace(",", "."));
    return units === "metric" ? value / 100 : metresFromInches(value);
  };
  const across = metres(found[1]);
  const high = found[2] === undefined ? null : metres(found[2]);
  const isSensible = (value: number): boolean => value >= 0.003 && value <= 2;
  return isSensible(across) && (high === null || isSensible(high)) ? { across, high } : null;
}
