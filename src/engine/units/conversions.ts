import type { Joules, Kelvin, KelvinDifference, KelvinPerSecond, Kilograms, Metres } from "./quantities.ts";

/*
 * Exact by definition: international inch and pound (1959), Celsius and Fahrenheit scales.
 * Used only at the edges: screens, command line, print, import and export. Source: [nist-sp811]
 */
const metresPerInch = 0.0254;
const kilogramsPerPound = 0.45359237;

export const kelvinFromCelsius = (celsius: number): Kelvin => celsius + 273.15;
export const celsiusFromKelvin = (kelvin: Kelvin): number => kelvin - 273.15;
export const kelvinFromFahrenheit = (fahrenheit: number): Kelvin => ((fahrenheit - 32) * 5) / 9 + 273.15;
export const fahrenheitFromKelvin = (kelvin: Kelvin): number => ((kelvin - 273.15) * 9) / 5 + 32;

/** A difference of temperatures converts without the 32. */
export const fahrenheitDifference = (difference: KelvinDifference): number => (difference * 9) / 5;
export const kelvinDifferenceFromFahrenheit = (difference: number): KelvinDifference => (difference * 5) / 9;

export const kelvinPerSecondFromPerHour = (perHour: number): KelvinPerSecond => perHour / 3600;
export const kelvinPerHour = (rate: KelvinPerSecond): number => rate * 3600;

export const metresFromInches = (inches: number): Metres => inches * metresPerInch;
export const inchesFromMetres = (metres: Metres): number => metres / metresPerInch;
export const metresFromMillimetres = (millimetres: number): Metres => millimetres / 1000;
export const millimetres = (metres: Metres): number => metres * 1000;

export const kilogramsFromPounds = (pounds: number): Kilograms => pounds * kilogramsPerPound;
export const poundsFromKilograms = (kilograms: Kilograms): number => kilograms / kilogramsPerPound;

export const kilowattHours = (joules: Joules): number => joules / 3.6e6;
