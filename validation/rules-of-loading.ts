import { loadingFacts } from "./loading-facts.ts";

/*
 * What loaders say against what the computation says, in cones: `npx tsx validation/rules-of-loading.ts [preview]`.
 */

const grade = process.argv[2] === "preview" ? "preview" : "full";
console.log(`grade: ${grade}\n`);
for (const fact of loadingFacts) {
  const { effect, unit, figures } = fact.run(grade);
  const verdict = Math.abs(effect) < (unit === "cone" ? 0.05 : 0.01) ? "barely" : effect > 0 ? "yes" : "no";
  console.log(`${fact.id.padEnd(18)} ${verdict.padEnd(7)} ${effect >= 0 ? "+" : ""}${effect.toFixed(2)} ${unit}`);
  console.log(`    ${fact.says}`);
  console.log(`    ${fact.compares}: ${figures}`);
}
