import type { Caution, CautionStep } from "./caution.ts";
import type { SentenceKey } from "./english/sentences.ts";

/** All that differs from one language to the next. Another language is another folder with one of these. */
export interface Language {
  /** BCP 47 tag. */
  readonly code: string;
  readonly decimal: string;
  /** Short names, Sunday first. */
  readonly weekdays: readonly string[];
  /** Short names, January first. */
  readonly months: readonly string[];
  readonly day: (weekday: string, day: number, month: string) => string;
  readonly hour: string;
  readonly minute: string;
  readonly anHour: string;
  readonly justUnder: string;
  readonly justOver: string;
  readonly cone: string;
  readonly cones: string;
  /** "06" → "oh-six". */
  readonly spellCone: (cone: string) => string;
  readonly lowFire: string;
  readonly highFire: string;
  readonly asWanted: string;
  readonly cold: string;
  readonly hot: string;
  readonly under: string;
  readonly giveOrTake: string;
  readonly chance: (tenths: number, how: "under" | "about" | "over") => string;
  /** Which of the forms of a sentence a count takes: 0 for the first, 1 for the second … */
  readonly pluralForm: (count: number) => number;
  /** A shape's name, given for one, for `count` of them: "dinner plate" → "dinner plates". */
  readonly pluralName: (name: string, count: number) => string;
  /** "Ivy", "Ivy and Noor", "Ivy, Noor and Tomas". */
  readonly list: (items: readonly string[]) => string;
  /** A piece by its number on plan and sheet: "shelf 1, no. 7". */
  readonly pieceNumber: (shelf: number, number: number) => string;
  readonly sentences: Readonly<Record<SentenceKey, string>>;
  readonly cautions: Readonly<Record<CautionStep, readonly Caution[]>>;
}
