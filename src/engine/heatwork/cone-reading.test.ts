import { describe, expect, it } from "vitest";
import { alphaFromBend, bendAtEnd, bendAtStart, bendOf, readBend, readingFromWord } from "./index.ts";

const value = (text: string): number => {
  const read = readBend(text);
  if (!read.ok) throw new Error(read.failure);
  return read.value.alpha;
};

describe("bend", () => {
  it("starts at 8 degrees and ends at 90, tip level with the base ([orton-chart])", () => {
    expect(bendOf(0)).toBeCloseTo(bendAtStart, 12);
    expect(bendOf(1)).toBeCloseTo(bendAtEnd, 12);
  });

  it("goes both ways", () => {
    for (const alpha of [0.05, 0.3, 0.5, 0.8, 1, 1.2]) expect(alphaFromBend(bendOf(alpha))).toBeCloseTo(alpha, 12);
    expect(alphaFromBend(0)).toBe(0);
  });

  // Against the design's closed form with its rounded constant, tan(theta/2) = tan 4° exp(2.66 alpha).
  it("matches the closed form by hand: alpha 0.5 bends to 29.6 degrees", () => {
    expect((bendOf(0.5) * 180) / Math.PI).toBeCloseTo(29.6, 1);
  });
});

describe("reading of a bend", () => {
  it("takes a clock, degrees and words for the same cone", () => {
    expect(value("6 o'clock")).toBeCloseTo(1, 9);
    expect(value("90 deg")).toBeCloseTo(1, 9);
    expect(value("down")).toBeCloseTo(1, 9);
    expect(value("3 o’clock")).toBeCloseTo(value("45°"), 9);
    expect(value("half")).toBeCloseTo(value("45"), 9);
    expect(value("4:30")).toBeCloseTo(value("67.5"), 9);
    expect(value("soft")).toBeLessThan(value("half"));
  });

  it("takes straight and flat as bounds, never as values", () => {
    expect(readingFromWord("straight").means).toBe("at most");
    expect(readingFromWord("flat").means).toBe("at least");
    expect(readBend("8")).toMatchObject({ value: { means: "at most" } });
    expect(readBend("120")).toMatchObject({ value: { means: "at least" } });
    expect(readBend("12 o'clock")).toMatchObject({ value: { means: "at most" } });
  });

  it.each(["", "bent", "9 o'clock", "200", "-5", "3 pm"])("says what would do for %j", (text) => {
    const read = readBend(text);
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.failure).toContain(`"${text}"`);
  });
});
