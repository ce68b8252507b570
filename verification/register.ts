import { heatworkCases } from "./heatwork.ts";
import type { VerificationCase } from "./verification-case.ts";

/** Every case, in the order of the report. A new file of cases joins by one line here. */
export const register: Readonly<Record<string, readonly VerificationCase[]>> = {
  "Heatwork: cones and thermocouples": heatworkCases,
};
