export { checkLoad, type CheckExtras, type CheckResult, type KeptRule } from "./check-load.ts";
export { coneOfSchedule, digitTwins } from "./class-rules.ts";
export type { Finding, Level, Message, MessageValue, PieceName, Place, Quantity, Remedy } from "./finding.ts";
export { massByHeight, type MassByHeight } from "./mass-by-height.ts";
export { adviceKeys, findingKeys, type CheckMessageKey } from "./message-keys.ts";
export { applyRemedy } from "./remedy.ts";
export {
  commonPractice,
  limitOf,
  lookYourselfRules,
  ruleIds,
  ruleNumbers,
  rules,
  type LookYourselfRule,
  type Rule,
  type RuleId,
} from "./rule-table.ts";
