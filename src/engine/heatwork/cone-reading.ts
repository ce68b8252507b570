import { failure, success, type Outcome } from "#base";
import { alphaFromBend, bendAtStart } from "./bend.ts";

/** How far a cone went, as people say it. */
export type BendWord = "straight" | "soft" | "half" | "down" | "flat";

/**
 * A reading of a fired cone: its heat work, or only that it lies beyond a limit.
 *
 * A straight cone says "at most", a flat one "at least": they are bounds, never values.
 */
export interface ConeReading {
  readonly alpha: number;
  readonly means: "about" | "at most" | "at least";
  /** One standard deviation of a reading by eye [-]. Estimated by us: 5 degrees, or half a word's width. */
  readonly give: number;
}

/*
 * The tip of a cone that curves evenly points twice as far round as its foot-to-tip line leans, so an hour on the
 * clock is 15 degrees of bend: 3 o'clock is 45, 6 o'clock the end point, 90. 6 o'clock = 90 degrees: [orton-chart];
 * the words' angles: common practice, no source.
 */
const degreesPerHour = 15;
const words: Record<
  BendWord,
  { readonly degrees: number; readonly means: ConeReading["means"]; readonly give: number }
> = {
  straight: { degrees: 12, means: "at most", give: 5 },
  soft: { degrees: 25, means: "about", give: 10 },
  half: { degrees: 45, means: "about", give: 15 },
  down: { degrees: 90, means: "about", give: 15 },
  flat: { degrees: 105, means: "at least", give: 15 },
};

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

function reading(degrees: number, means: ConeReading["means"], giveDegrees: number): ConeReading {
  const alpha = alphaFromBend(radians(degrees));
  const low = alphaFromBend(radians(Math.max(degrees - giveDegrees, 0)));
  const high = alphaFromBend(radians(degrees + giveDegrees));
  return { alpha, means, give: (high - low) / 2 };
}

/** Heat work for a word. Source: [orton-chart] for the end point; the other words are common practice, no source. */
export function readingFromWord(word: BendWord): ConeReading {
  const { degrees, means, give } = words[word];
  return reading(degrees, means, give);
}

/** Heat work for a bend measured in degrees from upright; 8 is untouched, 90 the end point. */
export function readingFromDegrees(degrees: number): ConeReading {
  if (degrees <= (bendAtStart * 180) / Math.PI + 4) return reading(degrees, "at most", 5);
  return reading(Math.min(degrees, 105), degrees >= 105 ? "at least" : "about", 5);
}

/**
 * Reads what someone wrote beside a cone: "half", "3 o'clock", "4:30", "70", "70 deg".
 *
 * @returns the reading, or one plain sentence that quotes the text and says what would do
 */
export function readBend(text: string): Outcome<ConeReading, string> {
  const said = text.trim().toLowerCase();
  if (said in words) return success(readingFromWord(said as BendWord));
  const clock = /^(\d{1,2})(?::([0-5]\d))?\s*(?:o['’]?\s*clock|h)$|^(\d{1,2}):([0-5]\d)$/.exec(said);
  if (clock) {
    const hours = Number(clock[1] ?? clock[3]) + Number(clock[2] ?? clock[4] ?? 0) / 60;
    const turned = hours >= 12 ? hours - 12 : hours;
    if (turned <= 7) return success(readingFromDegrees(turned * degreesPerHour));
    return failure(`"${text}" is not a bend a cone can have. The tip goes from 12 o'clock (straight) to 6 (down).`);
  }
  const degrees = /^(\d{1,3}(?:\.\d+)?)\s*(?:°|deg|degrees)?$/.exec(said);
  if (degrees && Number(degrees[1]) <= 180) return success(readingFromDegrees(Number(degrees[1])));
  return failure(
    `"${text}" is not a bend. Write straight, soft, half, down or flat, a clock such as 3 o'clock, or degrees from 8 (untouched) to 90 (down).`,
  );
}
