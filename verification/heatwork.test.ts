import { describe, expect, it } from "vitest";
import { heatworkCases } from "./heatwork.ts";

describe("heatwork against published values", () => {
  it.each(heatworkCases.map((check) => [check.id, check] as const))("%s", async (_, check) => {
    const { computed, reference, tolerance } = await check.run();
    expect(Math.abs(computed - reference), `${check.quantity}: ${computed} against ${reference}`).toBeLessThanOrEqual(
      tolerance,
    );
  });
});
