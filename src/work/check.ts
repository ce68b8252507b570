import { checkLoad, type CheckResult } from "#engine/checks";
import { exposureOf } from "#engine/radiation";
import type { SettingRecord, StudioDocument } from "#records";
import { loadOf, scheduleOf } from "./load-of-setting.ts";

/**
 * Every loading rule held against a setting and its schedule.
 *
 * @param exposure  share of each piece's view that falls on elements and wall [0..1], by piece id (`exposures`);
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

/**
 * Share of each placed piece's view that falls on elements and wall [0..1], by piece id. Traces rays: takes some
 * tenths of a second on a full kiln.
 *
 * @throws RangeError if the setting refers to records that are not in the document
 */
export function exposures(document: StudioDocument, setting: SettingRecord): ReadonlyMap<string, number> {
  return new Map(exposureOf(loadOf(document, setting)).map(({ pieceId, exposure }) => [pieceId, exposure]));
}
