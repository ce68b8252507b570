import { expect, test } from "vitest";
import tokens from "./tokens.json";
import { tokensCss } from "./tokens-css.ts";

test("the checked-in style sheet is the one tokens.json makes", async () => {
  await expect(tokensCss(tokens)).toMatchFileSnapshot("./tokens.css");
});

/** Relative luminance and contrast of WCAG 2.2: https://www.w3.org/TR/WCAG22/#dfn-relative-luminance */
function luminance(hex: string): number {
  const full = hex.length === 4 ? Array.from(hex.slice(1), (digit) => digit + digit).join("") : hex.slice(1);
  const [r, g, b] = [0, 2, 4].map((start) => {
    const channel = Number.parseInt(full.slice(start, start + 2), 16) / 255;
    return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [low, high] = [luminance(a), luminance(b)].sort((p, q) => p - q) as [number, number];
  return (high + 0.05) / (low + 0.05);
}

test.each(["light", "dark"] as const)("text and control edges keep the contrast of WCAG 2.2 AA: %s", (theme) => {
  const { ui, heat } = tokens.colour[theme];
  for (const ground of [ui.surface, ui.ground, ui.raise, ui.band, ui["accent-wash"]]) {
    expect(contrast(ui.ink, ground)).toBeGreaterThanOrEqual(4.5);
    expect(contrast(ui.muted, ground)).toBeGreaterThanOrEqual(4.5);
  }
  expect(contrast(ui.surface, ui.ink)).toBeGreaterThanOrEqual(4.5);
  expect(contrast(ui.edge, ui.surface)).toBeGreaterThanOrEqual(3);
  expect(contrast(ui.accent, ui.surface)).toBeGreaterThanOrEqual(3);
  for (const { fill, label } of Object.values(heat)) expect(contrast(fill, label)).toBeGreaterThanOrEqual(4.5);
});
