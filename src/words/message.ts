import { isConeName } from "#engine/heatwork";
import type { Message, MessageValue, PieceName, Quantity } from "#engine/checks";
import { coneFire, coneName, coneWords, spreadWords } from "./cone.ts";
import { english } from "./english/index.ts";
import type { SentenceKey } from "./english/sentences.ts";
import type { Language } from "./language.ts";
import { formatAgainst, formatBareLength, formatLength } from "./length.ts";
import { formatNumber, formatShare } from "./number.ts";
import { formatMass, formatMassAgainst, formatTemperature } from "./quantity.ts";
import type { UnitPreference } from "./units.ts";

/** How a message is said. */
export interface Saying {
  readonly language?: Language;
  /** Number of a piece on plan and sheet, so that "the mug" becomes "the mug (shelf 1, no. 7)"; null where it has none. */
  readonly numberOf?: (pieceId: string) => { readonly shelf: number; readonly number: number } | null;
}

/**
 * A message in plain sentences, in the reader's language and units.
 *
 * A sentence has gaps in braces, filled from the message's values:
 * `{name}` by its quantity · `{name:gap|size|post}` a length by its use · `{name:bare}` a length without unit ·
 * `{name:against other}` a length or mass that must not read like the limit it breaks · `{name:cone}` "cone oh-six (06)" ·
 * `{name:full}` "cone oh-six (06), low fire" · `{name:fire}` "low fire" · `{name:spell}` "oh-six" ·
 * `{name:many count}` a shape's name for that many · `{count#one piece|{count} pieces}` one of the language's plural forms.
 *
 * @throws RangeError naming the key or gap if the sentence is not in the catalogue or a value is missing or unfit
 */
export function say(message: Message, units: UnitPreference, how: Saying = {}): string {
  const language = how.language ?? english;
  const sentence: string | undefined = language.sentences[message.key as SentenceKey];
  if (sentence === undefined) {
    throw new RangeError(`message key is "${message.key}"; expected one of the catalogue "${language.code}"`);
  }
  const text = fill(sentence, message, units, language, how);
  return text.replace(/(^|[.?] )(\p{Ll})/gu, (_, before: string, letter: string) => before + letter.toUpperCase());
}

function fill(sentence: string, message: Message, units: UnitPreference, language: Language, how: Saying): string {
  // Plural choices first: they may hold gaps of their own.
  const chosen = sentence.replace(/\{(\w+)#((?:[^{}]|\{[^{}]*\})*)\}/g, (_, name: string, forms: string) => {
    const count = message.values[name];
    if (typeof count !== "number") throw unfit(message, name, "a count");
    return forms.split("|")[language.pluralForm(count)] ?? "";
  });
  return chosen.replace(/\{(\w+)(?::(\w+)(?: (\w+))?)?\}/g, (_, name: string, style?: string, other?: string) => {
    const value = message.values[name];
    if (value === undefined) throw unfit(message, name, "a value");
    return style === undefined
      ? plain(value, units, language, how)
      : styled(message, name, value, style, other, units, language);
  });
}

function plain(value: MessageValue, units: UnitPreference, language: Language, how: Saying): string {
  if (typeof value === "string") return value;
  if (typeof value === "number") return formatNumber(value, Number.isInteger(value) ? 0 : 1, language);
  if (isList(value)) return language.list(value.map((item) => plain(item, units, language, how)));
  if ("pieceId" in value) return namePiece(value, language, how);
  switch (value.quantity) {
    case "length":
      return formatLength(value.value, units, "gap", language);
    case "mass":
      return formatMass(value.value, units, language);
    case "temperature":
      return formatTemperature(value.value, units, language);
    case "share":
      return formatShare(value.value);
    case "count":
      return formatNumber(value.value, 0, language);
    case "cone":
      return spreadWords(value.value, language);
  }
}

function isList(value: MessageValue): value is readonly (string | PieceName)[] {
  return Array.isArray(value);
}

function namePiece(piece: PieceName, language: Language, how: Saying): string {
  const place = how.numberOf?.(piece.pieceId) ?? null;
  return place === null ? piece.name : `${piece.name} (${language.pieceNumber(place.shelf, place.number)})`;
}

function styled(
  message: Message,
  name: string,
  value: MessageValue,
  style: string,
  other: string | undefined,
  units: UnitPreference,
  language: Language,
): string {
  switch (style) {
    case "gap":
    case "size":
    case "post":
      return formatLength(lengthIn(message, name), units, style, language);
    case "bare":
      return formatBareLength(lengthIn(message, name), units, "gap", language);
    case "against":
      if (quantityOf(value) === "mass") {
        return formatMassAgainst(
          amountIn(message, name, "mass"),
          amountIn(message, other ?? "", "mass"),
          units,
          language,
        );
      }
      return formatAgainst(lengthIn(message, name), lengthIn(message, other ?? ""), units, language);
    case "many": {
      const count = message.values[other ?? ""];
      if (typeof value !== "string") throw unfit(message, name, "a shape's name");
      if (typeof count !== "number") throw unfit(message, other ?? "", "a count");
      return language.pluralName(value, count);
    }
    case "cone":
    case "full":
    case "fire":
    case "spell": {
      if (typeof value !== "string" || !isConeName(value)) throw unfit(message, name, "a cone such as 06");
      if (style === "cone") return coneName(value, language);
      if (style === "full") return coneWords(value, language);
      return style === "fire" ? coneFire(value, language) : language.spellCone(value);
    }
    default:
      throw new RangeError(`style is "${style}" in the sentence "${message.key}"; expected a style say() knows`);
  }
}

function quantityOf(value: MessageValue | undefined): Quantity | null {
  return typeof value === "object" && "quantity" in value ? value.quantity : null;
}

function amountIn(message: Message, name: string, quantity: "length" | "mass"): number {
  const value = message.values[name];
  if (typeof value === "object" && "quantity" in value && value.quantity === quantity) return value.value;
  throw unfit(message, name, `a ${quantity}`);
}

const lengthIn = (message: Message, name: string): number => amountIn(message, name, "length");

function unfit(message: Message, name: string, expected: string): RangeError {
  return new RangeError(
    `value "${name}" of message "${message.key}" is ${JSON.stringify(message.values[name])}; expected ${expected}`,
  );
}
