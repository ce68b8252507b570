import { describe, expect, test } from "vitest";
import { z } from "zod";
import { readRecord, shortened, type RecordKind } from "./record-kind.ts";

const schema = z.strictObject({ version: z.literal(3), id: z.string(), height: z.number().positive() });

/** A made-up kind that has changed twice: centimetres became metres, then a field got another name. */
const pole: RecordKind<typeof schema> = {
  kind: "pole",
  version: 3,
  schema,
  migrations: [(old) => ({ ...old, tall: Number(old.tall) / 100 }), ({ tall, ...rest }) => ({ ...rest, height: tall })],
};

describe("records of older versions", () => {
  test.each([
    [{ version: 1, id: "a", tall: 250 }],
    [{ version: 2, id: "a", tall: 2.5 }],
    [{ version: 3, id: "a", height: 2.5 }],
  ])("%j comes up to the present version", (record) => {
    const before = structuredClone(record);
    expect(readRecord(pole, record, "poles[0]")).toEqual({ ok: true, value: { version: 3, id: "a", height: 2.5 } });
    expect(record).toEqual(before);
  });

  test("a wrong old record is refused at its place", () => {
    expect(readRecord(pole, { version: 1, id: "a", tall: "high" }, "poles[4]")).toMatchObject({
      ok: false,
      failure: [{ path: "poles[4].height" }],
    });
  });
});

test("long values are cut", () => {
  expect(shortened("x".repeat(100))).toHaveLength(60);
  expect(shortened(undefined)).toBe("nothing");
  expect(shortened(JSON.parse("[".repeat(20_000) + "]".repeat(20_000)))).toBe("something nested too deep");
});
