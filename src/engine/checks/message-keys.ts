import type { Message, MessageValue } from "./finding.ts";
import type { LookYourselfRule, RuleId } from "./rule-table.ts";

/*
 * Every sentence the checks can say. The catalogue of each language must hold them all: the compiler sees to it.
 * "found.…" says what is wrong and why it matters, "do.…" what to do, "rule.…" the rule as it is kept, "look.…" what a
 * person must look at.
 */
export const findingKeys = [
  "found.shelf-outside",
  "found.shelf-too-high",
  "found.shelf-margin",
  "found.shelf-overlap",
  "found.bottom-gap",
  "found.posts-count",
  "found.posts-short",
  "found.posts-long",
  "found.posts-hold",
  "found.post-outside",
  "found.post-in-shelf",
  "found.posts-in-line",
  "found.posts-in-stack",
  "found.posts-in-stock",
  "found.shelves-in-stock",
  "found.stilts-in-stock",
  "found.ware-outside",
  "found.ware-to-wall",
  "found.sensor-shelf",
  "found.sensor-post",
  "found.sensor-piece",
  "found.sensor-cones",
  "found.no-headroom",
  "found.headroom",
  "found.no-lid-headroom",
  "found.lid-headroom",
  "found.into-shelf",
  "found.beside-shelf",
  "found.pieces-overlap",
  "found.piece-in-cones",
  "found.glaze-gap",
  "found.glaze-touch",
  "found.piece-on-post",
  "found.post-gap",
  "found.foot-overhang",
  "found.foot-straddle",
  "found.stilt-span",
  "found.stilt-off-foot",
  "found.stilt-heat-metal",
  "found.stilt-heat",
  "found.one-class",
  "found.cone-set",
  "found.cone-digits",
  "found.schedule-cone",
  "found.schedule-digits",
  "found.cones-fit",
  "found.cones-for-class",
  "found.cones-digits",
  "found.cones-behind-piece",
  "found.cones-behind-post",
  "found.cones-behind-shelf",
  "found.cones-out-of-view",
  "found.cones-on-levels",
  "found.shelf-load",
  "found.two-person-lift",
  "found.bottom-heavy",
  "found.middle-heavy",
  "found.top-heavy",
  "found.first-gap",
  "found.gap-under-lid",
  "found.staggered-halves",
  "found.ringed",
  "found.exposure",
  "found.tall-at-rim",
  "found.platter-bottom",
  "found.platter-top",
] as const;

export const adviceKeys = [
  "do.shelf-inward",
  "do.smaller-shelf",
  "do.shelf-lower",
  "do.shelves-apart",
  "do.posts",
  "do.posts-stacked",
  "do.posts-under-bottom",
  "do.add-post",
  "do.posts-that-reach",
  "do.spread-posts",
  "do.post-under-shelf",
  "do.post-clear-of-shelf",
  "do.posts-over-posts",
  "do.fewer-posts",
  "do.other-posts",
  "do.other-shelf",
  "do.other-stilts",
  "do.move-inward",
  "do.move-by",
  "do.move-from-sensor",
  "do.shelf-from-sensor",
  "do.post-from-sensor",
  "do.longer-posts",
  "do.other-place",
  "do.apart",
  "do.move-off-post",
  "do.onto-shelf",
  "do.hotter-stilt",
  "do.ceramic-stilt",
  "do.no-stilt",
  "do.take-out",
  "do.set-cone",
  "do.set-schedule",
  "do.pack-for-class",
  "do.turn-cones",
  "do.cones-by-spyhole",
  "do.cones-elsewhere",
  "do.cones-levels",
  "do.lighter-shelf",
  "do.lift-with-two",
  "do.move-up",
  "do.spread-mass",
  "do.move-down",
  "do.airy-first",
  "do.airy-top",
  "do.stagger",
  "do.flat-to-rim",
  "do.more-view",
  "do.tall-inward",
  "do.platter-middle",
] as const;

export type RuleKey = `rule.${RuleId}`;
export type LookKey = `look.${LookYourselfRule}`;
export type CheckMessageKey = (typeof findingKeys)[number] | (typeof adviceKeys)[number] | RuleKey | LookKey;

export type FindingKey = (typeof findingKeys)[number];
export type AdviceKey = (typeof adviceKeys)[number];

export function message(key: CheckMessageKey, values: Readonly<Record<string, MessageValue>> = {}): Message {
  return { key, values };
}

export const length = (value: number): MessageValue => ({ value, quantity: "length" });
export const mass = (value: number): MessageValue => ({ value, quantity: "mass" });
export const temperature = (value: number): MessageValue => ({ value, quantity: "temperature" });
export const share = (value: number): MessageValue => ({ value, quantity: "share" });
