import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { coneNames } from "#engine/heatwork";
import { metresFromInches } from "#engine/units";
import {
  chanceWords,
  coneSpoken,
  coneWords,
  formatAgainst,
  formatDay,
  formatDuration,
  formatDurationBand,
  formatInchParts,
  formatLength,
  formatMass,
  formatMassAgainst,
  formatMoment,
  formatMoney,
  formatMoneyBand,
  formatPost,
  formatRate,
  formatTemperature,
  formatTemperatureDifference,
  formatTime,
  giveOrTakeWords,
  inchUnits,
  metricUnits,
  offsetWords,
  spreadWords,
} from "./index.ts";

/** Numbers are read with plain spaces here; that the thin one stands before units is tested once. */
const plain = (text: string): string => text.replaceAll("\u202f", " ");

describe("lengths", () => {
  test("gaps in mm, ware in cm, posts in both", () => {
    expect(formatLength(0.047, metricUnits)).toBe("47\u202fmm");
    expect(plain(formatLength(0.69, metricUnits, "size"))).toBe("69 cm");
    expect(plain(formatLength(0.265, metricUnits, "size"))).toBe("26.5 cm");
    expect(plain(formatLength(0.063, metricUnits, "post"))).toBe("63 mm (2½ in)");
    expect(plain(formatLength(0.063, inchUnits, "post"))).toBe("2½ in (63 mm)");
    expect(plain(formatLength(0.05, inchUnits))).toBe("1 15⁄16 in");
    expect(plain(formatLength(0.58, inchUnits, "size"))).toBe("22¾ in");
  });

  // Post names as sold: 13, 25, 38, 50, 75, 100, 125, 150, 200 mm. Common practice, no source.
  test.each([
    [13, "½"],
    [25, "1"],
    [38, "1½"],
    [50, "2"],
    [63, "2½"],
    [75, "3"],
    [88, "3½"],
    [100, "4"],
    [125, "5"],
    [150, "6"],
    [200, "8"],
    [250, "10"],
    [300, "12"],
  ])("a %d mm post is called %s in", (millimetres, inches) => {
    expect(plain(formatPost(millimetres / 1000, metricUnits))).toBe(`${millimetres} mm (${inches} in)`);
  });

  test("a post of half inches keeps its inch name and an odd one gets its eighths", () => {
    for (let halves = 1; halves <= 40; halves++) {
      const inches = formatInchParts(halves, 2);
      expect(plain(formatPost(metresFromInches(halves / 2), inchUnits)).startsWith(`${inches} in (`)).toBe(true);
    }
    expect(plain(formatPost(0.07, inchUnits))).toBe("2¾ in (70 mm)");
  });

  test("fractions of an inch read back as the same number", () => {
    const signs: Record<string, number> = { "¼": 0.25, "½": 0.5, "¾": 0.75 };
    const read = (text: string): number => {
      const match = /^(?:(\d+)(?=$|\u202f|[¼½¾]))?\u202f?(?:([¼½¾])|(\d+)⁄(\d+))?$/.exec(text);
      if (!match) throw new Error(`cannot read ${text}`);
      const [, whole, sign, above, below] = match;
      return Number(whole ?? 0) + (sign ? signs[sign] : 0) + (above ? Number(above) / Number(below) : 0);
    };
    fc.assert(
      fc.property(fc.nat(2000), fc.constantFrom(2, 4, 8, 16, 32, 64), (count, parts) => {
        expect(read(formatInchParts(count, parts))).toBeCloseTo(count / parts, 12);
      }),
    );
  });

  test("a length that breaks a limit never reads like the limit", () => {
    expect(plain(formatAgainst(0.047, 0.05, metricUnits))).toBe("47 mm");
    expect(plain(formatAgainst(0.0497, 0.05, metricUnits))).toBe("49.7 mm");
    expect(plain(formatAgainst(0.04997, 0.05, metricUnits))).toBe("49.9 mm");
    expect(plain(formatAgainst(0.05, 0.05, metricUnits))).toBe("50 mm");
    expect(plain(formatAgainst(0.1001, 0.1, metricUnits))).toBe("100.1 mm");
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 1, noNaN: true }),
        fc.double({ min: -0.01, max: 0.01, noNaN: true }),
        (limit, off) => {
          fc.pre(Math.abs(off) > 1e-6);
          for (const units of [metricUnits, inchUnits]) {
            expect(formatAgainst(limit + off, limit, units)).not.toBe(formatLength(limit, units));
          }
        },
      ),
    );
  });
});

describe("temperature, mass, money", () => {
  test("whole degrees; a difference converts without the 32", () => {
    expect(plain(formatTemperature(1271.15, metricUnits))).toBe("998 °C");
    expect(plain(formatTemperature(1271.15, inchUnits))).toBe("1828 °F");
    expect(plain(formatTemperatureDifference(10, metricUnits))).toBe("10 °C");
    expect(plain(formatTemperatureDifference(10, inchUnits))).toBe("18 °F");
    expect(plain(formatTemperature(273.15 - 0.2, metricUnits))).toBe("0 °C");
    expect(plain(formatRate(60 / 3600, inchUnits))).toBe("108 °F an hour");
  });

  test("mass and money show no false digits", () => {
    expect(plain(formatMass(5.63, metricUnits))).toBe("5.6 kg");
    expect(plain(formatMass(0.35, metricUnits))).toBe("0.35 kg");
    expect(plain(formatMass(0.9999, metricUnits))).toBe("1 kg");
    expect(plain(formatMass(12, metricUnits))).toBe("12 kg");
    expect(plain(formatMass(0.45359237, inchUnits))).toBe("1 lb");
    expect(plain(formatMassAgainst(12.01, 12, metricUnits))).toBe("just over 12 kg");
    expect(plain(formatMassAgainst(12.3, 12, metricUnits))).toBe("12.3 kg");
    expect(plain(formatMassAgainst(12, 12, metricUnits))).toBe("12 kg");
    expect(plain(formatMoney(14.83, "€"))).toBe("€ 14.80");
    expect(plain(formatMoney(123.4, "€"))).toBe("€ 123");
    expect(plain(formatMoneyBand(14.8, 1.2, "€"))).toBe("€ 14.80 ± 1.20");
  });
});

describe("time", () => {
  test("durations to 5 minutes", () => {
    expect(plain(formatDuration(8 * 3600 + 41 * 60))).toBe("8 h 40");
    expect(plain(formatDuration(24 * 60))).toBe("25 min");
    expect(plain(formatDuration(3599))).toBe("1 h");
    expect(plain(formatDuration(5 * 60 + 3600))).toBe("1 h 05");
    expect(plain(formatDurationBand(24 * 60))).toBe("± 25 min");
    expect(plain(formatDurationBand(1.4 * 3600))).toBe("± 1½ h");
  });

  test("the calendar agrees with a reference library: JavaScript's own Intl", () => {
    const intl = new Intl.DateTimeFormat("en-GB", {
      weekday: "short",
      day: "numeric",
      month: "short",
      timeZone: "UTC",
    });
    fc.assert(
      fc.property(fc.integer({ min: -20_000, max: 60_000 }), (day) => {
        const parts = Object.fromEntries(
          intl.formatToParts(new Date(day * 86_400_000)).map((part) => [part.type, part.value]),
        );
        const month = parts["month"].slice(0, 3);
        expect(formatDay(day)).toBe(`${parts["weekday"]} ${parts["day"]} ${month}`);
      }),
    );
    expect(formatDay(20_783)).toBe("Thu 26 Nov");
  });

  test("clock by choice", () => {
    expect(formatTime(15 * 3600 + 55 * 60, metricUnits)).toBe("15:55");
    expect(plain(formatTime(15 * 3600 + 55 * 60, inchUnits))).toBe("3:55 pm");
    expect(plain(formatTime(0, inchUnits))).toBe("12:00 am");
    expect(plain(formatTime(12 * 3600, inchUnits))).toBe("12:00 pm");
    expect(formatTime(86_399, metricUnits)).toBe("00:00");
    expect(formatMoment(20_784 * 86_400 + 6 * 3600 + 55 * 60, metricUnits)).toBe("Fri 06:55");
    expect(formatMoment(20_783 * 86_400 + 86_399, metricUnits)).toBe("Fri 00:00");
  });
});

describe("cones", () => {
  test("06 is told from 6", () => {
    expect(coneWords("06")).toBe("cone oh-six (06), low fire");
    expect(coneWords("6")).toBe("cone six (6), high fire");
    expect(coneSpoken("06")).toBe("cone oh-six, low fire");
    expect(coneWords("022")).toBe("cone oh-twenty-two (022), low fire");
    expect(coneWords("010")).toBe("cone oh-ten (010), low fire");
    expect(coneWords("10")).toBe("cone ten (10), high fire");
    expect(coneWords("5.5")).toBe("cone five and a half (5½), high fire");
  });

  test("every cone is spelt in its own way", () => {
    const names = coneNames.map((cone) => coneSpoken(cone));
    expect(coneNames.length).toBeGreaterThan(35);
    expect(new Set(names).size).toBe(coneNames.length);
  });

  test.each([
    [0, "as wanted"],
    [-0.24, "as wanted"],
    [-0.25, "¼ cone cold"],
    [0.5, "½ cone hot"],
    [-0.74, "¾ cone cold"],
    [1, "1 cone hot"],
    [1.25, "1¼ cones hot"],
    [-2.1, "2 cones cold"],
  ])("an offset of %d is %s", (offset, words) => {
    expect(offsetWords(offset)).toBe(words);
  });

  test("spread, give or take, chance", () => {
    expect(spreadWords(1.2)).toBe("1¼ cones");
    expect(spreadWords(1)).toBe("1 cone");
    expect(spreadWords(0.05)).toBe("under ¼ cone");
    expect(giveOrTakeWords(0.45)).toBe("give or take ½");
    expect(giveOrTakeWords(0)).toBe("give or take ¼");
    expect(chanceWords(0.21)).toBe("2 in 10");
    expect(chanceWords(0.01)).toBe("under 1 in 10");
    expect(chanceWords(0.99)).toBe("over 9 in 10");
  });

  test("offset words keep sign and size to an eighth of a cone", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.25, max: 9, noNaN: true }), fc.boolean(), (size, hot) => {
        const words = offsetWords(hot ? size : -size);
        const match = /^(\d*)([¼½¾]?) cones? (cold|hot)$/.exec(words);
        const quarter = { "": 0, "¼": 0.25, "½": 0.5, "¾": 0.75 }[match?.[2] as "" | "¼" | "½" | "¾"];
        expect(match?.[3]).toBe(hot ? "hot" : "cold");
        expect(Math.abs(Number(match?.[1] || 0) + quarter - size)).toBeLessThanOrEqual(0.125 + 1e-9);
      }),
    );
  });
});
