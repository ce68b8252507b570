import type { Advice, FallsBehind, MoveGain, ScheduleFault, StudioTime } from "#engine/advising";
import type { ConeEntryFailure } from "#engine/heatwork";
import { spreadWords } from "./cone.ts";
import { english } from "./english/index.ts";
import type { SentenceKey } from "./english/sentences.ts";
import type { Language } from "./language.ts";
import { say } from "./message.ts";
import { formatShare } from "./number.ts";
import { formatRate, formatTemperature } from "./quantity.ts";
import { formatDuration, formatTime } from "./time.ts";
import type { UnitPreference } from "./units.ts";

type Values = Readonly<Record<string, string | number>>;
const sentence = (key: SentenceKey, values: Values, units: UnitPreference, language: Language): string =>
  say({ key, values }, units, { language });

/** What is wrong with a schedule, in one or two sentences. Steps are counted from 1. */
export function scheduleFaultWords(
  fault: ScheduleFault,
  kiln: string,
  units: UnitPreference,
  language: Language = english,
): string {
  const degrees = (kelvin: number): string => formatTemperature(kelvin, units, language);
  switch (fault.kind) {
    case "too hot": {
      const values = { step: fault.segment + 1, target: degrees(fault.target), limit: degrees(fault.limit), kiln };
      return sentence("fault.too-hot", values, units, language);
    }
    case "too fast": {
      const [rate, can] = [formatRate(fault.rate, units, language), formatRate(fault.attainable, units, language)];
      const values = { step: fault.segment + 1, rate, can, target: degrees(fault.target), kiln };
      return sentence("fault.too-fast", values, units, language);
    }
    case "wrong cone":
      return sentence("fault.wrong-cone", { cone: fault.cone }, units, language);
    case "does nothing":
      return sentence("fault.does-nothing", { step: fault.segment + 1 }, units, language);
    case "no heating":
      return sentence("fault.no-heating", {}, units, language);
  }
}

/** "Alder cannot hold 150 °C an hour above 900 °C with this load. It falls behind at 09:40." */
export function fallsBehindWords(
  falls: FallsBehind,
  kiln: string,
  start: StudioTime,
  units: UnitPreference,
  language: Language = english,
): string {
  const rate = formatRate(falls.rate, units, language);
  const time = formatTime((start + falls.at) % 86_400, units);
  const values = { kiln, rate, reached: formatTemperature(falls.temperature, units, language), time };
  return sentence("fault.falls-behind", values, units, language);
}

/** The question about a cone someone typed, with both temperatures (self-supporting, 60 °C an hour). */
export function coneQuestionWords(
  asked: ConeEntryFailure,
  units: UnitPreference,
  language: Language = english,
): string {
  if (asked.kind === "not a cone") {
    return asked.nearest === null
      ? sentence("ask.not-a-cone", { text: asked.text }, units, language)
      : sentence("ask.between", { text: asked.text, nearest: asked.nearest }, units, language);
  }
  const { entered, likely } = asked;
  const values = {
    entered: entered.cone,
    likely: likely.cone,
    enteredAt: formatTemperature(entered.temperature, units, language),
    likelyAt: formatTemperature(likely.temperature, units, language),
  };
  return sentence(asked.why === "sign" ? "ask.sign" : "ask.far", values, units, language);
}

/** What the adviser found: the answer, and where there is none, the proof in words and the pieces that set it. */
export function adviceWords(
  advice: Advice,
  kiln: { readonly name: string; readonly limit: number },
  pieceName: (pieceId: string) => string,
  units: UnitPreference,
  language: Language = english,
): string {
  const { end, outcome, standing } = advice.best;
  if (advice.kind === "found") {
    const target = formatTemperature(end.target, units, language);
    const values = { target, hold: formatDuration(end.hold, 60, language), count: outcome.pieces.length };
    return sentence(end.hold > 0 ? "advice.found" : "advice.found-no-hold", values, units, language);
  }
  if (advice.bound === "kiln") {
    const values = { kiln: kiln.name, limit: formatTemperature(kiln.limit, units, language) };
    return sentence("advice.kiln", values, units, language);
  }
  const [spread, allowed] = [spreadWords(advice.spread, language), spreadWords(advice.allowed, language)];
  const pieces = { cold: pieceName(standing.coldestPiece), hot: pieceName(standing.hottestPiece) };
  return [
    sentence("advice.spread", { spread, allowed }, units, language),
    sentence("advice.pieces", pieces, units, language),
  ].join(" ");
}

/** Names that a move's sentence needs: shelf numbers, and pieces as the plan calls them. */
export interface MoveNames {
  readonly a: number;
  readonly b: number;
  readonly cold: string;
  readonly hot: string;
}

/** A move and what it would change, as computed. `excess` is what no schedule mends without it [K]. */
export function moveWords(
  { move, excess: left, gain }: MoveGain,
  excess: number,
  names: MoveNames,
  units: UnitPreference,
  language: Language = english,
): string {
  const done = sentence(`move.${move.id}` as SentenceKey, { ...names, count: move.pieceIds.length }, units, language);
  if (left <= 0) return `${done} ${sentence("move.mends", {}, units, language)}`;
  if (gain < 0.05 * excess) return `${done} ${sentence("move.no-help", {}, units, language)}`;
  return `${done} ${sentence("move.helps", { share: formatShare(gain / excess) }, units, language)}`;
}
