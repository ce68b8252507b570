import type { Caution, CautionStep } from "../caution.ts";

/*
 * Fixed text. Shown whole at the step where it matters; a change here is a change of safety text and needs a reason
 * in the commit. Grade of the figures: supplier and teaching notes; common practice, no source.
 */
export const cautions: Readonly<Record<CautionStep, readonly Caution[]>> = {
  general: ["General information only. The kiln’s own manual, local code and a licensed electrician come first."],
  load: [
    "Switch the kiln off at the breaker before you reach in.",
    "Lift a heavy shelf with two people.",
    "Silica dust harms lungs. Wipe wet or use a HEPA vacuum. Never sweep dry.",
  ],
  light: [
    "Read the class and the cone digits once more. 06 is not 6.",
    "Vent the fumes outdoors.",
    "Keep clear of anything that burns. How far, the kiln’s manual and local code say; makers and codes differ.",
  ],
  watch: [
    "Wear proper shaded infrared glasses at the spyhole. Sunglasses do not protect.",
    "Be here at the end. Never leave the end of a firing unattended.",
    "Never trust the automatic shut-off alone.",
  ],
  open: [
    "Never open a hot kiln. Wait for about 50 °C (122 °F) for bare hands.",
    "Switch the kiln off at the breaker before you reach in.",
  ],
  unload: [
    "Wear goggles and a mask when you grind stilt marks or shelves.",
    "Silica dust harms lungs. Wipe wet or use a HEPA vacuum. Never sweep dry.",
  ],
  kiln: [
    "Wiring and elements are work for a licensed electrician. The kiln’s manual and local code come first.",
    "Clearances to anything that burns: the kiln’s manual and local code say; makers and codes differ.",
  ],
  forecast: ["An estimate. The witness cones decide."],
  ware: ["Nothing here says that a piece is safe for food."],
};
