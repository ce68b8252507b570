import type { Language } from "../language.ts";
import { cautions } from "./cautions.ts";
import { sentences } from "./sentences.ts";

const ones = ["", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];
const teens = ["eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"];

function numberWord(value: number): string {
  if (value <= 10) return ones[value];
  if (value < 20) return teens[value - 11];
  return value === 20 ? "twenty" : `twenty-${ones[value - 20]}`;
}

function spellCone(cone: string): string {
  const half = cone.endsWith(".5");
  const digits = half ? cone.slice(0, -2) : cone;
  const word = numberWord(Number(digits));
  return `${digits.startsWith("0") ? `oh-${word}` : word}${half ? " and a half" : ""}`;
}

function pluralName(name: string, count: number): string {
  if (count === 1) return name;
  // "teapot with lid" → "teapots with lid": the noun stands before the first preposition or bracket.
  const cut = /^(.*?)( with | and |, | \(| \+ )(.*)$/.exec(name);
  if (cut) return `${pluralName(cut[1], count)}${cut[2]}${cut[3]}`;
  if (/(s|x|z|ch|sh)$/.test(name)) return `${name}es`;
  if (/[^aeiou]y$/.test(name)) return `${name.slice(0, -1)}ies`;
  if (/(dwarf|loaf|leaf|half|shelf)$/.test(name)) return `${name.slice(0, -1)}ves`;
  return `${name}s`;
}

export const english: Language = {
  code: "en",
  decimal: ".",
  weekdays: ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"],
  months: ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"],
  day: (weekday, day, month) => `${weekday} ${day} ${month}`,
  hour: "h",
  minute: "min",
  anHour: "an hour",
  justUnder: "just under",
  justOver: "just over",
  cone: "cone",
  cones: "cones",
  spellCone,
  lowFire: "low fire",
  highFire: "high fire",
  asWanted: "as wanted",
  cold: "cold",
  hot: "hot",
  under: "under",
  giveOrTake: "give or take",
  chance: (tenths, how) => `${how === "about" ? "" : `${how} `}${tenths} in 10`,
  pluralForm: (count) => (count === 1 ? 0 : 1),
  pluralName,
  list: (items) =>
    items.length < 2 ? (items[0] ?? "") : `${items.slice(0, -1).join(", ")} and ${items.at(-1) as string}`,
  pieceNumber: (shelf, number) => `shelf ${shelf}, no. ${number}`,
  sentences,
  cautions,
};
