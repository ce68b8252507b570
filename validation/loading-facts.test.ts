import { describe, expect, it } from "vitest";
import { loadingFacts } from "./loading-facts.ts";

// Preview grade: its error on differences between like loads is below 0.15 cone (see mesh-error.ts).
describe("what loaders say", () => {
  it.each(loadingFacts.map((fact) => [fact.id, fact] as const))(
    "%s",
    (_, fact) => {
      const { effect, figures } = fact.run("preview");
      const [least, most] = fact.expected;
      expect(effect, `${fact.compares}: ${figures}`).toBeGreaterThanOrEqual(least);
      expect(effect, `${fact.compares}: ${figures}`).toBeLessThanOrEqual(most);
    },
    120_000,
  );
});
