import path from "node:path";
import { limitOf, lookYourselfRules, rules, type Rule } from "#engine/checks";
import { usualRules } from "#engine/kiln";
import { english, formatLength, formatMass, formatTemperature, inchUnits, metricUnits, say } from "#words";
import { root } from "./rooms.ts";

/** The reference page of the loading rules: made from the rule table, so that page and program cannot differ. */
export const rulesFile = path.join(root, "docs/reference/rules.md");

/** A limit in both units, or a dash where the rule has no number. */
function defaultOf(rule: Rule): string {
  const limit = limitOf(rule, usualRules);
  if (limit === null || limit === 0) return "-";
  switch (rule.quantity) {
    case "length":
      if (typeof rule.limit === "number") return `${limit} of a post's width`;
      return formatLength(limit, metricUnits, "post");
    case "mass":
      return `${formatMass(limit, metricUnits)} (${formatMass(limit, inchUnits)})`;
    case "temperature":
      return `${formatTemperature(limit, metricUnits)} (${formatTemperature(limit, inchUnits)})`;
    case "share":
      return limit.toFixed(2);
    case "cone":
      return `${limit} cones`;
    default:
      return String(limit);
  }
}

/** The rule as the screen says it, with its default. */
function sentenceOf(rule: Rule): string {
  const limit = limitOf(rule, usualRules);
  const value = { value: limit ?? 0, quantity: rule.quantity ?? "count" };
  return say({ key: `rule.${rule.id}`, values: limit === null ? {} : { limit: value } }, metricUnits);
}

export function rulesText(): string {
  const rows = rules.map((rule) => {
    const setBy = typeof rule.limit === "string" ? `\`${rule.limit}\` of the kiln` : "-";
    return `| \`${rule.id}\` | ${sentenceOf(rule)} | ${defaultOf(rule)} | ${setBy} | ${rule.level} | ${rule.source} |`;
  });
  const looks = lookYourselfRules.map((rule) => `- ${english.sentences[`look.${rule}`]}`);
  return `<!-- Written by \`npm run docs\` from src/engine/checks/rule-table.ts: do not edit. -->

# Loading rules

What \`spyhole check\` and the Setting screen hold a setting against. A number that a kiln or studio sets for itself is
named in the fourth column; the default is what most do. Where a rule has degrees, the level is its gravest: ware in the
wall is a stop, ware too near it a check.

- **stop**: do not load this. **check**: look at it before you load. **tip**: it would be better otherwise.
- Source: "common practice, no source" means that the trade does it so and nobody has published the number with evidence.
  The kiln's own manual comes first.
- Distances are exact to 0.1 micrometre, in space where that matters (sensor, ware over ware, ware beside a shelf). A
  rule is broken from 0.01 mm beyond its limit, a post's length from 0.5 mm.
- A remedy is offered only after it was tried: the finding is gone, and no new stop or check has come.

| Rule | What it asks | Default | Set by | Level | Source |
|---|---|---|---|---|---|
${rows.join("\n")}

## Look yourself

No drawing can show these. They stand beside the findings, every time:

${looks.join("\n")}
`;
}
