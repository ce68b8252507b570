import { checkLoad, type CheckResult } from "#engine/checks";
import type { SettingRecord, StudioDocument } from "#records";
import { loadOf, scheduleOf } from "./load-of-setting.ts";

/**
 * Every loading rule held against a setting and its schedule.
 *
 * @param exposure  share of each piece's view that falls on elements and wall [0..1], by piece id (`exposureOf`);
 *   null leaves the rule on it undecided, which the result says
 * @throws RangeError if the setting refers to records that are not in the document
 */
export function check(
  document: StudioDocument,
  setting: SettingRecord,
  exposure: ReadonlyMap<string, number> | null = null,
): CheckResult {
  return checkLoad(loadOf(document, setting), { schedule: scheduleOf(document, setting), exposure });
}
