import { describe, expect, test } from "vitest";
import type { Advice, AdviserRun } from "#engine/advising";
import { coneEntry } from "#engine/heatwork";
import {
  adviceWords,
  coneQuestionWords,
  fallsBehindWords,
  inchUnits,
  metricUnits,
  moveWords,
  scheduleFaultWords,
} from "./index.ts";

const plain = (text: string): string => text.replaceAll("\u202f", " ");
const question = (text: string, classCone: string, units = metricUnits): string => {
  const read = coneEntry(text, { classCone });
  if (read.ok) throw new Error("expected a question");
  return plain(coneQuestionWords(read.failure, units));
};

describe("a cone typed in", () => {
  test("asks about 6 for 06 with both temperatures, in the reader's units", () => {
    expect(question("6", "06")).toBe(
      "You wrote cone six (6), high fire. It bends at 1222 °C. This ware is near cone oh-six (06), low fire, which bends at 998 °C. Which one do you mean?",
    );
    expect(question("06", "6", inchUnits)).toContain("It bends at 1828 °F");
  });

  test("asks about a far cone and says what a cone looks like", () => {
    expect(question("010", "06")).toContain("Is that what you mean?");
    expect(question("6.3", "06")).toBe("There is no cone “6.3”. Do you mean cone six (6), high fire?");
    expect(question("998", "06")).toBe("We know no cone “998”. Write 06 for low fire, or 6 for high fire.");
  });
});

describe("schedules in words", () => {
  test("name step, figures and kiln", () => {
    const hot = { kind: "too hot", level: "stop", segment: 2, target: 1600, limit: 1563.15 } as const;
    expect(plain(scheduleFaultWords(hot, "Alder", metricUnits))).toBe(
      "Step 3 asks for 1327 °C. Alder may go to 1290 °C and no higher.",
    );
    const fast = {
      kind: "too fast",
      level: "check",
      segment: 0,
      target: 1273.15,
      rate: 0.1,
      attainable: 0.06,
    } as const;
    expect(plain(scheduleFaultWords(fast, "Alder", metricUnits))).toBe(
      "Step 1 asks for 360 °C an hour. Near 1000 °C Alder manages about 216 °C an hour.",
    );
    const falls = { at: 9600, segment: 1, rate: 150 / 3600, temperature: 1173.15 };
    expect(plain(fallsBehindWords(falls, "Alder", 20_000 * 86_400 + 7 * 3600, metricUnits))).toBe(
      "Alder cannot hold 150 °C an hour above 900 °C with this load. It falls behind at 09:40.",
    );
  });

  const best: AdviserRun = {
    end: { target: 1284.15, hold: 1260, rate: 60 / 3600 },
    outcome: { pieces: [], heating: 30_000, energy: 1.6e8 },
    standing: { lacks: 10, over: 12, excess: 22, coldestPiece: "a", hottestPiece: "b", needs: [] },
  };
  const name = (id: string): string => (id === "a" ? "the side plate" : "the vase");
  const kiln = { name: "Alder", limit: 1563.15 };

  test("give the adviser's answer, its proof, and the moves that were computed", () => {
    const found: Advice = { kind: "found", schedule: { id: "x", name: "x", segments: [] }, best, runs: [] };
    expect(plain(adviceWords(found, kiln, name, metricUnits))).toBe(
      "End at 1011 °C and hold for 21 min. Then all 0 pieces are in their range.",
    );
    const impossible: Advice = {
      ...found,
      kind: "impossible",
      excess: 22,
      excessAtOtherTarget: 21,
      spread: 2.1,
      allowed: 1,
      leaveOut: ["a"],
      moves: [],
      bound: "spread",
    };
    expect(adviceWords(impossible, kiln, name, metricUnits)).toBe(
      "No end suits all pieces. The least the coldest and the hottest can be apart is 2 cones. Their range is 1 cone. The side plate gets least and the vase gets most.",
    );
    const names = { a: 4, b: 2, cold: "the side plate", hot: "the vase" };
    const move = { id: "take-out-layer", pieceIds: ["p"], takesOut: ["p"] };
    expect(moveWords({ move, excess: 6, gain: 16 }, 22, names, metricUnits)).toMatch(
      /^Take out shelf 4 and its piece\. That mends 73.?% of it\.$/,
    );
    expect(moveWords({ move, excess: -1, gain: 23 }, 22, names, metricUnits)).toContain("Then a schedule suits all");
    expect(moveWords({ move, excess: 25, gain: -3 }, 22, names, metricUnits)).toContain("That does not help.");
  });
});
