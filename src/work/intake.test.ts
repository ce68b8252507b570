import { array, assert, constantFrom, oneof, property, string } from "fast-check";
import { describe, expect, test } from "vitest";
import { readStudio } from "#records";
import { demoStudio } from "./demo/studio.ts";
import { parseIntake, sizeOf } from "./intake.ts";
import { intakeGaps, takeIn } from "./take-in.ts";

// A Tuesday.
const today = "2026-11-24";
const studio = demoStudio(today, 1);
const read = (line: string, length: "metric" | "inch" = "metric") => parseIntake(line, studio, { today, length });

describe("one line", () => {
  test.each([
    ["14 tumblers Tomas Tue", 14, "tumbler", "Tomas", "2026-12-01"],
    ["Tomas Tue 14 tumblers", 14, "tumbler", "Tomas", "2026-12-01"],
    ["14x tumbler for tomas, Tuesday", 14, "tumbler", "Tomas", "2026-12-01"],
    ["a dozen mugs Ivy Fri", 12, "mug", "Ivy", "2026-11-27"],
    ["two large mugs Ivy tomorrow", 2, "large-mug", "Ivy", "2026-11-25"],
    ["teapot Zora in 3 days", 1, "teapot", "Zora", "2026-11-27"],
    ["6 side plates Noor 1 Dec", 6, "side-plate", "Noor", "2026-12-01"],
    ["6 side plates Noor Thu 3 Dec", 6, "side-plate", "Noor", "2026-12-03"],
    ["6 side plates Noor Jan 5", 6, "side-plate", "Noor", "2027-01-05"],
    ["6 side plates Noor 2026-12-24", 6, "side-plate", "Noor", "2026-12-24"],
    ["3 vases Beatriz Ortega Wed", 3, "vase", "Beatriz Ortega", "2026-11-25"],
  ])("%s", (line, count, shape, party, promised) => {
    const intake = read(line);
    expect([intake.count, intake.shape?.id, intake.party?.name, intake.promised]).toEqual([
      count,
      shape,
      party,
      promised,
    ]);
    expect(intakeGaps(intake)).toEqual([]);
  });

  test("a known party is that party, whatever the letters' case", () => {
    expect(read("1 mug IVY").party).toBe(studio.parties.find(({ id }) => id === "ivy"));
  });

  test("a size picks the nearest kind and is kept", () => {
    const intake = read("8x bowl 15x6 Ana Fri bisque");
    expect(intake.count).toBe(8);
    expect(intake.shape?.id).toBe("cereal-bowl");
    expect(intake.size).toEqual({ across: 0.15, high: 0.06 });
    expect(intake.firingClass?.id).toBe("bisque-04");
    expect(read("1 bowl 25 x 11 Ana").shape?.id).toBe("mixing-bowl");
  });

  test.each([
    ["1 mug 85x95mm Ivy", "metric", 0.085, 0.095],
    ["1 mug 8.5 x 9.5 cm Ivy", "metric", 0.085, 0.095],
    ["1 mug 8,5×9,5 Ivy", "metric", 0.085, 0.095],
    ["1 mug 3x4 Ivy", "inch", 0.0762, 0.1016],
    ["1 mug 3x4 in Ivy", "metric", 0.0762, 0.1016],
  ] as const)("size: %s", (line, length, across, high) => {
    const { size } = read(line, length);
    expect(size?.across).toBeCloseTo(across, 9);
    expect(size?.high).toBeCloseTo(high, 9);
  });

  test("says what it guessed", () => {
    expect([...read("mug").guessed].sort()).toEqual(["class", "count", "foot", "party", "promised", "size"]);
    expect([...read("14 tumblers 8x10 Tomas Tue glaze 06 stilts").guessed]).toEqual([]);
  });
});

describe("cones at intake", () => {
  test("06 is a cone, 6 is a count: never mixed", () => {
    expect(read("6 mugs Ivy 06").firingClass?.cone).toBe("06");
    expect(read("6 mugs Ivy 06").count).toBe(6);
    expect(read("2 mugs Ivy cone 6").firingClass?.cone).toBe("6");
    expect(read("2 mugs Ivy cone 6").count).toBe(2);
    expect(read("6 mugs Ivy").firingClass?.cone).toBe("06");
  });

  test("a cone no class has is asked about", () => {
    const intake = read("2 mugs Ivy cone 10");
    expect(intake.questions[0]).toMatch(/No class is “10”/);
    expect(intake.guessed.has("class")).toBe(true);
  });
});

describe("nonsense and gaps", () => {
  test.each(["", "   ", "!!!", "99999999 ?", "x".repeat(500)])("%s does no harm", (line) => {
    const intake = read(line);
    expect(intake.count).toBeGreaterThanOrEqual(1);
    expect(intakeGaps(intake)).toContain("shape");
  });

  test("31 Nov is no day: it is guessed instead", () => {
    expect(read("1 mug Ivy 31 Nov").guessed.has("promised")).toBe(true);
  });
});

describe("taking in", () => {
  test("gives records the studio accepts, with new ids", () => {
    const taken = takeIn(studio, read("14 tumblers Tomas Tue"));
    expect(taken.pieces).toHaveLength(14);
    expect(taken.party).toBeNull();
    expect(taken.shape).toBeNull();
    const after = readStudio({ ...studio, pieces: [...studio.pieces, ...taken.pieces] });
    expect(after.ok).toBe(true);
  });

  test("a new party and a new size become records of their own", () => {
    const taken = takeIn(studio, read("2 tumblers 9x14 Zora Fri"));
    expect(taken.party).toEqual({ version: 1, id: "zora", name: "Zora" });
    expect(taken.shape?.name).toBe("tumbler 9 × 14 cm");
    const size = sizeOf(taken.shape!);
    expect(size.across).toBeCloseTo(0.09, 9);
    expect(size.high).toBeCloseTo(0.14, 9);
    expect(taken.shape?.guessed).toBe(true);
    const tumbler = studio.shapes.find(({ id }) => id === "tumbler")!;
    expect(taken.shape!.mass).toBeGreaterThan(tumbler.mass);
    const after = readStudio({
      ...studio,
      parties: [...studio.parties, taken.party],
      shapes: [...studio.shapes, taken.shape],
      pieces: [...studio.pieces, ...taken.pieces],
    });
    expect(after.ok).toBe(true);
  });

  test("the shape's own size makes no new shape; scaling both ways by two makes mass four times as great", () => {
    const tumbler = studio.shapes.find(({ id }) => id === "tumbler")!;
    const { across, high } = sizeOf(tumbler);
    const same = takeIn(studio, { ...read("1 tumbler Ivy"), size: { across, high } });
    expect(same.shape).toBeNull();
    const double = takeIn(studio, { ...read("1 tumbler Ivy"), size: { across: 2 * across, high: 2 * high } });
    expect(double.shape!.mass / tumbler.mass).toBeCloseTo(4, 9);
  });
});

describe("any line", () => {
  const words = constantFrom(
    ..."14 8x bowl bowls 15x6 0x0 0.0001x5 99999 Ana Fri bisque 06 cone 6 ( [ * \\ 31 Feb mm in days for “ é × x constructor __proto__".split(
      " ",
    ),
  );
  const lines = oneof(
    array(words, { maxLength: 9 }).map((each) => each.join(" ")),
    string(),
  );

  test("is read without a throw, and what can be taken in leaves a whole studio", () => {
    assert(
      property(lines, (line) => {
        const intake = read(line);
        expect(intake.count).toBeGreaterThanOrEqual(1);
        expect(intake.promised).toMatch(/^\d{4}-\d{2}-\d{2}$/);
        if (intakeGaps(intake).length > 0) return;
        const { party, shape, pieces } = takeIn(studio, intake);
        const after = readStudio({
          ...studio,
          parties: party ? [...studio.parties, party] : studio.parties,
          shapes: shape ? [...studio.shapes, shape] : studio.shapes,
          pieces: [...studio.pieces, ...pieces],
        });
        expect(after.ok ? [] : after.failure).toEqual([]);
      }),
      { seed: 3, numRuns: 1500 },
    );
  });

  test("says which words it did not use, and which numbers cannot be", () => {
    expect(read("14 tumblers Tomas Tue blue rim").questions).toEqual([
      "“blue rim” means nothing here. Put it in the note.",
    ]);
    expect(read("2 bowls 0x0 Ana").questions).toEqual([expect.stringMatching(/No piece has that size/) as string]);
    const many = read("9999 mugs Ana");
    expect(many.count).toBe(500);
    expect(many.questions).toEqual(["Only 500 pieces go in at once."]);
    expect(read("14 tumblers Tomas Tue").questions).toEqual([]);
  });
});
