import { failure, success, type Outcome } from "#base";

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
