import type { ClassRecord, PartyRecord, ShapeRecord, StudioDocument } from "#records";
import { dayNumberOf, isoDateOf, weekdayOf } from "./day.ts";

/** What one line of intake says, with what it leaves open guessed. */
export interface Intake {
  readonly count: number;
  /** A shape of the studio; null if the line names none it knows. */
  readonly shape: ShapeRecord | null;
  /** Size it was given, across and high [m]; null: as the shape is. */
  readonly size: { readonly across: number; readonly high: number | null } | null;
  /** A party of the studio, or a new one; null if the line names none. */
  readonly party: PartyRecord | { readonly name: string } | null;
  /** ISO date. */
  readonly promised: string;
  readonly firingClass: ClassRecord | null;
  /** Stilt it stands on; null for a wiped foot. */
  readonly stiltId: string | null;
  /** What was guessed because the line does not say it. */
  readonly guessed: ReadonlySet<"count" | "party" | "promised" | "class" | "foot" | "size">;
  /** Words that mean more than one thing, with what to do: "06 is not 6". */
  readonly questions: readonly string[];
}

export interface IntakeOptions {
  /** ISO date. */
  readonly today: string;
  /** Unit of sizes without one. */
  readonly length: "metric" | "inch";
}

/** Most pieces one line takes in: more is a slip of the finger. */
const mostPieces = 500;

/** No piece is smaller than a bead or larger than a kiln [m]; a flat one may be thin. */
function isSizeOfWare({ across, high }: NonNullable<Intake["size"]>): boolean {
  return across >= 0.01 && across <= 3 && (high === null || (high >= 0.003 && high <= 3));
}

/** Days from intake to promise when the line names no day: one to two weeks are usual; common practice, no source. */
const usualPromise = 10;

const numberWords = ["a", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven"];
const weekdays = ["sun", "mon", "tue", "wed", "thu", "fri", "sat"];
const months = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

/**
 * One line such as "14 tumblers Tomas Tue" or "8x bowl 15x6 Ana Fri bisque", read in any order.
 *
 * Nothing is refused: what is missing is guessed and said to be, words that fit nothing become the party's name.
 */
export function parseIntake(line: string, document: StudioDocument, options: IntakeOptions): Intake {
  const guessed = new Set<"count" | "party" | "promised" | "class" | "foot" | "size">();
  const questions: string[] = [];
  let rest = ` ${line
    .replaceAll(/(?<!\d)[,;]|[,;](?!\d)/g, " ")
    .replaceAll(/\s+/g, " ")
    .trim()} `;
  const take = (pattern: RegExp): RegExpExecArray | null => {
    const found = pattern.exec(rest);
    if (found) rest = `${rest.slice(0, found.index)} ${rest.slice(found.index + found[0].length)}`;
    return found;
  };

  const written = takeSize(take, options.length);
  const size = written && isSizeOfWare(written) ? written : null;
  if (written && !size)
    questions.push("No piece has that size. Say it in cm, such as 15x6, or in inches, such as 6x3 in.");
  const promised = takeDay(take, options.today);
  const firingClass = takeClass(take, document.classes, questions);
  const foot = takeFoot(take, document);
  const count = takeCount(take);
  const shape = takeShape(rest, document.shapes, size);
  if (shape.words) rest = rest.replace(shape.words, " ");
  const { party, left } = partyNamed(rest, document.parties);

  if (count === null) guessed.add("count");
  if (promised === null) guessed.add("promised");
  if (firingClass === null) guessed.add("class");
  if (foot === null) guessed.add("foot");
  if (party === null) guessed.add("party");
  if (shape.shape && !size) guessed.add("size");
  if (count !== null && count > mostPieces) questions.push(`Only ${mostPieces} pieces go in at once.`);
  if (left !== "") questions.push(`“${left}” means nothing here. Put it in the note.`);
  const ofClass = firingClass ?? usualClass(document);
  return {
    count: Math.min(count ?? 1, mostPieces),
    shape: shape.shape,
    size,
    party,
    promised: promised ?? isoDateOf(dayNumberOf(options.today) + usualPromise),
    firingClass: ofClass,
    stiltId: foot ? foot.stiltId : usualStilt(document, ofClass, shape.shape),
    guessed,
    questions,
  };
}

type Take = (pattern: RegExp) => RegExpExecArray | null;

function takeSize(take: Take, unit: "metric" | "inch"): Intake["size"] {
  const number = String.raw`(\d+(?:[.,]\d+)?)`;
  const pair = take(new RegExp(String.raw` ${number} ?[x×] ?${number} ?(mm|cm|in|inch|")? `, "i"));
  const single = pair ? null : take(new RegExp(String.raw` ${number} ?(mm|cm|in|inch|") `, "i"));
  if (!pair && !single) return null;
  const named = (pair?.[3] ?? single?.[2] ?? (unit === "metric" ? "cm" : "in")).toLowerCase();
  const metres = named === "mm" ? 0.001 : named === "cm" ? 0.01 : 0.0254;
  const value = (text: string | undefined): number => Number((text ?? "").replace(",", ".")) * metres;
  if (pair) return { across: value(pair[1]), high: value(pair[2]) };
  return { across: value(single?.[1]), high: null };
}

function takeCount(take: Take): number | null {
  const dozen = take(/ (?:a )?dozen /i);
  if (dozen) return 12;
  const figure = take(/ (?:x ?)?(\d{1,4}) ?[x×]? /i);
  if (figure) return Math.max(Number(figure[1]), 1);
  const word = take(new RegExp(` (${numberWords.join("|")}) `, "i"));
  return word ? Math.max(numberWords.indexOf(word[1].toLowerCase()), 1) : null;
}

function takeDay(take: Take, today: string): string | null {
  const now = dayNumberOf(today);
  const iso = take(/ (\d{4})-(\d\d)-(\d\d) /);
  if (iso) return dateOf(Number(iso[1]), Number(iso[2]), Number(iso[3]));
  if (take(/ today /i)) return today;
  if (take(/ tomorrow /i)) return isoDateOf(now + 1);
  const days = take(/ in (\d{1,3}) days? /i);
  if (days) return isoDateOf(now + Number(days[1]));
  const weeks = take(/ in (\d{1,2}|a) weeks? /i);
  if (weeks) return isoDateOf(now + 7 * (weeks[1] === "a" ? 1 : Number(weeks[1])));
  const name = months.join("|");
  const dayFirst = take(
    new RegExp(String.raw` (?:(?:${weekdays.join("|")})[a-z]* )?(\d{1,2})\.? (${name})[a-z]* `, "i"),
  );
  const monthFirst = dayFirst ? null : take(new RegExp(String.raw` (${name})[a-z]* (\d{1,2}) `, "i"));
  if (dayFirst) return nextDate(Number(dayFirst[1]), dayFirst[2], today);
  if (monthFirst) return nextDate(Number(monthFirst[2]), monthFirst[1], today);
  const weekday = take(
    / (?:next )?(sun|mon|tue|tues|wed|weds|thu|thur|thurs|fri|sat)(?:day|nesday|sday|rsday|urday)? /i,
  );
  if (!weekday) return null;
  const wanted = weekdays.indexOf(weekday[1].toLowerCase().slice(0, 3));
  // Said on a Tuesday, "Tue" is the one in a week.
  const ahead = (wanted - weekdayOf(now) + 7) % 7 || 7;
  return isoDateOf(now + ahead);
}

function dateOf(year: number, month: number, day: number): string | null {
  const iso = `${String(year).padStart(4, "0")}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;
  // 31 Nov becomes 1 Dec in day numbers: then there is no such day.
  return month >= 1 && month <= 12 && day >= 1 && isoDateOf(dayNumberOf(iso)) === iso ? iso : null;
}

function nextDate(day: number, monthName: string, today: string): string | null {
  const year = Number(today.slice(0, 4));
  const month = months.indexOf(monthName.toLowerCase().slice(0, 3)) + 1;
  const date = dateOf(year, month, day);
  return date !== null && date < today ? dateOf(year + 1, month, day) : date;
}

function takeClass(take: Take, classes: readonly ClassRecord[], questions: string[]): ClassRecord | null {
  const byName = [...classes].sort((a, b) => b.name.length - a.name.length);
  for (const each of byName) if (take(new RegExp(` ${escaped(each.name)} `, "i"))) return each;
  // With a leading zero it is a cone; without, only after the word "cone": else "6 mugs" would be high fire.
  const cone = take(/ (?:cone |\^)(0?\d{1,2}) /i) ?? take(/ (0\d{1,2}) /);
  const kind = take(/ (glazed?|bisque|raw|mid-?range|lustre) /i)?.[1]?.toLowerCase() ?? null;
  const named = (text: string): ClassRecord["kind"] =>
    text.startsWith("glaze")
      ? "glaze"
      : text === "raw" || text === "bisque"
        ? "bisque"
        : text === "lustre"
          ? "lustre"
          : "mid-range";
  const fitting = classes.filter(
    (each) => (kind === null || each.kind === named(kind)) && (cone === null || each.cone === cone[1]),
  );
  if (cone === null && kind === null) return null;
  if (fitting.length === 0) {
    const known = classes.map((each) => each.name).join(", ");
    questions.push(`No class is “${[kind, cone?.[1]].filter(Boolean).join(" ")}”. There are: ${known}.`);
    return null;
  }
  return fitting[0];
}

function takeFoot(take: Take, document: StudioDocument): { readonly stiltId: string | null } | null {
  for (const { stilts } of document.furniture) {
    for (const stilt of stilts) if (take(new RegExp(` ${escaped(stilt.name)}s? `, "i"))) return { stiltId: stilt.id };
  }
  if (take(/ (?:wiped(?: foot| feet)?|no stilts?) /i)) return { stiltId: null };
  if (!take(/ (?:on )?stilts? /i)) return null;
  return { stiltId: middleStilt(document)?.id ?? null };
}

const escaped = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`);

/** Plain plurals: "tumblers", "dishes", "leaves" are found by their first letters. */
const plural = (name: string): string => {
  const stem = escaped(name).replace(/(?:y|f|fe)$/i, "");
  return `${stem}${stem === escaped(name) ? "" : "(?:y|f|fe|ie|ve)"}(?:es|s)?`;
};

function takeShape(
  rest: string,
  shapes: readonly ShapeRecord[],
  size: Intake["size"],
): { readonly shape: ShapeRecord | null; readonly words: string | null } {
  const names = shapes.flatMap((shape) => [shape.name, ...shape.alsoCalled].map((name) => ({ shape, name })));
  const exact = names
    .map(({ shape, name }) => ({ shape, name, found: new RegExp(`(?<= )${plural(name)}(?= )`, "i").exec(rest) }))
    .filter(({ found }) => found !== null)
    .sort((a, b) => b.name.length - a.name.length)[0];
  // One word and a size mean any kind of it: "bowl 25 x 11" is the mixing bowl.
  if (exact && (!size || exact.name.includes(" "))) return { shape: exact.shape, words: exact.found?.[0] ?? null };
  // "bowl": the kind of bowl nearest in size, or the most usual one, the first of the list.
  const word = rest
    .trim()
    .split(" ")
    .find((each) => each.length > 2 && names.some(({ name }) => endsWithWord(name, each)));
  if (word === undefined) return { shape: null, words: null };
  const fitting = [...new Set(names.filter(({ name }) => endsWithWord(name, word)).map(({ shape }) => shape))];
  const nearest = size ? fitting.sort((a, b) => apart(a, size) - apart(b, size)) : fitting;
  return { shape: nearest[0] ?? null, words: word };
}

const endsWithWord = (name: string, word: string): boolean =>
  new RegExp(`^${plural(name.split(" ").at(-1) ?? name)}$`, "i").test(word);

function apart(shape: ShapeRecord, size: NonNullable<Intake["size"]>): number {
  const { across, high } = sizeOf(shape);
  return Math.abs(Math.log(across / size.across)) + (size.high === null ? 0 : Math.abs(Math.log(high / size.high)));
}

/** Across the body and high, handles left out [m]: what people say when they give a size. */
export function sizeOf({ body, lidHeight }: ShapeRecord): { readonly across: number; readonly high: number } {
  if (body.kind === "revolution") {
    const radius = body.profile.reduce((most, [each]) => Math.max(most, each), 0);
    return { across: 2 * radius, high: (body.profile.at(-1)?.[1] ?? 0) + lidHeight };
  }
  const high = body.kind === "box" ? body.height + lidHeight : body.thickness;
  return { across: Math.max(body.width, body.depth), high };
}

/** The party, and the words that are left over once it is known. */
function partyNamed(
  rest: string,
  parties: readonly PartyRecord[],
): { readonly party: Intake["party"]; readonly left: string } {
  const words = rest.replaceAll(/ (?:for|from|by|of|each|pieces?|pcs) /gi, " ").trim();
  const known = parties
    .filter(({ name }) => ` ${words} `.toLowerCase().includes(` ${name.toLowerCase()} `))
    .sort((a, b) => b.name.length - a.name.length)[0];
  if (known) {
    const at = ` ${words} `.toLowerCase().indexOf(` ${known.name.toLowerCase()} `);
    const left = `${words.slice(0, at)} ${words.slice(at + known.name.length)}`;
    return { party: known, left: left.replaceAll(/\s+/g, " ").trim() };
  }
  return { party: words === "" ? null : { name: words.slice(0, 80) }, left: "" };
}

/** The class most pieces on the bench have; the first one on an empty bench. */
function usualClass(document: StudioDocument): ClassRecord | null {
  const counts = new Map<string, number>();
  for (const { classId } of document.pieces) counts.set(classId, (counts.get(classId) ?? 0) + 1);
  return [...document.classes].sort((a, b) => (counts.get(b.id) ?? 0) - (counts.get(a.id) ?? 0))[0] ?? null;
}

/** What pieces of this shape and class stood on last; else a stilt of the class's usual lift that fits under its foot. */
function usualStilt(
  document: StudioDocument,
  firingClass: ClassRecord | null,
  shape: ShapeRecord | null,
): string | null {
  if (!firingClass || !shape) return null;
  const last = document.pieces.findLast((piece) => piece.shapeId === shape.id && piece.classId === firingClass.id);
  if (last) return last.stiltId;
  if (firingClass.usualLift === null) return null;
  const { body } = shape;
  const foot = body.kind === "revolution" ? 2 * body.foot : Math.min(body.width, body.depth);
  const stilts = document.furniture[0]?.stilts ?? [];
  // The widest that still stands under the foot.
  const fitting = stilts.filter(({ span }) => span <= foot).sort((a, b) => b.span - a.span);
  return fitting[0]?.id ?? null;
}

function middleStilt(document: StudioDocument): { readonly id: string } | null {
  const stilts = [...(document.furniture[0]?.stilts ?? [])].sort((a, b) => a.span - b.span);
  return stilts[Math.floor(stilts.length / 2)] ?? null;
}
