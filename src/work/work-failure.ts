import { failure, success, type Outcome } from "#base";
import { brokenReferences, type SettingRecord, type StudioDocument } from "#records";

/** Why work could not be done, in plain words, and what to do about it. */
export interface WorkFailure {
  readonly error: string;
  readonly remedy: string;
}

/** A record by its id, or words for the user that it is not there. */
export function lookUp<Each extends { readonly id: string }>(
  records: readonly Each[],
  id: string,
  what: string,
): Outcome<Each, WorkFailure> {
  const record = records.find((each) => each.id === id);
  if (record) return success(record);
  const known = records.map((each) => each.id).join(", ") || "none";
  return failure({ error: `There is no ${what} "${id}" in this studio.`, remedy: `Choose one of: ${known}.` });
}

/** What is wrong with a setting that comes from outside the studio, or null: every record it names must be there. */
export function faultOf(document: StudioDocument, setting: SettingRecord): WorkFailure | null {
  const [first] = brokenReferences({ ...document, settings: [setting] });
  if (!first) return null;
  const place = first.path.replace(/^settings\[0\]\./, "");
  return {
    error: `This setting does not fit the studio: ${place} is ${first.value}.`,
    remedy: `Expected there: ${first.expected}. Load the page anew if someone has changed the studio meanwhile.`,
  };
}
