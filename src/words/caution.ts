/** Where in the job a caution stands. */
export type CautionStep =
  /** Everywhere: what the tool is and is not. */
  | "general"
  | "load"
  | "light"
  | "watch"
  | "open"
  | "unload"
  /** Where the kiln's data are set. */
  | "kiln"
  /** Beside every forecast. */
  | "forecast"
  /** Beside pieces and pick-up. */
  | "ware";

/** One fixed sentence or two. Never shortened, never softened, never put together from parts. */
export type Caution = string;
