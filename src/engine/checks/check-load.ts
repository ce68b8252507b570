import type { Load } from "#engine/kiln";
import { classDrafts, peakOf, type Programme } from "./class-rules.ts";
import { coneTips, fitDrafts, packDrafts } from "./cone-rules.ts";
import type { Draft } from "./draft.ts";
import type { Finding, Level, Message, Quantity } from "./finding.ts";
import { massDrafts } from "./mass-by-height.ts";
import { length, mass, message, share, temperature } from "./message-keys.ts";
import { pieceDrafts } from "./piece-rules.ts";
import { usualBudget, type SearchBudget } from "./piece-moves.ts";
import { postDrafts } from "./post-rules.ts";
import { applyRemedy } from "./remedy.ts";
import { limitOf, lookYourselfRules, rules, type LookYourselfRule, type Rule, type RuleId } from "./rule-table.ts";
import { sceneOf, type Scene } from "./scene.ts";
import { sensorDrafts } from "./sensor-rules.ts";
import { shelfDrafts } from "./shelf-rules.ts";
import { viewDrafts } from "./view-rules.ts";

/** What the checks may know beyond the setting. */
export interface CheckExtras extends Programme {
  /** Share of each piece's view that falls on elements and wall [0..1], by piece id; null while nobody computed it. */
  readonly exposure?: ReadonlyMap<string, number> | null;
}

/** A rule the setting keeps. */
export interface KeptRule {
  readonly rule: RuleId;
  readonly level: Level;
  readonly limit: number | null;
  readonly quantity: Quantity | null;
  /** The rule as a sentence, with its number. */
  readonly message: Message;
  readonly source: string;
}

export interface CheckResult {
  /** Stops first, then checks, then tips; within a level in the order of the rule table. */
  readonly findings: readonly Finding[];
  readonly kept: readonly KeptRule[];
  /** Rules that lack what they need to know (no exposure computed, no schedule chosen). */
  readonly undecided: readonly RuleId[];
  /** What no drawing can show. */
  readonly lookYourself: readonly { readonly rule: LookYourselfRule; readonly message: Message }[];
}

const levels: readonly Level[] = ["stop", "check", "tip"];
/** Whole settings re-checked in search of remedies, at most, in one check. */
const mostRechecks = 10;

/**
 * Holds a load against every rule that its geometry can decide.
 *
 * A remedy is offered only after it was tried: the finding is gone, and no new stop or check has come.
 *
 * @throws RangeError naming a piece, shape, shelf or shelf type that the setting refers to and the load has not
 *
 * Accuracy: distances are exact to 1e-7 m; a rule is broken from 0.01 mm (posts: 0.5 mm) beyond its limit.
 */
export function checkLoad(load: Load, extras: CheckExtras = {}): CheckResult {
  const scene = sceneOf(load);
  const budget = usualBudget();
  const drafts = draftsOf(scene, extras, budget);
  const rechecks = { left: mostRechecks };
  const findings = drafts.map((draft) => withRemedy(load, extras, draft, drafts, rechecks));
  const broken = new Set(findings.map((finding) => finding.rule));
  const undecided = undecidedRules(scene, extras);
  return {
    findings,
    kept: rules.filter((rule) => !broken.has(rule.id) && !undecided.includes(rule.id)).map((rule) => kept(rule, load)),
    undecided,
    lookYourself: lookYourselfRules.map((rule) => ({ rule, message: message(`look.${rule}`) })),
  };
}

/** `tips: false` leaves out the rules that only give tips: a remedy is not refused for one. */
function draftsOf(scene: Scene, extras: CheckExtras, budget: SearchBudget, tips: boolean = true): readonly Draft[] {
  const order = new Map<string, number>(rules.map((rule, index) => [rule.id, index]));
  const place = (draft: Draft): number =>
    levels.indexOf(draft.finding.level) * rules.length + (order.get(draft.finding.rule) as number);
  return [
    ...shelfDrafts(scene),
    ...postDrafts(scene),
    ...pieceDrafts(scene, budget),
    ...sensorDrafts(scene, budget),
    ...classDrafts(scene, extras),
    ...fitDrafts(scene),
    ...packDrafts(scene),
    ...massDrafts(scene),
    ...(tips ? [...coneTips(scene), ...viewDrafts(scene, extras.exposure ?? null)] : []),
  ].sort((a, b) => place(a) - place(b));
}

function withRemedy(
  load: Load,
  extras: CheckExtras,
  draft: Draft,
  drafts: readonly Draft[],
  rechecks: { left: number },
): Finding {
  for (const { remedy, advice } of draft.candidates()) {
    // A moved piece was held against every rule of its place already, a piece taken out breaks none.
    const mends = remedy.kind !== "change-posts" || recheck(load, extras, draft, drafts, remedy, rechecks);
    if (mends) return { ...draft.finding, advice, remedy };
    if (rechecks.left <= 0) break;
  }
  return draft.finding;
}

function recheck(
  load: Load,
  extras: CheckExtras,
  draft: Draft,
  drafts: readonly Draft[],
  remedy: NonNullable<Finding["remedy"]>,
  rechecks: { left: number },
): boolean {
  if (rechecks.left-- <= 0) return false;
  const setting = applyRemedy(load, remedy);
  if (!setting) return false;
  const after = draftsOf(sceneOf({ ...load, setting }), extras, { places: 0 }, false);
  const before = new Set(drafts.map(nameOf));
  return after.every((each) => {
    if (nameOf(each) === nameOf(draft)) return false;
    return each.finding.level === "tip" || before.has(nameOf(each));
  });
}

/** What and where: two findings of one name are the same fault before and after a change. */
function nameOf({ finding }: Draft): string {
  return [finding.rule, finding.level, ...finding.place.shelfIds, "/", ...finding.place.pieceIds].join(" ");
}

function undecidedRules(scene: Scene, extras: CheckExtras): readonly RuleId[] {
  const undecided: RuleId[] = [];
  if (peakOf(scene, extras) === null) undecided.push("stilt-heat");
  if (!extras.schedule && !extras.coneSet) undecided.push("cone-set");
  if (scene.load.kiln.spyholes.length === 0) undecided.push("cones-seen");
  if (!extras.exposure) undecided.push("exposure");
  return undecided;
}

function kept(rule: Rule, load: Load): KeptRule {
  const limit = limitOf(rule, load.kiln.rules);
  return {
    rule: rule.id,
    level: rule.level,
    limit,
    quantity: rule.quantity,
    message: message(`rule.${rule.id}`, limit === null ? {} : { limit: valueOf(rule, limit) }),
    source: rule.source,
  };
}

function valueOf(rule: Rule, limit: number): Message["values"][string] {
  switch (rule.quantity) {
    case "length":
      return typeof rule.limit === "number" ? share(rule.limit) : length(limit);
    case "mass":
      return mass(limit);
    case "temperature":
      return temperature(limit);
    case "share":
      return share(limit);
    default:
      return limit;
  }
}
