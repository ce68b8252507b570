import { failure, success, type Outcome } from "#base";
import type { z } from "zod";

/** What is wrong with a document, and where: nothing of it is taken over. */
export interface Problem {
  /** Place in the document, for example `pieces[3].shapeId`. */
  readonly path: string;
  /** What stands there, shortened. */
  readonly value: string;
  /** What was expected there, in words. */
  readonly expected: string;
}

/** Brings a record one version up. Gets the old record as parsed JSON. */
export type Migration = (old: Readonly<Record<string, unknown>>) => Record<string, unknown>;

/** One kind of record: its schema at the present version, and how older ones come up to it. */
export interface RecordKind<Schema extends z.ZodType> {
  readonly kind: string;
  /** The present version; `migrations.length + 1`. */
  readonly version: number;
  readonly schema: Schema;
  /** `migrations[n]` brings version n + 1 to version n + 2. */
  readonly migrations: readonly Migration[];
}

/**
 * The record brought to the present version and validated, or what is wrong with it.
 *
 * @param at  path of the record in its document, for the message
 */
export function readRecord<Schema extends z.ZodType>(
  kind: RecordKind<Schema>,
  input: unknown,
  at: string,
): Outcome<z.infer<Schema>, readonly Problem[]> {
  if (typeof input !== "object" || input === null || Array.isArray(input)) {
    return failure([{ path: at, value: shortened(input), expected: `a ${kind.kind} record` }]);
  }
  let record = input as Record<string, unknown>;
  const version = record.version;
  if (typeof version !== "number" || !Number.isInteger(version) || version < 1) {
    return failure([
      { path: `${at}.version`, value: shortened(version), expected: `a whole number from 1 to ${kind.version}` },
    ]);
  }
  if (version > kind.version) {
    const expected = `${kind.version} or lower: this file was written by a newer Spyhole, so update this one`;
    return failure([{ path: `${at}.version`, value: shortened(version), expected }]);
  }
  for (let from = version; from < kind.version; from += 1) {
    record = { ...kind.migrations[from - 1](record), version: from + 1 };
  }
  const parsed = kind.schema.safeParse(record, { reportInput: true });
  if (parsed.success) return success(parsed.data);
  return failure(parsed.error.issues.map((issue) => problemOf(issue, at, record)));
}

function problemOf(issue: z.core.$ZodIssue, at: string, record: unknown): Problem {
  let path = at;
  let value: unknown = record;
  for (const step of issue.path) {
    path += typeof step === "number" ? `[${step}]` : `.${String(step)}`;
    value = typeof value === "object" && value !== null ? (value as Record<PropertyKey, unknown>)[step] : undefined;
  }
  return { path, value: shortened(value), expected: issue.message };
}

/** A value as it stands in JSON, cut to 60 characters. */
export function shortened(value: unknown): string {
  const text = value === undefined ? "nothing" : jsonOf(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

function jsonOf(value: unknown): string {
  try {
    return JSON.stringify(value);
  } catch {
    // Nested deeper than the stack reaches.
    return "something nested too deep";
  }
}
