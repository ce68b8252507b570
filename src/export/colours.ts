import type { HeatClass } from "#work";

/** Colours of the light theme, which files in space are given: a test keeps them to those of the page. */
export const heatColours: Readonly<Record<HeatClass, string>> = {
  cold3: "#0064a7",
  cold2: "#5493cb",
  cold1: "#aecbe5",
  wanted: "#f4f2ec",
  hot1: "#edbf8c",
  hot2: "#d37634",
  hot3: "#a83e1f",
};

export const materialColours = { brick: "#efe9da", shelf: "#e4e2dc", post: "#d9d5ca", element: "#3a3f45" } as const;

/** A colour "#rrggbb" as linear red, green and blue [0..1]. Source: [iec-61966-2-1], the sRGB curve. */
export function linearOf(colour: string): readonly [number, number, number] {
  const part = (at: number): number => {
    const value = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return [part(1), part(3), part(5)];
}
