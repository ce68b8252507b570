import { describe, expect, it } from "vitest";
import { register } from "./register.ts";
import { passes, reportPage } from "./report.ts";

describe("verification register", () => {
  it("names every case once, with a source", () => {
    const all = Object.values(register).flat();
    expect(new Set(all.map((each) => each.id)).size).toBe(all.length);
    for (const each of all) expect(each.source, each.id).toMatch(/\[[a-z0-9-]+\]|common practice, no source/);
  });

  for (const [group, cases] of Object.entries(register)) {
    describe(group, () => {
      it.each(cases.map((check) => [check.id, check] as const))(
        "%s",
        async (_, check) => {
          const verified = await check.run();
          expect(
            passes(verified),
            `${check.quantity}: ${verified.computed} against ${verified.reference} ± ${verified.tolerance} ${verified.unit}`,
          ).toBe(true);
        },
        240_000,
      );
    });
  }
});

describe("verification report", () => {
  const check = {
    id: "a",
    quantity: "q",
    source: "common practice, no source",
    run: () => ({ computed: 2, reference: 1, tolerance: 0.5, unit: "K" }),
  };

  it("marks a case that fails", () => {
    const page = reportPage([{ group: "g", check, verified: check.run(), passed: passes(check.run()) }]);
    expect(page).toContain("0 of 1 cases pass");
    expect(page).toContain("**fails**");
  });
  it("lets no missing number pass", () => {
    expect(passes({ computed: Number.NaN, reference: 1, tolerance: 1e9, unit: "K" })).toBe(false);
  });
});
