import {
  celsiusFromKelvin,
  fahrenheitDifference,
  fahrenheitFromKelvin,
  kelvinPerHour,
  kilowattHours,
  poundsFromKilograms,
  type Joules,
  type Kelvin,
  type KelvinDifference,
  type KelvinPerSecond,
  type Kilograms,
  type Watts,
} from "#engine/units";
import { english } from "./english/index.ts";
import type { Language } from "./language.ts";
import { formatNumber, thinSpace } from "./number.ts";
import type { UnitPreference } from "./units.ts";

/** A temperature in whole degrees: "998 °C" or "1828 °F". */
export function formatTemperature(temperature: Kelvin, units: UnitPreference, language: Language = english): string {
  return formatBareTemperature(temperature, units, language) + degrees(units);
}

/** The same without its unit. */
export function formatBareTemperature(
  temperature: Kelvin,
  units: UnitPreference,
  language: Language = english,
): string {
  const value = units.temperature === "celsius" ? celsiusFromKelvin(temperature) : fahrenheitFromKelvin(temperature);
  return formatNumber(value, 0, language);
}

/** A difference of temperatures, which converts without the 32: 10 K is "10 °C" or "18 °F". */
export function formatTemperatureDifference(
  difference: KelvinDifference,
  units: UnitPreference,
  language: Language = english,
): string {
  const value = units.temperature === "celsius" ? difference : fahrenheitDifference(difference);
  return formatNumber(value, 0, language) + degrees(units);
}

/** A heating rate: "60 °C an hour". */
export function formatRate(rate: KelvinPerSecond, units: UnitPreference, language: Language = english): string {
  return `${formatTemperatureDifference(kelvinPerHour(rate), units, language)} ${language.anHour}`;
}

const degrees = (units: UnitPreference): string => thinSpace + (units.temperature === "celsius" ? "°C" : "°F");

/** A mass: "5.6 kg", whole ones without decimals "12 kg", below 1 with two "0.35 kg"; or lb the same way. */
export function formatMass(mass: Kilograms, units: UnitPreference, language: Language = english): string {
  const value = units.mass === "kilogram" ? mass : poundsFromKilograms(mass);
  const whole = Math.abs(value - Math.round(value)) < 0.05;
  const decimals = whole ? 0 : Math.abs(value) < 0.95 ? 2 : 1;
  return formatNumber(value, decimals, language) + thinSpace + (units.mass === "kilogram" ? "kg" : "lb");
}

/** A mass beside the limit it breaks: where both would read the same, "just over 12 kg" or "just under". */
export function formatMassAgainst(
  mass: Kilograms,
  limit: Kilograms,
  units: UnitPreference,
  language: Language = english,
): string {
  const text = formatMass(mass, units, language);
  const shownLimit = formatMass(limit, units, language);
  if (text !== shownLimit || mass === limit) return text;
  return `${mass < limit ? language.justUnder : language.justOver} ${shownLimit}`;
}

/** Energy in whole kilowatt hours: "51 kWh". */
export function formatEnergy(energy: Joules, language: Language = english): string {
  return `${formatNumber(kilowattHours(energy), 0, language)}${thinSpace}kWh`;
}

/** Power: "11.5 kW". */
export function formatPower(power: Watts, language: Language = english): string {
  return `${formatNumber(power / 1000, 1, language)}${thinSpace}kW`;
}

/** Money, to 0.10 below 100 and whole above: "€ 14.80", "€ 123". `sign` is what stands before the amount. */
export function formatMoney(amount: number, sign: string, language: Language = english): string {
  return `${sign}${thinSpace}${bareMoney(amount, language)}`;
}

/** Money with its give or take: "€ 14.80 ± 1.20". */
export function formatMoneyBand(
  amount: number,
  giveOrTake: number,
  sign: string,
  language: Language = english,
): string {
  return `${formatMoney(amount, sign, language)} ±${thinSpace}${bareMoney(giveOrTake, language)}`;
}

function bareMoney(amount: number, language: Language): string {
  if (Math.abs(amount) >= 100) return formatNumber(amount, 0, language);
  return formatNumber(Math.round(amount * 10) / 10, 2, language);
}
