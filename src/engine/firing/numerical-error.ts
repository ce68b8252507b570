import type { Grade } from "./forecast.ts";

/** Standard deviation of a piece's mean heatwork from the computation alone [cones], by grade. */
const numericalErrors: Readonly<Record<Grade, { readonly piece: number; readonly words: string }>> = {
  preview: { piece: 0.4, words: "This is a quick preview on a coarse mesh; the full forecast is closer." },
  full: { piece: 0.15, words: "Rays and mesh are finite." },
};

export default numericalErrors;
