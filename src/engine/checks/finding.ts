/** How much it matters: a stop blocks loading; a check needs a look; a tip would be better. */
export type Level = "stop" | "check" | "tip";

/** Where in the setting a finding points. */
export interface Place {
  readonly shelfIds: readonly string[];
  readonly pieceIds: readonly string[];
  /** In the kiln's frame [m], where there is one spot to ring. */
  readonly point: readonly [number, number, number] | null;
}

export type Quantity = "length" | "mass" | "temperature" | "share" | "count" | "cone";

/** A change of the setting that mends it, where one can be named; applied by a button and undone like any other. */
export type Remedy =
  | { readonly kind: "change-posts"; readonly shelfId: string; readonly lengths: readonly number[] }
  | {
      readonly kind: "move-piece";
      readonly pieceId: string;
      readonly shelfId: string;
      readonly x: number;
      readonly y: number;
      readonly angle: number;
    }
  | { readonly kind: "take-out"; readonly pieceIds: readonly string[] };

/** A rule broken or a risk, with what to do. */
export interface Finding {
  readonly rule: string;
  readonly level: Level;
  readonly place: Place;
  /** Measured value and limit in SI (or share, count), and what kind of quantity they are; null where the rule has none. */
  readonly measured: number | null;
  readonly limit: number | null;
  readonly quantity: Quantity | null;
  /** What is wrong and why it matters, as message key and values: screens and sheets put it in words and units. */
  readonly message: Message;
  /** What to do. */
  readonly advice: Message;
  readonly remedy: Remedy | null;
  /** "common practice, no source", or a key of docs/references.json. */
  readonly source: string;
}

/** A piece named in a sentence: its shape's name, and its id so that screens can add its number on the plan. */
export interface PieceName {
  readonly pieceId: string;
  readonly name: string;
}

/**
 * What fills a gap in a sentence: text (names, cones), a plain count, a number in SI with its quantity, a piece, or
 * a list of pieces or names. Lists are joined by the reader's language, never here.
 */
export type MessageValue =
  | string
  | number
  | { readonly value: number; readonly quantity: Quantity }
  | PieceName
  | readonly (string | PieceName)[];

/** A sentence to be put into words in the reader's language and units: `key` names the sentence, `values` fill it. */
export interface Message {
  readonly key: string;
  readonly values: Readonly<Record<string, MessageValue>>;
}
