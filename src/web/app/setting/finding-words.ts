import type { Finding, Message } from "#engine/checks";
import { english, say } from "#words";
import type { SettingModel } from "./setting-model.ts";

/** A finding in its three parts. */
export interface FindingText {
  readonly title: string;
  readonly why: string;
  readonly advice: string;
}

export function messageText(model: SettingModel, message: Message): string {
  return say(message, model.units, { language: english, numberOf: (pieceId) => model.numbers.get(pieceId) ?? null });
}

/** The first sentence is what is wrong, without its full stop; the rest is why. */
export function findingText(model: SettingModel, finding: Finding): FindingText {
  const text = messageText(model, finding.message);
  const [, first = text, rest = ""] = /^(.+?)[.](?:\s+(?=\p{Lu})(.*))?$/su.exec(text) ?? [];
  return { title: first, why: rest, advice: messageText(model, finding.advice) };
}

/** What the button that mends it says. */
export function remedyWords(finding: Finding): string {
  switch (finding.remedy?.kind) {
    case "change-posts":
      return "Change the posts";
    case "move-piece":
      return "Move it";
    case "take-out":
      return finding.remedy.pieceIds.length === 1 ? "Take it out" : "Take them out";
    case undefined:
      return "";
  }
}

/** "1 stop, 1 check, 1 tip"; "nothing" when all rules are kept. */
export function countFindings(findings: readonly Finding[]): string {
  const parts = (["stop", "check", "tip"] as const)
    .map((level) => ({ level, count: findings.filter((each) => each.level === level).length }))
    .filter(({ count }) => count > 0)
    .map(({ level, count }) => `${count} ${level}${count === 1 ? "" : "s"}`);
  return parts.length === 0 ? "nothing" : parts.join(", ");
}

/** Findings with a key each for lists: two of one name are told apart by their order. */
export function keyedFindings(
  findings: readonly Finding[],
): readonly { readonly key: string; readonly finding: Finding }[] {
  const seen = new Map<string, number>();
  return findings.map((finding) => {
    const name = findingKey(finding);
    const times = seen.get(name) ?? 0;
    seen.set(name, times + 1);
    return { key: `${name} ${times}`, finding };
  });
}

/** One name for a finding through changes that leave it as it is. */
export function findingKey({ rule, level, place }: Finding): string {
  return [rule, level, ...place.shelfIds, "/", ...place.pieceIds].join(" ");
}
