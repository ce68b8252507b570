import type { LoadingRules } from "#engine/kiln";
import type { Level, Quantity } from "./finding.ts";

/** Nobody has published these numbers with evidence: they are how the trade does it. */
export const commonPractice = "common practice, no source";

/** A rule of loading that the geometry of a setting can decide. */
export interface Rule {
  readonly id: RuleId;
  /** The gravest level it can reach. */
  readonly level: Level;
  readonly quantity: Quantity | null;
  /** Where its limit is set: a setting of the kiln, a number of this table (SI), or none. */
  readonly limit: keyof LoadingRules | number | null;
  readonly source: string;
}

const rule = (id: RuleId, level: Level, quantity: Quantity | null, limit: Rule["limit"]): Rule => ({
  id,
  level,
  quantity,
  limit,
  source: commonPractice,
});

export const ruleIds = [
  "shelf-outside",
  "shelf-margin",
  "shelf-overlap",
  "bottom-gap",
  "posts-count",
  "posts-reach",
  "posts-hold",
  "post-outside",
  "post-in-shelf",
  "posts-in-line",
  "posts-in-stack",
  "posts-in-stock",
  "shelves-in-stock",
  "stilts-in-stock",
  "ware-to-wall",
  "sensor-clear",
  "headroom",
  "lid-headroom",
  "beside-shelf",
  "pieces-overlap",
  "glaze-gap",
  "piece-on-post",
  "post-gap",
  "foot-overhang",
  "stilt-span",
  "stilt-heat",
  "one-class",
  "cone-set",
  "cones-fit",
  "cones-for-class",
  "cones-seen",
  "cones-on-levels",
  "shelf-load",
  "two-person-lift",
  "mass-by-height",
  "first-gap",
  "gap-under-lid",
  "staggered-halves",
  "ringed",
  "exposure",
  "tall-at-rim",
  "platter-place",
] as const;

export type RuleId = (typeof ruleIds)[number];

/** Numbers of rules that are no setting of the kiln. All are the project's own estimates on top of common practice. */
export const ruleNumbers = {
  /** A post may stand this far off the one below it, as a share of its width: half of it still carries straight down. */
  postOffset: 0.5,
  /** A third of the height may hold this share of the mass: one and a half times an even load's third. */
  thirdOfMass: 0.5,
  /** Set cone and class's cone may differ by this [cones]: holds and fast ends move a schedule by a cone. */
  coneDifference: 1.5,
  /** A flat piece is ringed when taller ware hides this share of the way round. */
  ringedShare: 2 / 3,
  /** A flat piece sees little when its exposure is below this share of the load's median. */
  exposureShare: 0.5,
  /** Tall ware is at the rim when height goes with distance from the middle this much (correlation). */
  tallAtRim: 0.3,
  /** A platter is flat ware at least this wide [m]. */
  platterWidth: 0.3,
} as const;

/** Every rule, in the order of the job: furniture, ware, firing class, cones, mass, advice. */
export const rules: readonly Rule[] = [
  rule("shelf-outside", "stop", "length", 0),
  rule("shelf-margin", "check", "length", "shelfMargin"),
  rule("shelf-overlap", "stop", "length", 0),
  rule("bottom-gap", "check", "length", "bottomGap"),
  rule("posts-count", "stop", "count", "postsPerShelf"),
  rule("posts-reach", "stop", "length", 0),
  rule("posts-hold", "stop", "length", 0),
  rule("post-outside", "stop", "length", 0),
  rule("post-in-shelf", "stop", "length", 0),
  rule("posts-in-line", "check", "length", ruleNumbers.postOffset),
  rule("posts-in-stack", "check", "count", null),
  rule("posts-in-stock", "stop", "count", null),
  rule("shelves-in-stock", "stop", "count", null),
  rule("stilts-in-stock", "stop", "count", null),
  rule("ware-to-wall", "stop", "length", "wareToWall"),
  rule("sensor-clear", "stop", "length", "sensorClear"),
  rule("headroom", "stop", "length", "headroom"),
  rule("lid-headroom", "stop", "length", "lidHeadroom"),
  rule("beside-shelf", "stop", "length", "glazeGap"),
  rule("pieces-overlap", "stop", "length", 0),
  rule("glaze-gap", "check", "length", "glazeGap"),
  rule("piece-on-post", "stop", "length", 0),
  rule("post-gap", "check", "length", "postGap"),
  rule("foot-overhang", "stop", "length", 0),
  rule("stilt-span", "stop", "length", "stiltSpan"),
  rule("stilt-heat", "stop", "temperature", "metalStiltLimit"),
  rule("one-class", "stop", "count", 0),
  rule("cone-set", "stop", "cone", ruleNumbers.coneDifference),
  rule("cones-fit", "stop", "length", 0),
  rule("cones-for-class", "check", null, null),
  rule("cones-seen", "tip", null, null),
  rule("cones-on-levels", "tip", "count", 3),
  rule("shelf-load", "check", "mass", "shelfLoad"),
  rule("two-person-lift", "check", "mass", "soloLift"),
  rule("mass-by-height", "check", "share", ruleNumbers.thirdOfMass),
  rule("first-gap", "tip", "length", "airyGap"),
  rule("gap-under-lid", "tip", "length", "airyGap"),
  rule("staggered-halves", "tip", null, null),
  rule("ringed", "tip", "share", ruleNumbers.ringedShare),
  rule("exposure", "tip", "share", ruleNumbers.exposureShare),
  rule("tall-at-rim", "tip", "share", ruleNumbers.tallAtRim),
  rule("platter-place", "tip", null, null),
];

const byId = new Map<string, Rule>(rules.map((each) => [each.id, each]));

export function ruleOf(id: RuleId): Rule {
  return byId.get(id) as Rule;
}

/** The limit a rule has in one kiln [SI], or null where it has none. */
export function limitOf(rule: Rule, settings: LoadingRules): number | null {
  return typeof rule.limit === "string" ? settings[rule.limit] : rule.limit;
}

/** What no drawing can show: listed so that a person looks. */
export const lookYourselfRules = [
  "dry-ware",
  "foot-wiped",
  "kiln-wash",
  "shelves-sound",
  "kiln-clean",
  "elements",
  "vent-runs",
  "controller-set",
  "someone-at-end",
] as const;

export type LookYourselfRule = (typeof lookYourselfRules)[number];
