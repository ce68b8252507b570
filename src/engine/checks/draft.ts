import type { Finding, Level, Message, Place, Remedy } from "./finding.ts";
import { ruleOf, type RuleId } from "./rule-table.ts";

/** A remedy that may mend a finding, with the advice that names it. Verified before it is offered. */
export interface Candidate {
  readonly remedy: Remedy;
  readonly advice: Message;
}

/** A finding before its remedy is chosen. `candidates` are tried in order. */
export interface Draft {
  readonly finding: Finding;
  readonly candidates: () => Iterable<Candidate>;
}

export interface DraftInput {
  readonly shelfIds?: readonly string[];
  readonly pieceIds?: readonly string[];
  readonly point?: Place["point"];
  readonly level?: Level;
  readonly measured?: number | null;
  readonly limit?: number | null;
  readonly message: Message;
  readonly advice: Message;
  readonly candidates?: () => Iterable<Candidate>;
}

export function draft(id: RuleId, input: DraftInput): Draft {
  const rule = ruleOf(id);
  return {
    finding: {
      rule: id,
      level: input.level ?? rule.level,
      place: { shelfIds: input.shelfIds ?? [], pieceIds: input.pieceIds ?? [], point: input.point ?? null },
      measured: input.measured ?? null,
      limit: input.limit ?? null,
      quantity: rule.quantity,
      message: input.message,
      advice: input.advice,
      remedy: null,
      source: rule.source,
    },
    candidates: input.candidates ?? (() => []),
  };
}
