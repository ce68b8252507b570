import type { HeatClass } from "#work";
import { dotted, hatched, type PagePoint } from "./drawing.ts";

/** Spacing of slanting lines (cold) or dots (hot) in millimetres of the drawn ware, as in the screens' heat steps. */
const spacings: Readonly<Record<HeatClass, number>> = {
  cold3: 5.5,
  cold2: 8.5,
  cold1: 15,
  wanted: 0,
  hot1: 13,
  hot2: 8.5,
  hot3: 6,
};

/** Fills a closed shape with the mark of its heat in black and white; nothing where it is as wanted. */
export function heatMark(heat: HeatClass, shape: readonly PagePoint[], pointsPerMetre: number): string {
  const spacing = Math.max((spacings[heat] / 1000) * pointsPerMetre, 1.9);
  if (heat === "wanted") return "";
  if (heat.startsWith("cold")) return hatched(shape, spacing, heat === "cold3" ? 0.8 : 0.6);
  return dotted(shape, spacing, heat === "hot3" ? 0.75 : 0.6);
}
