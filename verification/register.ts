import { conductionCases } from "./conduction.ts";
import { cylinderCases } from "./cylinder.ts";
import { enclosureCases } from "./enclosures.ts";
import { greyEnclosureCases } from "./grey-enclosures.ts";
import { heatworkCases } from "./heatwork.ts";
import { viewFactorCases } from "./view-factors.ts";
import type { VerificationCase } from "./verification-case.ts";

/** Every case, in the order of the report. A new file of cases joins by one line here. */
export const register: Readonly<Record<string, readonly VerificationCase[]>> = {
  "Radiation: view factors": viewFactorCases,
  "Radiation: grey surfaces": greyEnclosureCases,
  Conduction: [...conductionCases, ...cylinderCases],
  "Radiation and conduction together": enclosureCases,
  "Heatwork: cones and thermocouples": heatworkCases,
};
